#include "rules/rules.h"

#include <algorithm>

#include "rules/each.h"

namespace soundsill {
namespace {

bool for_this_purpose(const Papers& papers, const RuleUse& use) {
  const auto& facts = papers.basis.c.facts;
  if (!use.needed_for || !facts || !facts->purpose) return true;
  const auto& purposes = *use.needed_for;
  return std::find(purposes.begin(), purposes.end(), yaml::word(*facts->purpose)) != purposes.end();
}

/// A rule that the form asks for rests on the text that the form names for it.
template <class Speaks>
void asked(const Papers& papers, Rule rule, Speaks speaks, Faults& faults) {
  const RuleUse* use = papers.basis.form.uses(info(rule).code);
  if (!use || !for_this_purpose(papers, *use)) return;
  const std::size_t first = faults.all().size();
  speaks(papers, *use, faults);
  faults.rest(first, rests_on(*use));
}

/// The day of the first paper that left: the packet as signed, or an agreement without one.
std::optional<Date> issued_on(const resolved::Resolved& house) {
  if (house.signature && house.signature->on) return house.signature->on;
  return house.agreement ? house.agreement->on : std::nullopt;
}

void check_stage(Stage now, const Papers& papers, Faults& faults) {
#define RUN_reading(name, stage)
#define RUN_working(name, stage)
#define RUN_check(name, stage) \
  if (now == Stage::stage) rules::name(papers, faults);
#define RUN_asked(name, stage) \
  if (now == Stage::stage) asked(papers, Rule::name, rules::name, faults);
#define RULE(name, who, severity, stage, stops, holds, why) RUN_##who(name, stage)
#include "diagnostics/catalogue.def"
#undef RUN_reading
#undef RUN_working
#undef RUN_check
#undef RUN_asked
}

}  // namespace

void check(const Papers& papers, Faults& faults) {
  if (const auto day = issued_on(papers.basis.resolved)) faults.issued(day->day);
  for (const Stage now : {Stage::file, Stage::facts, Stage::house, Stage::findings, Stage::work, Stage::price,
                          Stage::after, Stage::paper})
    check_stage(now, papers, faults);
}

void check_photos(const Papers& papers, Faults& faults) { rules::photo_broken(papers, faults); }

}  // namespace soundsill
