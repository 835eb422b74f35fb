// Serves service/service.h. What is filed with an office, and by when.
#include <algorithm>

#include "service/service.h"

namespace soundsill {
namespace {

/// The last inspection before the treatment: a later look at the house is no new report.
std::optional<Date> inspected_on(const resolved::Resolved& house) {
  std::optional<Date> day;
  for (const resolved::Visit& v : house.visits)
    if (v.date && v.made_for == VisitFor::inspection && (!day || *day < *v.date)) day = *v.date;
  return day;
}

}  // namespace

std::vector<FilingDue> filings_of(const Form& form, const resolved::Resolved& house) {
  std::vector<FilingDue> out;
  if (!form.filings) return out;
  for (const Filing& rule : *form.filings) {
    if (!rule.paper || !rule.from || !rule.within || !rule.within->value) continue;
    const auto from = *rule.from == FiledFrom::inspection ? inspected_on(house) : finished_on(house);
    if (!from) continue;
    FilingDue due{&rule, *from, plus_days(*from, *rule.within->value), nullptr};
    for (const resolved::Filed& one : house.filed)
      if (one.paper == *rule.paper && one.on && *from <= *one.on && (!due.done || *one.on < *due.done->on))
        due.done = &one;
    out.push_back(due);
  }
  return out;
}

std::vector<Due> filings_between(const Basis& basis, Date from, Date to) {
  std::vector<Due> out;
  for (const FilingDue& due : filings_of(basis.form, basis.resolved)) {
    if (due.done || due.by < from || to < due.by) continue;
    Due one{Due::What::filing, due.by, std::nullopt, due.rule->with.value_or(""), last_look(basis.resolved)};
    one.paper = *due.rule->paper;
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace soundsill
