#include "rules/cover.h"

#include <algorithm>

namespace soundsill::rules {
namespace {

using Kind = Place::Kind;

void tidy(Cover& cover) {
  cover.walls = joined(std::move(cover.walls));
  std::sort(cover.piers.begin(), cover.piers.end());
  cover.piers.erase(std::unique(cover.piers.begin(), cover.piers.end()), cover.piers.end());
}

void take_wall(Cover& cover, const SurveyedStructure& s, int number, std::optional<Length> from,
               std::optional<Length> to) {
  const Wall* wall = s.wall(number);
  if (!wall) {
    cover.known = false;
    return;
  }
  cover.walls.push_back({number, from.value_or(Length{}), to.value_or(wall->length)});
}

void take_all_walls(Cover& cover, const SurveyedStructure& s) {
  cover.all_walls = true;
  for (const Wall& wall : s.walls) cover.walls.push_back(whole(wall));
  for (std::size_t i = 0; i < s.partitions.size(); ++i) cover.partitions.push_back(i);
}

void take_all_piers(Cover& cover, const SurveyedStructure& s) {
  for (const Pier& pier : s.piers) cover.piers.push_back(pier.number);
}

void take_near(Cover& cover, const Near& near) {
  cover.walls.insert(cover.walls.end(), near.stretches.begin(), near.stretches.end());
  cover.piers.insert(cover.piers.end(), near.piers.begin(), near.piers.end());
  cover.chimneys.insert(cover.chimneys.end(), near.chimneys.begin(), near.chimneys.end());
  for (const PartitionStretch& one : near.partitions) cover.partitions.push_back(one.partition);
}

std::vector<Stretch> slab_stretches(const SurveyedStructure& s, const std::string& name) {
  for (const SurveyedSlab& slab : s.slabs)
    if (slab.facts->name && *slab.facts->name == name) return slab.adjoins;
  return {};
}

void take_chimney(Cover& cover, const SurveyedStructure& s, const std::string& name) {
  const auto& all = items(s.facts->chimneys);
  const auto found = std::find_if(all.begin(), all.end(), [&](const Chimney& c) { return c.name && *c.name == name; });
  if (found == all.end())
    cover.known = false;
  else
    cover.chimneys.push_back(static_cast<std::size_t>(found - all.begin()));
}

void take_place(Cover& cover, const SurveyedStructure& s, const Place& place) {
  switch (place.kind) {
    case Kind::wall:
      return take_wall(cover, s, place.number, place.from, place.to);
    case Kind::all_walls:
      return take_all_walls(cover, s);
    case Kind::pier:
      return cover.piers.push_back(place.number);
    case Kind::all_piers:
      return take_all_piers(cover, s);
    case Kind::near:
      return cover.near.push_back(place.number);
    case Kind::chimney:
      return take_chimney(cover, s, place.name);
    case Kind::slab:
      for (const Stretch& one : slab_stretches(s, place.name)) cover.walls.push_back(one);
      break;
    case Kind::point:
    case Kind::wood:
    case Kind::partition:
      for (std::size_t i = 0; i < s.partitions.size(); ++i)
        if (s.partitions[i].facts->name && *s.partitions[i].facts->name == place.name) cover.partitions.push_back(i);
      break;
    case Kind::area:
    case Kind::pilaster:
    case Kind::mark:
      break;
  }
  cover.named.push_back(place);
}

/// How far a line reaches from its findings in the first option that takes it; not planned, as far as the form says.
Length reach_of(const Papers& papers, const Work& work) {
  for (const Treatment& t : papers.treatments)
    for (const Task& task : t.tasks)
      if (task.work == &work && task.line->structure && task.line->structure->drawn()) return task.line->reach;
  return void_reach(papers);
}

std::optional<Place> looked_up(const Papers& papers, const SurveyedStructure& s, const Place& place, int steps) {
  if (place.kind != Kind::near) return missing(s, place).empty() ? std::optional(place) : std::nullopt;
  const Finding* other = steps > 0 ? finding_of(papers, place.number) : nullptr;
  return other && other->place ? looked_up(papers, s, *other->place, steps - 1) : std::nullopt;
}

}  // namespace

bool Cover::empty() const {
  return walls.empty() && piers.empty() && chimneys.empty() && named.empty() && near.empty();
}

void Cover::add(const Cover& other) {
  all_walls = all_walls || other.all_walls;
  known = known && other.known;
  Near taken;
  taken.stretches = other.walls;
  taken.piers = other.piers;
  taken.chimneys = other.chimneys;
  take_near(*this, taken);
  partitions.insert(partitions.end(), other.partitions.begin(), other.partitions.end());
  named.insert(named.end(), other.named.begin(), other.named.end());
  near.insert(near.end(), other.near.begin(), other.near.end());
  tidy(*this);
}

Cover cover_of(const Papers& papers, const Work& work, const SurveyedStructure& s) {
  Cover cover;
  cover.known =
      s.complete && !work.walls.unread() && !work.piers.unread() && !work.near.unread() && !work.places.unread();
  if (work.walls && work.walls->all) take_all_walls(cover, s);
  if (work.walls)
    for (const WallStretch& w : work.walls->some) take_wall(cover, s, w.wall, w.from, w.to);
  if (work.piers && work.piers->all) {
    take_all_piers(cover, s);
    for (std::size_t i = 0; i < items(s.facts->chimneys).size(); ++i) cover.chimneys.push_back(i);
  }
  if (work.piers) cover.piers.insert(cover.piers.end(), work.piers->some.begin(), work.piers->some.end());
  for (const Place& place : items(work.places)) take_place(cover, s, place);
  cover.near.insert(cover.near.end(), items(work.near).begin(), items(work.near).end());
  const Length reach = reach_of(papers, work);
  Cover near;
  for (const int no : cover.near)
    if (const Finding* f = finding_of(papers, no))
      if (const auto place = place_of(papers, s, *f)) take_near(near, within(s, *place, reach));
  if (work.local) {  // of what it names, only what lies near
    cover.walls = shared_by(joined(std::move(cover.walls)), joined(near.walls));
    std::erase_if(cover.piers, [&](int n) { return !holds(near.piers, n); });
    const auto cut = [](auto& mine, const auto& theirs) {
      std::erase_if(mine, [&](std::size_t n) { return std::find(theirs.begin(), theirs.end(), n) == theirs.end(); });
    };
    cut(cover.chimneys, near.chimneys);
    cut(cover.partitions, near.partitions);
    cover.all_walls = false;
  } else {
    cover.add(near);
  }
  tidy(cover);
  return cover;
}

std::optional<Place> place_of(const Papers& papers, const SurveyedStructure& s, const Finding& finding) {
  constexpr int most_steps = 20;  // `near 2` may lead to a finding that is `near 1`, and round in a circle
  return finding.place ? looked_up(papers, s, *finding.place, most_steps) : std::nullopt;
}

Length void_reach(const Papers& papers) {
  const Datum<Length>* reach = limit(papers, &Limits::void_reach);
  return reach ? *reach->value : Length{};
}

bool reaches(const Papers& papers, const Cover& cover, const SurveyedStructure& s, const Finding& finding) {
  if (finding.no && holds(cover.near, *finding.no)) return true;
  const auto place = place_of(papers, s, finding);
  if (!place || !cover.known) return true;  // other rules speak
  if (place->kind == Kind::pier && holds(cover.piers, place->number)) return true;
  if (!locate(s, *place)) {  // a thing without a point on the plan is reached by its name, or with the whole house
    return cover.all_walls || std::any_of(cover.named.begin(), cover.named.end(), [&](const Place& p) {
             return p.kind == place->kind && p.name == place->name;
           });
  }
  const bool on_walls = place->kind == Kind::point || place->kind == Kind::wall || place->kind == Kind::area;
  if (cover.all_walls && on_walls) return true;
  const Near near = within(s, *place, void_reach(papers));
  if (!shared_by(near.stretches, cover.walls).empty()) return true;
  for (const int n : near.piers)
    if (holds(cover.piers, n)) return true;
  for (const PartitionStretch& one : near.partitions)
    if (std::find(cover.partitions.begin(), cover.partitions.end(), one.partition) != cover.partitions.end())
      return true;
  for (const std::size_t i : near.chimneys)
    if (std::find(cover.chimneys.begin(), cover.chimneys.end(), i) != cover.chimneys.end()) return true;
  return std::any_of(cover.named.begin(), cover.named.end(), [&](const Place& p) {
    return p.kind == place->kind && (p.kind == Kind::point ? p.point == place->point : p.name == place->name);
  });
}

std::vector<Stretch> left_of(const std::vector<Stretch>& from, const std::vector<Stretch>& away) {
  std::vector<Stretch> left = from;
  for (const Stretch& cut : away) {
    std::vector<Stretch> next;
    for (const Stretch& s : left) {
      const bool apart = s.wall != cut.wall || cut.b <= s.a || cut.a >= s.b;
      if (apart) next.push_back(s);
      if (!apart && s.a < cut.a) next.push_back({s.wall, s.a, cut.a});
      if (!apart && cut.b < s.b) next.push_back({s.wall, cut.b, s.b});
    }
    left = std::move(next);
  }
  return left;
}

std::vector<Stretch> shared_by(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  return left_of(a, left_of(a, b));
}

bool holds(const std::vector<int>& numbers, int n) {
  return std::find(numbers.begin(), numbers.end(), n) != numbers.end();
}

Stretch whole(const Wall& wall) { return {wall.number, Length{}, wall.length}; }

std::vector<Stretch> beside_slabs(const SurveyedStructure& s) {
  std::vector<Stretch> out;
  for (const Wall& wall : s.walls) out.insert(out.end(), wall.paved.begin(), wall.paved.end());
  return joined(std::move(out));
}

std::string walls_said(const SurveyedStructure& s, const std::vector<Stretch>& stretches) {
  std::vector<int> wholes;
  std::vector<std::string> words;
  for (const Stretch& one : stretches) {
    const Wall* wall = s.wall(one.wall);
    if (wall && one == whole(*wall))
      wholes.push_back(one.wall);
    else
      words.push_back("wall " + std::to_string(one.wall) + " from " + print(one.a) + " to " + print(one.b));
  }
  if (!wholes.empty()) words.insert(words.begin(), numbered("wall", wholes));
  return listed(words);
}

}  // namespace soundsill::rules
