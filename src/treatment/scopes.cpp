#include "treatment/scopes.h"

#include <algorithm>

#include "treatment/planner.h"

namespace soundsill {
namespace {

bool on_soil(Takes takes) { return takes == Takes::soil || takes == Takes::backfill; }
bool below_slab(Takes takes) {
  return takes == Takes::slab || takes == Takes::under_slab || takes == Takes::bath_traps || takes == Takes::crawl_area;
}

/// Of what a line names, only what lies near its findings, on the sides it has anyway.
Work near_only(Work work) {
  work.near = work.answers;
  work.local = true;
  return work;
}

struct Cutter {
  Case& c;
  const Trade& trade;
  const OptionFacts& option;

  void put(const Work& line, std::optional<Work> cut) {
    c.scoped.push_back({option.id.value_or(""), line.id.value_or(""), std::move(cut)});
  }

  /// Outside as typed, inside near the evidence. What stands round (piers, chimneys) belongs to the inside.
  void outside_and_local(const Work& line, Takes takes) {
    if (!on_soil(takes) && takes != Takes::slab) return;
    const Sides sides = line.sides.value_or(Sides::both);
    if (sides != Sides::inside) {
      Work outside = line;
      outside.sides.set(Sides::outside);
      if (on_soil(takes)) outside.piers = {};
      put(line, std::move(outside));
    }
    if (sides == Sides::outside) return;
    Work inside = near_only(line);
    inside.sides.set(Sides::inside);
    put(line, items(line.answers).empty() ? std::optional<Work>{} : std::move(inside));
  }

  void evidence_only(const Work& line, Takes takes) {
    const bool near = on_soil(takes) || takes == Takes::slab || takes == Takes::voids || takes == Takes::bath_traps;
    if (near) put(line, items(line.answers).empty() ? std::optional<Work>{} : near_only(line));
    if (takes == Takes::under_slab || takes == Takes::crawl_area) put(line, std::nullopt);
  }

  [[nodiscard]] std::string structure_of(const Work& line) const {
    if (line.in) return *line.in;
    for (const int no : items(line.answers))
      for (const Finding& f : items(c.findings))
        if (f.no && *f.no == no && f.in) return *f.in;
    return {};
  }

  /// One line of stations for each structure, in place of the first line that treated there.
  void bait(const std::vector<const Work*>& lines) {
    const auto& methods = items(trade.methods);
    const auto stations = std::find_if(methods.begin(), methods.end(),
                                       [](const Method& m) { return m.takes && *m.takes == Takes::stations; });
    if (stations == methods.end()) return;
    std::vector<std::pair<const Work*, Work>> made;
    for (const Work* line : lines) {
      const Method* method = line->does ? trade.method(*line->does) : nullptr;
      const Takes takes = method ? method->takes.value_or(Takes::nothing) : Takes::nothing;
      if (line->who() != By::us || (!on_soil(takes) && !below_slab(takes) && takes != Takes::voids)) continue;
      const std::string where = structure_of(*line);
      auto found =
          std::find_if(made.begin(), made.end(), [&](const auto& m) { return structure_of(m.second) == where; });
      if (found == made.end()) {
        Work work;
        work.at = line->at;
        work.id = line->id;
        work.does = line->does;
        work.does.set(*stations->name);
        work.in = line->in;
        if (!where.empty()) work.in.set(where);
        work.answers = line->answers;
        work.preventive = line->preventive;
        made.emplace_back(line, std::move(work));
        continue;
      }
      put(*line, std::nullopt);
      std::vector<int> answers = items(found->second.answers);
      for (const int n : items(line->answers))
        if (std::find(answers.begin(), answers.end(), n) == answers.end()) answers.push_back(n);
      found->second.answers.set(answers);
    }
    for (auto& [line, work] : made) put(*line, std::move(work));
  }

  void cut(const std::vector<const Work*>& lines) {
    if (*option.scope == Scope::bait) return bait(lines);
    for (const Work* line : lines) {
      const Method* method = line->does ? trade.method(*line->does) : nullptr;
      if (!method || line->who() != By::us || line->near.written()) continue;  // what is near already stays
      const Takes takes = method->takes.value_or(Takes::nothing);
      if (*option.scope == Scope::outside_and_local) outside_and_local(*line, takes);
      if (*option.scope == Scope::evidence_only) evidence_only(*line, takes);
    }
  }
};

}  // namespace

void cut_to_scope(Case& c, const Trade& trade) {
  c.scoped.clear();
  for (const OptionFacts& option : items(c.options))
    if (option.scope && *option.scope != Scope::full && option.id) Cutter{c, trade, option}.cut(lines_of(c, option));
}

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
      if (slab.facts->fill && *slab.facts->fill == Fill::none)
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
    const auto note = [&](const Field<std::string>& name, RunKind kind, Length feet) {
      if (!name || named(kind, *name)) return;
      out.named.push_back(*name);
      out.feet += feet;
    };
    for (const Chimney& c : items(s.facts->chimneys))
      if (c.size) note(c.name, RunKind::soil_chimneys, (c.size->width + c.size->depth) * 2);
    for (const SurveyedSlab& slab : s.slabs)
      if (slab.facts->fill && *slab.facts->fill == Fill::earth)
        note(slab.facts->name, RunKind::soil_porches, slab.free_edges);
    for (const WoodContact& wood : items(s.facts->wood)) note(wood.name, RunKind::soil_posts, Length{});
    for (const SurveyedPartition& p : s.partitions)
      if (s.parts[p.part].foundation == Foundation::crawl_space) note(p.facts->name, RunKind::soil_partitions, p.faces);
  }
};

}  // namespace

std::vector<LeftOut> left_out(const Basis& basis, const Treatment& treatment) {
  std::vector<LeftOut> all;
  for (const SurveyedStructure& s : basis.survey.structures) {
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

Length feet_left(const Basis& basis, const Treatment& treatment) {
  Length sum;
  for (const LeftOut& one : left_out(basis, treatment)) sum += one.feet;
  return sum;
}

}  // namespace soundsill
