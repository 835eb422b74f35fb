// Work through holes: hollow walls and piers, and soil under slabs.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

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

std::string hole_working(const Run& run) {
  return print(run.length) + " x " + shortest(run.rate, 2) + " gal / 10 ft, shared by " + std::to_string(run.holes) +
         " holes at most " + print(run.spacing) + " apart";
}

}  // namespace

void Planner::voids(Task& task, const SurveyedStructure& s) {
  const Work& work = *task.work;
  std::vector<Stretch> hollow;
  // A wall between two parts has one void, however many faces it has.
  for (const Stretch& stretch : common(walls_of(work, s), all_of(s, &Wall::own)))
    if (s.wall(stretch.wall)->hollow()) hollow.push_back(stretch);
  std::vector<int> hollow_piers;
  Length round_piers;
  int pier_holes = 0;
  const Length spacing = limit(&Limits::void_hole_spacing);
  for (const int number : piers_of(work, s)) {
    const Pier& pier = *s.pier(number);
    const PierGroup& facts = items(s.facts->piers)[pier.group];
    if (!facts.kind || *facts.kind != PierKind::hollow_block) continue;
    hollow_piers.push_back(number);
    round_piers += pier.perimeter();
    pier_holes += holes_of(pier.perimeter(), spacing, true);
  }
  const auto run_of = [&](RunKind kind, Length length, int count) {
    Run run;
    run.kind = kind;
    run.length = length;
    run.holes = count;
    run.spacing = spacing;
    run.rate = rate(&Limits::void_rate);
    run.exact_gallons = linear_gallons(length, run.rate);
    run.working = hole_working(run);
    run.sources = {source("rate", &Limits::void_rate), source("distance from evidence", &Limits::void_reach),
                   source("hole spacing", &Limits::void_hole_spacing)};
    return run;
  };
  if (!hollow.empty()) {
    const auto runs = chains(s, hollow, Along::outside);
    Run run = run_of(RunKind::void_walls, total(runs), holes(runs, spacing));
    run.stretches = joined(hollow);
    add(task, s, std::move(run));
  }
  if (!hollow_piers.empty()) {
    Run run = run_of(RunKind::void_piers, round_piers, pier_holes);
    run.count = static_cast<int>(hollow_piers.size());
    run.piers = hollow_piers;
    add(task, s, std::move(run));
  }
}

void Planner::slab(Task& task, const SurveyedStructure& s) {
  const Work& work = *task.work;
  // A slab the house stands on is drilled from within; one that adjoins the house, along the outside of the wall.
  std::vector<Stretch> within, beside;
  std::vector<Chain> each;  // slabs are poured apart: two that meet at a corner share no hole
  std::vector<std::string> names = named_places(work, Place::Kind::slab);
  for (const Stretch& stretch : walls_of(work, s)) {
    const Foundation f = s.parts[s.wall(stretch.wall)->part].foundation;
    if (f != Foundation::crawl_space && f != Foundation::piers) within.push_back(stretch);
  }
  for (const Slab& slab : items(s.facts->slabs)) {
    const bool named = slab.name && std::find(names.begin(), names.end(), *slab.name) != names.end();
    if (!named || !slab.along || slab.along->kind != Place::Kind::wall) continue;
    const Wall* wall = s.wall(slab.along->number);
    if (!wall) continue;
    const Stretch stretch{wall->number, slab.along->from.value_or(Length{}), slab.along->to.value_or(wall->length)};
    beside.push_back(stretch);
    each.push_back({stretch.length(), false});
  }
  const auto run_along = [&](const std::vector<Stretch>& stretches, const std::vector<Chain>& runs,
                             std::vector<std::string> of) {
    if (stretches.empty()) return;
    Run run;
    run.kind = RunKind::slab;
    run.stretches = joined(stretches);
    run.names = std::move(of);
    run.length = total(runs);
    run.spacing = limit(&Limits::slab_hole_spacing);
    run.holes = holes(runs, run.spacing);
    run.rate = rate(&Limits::slab_rate);
    run.exact_gallons = linear_gallons(run.length, run.rate);
    run.working = hole_working(run);
    run.sources = {source("rate", &Limits::slab_rate), source("hole spacing", &Limits::slab_hole_spacing)};
    add(task, s, std::move(run));
  };
  run_along(within, chains(s, within, Along::inside), {});
  run_along(beside, each, std::move(names));
}

}  // namespace soundsill::planning
