// Serves treatment/planner.h. What the files that plan have in common: limits, marks, spacing, chains of stretches.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill::planning {

Length Planner::limit(Field<Datum<Length>> Limits::*which) const {
  if (!basis.form.limits) return {};
  const auto& datum = (*basis.form.limits).*which;
  return datum && datum->value ? *datum->value : Length{};
}

Ratio Planner::rate(Field<Datum<Ratio>> Limits::*which) const {
  if (!basis.form.limits) return {};
  const auto& datum = (*basis.form.limits).*which;
  return datum && datum->value ? *datum->value : Ratio{};
}

std::vector<const SurveyedMark*> Planner::marks_of(const resolved::Line& line, const SurveyedStructure& s,
                                                   MarkKind kind) {
  std::vector<const SurveyedMark*> out;
  for (const std::size_t i : line.cover.marks)
    if (s.marks[i].kind && *s.marks[i].kind == kind) out.push_back(&s.marks[i]);
  return out;
}

Length Planner::spacing_of(const resolved::Line& line, Field<Datum<Length>> Limits::*by_form,
                           std::optional<Length> by_label) {
  const Length most = by_label ? *by_label : limit(by_form);
  if (!line.spacing) return most;
  if (*line.spacing <= Length{})
    faults.add(Rule::too_wide, line.spacing_at, "a spacing of " + print(*line.spacing) + " makes holes without end",
               "nobody could drill them, nor count what they cost", "write the distance from one to the next");
  else if (most > Length{} && *line.spacing > most)
    faults.add(
        Rule::too_wide, line.spacing_at,
        print(*line.spacing) + " is wider than the " + print(most) + " that form and label ask",
        "what lies between would stay untreated", "plan at most " + print(most) + ", or take `spacing:` out",
        by_label ? Rests::read : rests_on(basis.form, by_form, [&](Length read) { return *line.spacing > read; }));
  else
    return *line.spacing;
  return most;
}

void Planner::no_measure(const resolved::Line& line, const std::string& what, const std::string& fix) {
  faults.add(Rule::no_measure, line.does_at, what, "gallons, hours and price would be guessed", fix);
}

std::vector<Stretch> without(const std::vector<Stretch>& from, const std::vector<Stretch>& away) {
  return stretches_less(from, away);
}

std::vector<Stretch> common(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  return stretches_shared(a, b);
}

std::vector<Stretch> all_of(const SurveyedStructure& s, std::vector<Stretch> Wall::*which) {
  std::vector<Stretch> out;
  for (const Wall& wall : s.walls) out.insert(out.end(), (wall.*which).begin(), (wall.*which).end());
  return out;
}

Length inside_of(const Wall& wall, const Stretch& stretch) {
  if (stretch.length() == wall.length) return wall.inside_length;
  Length sum;
  for (const Stretch& face : wall.inner) {
    // A stretch that ends with its wall takes what the face has beyond it, round an inner corner.
    const Length first = stretch.a == Length{} ? face.a : std::max(face.a, stretch.a);
    const Length last = stretch.b == wall.length ? face.b : std::min(face.b, stretch.b);
    if (last > first) sum += last - first;
  }
  return std::min(sum, wall.inside_length);
}

namespace {

/// Puts stretches together end to end, whichever way their walls were walked.
class Chaining {
 public:
  Chaining(const SurveyedStructure& s, std::vector<Stretch> stretches, Along along)
      : s_(s), all_(std::move(stretches)), along_(along), used_(all_.size(), false) {}

  std::vector<Chain> made() {
    std::vector<Chain> out;
    for (std::size_t i = 0; i < all_.size(); ++i)  // open runs from their beginnings
      if (!used_[i] && (!neighbor(i, start(i)) || !neighbor(i, end(i)))) out.push_back(follow(i));
    for (std::size_t i = 0; i < all_.size(); ++i)  // what is left goes round in a ring
      if (!used_[i]) out.push_back(follow(i));
    return out;
  }

 private:
  [[nodiscard]] const Wall& wall(std::size_t i) const { return *s_.wall(all_[i].wall); }
  [[nodiscard]] Point start(std::size_t i) const { return soundsill::along(wall(i), all_[i].a); }
  [[nodiscard]] Point end(std::size_t i) const { return soundsill::along(wall(i), all_[i].b); }

  /// Another stretch that has this end in common; inside faces only go on within their part.
  [[nodiscard]] std::optional<std::size_t> neighbor(std::size_t i, const Point& at) const {
    for (std::size_t j = 0; j < all_.size(); ++j) {
      const bool part = along_ == Along::outside || wall(i).part == wall(j).part;
      if (j != i && part && (start(j) == at || end(j) == at)) return j;
    }
    return std::nullopt;
  }
  [[nodiscard]] std::optional<std::size_t> unused(std::size_t i, const Point& at) const {
    for (std::size_t j = 0; j < all_.size(); ++j) {
      const bool part = along_ == Along::outside || wall(i).part == wall(j).part;
      if (j != i && !used_[j] && part && (start(j) == at || end(j) == at)) return j;
    }
    return std::nullopt;
  }

  Chain follow(std::size_t first) {
    Chain chain;
    // From an open end forward; where the end of a stretch is open, against the way its wall was walked.
    Point at = neighbor(first, start(first)) && !neighbor(first, end(first)) ? end(first) : start(first);
    const Point begin = chain.begin = at;
    for (std::optional<std::size_t> i = first; i; i = unused(*i, at)) {
      used_[*i] = true;
      chain.stretches.push_back(all_[*i]);
      chain.length += along_ == Along::inside ? inside_of(wall(*i), all_[*i]) : all_[*i].length();
      at = start(*i) == at ? end(*i) : start(*i);
    }
    chain.closed = at == begin && chain.stretches.size() > 2;
    return chain;
  }

  const SurveyedStructure& s_;
  std::vector<Stretch> all_;
  Along along_;
  std::vector<bool> used_;
};

}  // namespace

std::vector<Chain> chains(const SurveyedStructure& s, const std::vector<Stretch>& stretches, Along along) {
  return Chaining(s, joined(stretches), along).made();
}

Length total(const std::vector<Chain>& all) {
  Length sum;
  for (const Chain& c : all) sum += c.length;
  return sum;
}

int holes(const std::vector<Chain>& all, Length spacing) {
  int sum = 0;
  for (const Chain& c : all) sum += holes_of(c.length, spacing, c.closed);
  return sum;
}

}  // namespace soundsill::planning
