// Serves treatment/soil.h. Soil round what stands in it: piers, chimneys, partitions, pilasters, porches and posts.
#include <algorithm>

#include "treatment/soil.h"

namespace soundsill::planning {
namespace {

template <class T>
std::optional<KnownBy> known(const T& facts) {
  return facts.known_by ? std::optional(*facts.known_by) : std::nullopt;
}

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
  reckon(run, std::to_string(count) + " x " + print(each));
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
  std::map<Key, const PierGroup*> said;
  for (const int number : chosen) {
    const Pier& pier = *s.pier(number);
    const PierGroup& facts = items(s.facts->piers)[pier.group];
    if (!facts.footing) continue;  // the key is required; its fault is reported
    const Key key{std::min(pier.width, pier.depth), std::max(pier.width, pier.depth),
                  depths(*facts.footing, known(facts)), facts.gal_each ? std::optional(*facts.gal_each) : std::nullopt};
    groups[key].push_back(number);
    said.emplace(key, &facts);
  }
  for (const auto& [key, members] : groups) {
    Run run = pieces(RunKind::soil_piers, static_cast<int>(members.size()), (key.narrow + key.wide) * 2, key.at);
    run.piers = members;
    if (key.each) entered(run, *key.each, said[key]->gal_each.at, "piers");
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
                 run.working + " = " + computed + " gal",
                 "enter at least " + decimal(run.computed_gallons / Ratio(run.count), 2) +
                     " gal each, or take `gal_each` out and let it be worked out");
  if (run.computed_gallons > Ratio(0)) {
    run.trench_gallons = (run.trench_gallons * run.gallons / run.computed_gallons).rounded_to(1);
    run.rod_gallons = run.rod_gallons > Ratio(0) ? run.gallons - run.trench_gallons : Ratio(0);
  }
  run.working = std::to_string(run.count) + " x " + shortest(each, 2) + " gal";
}

void Soil::chimneys(const std::vector<std::size_t>& chosen) {
  for (const std::size_t index : chosen) {
    const Chimney& c = items(s.facts->chimneys)[index];
    if (!c.size || !c.footing || !c.name) continue;
    Run run = pieces(RunKind::soil_chimneys, 1, (c.size->width + c.size->depth) * 2, depths(*c.footing, known(c)));
    run.names = {*c.name};
    p.add(task, s, std::move(run));
  }
}

/// Both faces of walls within, one run for each depth.
void Soil::partitions() {
  const Work& work = *task.work;
  const auto names = p.named_places(work, Place::Kind::partition);
  const bool all = work.walls && work.walls->all;
  const Near near = p.near_of(work, s);
  std::map<Depths, Run> runs;
  for (std::size_t i = 0; i < s.partitions.size(); ++i) {
    const SurveyedPartition& one = s.partitions[i];
    if (s.parts[one.part].foundation != Foundation::crawl_space || one.faces <= Length{}) continue;
    // Near its findings a line takes both faces of a stretch; a whole partition has the faces that were measured.
    Length both;
    for (const PartitionStretch& stretch : near.partitions)
      if (stretch.partition == i) both += (stretch.b - stretch.a) * 2;
    const bool named = all || holds(names, one.facts->name);
    const Length faces = named && !work.local ? one.faces : work.local && !named ? Length{} : std::min(both, one.faces);
    if (faces <= Length{}) continue;
    Run& run = runs[depths(*one.facts->footing, known(*one.facts))];
    run.kind = RunKind::soil_partitions;
    run.length += faces;
    run.names.push_back(one.facts->name.value_or(""));
  }
  for (auto& [at, run] : runs) {
    fill(run, at);
    reckon(run, print(run.length));
    const Length spacing = p.limit(&Limits::rod_spacing);
    if (run.rod_gallons > Ratio(0) && spacing > Length{}) run.rod_holes = holes_of(run.length, spacing, false);
    p.add(task, s, std::move(run));
  }
}

/// The two sides of each pilaster; the wall's own run counts the face that its front gives back.
void Soil::pilasters(const std::vector<Stretch>& outside, const std::vector<Stretch>& inside) {
  const auto names = p.named_places(*task.work, Place::Kind::pilaster);
  for (const SurveyedPilaster& one : s.pilasters) {
    if (one.shapes.empty()) continue;
    const bool out = *one.facts->side == Sides::outside;
    const bool named = holds(names, one.facts->name) && !task.work->local;
    int count = 0;
    for (const Place& place : *one.facts->places)
      if (named || touches(out ? outside : inside, place)) ++count;
    if (count == 0) continue;
    Run run =
        pieces(RunKind::soil_pilasters, count, *one.facts->deep * 2, depths(*one.facts->footing, known(*one.facts)));
    run.names = {one.facts->name.value_or("")};
    run.within = !out;
    p.add(task, s, std::move(run));
  }
}

/// An earth-filled porch has outer walls of its own, with soil along them.
void Soil::porches(const std::vector<Stretch>& chosen) {
  const Work& work = *task.work;
  const auto names = p.named_places(work, Place::Kind::slab);
  for (const SurveyedSlab& slab : s.slabs) {
    const Slab& facts = *slab.facts;
    if (!facts.fill || *facts.fill != Fill::earth || slab.free_edges <= Length{}) continue;
    const bool all = work.walls && work.walls->all;
    const bool whole = !slab.adjoins.empty() && without(slab.adjoins, chosen).empty();
    if (!all && !holds(names, facts.name) && !whole) continue;
    if (!p.near_place(work, s, slab.shapes)) continue;
    if (!facts.footing) {
      footing_unsaid(facts.name ? facts.name.at : facts.at, "of the outer walls of `" + facts.name.value_or("") + "`");
      continue;
    }
    Run run;
    run.kind = RunKind::soil_porches;
    run.length = slab.free_edges;
    run.names = {facts.name.value_or("")};
    fill(run, depths(*facts.footing, known(facts)));
    reckon(run, print(run.length));
    const Length spacing = p.limit(&Limits::rod_spacing);
    if (run.rod_gallons > Ratio(0) && spacing > Length{}) run.rod_holes = holes_of(run.length, spacing, false);
    p.add(task, s, std::move(run));
  }
}

void Soil::posts(const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    const auto& all = items(s.facts->wood);
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const WoodContact& w) { return w.name && *w.name == name; });
    if (found == all.end() || !found->posts) continue;  // an unknown name is reported by the rules
    Place place;
    place.kind = Place::Kind::wood;
    place.name = name;
    if (!p.near_place(*task.work, s, shapes_of(s, place))) continue;
    Run run;
    run.kind = RunKind::soil_posts;
    run.count = *found->posts;
    run.names = {name};
    run.rate = rate();
    run.strength = strength;
    run.backfill = backfill;
    if (!found->gal_each) {
      p.faults.add(Rule::missing_key, found->name.at, "no gallons a post are given for `" + name + "`",
                   "a post has no footing to reckon from; its gallons would be guessed",
                   "write `gal_each:` from the label");
      continue;
    }
    run.entered_each = *found->gal_each;
    run.exact_gallons = *found->gal_each * Ratio(run.count);
    run.trench_gallons = run.exact_gallons.rounded_to(1);
    run.working = std::to_string(run.count) + " x " + shortest(*found->gal_each, 2) + " gal";
    run.sources.push_back("gallons a post: entered by the company");
    p.add(task, s, std::move(run));
  }
}

}  // namespace soundsill::planning
