// Serves treatment/planner.h. Bait stations in the soil round the outside, with gaps where paving interrupts.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

Working working_of(const std::vector<Chain>& open, Length spacing) {
  Working out;
  for (const Chain& c : open) {
    out = std::move(out) + (Working(c.length) / Working(spacing)).in(WorkingWord::rounded_up);
    if (!c.closed) out = std::move(out) + Working(1);
  }
  return out;
}

}  // namespace

void Planner::stations(Task& task, const SurveyedStructure& s) {
  const resolved::Line& line = *task.line;
  const bool label = product && product->label && product->label->station_spacing;
  const Length spacing = spacing_of(line, &Limits::station_spacing,
                                    label ? std::optional<Length>(*product->label->station_spacing) : std::nullopt);
  if (spacing <= Length{}) return;
  auto chosen = line.cover.walls;
  const bool named = line.asked.walls_said || line.asked.places_said || line.asked.near_said;
  if (!named)
    for (const Wall& wall : s.walls) chosen.push_back({wall.number, {}, wall.length});
  const auto outer = common(chosen, all_of(s, &Wall::outer));
  const auto open = chains(s, without(outer, all_of(s, &Wall::paved)), Along::outside);
  Run run;
  run.kind = RunKind::stations;
  run.spacing = spacing;
  run.length = total(open);
  for (const Chain& chain : open) {
    const int count = stations_of(chain.length, spacing, chain.closed);
    run.count += count;
    spread(s, chain, count, [&](const Wall& wall, Length at) { run.points.push_back(along(wall, at)); });
    run.stretches.insert(run.stretches.end(), chain.stretches.begin(), chain.stretches.end());
  }
  if (run.count == 0) return;
  run.stretches = joined(run.stretches);
  run.working = working_of(open, spacing);
  run.sources.push_back(label ? "spacing by the label: " + product->name.value_or("")
                              : source("spacing", &Limits::station_spacing));
  for (const Chain& gap : chains(s, common(outer, all_of(s, &Wall::paved)), Along::outside)) {
    run.gaps.insert(run.gaps.end(), gap.stretches.begin(), gap.stretches.end());
    if (gap.length > spacing)
      faults.add(Rule::station_gap, line.does_at,
                 print(gap.length) + " of paving leaves no soil for a station, more than the " + print(spacing) +
                     " between two",
                 "termites may pass there; the buyer is told of the gap",
                 "plan stations through the paving, or drilling under it, if the label allows");
  }
  add(task, s, std::move(run));
}

}  // namespace soundsill::planning
