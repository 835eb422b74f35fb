// Serves service/service.h. What the record says was applied, beside what was planned.
#include <algorithm>

#include "service/service.h"

namespace soundsill {

const Treatment* chosen_treatment(const Case& c, const std::vector<Treatment>& all, std::string_view named) {
  std::string_view id = named;
  if (id.empty() && c.accepted && c.accepted->option) id = *c.accepted->option;
  if (id.empty()) return all.size() == 1 ? &all.front() : nullptr;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Treatment& t) { return t.id == id; });
  return found == all.end() ? nullptr : &*found;
}

std::vector<const WaiverSheet*> sheets_of(const Case& c, std::string_view option) {
  const std::string* accepted = c.accepted && c.accepted->option ? &*c.accepted->option : nullptr;
  std::vector<const WaiverSheet*> out;
  for (const WaiverSheet& sheet : items(c.waivers))
    if (sheet.option ? *sheet.option == option : !accepted || *accepted == option) out.push_back(&sheet);
  return out;
}

const WaiverSheet* sheet_of(const Case& c, std::string_view option, std::string_view line) {
  const WaiverSheet* first = nullptr;
  for (const WaiverSheet* sheet : sheets_of(c, option)) {
    const auto& lines = items(sheet->lines);
    if (sheet->lines.written() && std::find(lines.begin(), lines.end(), line) == lines.end()) continue;
    if (sheet->owner_accepts.written()) return sheet;
    if (!first) first = sheet;
  }
  return first;
}

namespace {

/// Gallons for the required depth, where more was planned: deeper than asked is no duty of the record.
Ratio least_of(const Basis& basis, const Run& run) {
  const auto& limits = basis.form.limits;
  if (!is_soil(run.kind) || run.depth_to || run.required_depth >= run.depth || run.reckoned_depth <= Length{})
    return std::min(run.computed_gallons, run.gallons);
  const bool floored = limits && limits->volume_floor && limits->volume_floor->value;
  const Length floor = floored ? *limits->volume_floor->value : Length{};
  const Length reckoned = std::max(run.required_depth, floor);
  if (reckoned >= run.reckoned_depth) return std::min(run.computed_gallons, run.gallons);
  const Ratio share = reckoned.in_feet() / run.reckoned_depth.in_feet();
  return std::min((run.exact_gallons * share).rounded_to(1), run.gallons);
}

Ratio most_of(const Basis& basis, const Run& run) {
  const auto& limits = basis.form.limits;
  if (run.product && run.product->label && run.product->label->applied_over)
    return most_gallons(run, *run.product->label->applied_over);
  return most_gallons(run,
                      limits && limits->applied_over ? limits->applied_over->value.value_or(Percent{}) : Percent{});
}

}  // namespace

Ratio most_gallons(const Run& run, const Percent& over) {
  const Ratio most = std::max(run.gallons, run.computed_gallons) * (Ratio(100) + over.value) / 100;
  return Ratio((most * 10).ceil(), 10);  // meters show tenths
}

namespace {

void add(RunDone& sum, const AppliedRun& entry, const Applied& day) {
  sum.entry = &entry;
  sum.done = true;
  if (entry.gal) {
    sum.gallons += *entry.gal;
    sum.measured = true;
  }
  sum.holes += entry.holes.value_or(0);
  sum.plugged += entry.plugged.value_or(0);
  if (entry.untreated) sum.untreated = &*entry.untreated;
  if (day.on && (sum.days.empty() || sum.days.back() != *day.on)) sum.days.push_back(*day.on);
}

RunDone sum_of(const Basis& basis, const Run& run, const std::vector<const Applied*>& days) {
  RunDone sum;
  sum.run = &run;
  sum.least = least_of(basis, run);
  sum.most = most_of(basis, run);
  for (const Applied* day : days)
    for (const AppliedRun& entry : items(day->runs))
      if (entry.run && *entry.run == run.number) add(sum, entry, *day);
  return sum;
}

std::vector<const Applied*> days_of(const Case& c, bool again) {
  std::vector<const Applied*> out;
  for (const Applied& day : items(c.applied))
    if (day.retreatment.value_or(false) == again) out.push_back(&day);
  return out;
}

}  // namespace

std::vector<RunDone> runs_done(const Basis& basis, const Treatment& treatment) {
  const auto days = days_of(basis.c, false);
  std::vector<RunDone> out;
  for (const Run& run : treatment.runs) out.push_back(sum_of(basis, run, days));
  return out;
}

std::vector<Retreatment> retreatments(const Basis& basis, const Treatment& treatment) {
  std::vector<Retreatment> out;
  for (const Applied* day : days_of(basis.c, true)) {
    Retreatment one{day, {}};
    for (const Run& run : treatment.runs)
      if (RunDone sum = sum_of(basis, run, {day}); sum.done) one.runs.push_back(std::move(sum));
    out.push_back(std::move(one));
  }
  return out;
}

LineDone line_done(const Case& c, const std::vector<RunDone>& runs, std::string_view line) {
  LineDone out;
  out.any = line_listed(c, line);
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

bool line_listed(const Case& c, std::string_view line) {
  for (const Applied* day : days_of(c, false))
    for (const std::string& id : items(day->done))
      if (id == line) return true;
  return false;
}

const Field<Date>* first_day(const Case& c) {
  const Field<Date>* first = nullptr;
  for (const Applied* day : days_of(c, false))
    if (day->on && (!first || *day->on < **first)) first = &day->on;
  return first;
}

std::optional<Date> treated_on(const Case& c) {
  const Field<Date>* first = first_day(c);
  return first ? std::optional(**first) : std::nullopt;
}

std::optional<Date> finished_on(const Case& c) {
  std::optional<Date> last;
  std::optional<Date> goes_on;
  for (const Applied& day : items(c.applied)) {
    if (!day.on || day.retreatment.value_or(false)) continue;
    if (last && *day.on < *last) continue;
    last = *day.on;
    goes_on = day.goes_on ? std::optional(*day.goes_on) : std::nullopt;
  }
  return goes_on ? std::nullopt : last;
}

}  // namespace soundsill
