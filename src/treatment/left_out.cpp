// Serves treatment/treatment.h: what a treatment leaves alone that a full one would take.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill {
namespace {

using planning::without;

struct Leaving {
  const SurveyedStructure& s;
  const Treatment& t;

  [[nodiscard]] std::vector<Stretch> treated(RunKind kind, bool within) const {
    std::vector<Stretch> out;
    for (const Run& run : t.runs)
      if (run.structure == s.name && run.kind == kind && (kind != RunKind::slab || run.within == within))
        out.insert(out.end(), run.stretches.begin(), run.stretches.end());
    return joined(std::move(out));
  }
  [[nodiscard]] bool named(RunKind kind, const std::string& name) const {
    return std::any_of(t.runs.begin(), t.runs.end(), [&](const Run& run) {
      return run.structure == s.name && run.kind == kind &&
             std::find(run.names.begin(), run.names.end(), name) != run.names.end();
    });
  }
  [[nodiscard]] bool about_soil() const {
    return std::any_of(t.runs.begin(), t.runs.end(), [&](const Run& run) {
      return run.structure == s.name && (is_soil(run.kind) || run.kind == RunKind::slab ||
                                         run.kind == RunKind::stations || run.kind == RunKind::under_slab);
    });
  }

  void walls(LeftOut& out) const {
    std::vector<Stretch> outer, inner, paved;
    for (const Wall& wall : s.walls) {
      const Foundation f = s.parts[wall.part].foundation;
      if (f != Foundation::piers) outer.insert(outer.end(), wall.outer.begin(), wall.outer.end());
      paved.insert(paved.end(), wall.paved.begin(), wall.paved.end());
      const bool soil = f == Foundation::crawl_space && wall.inside_length > Length{};
      if (soil) inner.push_back({wall.number, {}, wall.length});
    }
    out.outside = without(without(outer, paved), treated(RunKind::soil_outside, false));
    out.inside = without(inner, treated(RunKind::soil_inside, true));
    std::vector<Stretch> drilled = treated(RunKind::slab, false);
    for (const SurveyedSlab& slab : s.slabs)  // nothing is drilled where nothing lies under it
      if (slab.fill && *slab.fill == Fill::none)
        drilled.insert(drilled.end(), slab.adjoins.begin(), slab.adjoins.end());
    out.paved = without(joined(std::move(paved)), joined(std::move(drilled)));
    std::vector<Stretch> floors;
    for (const Wall& wall : s.walls) {
      const SurveyedPart& part = s.parts[wall.part];
      const bool slab = part.foundation != Foundation::crawl_space && part.foundation != Foundation::piers;
      if (slab && wall.inside_length > Length{} && !named(RunKind::under_slab, part.name))
        floors.push_back({wall.number, {}, wall.length});
    }
    out.below = without(floors, treated(RunKind::slab, true));
    for (const Stretch& one : out.below) out.feet += planning::inside_of(*s.wall(one.wall), one);
    for (const auto* list : {&out.outside, &out.paved})
      for (const Stretch& one : *list) out.feet += one.length();
    for (const Stretch& one : out.inside) out.feet += planning::inside_of(*s.wall(one.wall), one);
  }

  void things(LeftOut& out) const {
    for (const Pier& pier : s.piers) {
      const bool done = std::any_of(t.runs.begin(), t.runs.end(), [&](const Run& run) {
        return run.structure == s.name && run.kind == RunKind::soil_piers &&
               std::find(run.piers.begin(), run.piers.end(), pier.number) != run.piers.end();
      });
      if (done) continue;
      out.piers.push_back(pier.number);
      out.feet += pier.perimeter();
    }
    const auto note = [&](const std::string& name, RunKind kind, Length feet) {
      if (name.empty() || named(kind, name)) return;
      out.named.push_back(name);
      out.feet += feet;
    };
    for (const SurveyedChimney& c : s.chimneys)
      if (c.size) note(c.name, RunKind::soil_chimneys, c.perimeter());
    for (const SurveyedSlab& slab : s.slabs)
      if (slab.fill && *slab.fill == Fill::earth) note(slab.name, RunKind::soil_porches, slab.free_edges);
    for (const SurveyedWood& wood : s.wood) note(wood.name, RunKind::soil_posts, Length{});
    for (const SurveyedPartition& p : s.partitions)
      if (s.parts[p.part].foundation == Foundation::crawl_space) note(p.name, RunKind::soil_partitions, p.faces);
  }
};

}  // namespace

std::vector<LeftOut> left_by(const Survey& survey, const Treatment& treatment) {
  std::vector<LeftOut> all;
  for (const SurveyedStructure& s : survey.structures) {
    const Leaving leaving{s, treatment};
    if (!leaving.about_soil()) continue;
    LeftOut out;
    out.structure = s.name;
    leaving.walls(out);
    leaving.things(out);
    if (!out.nothing()) all.push_back(std::move(out));
  }
  return all;
}

Length feet_left(const std::vector<LeftOut>& left) {
  Length sum;
  for (const LeftOut& one : left) sum += one.feet;
  return sum;
}

}  // namespace soundsill
