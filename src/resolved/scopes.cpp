#include "resolved/scopes.h"

#include <algorithm>

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

std::vector<const Work*> lines_of(const Case& c, const OptionFacts& option) {
  std::vector<const Work*> lines;
  const auto& wanted = items(option.work);
  const bool all = wanted.size() == 1 && wanted.front() == "all";
  for (const Work& w : items(c.work)) {
    if (!all && !(w.id && std::find(wanted.begin(), wanted.end(), *w.id) != wanted.end())) continue;
    bool cut = false;
    for (const ScopedLine& s : c.scoped)
      if (option.id && w.id && s.option == *option.id && s.line == *w.id) {
        cut = true;
        if (s.work) lines.push_back(&*s.work);
      }
    if (!cut) lines.push_back(&w);
  }
  return lines;
}

}  // namespace soundsill
