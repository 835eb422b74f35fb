// Which walls, piers and things a work line covers.
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
  const Length reach = limit(&Limits::void_reach);
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
  }
  return all;
}

std::vector<Stretch> Planner::walls_of(const Work& work, const SurveyedStructure& s) {
  std::vector<Stretch> out = near_of(work, s).stretches;
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
  return joined(std::move(out));
}

std::vector<int> Planner::piers_of(const Work& work, const SurveyedStructure& s) {
  std::vector<int> out = near_of(work, s).piers;
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
  return out;
}

std::vector<std::size_t> Planner::chimneys_of(const Work& work, const SurveyedStructure& s) {
  std::vector<std::size_t> out = near_of(work, s).chimneys;
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
  return out;
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
  return stretch.length() == wall.length ? wall.inside_length : std::min(stretch.length(), wall.inside_length);
}

std::vector<Chain> chains(const SurveyedStructure& s, const std::vector<Stretch>& stretches, Along along) {
  const auto sorted = joined(stretches);
  std::vector<bool> used(sorted.size(), false);
  // The stretch that goes on round the corner where `from` ends: it begins at the start of the next wall of the part.
  const auto next_of = [&](const Stretch& from) -> std::optional<std::size_t> {
    const Wall* wall = s.wall(from.wall);
    if (!wall || from.b != wall->length) return std::nullopt;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
      const Wall* other = s.wall(sorted[i].wall);
      if (other && other->part == wall->part && other->from == wall->to && sorted[i].a == Length{}) return i;
    }
    return std::nullopt;
  };
  const auto has_before = [&](std::size_t index) {
    for (std::size_t i = 0; i < sorted.size(); ++i)
      if (i != index && next_of(sorted[i]) == index) return true;
    return false;
  };
  std::vector<Chain> out;
  const auto follow = [&](std::size_t start) {
    Chain chain;
    for (std::optional<std::size_t> at = start; at; at = next_of(sorted[*at])) {
      if (used[*at]) {
        chain.closed = *at == start;
        break;
      }
      used[*at] = true;
      const Stretch& stretch = sorted[*at];
      chain.length += along == Along::inside ? inside_of(*s.wall(stretch.wall), stretch) : stretch.length();
    }
    out.push_back(chain);
  };
  for (std::size_t i = 0; i < sorted.size(); ++i)  // open runs from their beginning
    if (!used[i] && !has_before(i)) follow(i);
  for (std::size_t i = 0; i < sorted.size(); ++i)  // what is left goes round in a ring
    if (!used[i]) follow(i);
  return out;
}

}  // namespace soundsill::planning
