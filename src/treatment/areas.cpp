// Serves treatment/planner.h. Work by area and by volume: slabs as a whole, bath traps, crawl spaces, air, wood, soil
// taken out.
#include <algorithm>

#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

using W = WorkingWord;

Working feet(const Ratio& sqft) { return Working(shortest(sqft.rounded_to(1), 1)).in(W::sq_ft); }

void each_part(const Task& task, const SurveyedStructure& s, Foundation foundation, const auto& use) {
  for (const std::size_t i : task.line->cover.parts)
    if (s.parts[i].foundation == foundation) use(s.parts[i]);
}

/// The soil of the crawl spaces a line names.
Ratio crawl_sqft(const Task& task, const SurveyedStructure& s, Run& run) {
  Ratio sum;
  each_part(task, s, Foundation::crawl_space, [&](const SurveyedPart& part) {
    sum += part.inside_sqft;
    run.names.push_back(part.name);
  });
  if (task.line->sq_ft) sum = *task.line->sq_ft;
  return sum.rounded_to(1);
}

void by_label(Planner& p, const Task& task, std::vector<std::string>& sources) {
  const std::string what = task.method->needs_label.value_or("");
  if (what.empty()) return;
  const LabelAllows* allowed = p.product && p.product->label ? p.product->label->allowance(what) : nullptr;
  if (allowed) return sources.push_back(what + ": " + *allowed->cite);
  p.faults.add(Rule::label_silent, task.line->does_at,
               "`" + task.line->does + "` needs a label that allows it, and none is cited",
               "what a label does not allow may not be done, and the company would answer for it",
               "add `allows: [{what: " + what + ", cite: ...}]` to the product's `label:` if its label says so");
}

void area_run(Planner& p, Task& task, const SurveyedStructure& s, Run run, Field<Datum<Ratio>> Limits::*rate) {
  run.rate = p.rate(rate);
  run.exact_gallons = area_gallons(run.sq_ft, run.rate);
  run.working = feet(run.sq_ft) * Working(run.rate).in(W::gal) / Working(10).in(W::sq_ft);
  run.sources.push_back(p.source("rate", rate));
  p.add(task, s, std::move(run));
}

}  // namespace

/// Soil under whole slabs: those beside the house by name, those the house stands on by part, or an area as typed.
void Planner::under_slab(Task& task, const SurveyedStructure& s) {
  const resolved::Line& line = *task.line;
  Run soil, gravel;
  soil.kind = gravel.kind = RunKind::under_slab;
  for (const std::size_t i : line.cover.slabs) {
    const SurveyedSlab& slab = s.slabs[i];
    if (!slab.fill || *slab.fill == Fill::none) continue;
    Run& run = *slab.fill == Fill::gravel ? gravel : soil;
    run.sq_ft += slab.area_sqft;
    run.names.push_back(slab.name);
  }
  if (line.asked.parts)
    for (const std::size_t i : line.cover.parts) {
      const SurveyedPart& part = s.parts[i];
      if (part.foundation == Foundation::crawl_space || part.foundation == Foundation::piers) continue;
      soil.sq_ft += part.inside_sqft > Ratio(0) ? part.inside_sqft : part.area_sqft;
      soil.names.push_back(part.name);
    }
  if (line.sq_ft) soil.sq_ft = *line.sq_ft;
  soil.sq_ft = soil.sq_ft.rounded_to(1);
  gravel.sq_ft = gravel.sq_ft.rounded_to(1);
  if (soil.sq_ft > Ratio(0)) area_run(*this, task, s, std::move(soil), &Limits::under_slab_rate);
  if (gravel.sq_ft > Ratio(0)) area_run(*this, task, s, std::move(gravel), &Limits::under_slab_rate_gravel);
}

void Planner::bath_traps(Task& task, const SurveyedStructure& s) {
  const auto traps = marks_of(*task.line, s, MarkKind::bath_trap);
  if (traps.empty())
    return no_measure(*task.line, "no bath trap is drawn in `" + s.name + "`",
                      "add `{kind: bath trap, at: [..., ...], size: [2', 2']}` to `marks:`");
  Run run;
  run.kind = RunKind::bath_traps;
  for (const SurveyedMark* mark : traps) {
    if (!mark->size) {
      no_measure(*task.line, "a bath trap has no size", "write `size:` of its opening where it is drawn");
      continue;
    }
    ++run.count;
    run.sq_ft += mark->size->width.in_feet() * mark->size->depth.in_feet();
    if (!mark->name.empty()) run.names.push_back(mark->name);
  }
  if (run.count == 0) return;
  run.sq_ft = run.sq_ft.rounded_to(1);
  run.rate = rate(&Limits::trap_rate);
  run.exact_gallons = run.sq_ft * run.rate;
  run.working = feet(run.sq_ft) * Working(run.rate).in(W::gal) / Working(W::sq_ft);
  run.sources.push_back(source("rate", &Limits::trap_rate));
  add(task, s, std::move(run));
}

void Planner::crawl_soil(Task& task, const SurveyedStructure& s) {
  Run run;
  run.kind = RunKind::crawl_soil;
  by_label(*this, task, run.sources);
  run.sq_ft = crawl_sqft(task, s, run);
  if (run.sq_ft > Ratio(0)) area_run(*this, task, s, std::move(run), &Limits::overall_rate);
}

/// Sheets that lie over each other: of each sheet's width only what is beyond the lap covers soil.
void Planner::crawl_cover(Task& task, const SurveyedStructure& s) {
  Run run;
  run.kind = RunKind::crawl_cover;
  const Ratio covered = crawl_sqft(task, s, run);
  if (covered <= Ratio(0)) return;
  const Length lap = limit(&Limits::retarder_lap);
  const auto& sheet = basis.company.retarder_sheet;
  run.sq_ft = covered;
  run.working = feet(covered);
  run.sources.push_back("area: inside of the walls, from the drawing");
  if (sheet && *sheet > lap * 2) {
    run.sq_ft = (covered * sheet->in_feet() / (*sheet - lap).in_feet()).rounded_to(1);
    run.working = std::move(run.working) * Working(*sheet) / (Working(*sheet) - Working(lap)).bracketed();
    run.sources.push_back(source("lap", &Limits::retarder_lap));
    run.sources.push_back("width of a sheet: the company's roll");
  } else {
    no_measure(*task.line, "the width of a sheet is not known",
               "write `retarder sheet:` in the company's file, wider than two laps");
  }
  add(task, s, std::move(run));
}

void Planner::air(Task& task, const SurveyedStructure& s) {
  Run run;
  run.kind = RunKind::air_volume;
  for (const std::size_t i : task.line->cover.parts) {
    const SurveyedPart& part = s.parts[i];
    if (!part.wall_height) {
      no_measure(*task.line, "part `" + part.name + "` has no height, and its air has to be filled",
                 "write `wall height:` (and `roof height:`) of the part");
      continue;
    }
    const Ratio sqft = part.area_sqft.rounded_to(1);
    const Length walls = *part.wall_height + part.crawl_height.value_or(Length{});
    const Length roof = part.roof_height.value_or(Length{});
    run.cu_ft += air_cu_ft(sqft, walls, roof);
    Working height(*part.wall_height);
    if (part.crawl_height) height = std::move(height) + Working(*part.crawl_height);
    if (roof > Length{}) height = std::move(height) + Working(roof) / Working(2);
    run.working = std::move(run.working) + feet(sqft) * std::move(height).bracketed();
    run.names.push_back(part.name);
  }
  if (run.cu_ft <= Ratio(0)) return;
  run.cu_ft = run.cu_ft.rounded_to(0);
  run.sources.push_back("volume: length x width x (walls + half the roof), crawl space included");
  if (task.method->cite) run.sources.push_back("method: " + *task.method->cite);
  add(task, s, std::move(run));
}

void Planner::wood_surface(Task& task, const SurveyedStructure& s) {
  const resolved::Line& line = *task.line;
  if (!line.sq_ft || *line.sq_ft <= Ratio(0))
    return no_measure(line, "nothing says how much wood is treated", "write `sq ft:` of the bare wood");
  const bool said =
      product && product->label && product->label->sq_ft_per_gal && *product->label->sq_ft_per_gal > Ratio(0);
  Run run;
  run.kind = RunKind::wood_surface;
  run.sq_ft = line.sq_ft->rounded_to(1);
  run.count = std::max(1, line.coats);
  if (product && !said)
    return no_measure(line, "the label of `" + product->id.value_or("") + "` says nothing of wood by the square foot",
                      "write `sq ft per gal:` in its `label:`, or take another product");
  if (said) {
    run.rate = *product->label->sq_ft_per_gal;
    run.exact_gallons = run.sq_ft * Ratio(run.count) / run.rate;
    run.working = feet(run.sq_ft) * Working(run.count).in(run.count == 1 ? W::coat : W::coats) /
                  Working(run.rate).in(W::sq_ft).in(W::a_gal);
    run.sources.push_back("square feet a gallon by the label: " + product->name.value_or(""));
  }
  run.sources.push_back("area of wood: entered by the company");
  add(task, s, std::move(run));
}

void Planner::wood_volume(Task& task, const SurveyedStructure& s) {
  const resolved::Line& line = *task.line;
  if (!line.says_lumber)
    return no_measure(line, "nothing says how much wood is treated", "write `lumber: [{size: 2x10, length: 70'}]`");
  Run run;
  run.kind = RunKind::wood_volume;
  for (const resolved::Lumber& l : line.lumber) run.cu_ft += lumber_cu_ft(l.size, l.length);
  run.cu_ft = run.cu_ft.rounded_to(2);
  const bool said = product && product->label && product->label->pt_per_cu_ft;
  run.rate = said ? *product->label->pt_per_cu_ft : rate(&Limits::wood_rate);
  run.exact_gallons = run.cu_ft * run.rate / 8;
  run.working = Working(run.cu_ft).in(W::cu_ft)*Working(run.rate).in(W::pt) / Working(W::cu_ft) /
                Working(8).in(W::pt).in(W::a_gal);
  run.sources.push_back(said ? "pints a cubic foot by the label: " + product->name.value_or("")
                             : source("rate", &Limits::wood_rate));
  run.sources.push_back("wood by its nominal size: entered by the company");
  add(task, s, std::move(run));
}

void Planner::soil_removal(Task& task, const SurveyedStructure& s) {
  const resolved::Line& line = *task.line;
  if (!line.sq_ft || !line.depth || *line.sq_ft <= Ratio(0) || *line.depth <= Length{})
    return no_measure(line, "nothing says how much soil is taken out",
                      "write `sq ft:` and, as `depth:`, how much lower it is dug");
  Run run;
  run.kind = RunKind::soil_removal;
  run.sq_ft = line.sq_ft->rounded_to(1);
  run.cu_ft = (run.sq_ft * line.depth->in_feet()).rounded_to(1);
  run.working = feet(run.sq_ft) * Working(*line.depth);
  run.sources.push_back("area and depth: entered by the company");
  add(task, s, std::move(run));
}

}  // namespace soundsill::planning
