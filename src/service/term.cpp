// How long a warranty runs, and what comes due.
#include <algorithm>

#include "service/service.h"

namespace soundsill {
namespace {

std::string holder_of(const Case& c) {
  std::string holder;
  if (c.people)
    for (const auto* person : {&c.people->buyer, &c.people->owner, &c.people->seller})
      if (holder.empty() && *person && (*person)->name) holder = *(*person)->name;
  for (const WarrantyEvent& e : items(c.warranty))
    if (e.did && *e.did == WarrantyDid::transferred && e.to) holder = *e.to;
  return holder;
}

int count_of(const Case& c, WarrantyDid did) {
  int count = 0;
  for (const WarrantyEvent& e : items(c.warranty))
    if (e.did && *e.did == did) ++count;
  return count;
}

/// Days on which the house was looked at again after its treatment.
std::vector<Date> looks_since(const Case& c, Date treated) {
  std::vector<Date> days;
  for (const Visit& v : items(c.visits))
    if (v.date && v.made_for && *v.made_for == VisitFor::reinspection && *v.date > treated) days.push_back(*v.date);
  for (const WarrantyEvent& e : items(c.warranty))
    if (e.did && *e.did == WarrantyDid::inspected && e.on && !e.visit) days.push_back(*e.on);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

}  // namespace

std::optional<Term> term_of(const Basis& basis, const Treatment& treatment) {
  const auto treated = treated_on(basis.c);
  if (!treated || !treatment.option || !treatment.option->warranty) return std::nullopt;
  const WarrantyFacts* facts = basis.company.warranty(*treatment.option->warranty);
  if (!facts || !facts->kind || *facts->kind == WarrantyKind::none || !facts->months) return std::nullopt;
  Term term;
  term.facts = facts;
  term.from = *treated;
  term.renewals = count_of(basis.c, WarrantyDid::renewed);
  term.until = plus_months(*treated, *facts->months * (1 + term.renewals));
  for (const WarrantyEvent& e : items(basis.c.warranty))
    if (e.did && *e.did == WarrantyDid::missed) term.missed = &e;
  term.holder = holder_of(basis.c);
  return term;
}

std::optional<Date> last_look(const Case& c) {
  std::optional<Date> last;
  const auto take = [&](const Field<Date>& day) {
    if (day && (!last || *last < *day)) last = *day;
  };
  for (const Visit& v : items(c.visits)) take(v.date);
  for (const WarrantyEvent& e : items(c.warranty))
    if (e.did && *e.did == WarrantyDid::inspected) take(e.on);
  return last;
}

std::vector<Due> due_between(const Basis& basis, const Treatment& treatment, Date from, Date to) {
  std::vector<Due> out;
  const auto term = term_of(basis, treatment);
  const auto put = [&](Due::What what, Date on, std::optional<Money> fee) {
    if (on < from || to < on) return;
    out.push_back({what, on, fee, term ? term->holder : holder_of(basis.c), last_look(basis.c)});
  };
  if (term && !term->missed) {
    const WarrantyFacts& facts = *term->facts;
    if (facts.renewal) put(Due::What::renewal, term->until, *facts.renewal);
    if (facts.reinspect_months && *facts.reinspect_months > 0) {
      const int made = static_cast<int>(looks_since(basis.c, term->from).size());
      const Date next = plus_months(term->from, *facts.reinspect_months * (1 + made));
      if (next <= term->until) put(Due::What::reinspection, next, std::nullopt);
    }
  }
  for (const WarrantyEvent& e : items(basis.c.warranty))
    if (e.did && *e.did == WarrantyDid::notice && e.on && !e.settled)
      if (const auto day = beetles_due(basis.form, *e.on)) put(Due::What::notice, *day, std::nullopt);
  std::stable_sort(out.begin(), out.end(), [](const Due& a, const Due& b) { return a.on < b.on; });
  return out;
}

std::optional<Date> free_until(const Form& form, const Case& c) {
  const auto& rule = form.free_treatment;
  if (!rule || !rule->days || !rule->from) return std::nullopt;
  std::optional<Date> day;
  if (*rule->from == CountedFrom::issue) {
    if (c.signature && c.signature->on) day = *c.signature->on;
  } else {
    for (const Visit& v : items(c.visits))
      if (v.date && (!v.made_for || *v.made_for == VisitFor::inspection) && (!day || *day < *v.date)) day = *v.date;
  }
  return day ? std::optional(plus_days(*day, *rule->days)) : std::nullopt;
}

bool veteran_may_pay(const Form& form, Date on, bool notice_requires) {
  const auto& rule = form.invoice;
  if (!rule || !rule->veteran_pays_from || !rule->veteran_pays_from->value) return true;
  return notice_requires && *rule->veteran_pays_from->value <= on;
}

std::optional<Date> beetles_until(const Form& form, Date treated) {
  const auto& rule = form.beetles;
  if (!rule || !rule->months || !rule->months->value) return std::nullopt;
  return plus_months(treated, *rule->months->value);
}

std::optional<Date> beetles_due(const Form& form, Date noticed) {
  const auto& rule = form.beetles;
  if (!rule || !rule->days || !rule->days->value) return std::nullopt;
  return plus_days(noticed, *rule->days->value);
}

}  // namespace soundsill
