// What the rules on papers after the estimate share. Not for other folders.
#pragma once

#include "rules/look.h"
#include "service/service.h"

namespace soundsill::rules {

/// The option that was accepted, else the one that a paper is made for; nullptr when it cannot be told.
[[nodiscard]] inline const Treatment* chosen_of(const Papers& papers) {
  const bool accepted = papers.basis.c.accepted && papers.basis.c.accepted->option;
  return accepted || !papers.chosen ? chosen_treatment(papers.basis.resolved, papers.treatments) : papers.chosen;
}
/// The accepted option, once its work is planned for a day or was done; nullptr before.
[[nodiscard]] inline const Treatment* under_way(const Papers& papers) {
  const Case& c = papers.basis.c;
  const bool asked =
      papers.wanted == Wanted::work_order || papers.wanted == Wanted::record || papers.wanted == Wanted::certificate;
  if (!asked && !c.job.written() && !c.applied.written()) return nullptr;
  return chosen_of(papers);
}
/// The day on which work begins: as it was, else as it is planned.
[[nodiscard]] inline std::optional<Date> begins(const resolved::Resolved& house) {
  if (const auto day = treated_on(house)) return day;
  return house.job ? house.job->on : std::nullopt;
}
/// The first day of treatment as it was typed.
[[nodiscard]] inline const Field<Date>* first_day_typed(const Papers& papers) {
  const resolved::Applied* day = first_day(papers.basis.resolved);
  return day ? &day->typed->on : nullptr;
}
/// Whether nothing is wrong with house, findings and plan: else runs may have other numbers than those on record, and
/// one slip would be told many times.
[[nodiscard]] inline bool plan_stands(const Faults& faults) { return faults.reached(Stage::after); }
[[nodiscard]] inline std::string called(const Treatment& t) { return "option " + quoted(t.id); }

}  // namespace soundsill::rules
