// Serves treatment/soil.h. Soil round what stands in it: piers, chimneys, partitions, pilasters, porches and posts.
#include <algorithm>

#include "treatment/soil.h"

namespace soundsill::planning {
namespace {

bool touches(const std::vector<Stretch>& chosen, const Place& place) {
  return place.from && std::any_of(chosen.begin(), chosen.end(), [&](const Stretch& s) {
           return s.wall == place.number && *place.from >= s.a && *place.from <= s.b;
         });
}

}  // namespace

Run Soil::pieces(RunKind kind, int count, Length each, const Depths& at) const {
  Run run;
  run.kind = kind;
  run.count = count;
  run.length = each * count;
  fill(run, at);
  reckon(run, Working(count) * Working(each));
  const Length spacing = p.limit(&Limits::rod_spacing);
  if (run.rod_gallons > Ratio(0) && spacing > Length{}) run.rod_holes = count * holes_of(each, spacing, true);
  return run;
}

/// Piers of one size and depth are one run, however they are listed.
void Soil::piers(const std::vector<int>& chosen) {
  struct Key {
    Length narrow, wide;
    Depths at;
    std::optional<Ratio> each;
    [[nodiscard]] auto tie() const { return std::tie(narrow, wide); }
    bool operator<(const Key& o) const {
      if (tie() != o.tie()) return tie() < o.tie();
      if (at.tie() != o.at.tie()) return at < o.at;
      return each.value_or(Ratio(-1)) < o.each.value_or(Ratio(-1));
    }
  };
  std::map<Key, std::vector<int>> groups;
  std::map<Key, const SurveyedPierGroup*> said;
  for (const int number : chosen) {
    const Pier& pier = *s.pier(number);
    const SurveyedPierGroup& facts = s.pier_groups[pier.group];
    if (!facts.footing) continue;  // the key is required; its fault is reported
    const Key key{std::min(pier.width, pier.depth), std::max(pier.width, pier.depth),
                  depths(*facts.footing, facts.known_by), facts.gal_each};
    groups[key].push_back(number);
    said.emplace(key, &facts);
  }
  for (const auto& [key, members] : groups) {
    Run run = pieces(RunKind::soil_piers, static_cast<int>(members.size()), (key.narrow + key.wide) * 2, key.at);
    run.piers = members;
    if (key.each) entered(run, *key.each, said[key]->gal_each_at, "piers");
    p.add(task, s, std::move(run));
  }
}

/// Gallons that the company entered by hand stand beside the computed ones and never lower them in silence.
void Soil::entered(Run& run, const Ratio& each, Span at, std::string_view things) const {
  settle_gallons(run);
  run.entered_each = each;
  run.gallons = (each * Ratio(run.count)).rounded_to(1);
  const std::string computed = decimal(run.computed_gallons, 1);
  if (run.gallons < run.computed_gallons)
    p.faults.add(Rule::too_little, at,
                 decimal(run.gallons, 1) + " gal for " + std::to_string(run.count) + " " + std::string(things) +
                     " is less than the " + computed + " gal computed",
                 run.working.in_english() + " = " + computed + " gal",
                 "enter at least " + decimal(run.computed_gallons / Ratio(run.count), 2) +
                     " gal each, or take `gal_each` out and let it be worked out");
  if (run.computed_gallons > Ratio(0)) {
    run.trench_gallons = (run.trench_gallons * run.gallons / run.computed_gallons).rounded_to(1);
    run.rod_gallons = run.rod_gallons > Ratio(0) ? run.gallons - run.trench_gallons : Ratio(0);
  }
  run.working = Working(run.count) * Working(each).in(WorkingWord::gal);
}

void Soil::chimneys(const std::vector<std::size_t>& chosen) {
  for (const std::size_t index : chosen) {
    const SurveyedChimney& c = s.chimneys[index];
    if (!c.size || !c.footing || c.name.empty()) continue;
    Run run = pieces(RunKind::soil_chimneys, 1, c.perimeter(), depths(*c.footing, c.known_by));
    run.names = {c.name};
    p.add(task, s, std::move(run));
  }
}

/// Both faces of walls within, one run for each depth.
void Soil::partitions() {
  std::map<Depths, Run> runs;
  for (const resolved::PartitionCover& covered : task.line->cover.partitions) {
    const SurveyedPartition& one = s.partitions[covered.partition];
    if (s.parts[one.part].foundation != Foundation::crawl_space || one.faces <= Length{}) continue;
    // Near its findings a line takes both faces of a stretch; a whole partition has the faces that were measured.
    Length both;
    for (const PartitionStretch& stretch : covered.near) both += (stretch.b - stretch.a) * 2;
    const Length faces = covered.whole ? one.faces : std::min(both, one.faces);
    if (faces <= Length{}) continue;
    Run& run = runs[depths(one.footing, one.known_by)];
    run.kind = RunKind::soil_partitions;
    run.length += faces;
    run.names.push_back(one.name);
  }
  for (auto& [at, run] : runs) {
    fill(run, at);
    reckon(run, Working(run.length));
    const Length spacing = p.limit(&Limits::rod_spacing);
    if (run.rod_gallons > Ratio(0) && spacing > Length{}) run.rod_holes = holes_of(run.length, spacing, false);
    p.add(task, s, std::move(run));
  }
}

/// The two sides of each pilaster; the wall's own run counts the face that its front gives back.
void Soil::pilasters(const std::vector<Stretch>& outside, const std::vector<Stretch>& inside) {
  const auto& named = task.line->cover.pilasters;
  for (std::size_t i = 0; i < s.pilasters.size(); ++i) {
    const SurveyedPilaster& one = s.pilasters[i];
    if (one.shapes.empty()) continue;
    const bool out = *one.side == Sides::outside;
    const bool by_name = std::find(named.begin(), named.end(), i) != named.end();
    int count = 0;
    for (const Place& place : one.places)
      if (by_name || touches(out ? outside : inside, place)) ++count;
    if (count == 0) continue;
    Run run = pieces(RunKind::soil_pilasters, count, *one.deep * 2, depths(*one.footing, one.known_by));
    run.names = {one.name};
    run.within = !out;
    p.add(task, s, std::move(run));
  }
}

/// An earth-filled porch has outer walls of its own, with soil along them.
void Soil::porches() {
  for (const std::size_t i : task.line->cover.slabs) {
    const SurveyedSlab& slab = s.slabs[i];
    if (!slab.fill || *slab.fill != Fill::earth || slab.free_edges <= Length{}) continue;
    if (!slab.footing) {
      footing_unsaid(slab.name.empty() ? slab.at : slab.name_at, "of the outer walls of `" + slab.name + "`");
      continue;
    }
    Run run;
    run.kind = RunKind::soil_porches;
    run.length = slab.free_edges;
    run.names = {slab.name};
    fill(run, depths(*slab.footing, slab.known_by));
    reckon(run, Working(run.length));
    const Length spacing = p.limit(&Limits::rod_spacing);
    if (run.rod_gallons > Ratio(0) && spacing > Length{}) run.rod_holes = holes_of(run.length, spacing, false);
    p.add(task, s, std::move(run));
  }
}

void Soil::posts() {
  for (const std::size_t i : task.line->cover.wood) {
    const SurveyedWood& wood = s.wood[i];
    if (!wood.posts) continue;
    Run run;
    run.kind = RunKind::soil_posts;
    run.count = *wood.posts;
    run.names = {wood.name};
    run.rate = rate();
    run.strength = strength;
    run.backfill = backfill;
    if (!wood.gal_each) {
      p.faults.add(Rule::missing_key, wood.name_at, "no gallons a post are given for `" + wood.name + "`",
                   "a post has no footing to reckon from; its gallons would be guessed",
                   "write `gal_each:` from the label");
      continue;
    }
    run.entered_each = *wood.gal_each;
    run.exact_gallons = *wood.gal_each * Ratio(run.count);
    run.trench_gallons = run.exact_gallons.rounded_to(1);
    run.working = Working(run.count) * Working(*wood.gal_each).in(WorkingWord::gal);
    run.sources.push_back("gallons a post: entered by the company");
    p.add(task, s, std::move(run));
  }
}

}  // namespace soundsill::planning
