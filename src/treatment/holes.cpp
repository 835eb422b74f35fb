// Serves treatment/planner.h. Work through holes: hollow walls and piers, and soil under slabs.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

Working hole_working(const Run& run) {
  return (Working(run.length) * gal_per_ten_ft(run.rate)).shared_by(run.holes, run.spacing);
}

Length plain_length(const SurveyedPartition& partition) {
  Place from, to;
  from.point = partition.from;
  to.point = partition.to;
  return distance(std::vector<std::vector<Point>>{{from.point}}, {{to.point}}).value_or(Length{});
}

/// Runs of voids of one line, which have spacing and rate in common.
struct Voids {
  Planner& p;
  Task& task;
  const SurveyedStructure& s;
  Length spacing = p.spacing_of(*task.line, &Limits::void_hole_spacing);

  [[nodiscard]] Run of(RunKind kind, Length length, int count) const {
    Run run;
    run.kind = kind;
    run.length = length;
    run.holes = count;
    run.spacing = spacing;
    run.rate = p.rate(&Limits::void_rate);
    run.exact_gallons = linear_gallons(length, run.rate);
    run.working = hole_working(run);
    run.sources = {p.source("rate", &Limits::void_rate), p.source("distance from evidence", &Limits::void_reach),
                   p.source("hole spacing", &Limits::void_hole_spacing)};
    return run;
  }

  void walls() const {
    std::vector<Stretch> hollow;
    // A wall between two parts has one void, however many faces it has.
    for (const Stretch& stretch : common(task.line->cover.walls, all_of(s, &Wall::own)))
      if (s.wall(stretch.wall)->hollow()) hollow.push_back(stretch);
    if (hollow.empty()) return;
    const auto runs = chains(s, hollow, Along::outside);
    Run run = of(RunKind::void_walls, total(runs), holes(runs, spacing));
    run.stretches = joined(hollow);
    const auto middle = [](const Wall& wall, Length) { return -Length{wall.thick.value_or(Length{}).sixteenths / 2}; };
    put_along(run, s, runs, spacing, middle, {});
    p.add(task, s, std::move(run));
  }

  void partitions() const {
    Run run = of(RunKind::void_partitions, {}, 0);
    for (const resolved::PartitionCover& covered : task.line->cover.partitions) {
      const SurveyedPartition& one = s.partitions[covered.partition];
      if (!one.kind || *one.kind != WallKind::hollow_block) continue;
      Length length;
      for (const PartitionStretch& stretch : covered.near) length += stretch.b - stretch.a;
      length = covered.whole ? one.clear : std::min(length, one.clear);
      if (length <= Length{}) continue;
      run.length += length;
      const int count = holes_of(length, spacing, false);
      run.holes += count;
      run.names.push_back(one.name);
      drill(run, one, covered, count);
      if (covered.whole)
        run.partitions.push_back({covered.partition, {}, plain_length(one)});
      else
        run.partitions.insert(run.partitions.end(), covered.near.begin(), covered.near.end());
    }
    if (run.names.empty()) return;
    run.exact_gallons = linear_gallons(run.length, run.rate);
    run.working = hole_working(run);
    p.add(task, s, std::move(run));
  }

  /// Evenly over the whole of a partition, or over what of it lies near.
  void drill(Run& run, const SurveyedPartition& one, const resolved::PartitionCover& covered, int count) const {
    const Point from = one.from, to = one.to;
    const Length all = plain_length(one);
    Length a, b = all;
    if (!covered.whole && !covered.near.empty()) a = covered.near.back().a, b = std::min(covered.near.back().b, all);
    const auto at = [&](Length l) {
      const std::int64_t share = std::max<std::int64_t>(1, all.sixteenths);
      return Point{{from.x.sixteenths + (to.x - from.x).sixteenths * l.sixteenths / share},
                   {from.y.sixteenths + (to.y - from.y).sixteenths * l.sixteenths / share}};
    };
    put_between(run, at(a), at(b), count, one.name);
  }

  void piers() const {
    std::vector<int> hollow;
    Length round;
    int count = 0;
    for (const int number : task.line->cover.piers) {
      const Pier& pier = *s.pier(number);
      const SurveyedPierGroup& facts = s.pier_groups[pier.group];
      if (!facts.kind || *facts.kind != PierKind::hollow_block) continue;
      hollow.push_back(number);
      round += pier.perimeter();
      count += holes_of(pier.perimeter(), spacing, true);
    }
    if (hollow.empty()) return;
    Run run = of(RunKind::void_piers, round, count);
    for (const int number : hollow) {
      const Pier& pier = *s.pier(number);
      put_round(run, pier.middle, {pier.width, pier.depth}, holes_of(pier.perimeter(), spacing, true), number, {});
    }
    run.count = static_cast<int>(hollow.size());
    run.piers = hollow;
    p.add(task, s, std::move(run));
  }

  /// A chimney base that is touched is drilled whole, as a pier is.
  void chimneys() const {
    Run run = of(RunKind::void_chimneys, {}, 0);
    for (const std::size_t index : task.line->cover.chimneys) {
      const SurveyedChimney& c = s.chimneys[index];
      if (!c.size || c.name.empty() || !c.kind || *c.kind != PierKind::hollow_block) continue;
      const Length round = c.perimeter();
      run.length += round;
      run.holes += holes_of(round, spacing, true);
      run.names.push_back(c.name);
      if (c.middle) put_round(run, *c.middle, *c.size, holes_of(round, spacing, true), 0, c.name);
    }
    if (run.names.empty()) return;
    run.count = static_cast<int>(run.names.size());
    run.exact_gallons = linear_gallons(run.length, run.rate);
    run.working = hole_working(run);
    p.add(task, s, std::move(run));
  }
};

/// Runs under slabs of one line.
struct Slabs {
  Planner& p;
  Task& task;
  const SurveyedStructure& s;
  Length spacing = p.spacing_of(*task.line, &Limits::slab_hole_spacing);

  void put(Run run) const {
    run.spacing = spacing;
    run.from_wall = p.limit(&Limits::slab_hole_from_wall);
    run.rate = p.rate(&Limits::slab_rate);
    const bool own = p.product && p.product->label && p.product->label->gal_per_slab_hole;
    if (own) {  // a label's own dose wins over the rate
      const Ratio dose = *p.product->label->gal_per_slab_hole;
      run.exact_gallons = dose * Ratio(run.holes);
      run.working = Working(run.holes).in(WorkingWord::holes)*Working(shortest(dose, 3)).in(WorkingWord::gal);
      run.sources.push_back("gallons a hole by the label: " + p.product->name.value_or(""));
    } else {
      run.exact_gallons = linear_gallons(run.length, run.rate);
      run.working = hole_working(run);
      run.sources.push_back(p.source("rate", &Limits::slab_rate));
    }
    run.sources.push_back(p.source("hole spacing", &Limits::slab_hole_spacing));
    run.sources.push_back(p.source("distance from the wall", &Limits::slab_hole_from_wall));
    p.add(task, s, std::move(run));
  }

  void along(const std::vector<Stretch>& stretches, const std::vector<Chain>& runs, std::vector<std::string> of,
             bool from_within = false) const {
    if (stretches.empty()) return;
    Run run;
    run.kind = RunKind::slab;
    run.stretches = joined(stretches);
    run.names = std::move(of);
    run.within = from_within;
    run.length = total(runs);
    run.holes = holes(runs, spacing);
    const auto outside = [](const Wall&, Length from_wall) { return from_wall; };
    const auto inside = [](const Wall& wall, Length from_wall) { return -(wall.thick.value_or(Length{}) + from_wall); };
    put_along(run, s, runs, spacing, from_within ? +inside : +outside, p.limit(&Limits::slab_hole_from_wall));
    put(std::move(run));
  }

  /// A slab the house stands on is drilled from within; one that adjoins the house, along the outside of the wall.
  void plan() const {
    const Sides sides = task.line->sides;
    std::vector<Stretch> within, paved;
    for (const Stretch& stretch : task.line->cover.walls) {
      const Wall& wall = *s.wall(stretch.wall);
      const Foundation f = s.parts[wall.part].foundation;
      if (f != Foundation::crawl_space && f != Foundation::piers) within.push_back(stretch);
      if (wall.beside_slab) paved.push_back(stretch);
    }
    if (sides != Sides::outside) along(within, chains(s, within, Along::inside), {}, true);
    if (sides == Sides::inside) return;
    paved = common(paved, all_of(s, &Wall::paved));
    along(paved, chains(s, paved, Along::outside), {});
    beside();
  }

  void beside() const {
    std::vector<Stretch> stretches;
    std::vector<Chain> each;  // slabs are poured apart: two that meet at a corner share no hole
    std::vector<std::string> found;
    for (const std::size_t i : task.line->cover.slabs) {
      const SurveyedSlab& slab = s.slabs[i];
      if (!slab.fill || *slab.fill == Fill::none) continue;
      stretches.insert(stretches.end(), slab.adjoins.begin(), slab.adjoins.end());
      for (Chain& chain : chains(s, slab.adjoins, Along::outside)) each.push_back(std::move(chain));
      found.push_back(slab.name);
    }
    along(stretches, each, found);
  }

  /// Joints and pipes through a slab are drilled where a line names them.
  void marks() const {
    if (task.line->sides == Sides::outside) return;
    Run joints, pipes;
    joints.kind = RunKind::joints;
    pipes.kind = RunKind::pipes;
    for (const SurveyedMark* mark : Planner::marks_of(*task.line, s, MarkKind::expansion_joint)) {
      if (!mark->point || !mark->to) continue;
      Place from, to;
      from.point = *mark->point;
      to.point = *mark->to;
      const Length length = distance(s, from, to).value_or(Length{});
      joints.length += length;
      const int count = holes_of(length, spacing, false);
      joints.holes += count;
      joints.names.push_back(mark->name);
      put_between(joints, *mark->point, *mark->to, count, mark->name);
    }
    for (const SurveyedMark* mark : Planner::marks_of(*task.line, s, MarkKind::pipe)) {
      ++pipes.holes;
      pipes.length += spacing;  // one hole has the share of one spacing
      pipes.names.push_back(mark->name);
      if (mark->point) pipes.hole_at.push_back({*mark->point, 0, 0, mark->name});
    }
    if (!joints.names.empty()) put(std::move(joints));
    if (!pipes.names.empty()) put(std::move(pipes));
  }
};

}  // namespace

void Planner::voids(Task& task, const SurveyedStructure& s) {
  const Voids voids{*this, task, s};
  voids.walls();
  voids.partitions();
  voids.piers();
  voids.chimneys();
}

void Planner::slab(Task& task, const SurveyedStructure& s) {
  const Slabs slabs{*this, task, s};
  slabs.plan();
  slabs.marks();
}

}  // namespace soundsill::planning
