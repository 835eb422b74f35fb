// Serves treatment/planner.h. Which walls, piers and things a work line covers.
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

const SurveyedStructure* Planner::structure_of(const Work& work) {
  const auto& all = basis.survey.structures;
  if (work.in) {
    const SurveyedStructure* found = basis.survey.find(*work.in);
    if (!found)
      faults.add(Rule::no_structure, work.in.at, "`" + *work.in + "` is not a structure that was looked at",
                 "the crew would not know which building is meant", "name a structure listed under `structures:`");
    return found;
  }
  if (work.in.written()) return nullptr;
  if (all.size() == 1) return &all.front();
  for (const int no : items(work.answers))
    for (const Finding& f : items(basis.c.findings))
      if (f.no && *f.no == no && f.in) return basis.survey.find(*f.in);
  if (!all.empty())
    faults.add(Rule::no_structure, work.id ? work.id.at : work.at,
               "this work line does not say in which structure it is done",
               "the crew would not know which building is meant", "write `in:` with the name of a structure");
  return nullptr;
}

namespace {

void unknown_place(Faults& faults, Span at, const std::string& what) {
  faults.add(Rule::unknown_reference, at, what, "gallons and price would be worked out for something that is not there",
             "name one that is on the plan");
}

Stretch whole(const Wall& wall) { return {wall.number, Length{}, wall.length}; }

}  // namespace

std::vector<std::string> Planner::named_places(const Work& work, Place::Kind kind) const {
  std::vector<std::string> names;
  for (const Place& p : items(work.places))
    if (p.kind == kind) names.push_back(p.name);
  return names;
}

Near Planner::near_of(const Work& work, const SurveyedStructure& s) {
  Near all;
  const Length reach = reach_of(basis, work, product);
  for (const int no : items(work.near)) {
    const auto& findings = items(basis.c.findings);
    const auto f =
        std::find_if(findings.begin(), findings.end(), [&](const Finding& x) { return x.no && *x.no == no; });
    if (f == findings.end()) {
      unknown_place(faults, work.near.at, "there is no finding no. " + std::to_string(no));
      continue;
    }
    if (!f->place || (f->in && *f->in != s.name) || !missing(s, *f->place).empty()) continue;  // other rules speak
    const Near near = within(s, *f->place, reach);
    all.stretches.insert(all.stretches.end(), near.stretches.begin(), near.stretches.end());
    all.piers.insert(all.piers.end(), near.piers.begin(), near.piers.end());
    all.chimneys.insert(all.chimneys.end(), near.chimneys.begin(), near.chimneys.end());
    all.partitions.insert(all.partitions.end(), near.partitions.begin(), near.partitions.end());
    all.slabs.insert(all.slabs.end(), near.slabs.begin(), near.slabs.end());
  }
  return all;
}

std::vector<Stretch> Planner::walls_of(const Work& work, const SurveyedStructure& s) {
  const std::vector<Stretch> near = near_of(work, s).stretches;
  std::vector<Stretch> out = work.local ? std::vector<Stretch>{} : near;
  const auto take = [&](int number, std::optional<Length> from, std::optional<Length> to, Span at) {
    const Wall* wall = s.wall(number);
    if (!wall) return unknown_place(faults, at, "there is no wall " + std::to_string(number) + " in `" + s.name + "`");
    if (to && *to > wall->length)
      return unknown_place(faults, at, "wall " + std::to_string(number) + " is only " + print(wall->length) + " long");
    out.push_back({number, from.value_or(Length{}), to.value_or(wall->length)});
  };
  if (work.walls && work.walls->all)
    for (const Wall& wall : s.walls) out.push_back(whole(wall));
  if (work.walls)
    for (const WallStretch& w : work.walls->some) take(w.wall, w.from, w.to, w.at);
  for (const Place& p : items(work.places)) {
    if (p.kind == Place::Kind::wall) take(p.number, p.from, p.to, p.at);
    if (p.kind == Place::Kind::all_walls)
      for (const Wall& wall : s.walls) out.push_back(whole(wall));
  }
  out = joined(std::move(out));
  return work.local ? common(out, near) : out;
}

std::vector<int> Planner::piers_of(const Work& work, const SurveyedStructure& s) {
  const std::vector<int> near = near_of(work, s).piers;
  std::vector<int> out = work.local ? std::vector<int>{} : near;
  const auto take = [&](int number, Span at) {
    if (s.pier(number)) return out.push_back(number);
    unknown_place(faults, at, "there is no pier " + std::to_string(number) + " in `" + s.name + "`");
  };
  const auto all = [&] {
    for (const Pier& p : s.piers) out.push_back(p.number);
  };
  if (work.piers && work.piers->all) all();
  if (work.piers)
    for (const int n : work.piers->some) take(n, work.piers->at);
  for (const Place& p : items(work.places)) {
    if (p.kind == Place::Kind::pier) take(p.number, p.at);
    if (p.kind == Place::Kind::all_piers) all();
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  if (work.local) std::erase_if(out, [&](int n) { return std::find(near.begin(), near.end(), n) == near.end(); });
  return out;
}

std::vector<std::size_t> Planner::chimneys_of(const Work& work, const SurveyedStructure& s) {
  const std::vector<std::size_t> near = near_of(work, s).chimneys;
  std::vector<std::size_t> out = work.local ? std::vector<std::size_t>{} : near;
  const auto& chimneys = items(s.facts->chimneys);
  if (work.piers && work.piers->all)
    for (std::size_t i = 0; i < chimneys.size(); ++i) out.push_back(i);
  for (const Place& p : items(work.places)) {
    if (p.kind != Place::Kind::chimney) continue;
    const auto found =
        std::find_if(chimneys.begin(), chimneys.end(), [&](const Chimney& c) { return c.name && *c.name == p.name; });
    if (found == chimneys.end())
      unknown_place(faults, p.at, "there is no chimney `" + p.name + "` in `" + s.name + "`");
    else
      out.push_back(static_cast<std::size_t>(found - chimneys.begin()));
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  if (work.local)
    std::erase_if(out, [&](std::size_t n) { return std::find(near.begin(), near.end(), n) == near.end(); });
  return out;
}

bool Planner::near_place(const Work& work, const SurveyedStructure& s,
                         const std::vector<std::vector<Point>>& shapes) const {
  if (!work.local) return true;
  const Length reach = reach_of(basis, work, product);
  for (const int no : items(work.near))
    for (const Finding& f : items(basis.c.findings)) {
      if (!f.no || *f.no != no || !f.place || (f.in && *f.in != s.name)) continue;
      const auto gap = distance(shapes_of(s, *f.place), shapes);
      if (gap && *gap <= reach) return true;
    }
  return false;
}

bool Planner::near_mark(const Work& work, const SurveyedStructure& s, const Mark& mark) const {
  if (!work.local || !mark.at_point) return true;
  std::vector<Point> shape{*mark.at_point};
  if (mark.to) shape.push_back(*mark.to);
  return near_place(work, s, {shape});
}

std::vector<const Mark*> Planner::marks_of(const Work& work, const SurveyedStructure& s, MarkKind kind) const {
  const auto names = named_places(work, Place::Kind::mark);
  std::vector<const Mark*> out;
  for (const Mark& mark : items(s.facts->marks))
    if (mark.kind && *mark.kind == kind && (names.empty() || holds(names, mark.name)) && near_mark(work, s, mark))
      out.push_back(&mark);
  return out;
}

std::vector<std::size_t> Planner::parts_of(const Work& work, const SurveyedStructure& s) {
  std::vector<std::size_t> out;
  if (!work.parts)
    for (std::size_t i = 0; i < s.parts.size(); ++i) out.push_back(i);
  for (const std::string& name : items(work.parts)) {
    const auto found = std::find_if(s.parts.begin(), s.parts.end(), [&](const auto& p) { return p.name == name; });
    if (found == s.parts.end())
      unknown_place(faults, work.parts.at, "there is no part `" + name + "` in `" + s.name + "`");
    else
      out.push_back(static_cast<std::size_t>(found - s.parts.begin()));
  }
  return out;
}

Length Planner::spacing_of(const Work& work, Field<Datum<Length>> Limits::*by_form, std::optional<Length> by_label) {
  const Length most = by_label ? *by_label : limit(by_form);
  if (!work.spacing) return most;
  if (*work.spacing <= Length{})
    faults.add(Rule::too_wide, work.spacing.at, "a spacing of " + print(*work.spacing) + " makes holes without end",
               "nobody could drill them, nor count what they cost", "write the distance from one to the next");
  else if (most > Length{} && *work.spacing > most)
    faults.add(
        Rule::too_wide, work.spacing.at,
        print(*work.spacing) + " is wider than the " + print(most) + " that form and label ask",
        "what lies between would stay untreated", "plan at most " + print(most) + ", or take `spacing:` out",
        by_label ? Rests::read : rests_on(basis.form, by_form, [&](Length read) { return *work.spacing > read; }));
  else
    return *work.spacing;
  return most;
}

void Planner::no_measure(const Work& work, const std::string& what, const std::string& fix) {
  faults.add(Rule::no_measure, work.does.at, what, "gallons, hours and price would be guessed", fix);
}

bool holds(const std::vector<std::string>& names, const Field<std::string>& name) {
  return name && std::find(names.begin(), names.end(), *name) != names.end();
}

std::vector<Stretch> without(const std::vector<Stretch>& from, const std::vector<Stretch>& away) {
  std::vector<Stretch> left = from;
  for (const Stretch& cut : away) {
    std::vector<Stretch> next;
    for (const Stretch& s : left) {
      if (s.wall != cut.wall || cut.b <= s.a || cut.a >= s.b) {
        next.push_back(s);
        continue;
      }
      if (s.a < cut.a) next.push_back({s.wall, s.a, cut.a});
      if (cut.b < s.b) next.push_back({s.wall, cut.b, s.b});
    }
    left = std::move(next);
  }
  return left;
}

std::vector<Stretch> common(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  return without(a, without(a, b));
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
