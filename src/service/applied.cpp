// Serves service/service.h. What the record says was applied, beside what was planned.
#include <algorithm>

#include "service/service.h"

namespace soundsill {

const Treatment* chosen_treatment(const resolved::Resolved& house, const std::vector<Treatment>& all,
                                  std::string_view named) {
  std::string_view id = named;
  if (id.empty() && house.accepted) id = house.accepted->option;
  if (id.empty()) return all.size() == 1 ? &all.front() : nullptr;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Treatment& t) { return t.id == id; });
  return found == all.end() ? nullptr : &*found;
}

std::vector<const resolved::WaiverSheet*> sheets_of(const resolved::Resolved& house, std::string_view option) {
  const std::string accepted = house.accepted ? house.accepted->option : std::string();
  std::vector<const resolved::WaiverSheet*> out;
  for (const resolved::WaiverSheet& sheet : house.waivers)
    if (sheet.option.empty() ? accepted.empty() || accepted == option : sheet.option == option) out.push_back(&sheet);
  return out;
}

const resolved::WaiverSheet* sheet_of(const resolved::Resolved& house, std::string_view option, std::string_view line) {
  const resolved::WaiverSheet* first = nullptr;
  for (const resolved::WaiverSheet* sheet : sheets_of(house, option)) {
    const auto& lines = sheet->lines;
    if (lines && std::find(lines->begin(), lines->end(), line) == lines->end()) continue;
    if (sheet->owner_signs) return sheet;
    if (!first) first = sheet;
  }
  return first;
}

namespace {

/// Gallons for the required depth, where more was planned: deeper than asked is no duty of the record.
Ratio least_of(const Basis& basis, const Run& run) {
  if (!is_soil(run.kind) || run.depth_to || run.required_depth >= run.depth || run.reckoned_depth <= Length{})
    return std::min(run.computed_gallons, run.gallons);
  const Length reckoned = std::max(run.required_depth, value_of(basis.resolved.limits.volume_floor));
  if (reckoned >= run.reckoned_depth) return std::min(run.computed_gallons, run.gallons);
  const Ratio share = reckoned.in_feet() / run.reckoned_depth.in_feet();
  return std::min((run.exact_gallons * share).rounded_to(1), run.gallons);
}

Ratio most_of(const Basis& basis, const Run& run) {
  if (run.product && run.product->label && run.product->label->applied_over)
    return most_gallons(run, *run.product->label->applied_over);
  const auto& allowed = basis.resolved.limits.applied_over;
  return most_gallons(run, allowed ? allowed->value : Percent{});
}

}  // namespace

Ratio most_gallons(const Run& run, const Percent& over) {
  const Ratio most = std::max(run.gallons, run.computed_gallons) * (Ratio(100) + over.value) / 100;
  return Ratio((most * 10).ceil(), 10);  // meters show tenths
}

namespace {

void add(RunDone& sum, const resolved::AppliedRun& entry, const resolved::Applied& day) {
  sum.entry = &entry;
  sum.done = true;
  if (entry.gal) {
    sum.gallons += *entry.gal;
    sum.measured = true;
  }
  sum.holes += entry.holes;
  sum.plugged += entry.plugged;
  if (entry.untreated) sum.untreated = &*entry.untreated;
  if (day.on && (sum.days.empty() || sum.days.back() != *day.on)) sum.days.push_back(*day.on);
}

RunDone sum_of(const Basis& basis, const Run& run, const std::vector<const resolved::Applied*>& days) {
  RunDone sum;
  sum.run = &run;
  sum.least = least_of(basis, run);
  sum.most = most_of(basis, run);
  for (const resolved::Applied* day : days)
    for (const resolved::AppliedRun& entry : day->runs)
      if (entry.run && *entry.run == run.number) add(sum, entry, *day);
  return sum;
}

std::vector<const resolved::Applied*> days_of(const resolved::Resolved& house, bool again) {
  std::vector<const resolved::Applied*> out;
  for (const resolved::Applied& day : house.applied)
    if (day.retreatment == again) out.push_back(&day);
  return out;
}

}  // namespace

std::vector<RunDone> runs_done(const Basis& basis, const Treatment& treatment) {
  const auto days = days_of(basis.resolved, false);
  std::vector<RunDone> out;
  for (const Run& run : treatment.runs) out.push_back(sum_of(basis, run, days));
  return out;
}

std::vector<Retreatment> retreatments(const Basis& basis, const Treatment& treatment) {
  std::vector<Retreatment> out;
  for (const resolved::Applied* day : days_of(basis.resolved, true)) {
    Retreatment one{day, {}};
    for (const Run& run : treatment.runs)
      if (RunDone sum = sum_of(basis, run, {day}); sum.done) one.runs.push_back(std::move(sum));
    out.push_back(std::move(one));
  }
  return out;
}

LineDone line_done(const resolved::Resolved& house, const std::vector<RunDone>& runs, std::string_view line) {
  LineDone out;
  out.any = line_listed(house, line);
  for (const RunDone& run : runs) {
    if (run.run->work != line) continue;
    if (run.untreated)
      out.untreated.push_back(run.run);
    else if (!run.done)
      out.missing.push_back(run.run);
    else
      out.any = true;
  }
  return out;
}

bool line_listed(const resolved::Resolved& house, std::string_view line) {
  for (const resolved::Applied* day : days_of(house, false))
    for (const std::string& id : day->done)
      if (id == line) return true;
  return false;
}

const resolved::Applied* first_day(const resolved::Resolved& house) {
  const resolved::Applied* first = nullptr;
  for (const resolved::Applied* day : days_of(house, false))
    if (day->on && (!first || *day->on < *first->on)) first = day;
  return first;
}

std::optional<Date> treated_on(const resolved::Resolved& house) {
  const resolved::Applied* first = first_day(house);
  return first ? first->on : std::nullopt;
}

std::optional<Date> finished_on(const resolved::Resolved& house) {
  std::optional<Date> last;
  std::optional<Date> goes_on;
  for (const resolved::Applied& day : house.applied) {
    if (!day.on || day.retreatment) continue;
    if (last && *day.on < *last) continue;
    last = *day.on;
    goes_on = day.goes_on;
  }
  return goes_on ? std::nullopt : last;
}

}  // namespace soundsill
