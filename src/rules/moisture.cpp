// Wood that stays wet, and readings that nobody reports.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

const Reading* wettest(const Finding& f) {
  const Reading* most = nullptr;
  for (const Reading& r : items(f.moisture))
    if (r.percent && (!most || r.percent->value > most->percent->value)) most = &r;
  return most;
}

bool dried(const Papers& papers, const std::vector<const Work*>& lines) {
  return std::any_of(lines.begin(), lines.end(), [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    if (!method) return true;  // what an unknown method does is not known
    const auto names = conditions_of(papers, &Condition::wet);
    return std::any_of(names.begin(), names.end(), [&](const std::string& c) { return method->does_correct(c); });
  });
}

}  // namespace

void moisture_uncorrected(const Papers& papers, Faults& faults) {
  const Datum<Percent>* most = limit(papers, &Limits::wood_moisture);
  if (!most) return;
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Reading* reading = wettest(f);
    if (!reading || reading->percent->value <= most->value->value) continue;
    const auto wet = std::find_if(all.begin(), all.end(), [&](const Offer& offer) {
      const auto lines = offer.answering(f);
      return offer.whole && !lines.empty() && !dried(papers, lines);  // `unanswered` speaks where no line answers
    });
    if (wet == all.end()) continue;
    faults.add(
        Rule::moisture_uncorrected, reading->percent.at,
        said(f) + " has " + shortest(reading->percent->value, 2) + " % moisture, and no line dries it" + wet->where,
        "wood above " + shortest(most->value->value, 2) + " % goes on decaying whatever else is done" +
            cited(most->cite),
        "let a line that dries wood answer " + said(f) + " too");
  }
}

void moisture_unreported(const Papers& papers, Faults& faults) {
  const Datum<Percent>* least = limit(papers, &Limits::excess_moisture);
  if (!least) return;
  const auto& all = items(papers.basis.c.findings);
  for (const Finding& f : all) {
    const Reading* reading = wettest(f);
    if (!reading || reading->percent->value < least->value->value || !f.in) continue;
    const auto wet = [&](const Finding& other) {
      const Condition* condition = other.condition ? papers.basis.trade.condition(*other.condition) : nullptr;
      return condition && condition->wet.value_or(false) && other.in && *other.in == *f.in;
    };
    if (std::any_of(all.begin(), all.end(), wet) || items_lost(papers, faults)) continue;
    faults.add(
        Rule::moisture_unreported, reading->percent.at,
        said(f) + " has " + shortest(reading->percent->value, 2) + " % moisture, and no condition reports it",
        "wood of " + shortest(least->value->value, 2) + " % or more is reported as too wet" + cited(least->cite),
        "add a finding of `kind: condition` with " + listed(quoted(conditions_of(papers, &Condition::wet)), "or"));
  }
}

}  // namespace soundsill::rules
