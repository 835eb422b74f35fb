// Serves service/service.h. How long a warranty runs, and what comes due.
#include <algorithm>

#include "service/service.h"

namespace soundsill {
namespace {

/// Who holds the warranty on a day; after the last transfer when no day is asked for.
std::string holder_of(const resolved::Resolved& house, std::optional<Date> on = std::nullopt) {
  std::string holder;
  for (const resolved::Person* person : {&house.people.buyer, &house.people.owner, &house.people.seller})
    if (holder.empty()) holder = person->name;
  std::optional<Date> last;
  for (const resolved::WarrantyEvent& e : house.warranty) {
    if (!e.did || *e.did != WarrantyDid::transferred || e.to.empty() || !e.on) continue;
    if ((on && *on < *e.on) || (last && *e.on < *last)) continue;
    last = *e.on;
    holder = e.to;
  }
  return holder;
}

int count_of(const resolved::Resolved& house, WarrantyDid did) {
  int count = 0;
  for (const resolved::WarrantyEvent& e : house.warranty)
    if (e.did && *e.did == did) ++count;
  return count;
}

/// Days on which the house was looked at again after its treatment.
std::vector<Date> looks_since(const resolved::Resolved& house, Date treated) {
  std::vector<Date> days;
  for (const resolved::Visit& v : house.visits)
    if (v.date && v.made_for == VisitFor::reinspection && *v.date > treated) days.push_back(*v.date);
  for (const resolved::WarrantyEvent& e : house.warranty)
    if (e.did && *e.did == WarrantyDid::inspected && e.on && e.visit.empty()) days.push_back(*e.on);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

}  // namespace

std::optional<Term> term_of(const Basis& basis, const Treatment& treatment) {
  const auto treated = treated_on(basis.resolved);
  if (!treated || !treatment.of) return std::nullopt;
  const WarrantyFacts* facts = treatment.of->warranty;
  if (!facts || !facts->kind || *facts->kind == WarrantyKind::none || !facts->months) return std::nullopt;
  Term term;
  term.facts = facts;
  term.from = *treated;
  term.renewals = count_of(basis.resolved, WarrantyDid::renewed);
  constexpr std::int64_t most = 12 * 1'000;  // a calendar of years beyond four digits is nobody's
  const std::int64_t months = std::int64_t{*facts->months} * (1 + term.renewals);
  if (months < 1 || months > most) return std::nullopt;
  term.until = plus_months(*treated, static_cast<int>(months));
  for (const resolved::WarrantyEvent& e : basis.resolved.warranty)
    if (e.did && *e.did == WarrantyDid::missed && e.on && (!term.missed || *e.on < *term.missed->on)) term.missed = &e;
  if (term.missed) term.until = std::min(*term.missed->on, term.until);
  term.holder = holder_of(basis.resolved);
  return term;
}

std::optional<Date> last_look(const resolved::Resolved& house) {
  std::optional<Date> last;
  const auto take = [&](const std::optional<Date>& day) {
    if (day && (!last || *last < *day)) last = *day;
  };
  for (const resolved::Visit& v : house.visits) take(v.date);
  for (const resolved::WarrantyEvent& e : house.warranty)
    if (e.did && *e.did == WarrantyDid::inspected) take(e.on);
  return last;
}

namespace {

/// Ends of the periods in which the house is to be looked at, from the first that no look counts for.
std::vector<Date> looks_due(const resolved::Resolved& house, const Term& term, Date to) {
  std::vector<Date> out;
  const int every = term.facts->reinspect_months.value_or(0);
  if (every < 1) return out;
  const auto looks = looks_since(house, term.from);
  for (int i = 1;; ++i) {
    const Date begin = plus_months(term.from, every * (i - 1)), end = plus_months(term.from, every * i);
    if (end > term.until || end > to) return out;
    const bool looked = !looks.empty() && days_between(looks.back(), end) * 2 <= days_between(begin, end);
    if (!looked) out.push_back(end);
  }
}

}  // namespace

std::vector<Due> due_between(const Basis& basis, const Treatment& treatment, Date from, Date to) {
  std::vector<Due> out;
  const auto term = term_of(basis, treatment);
  const auto put = [&](Due::What what, Date on, std::optional<Money> fee) {
    if (on < from || to < on) return;
    out.push_back({what, on, fee, holder_of(basis.resolved, on), last_look(basis.resolved)});
  };
  if (term && !term->missed) {
    const WarrantyFacts& facts = *term->facts;
    if (facts.renewal) put(Due::What::renewal, term->until, *facts.renewal);
    for (const Date end : looks_due(basis.resolved, *term, to)) put(Due::What::reinspection, end, std::nullopt);
  }
  const auto treated = treated_on(basis.resolved);
  const auto obliged = treated ? beetles_until(basis.form, *treated) : std::nullopt;
  for (const resolved::WarrantyEvent& e : basis.resolved.warranty)
    if (e.did && *e.did == WarrantyDid::notice && e.on && !e.settled && (!obliged || *e.on <= *obliged))
      if (const auto day = beetles_due(basis.form, *e.on)) put(Due::What::notice, *day, std::nullopt);
  std::stable_sort(out.begin(), out.end(), [](const Due& a, const Due& b) { return a.on < b.on; });
  return out;
}

std::optional<int> free_days(const Form& form, const resolved::Resolved& house) {
  if (house.agreement && house.agreement->free_days) return *house.agreement->free_days;
  const auto& rule = form.free_treatment;
  return rule && rule->days ? std::optional(*rule->days) : std::nullopt;
}

std::optional<Date> free_until(const Form& form, const resolved::Resolved& house) {
  const auto& rule = form.free_treatment;
  const auto days = free_days(form, house);
  if (!rule || !rule->from || !days) return std::nullopt;
  std::optional<Date> day;
  if (*rule->from == CountedFrom::issue) {
    if (house.signature && house.signature->on) day = *house.signature->on;
  } else {
    for (const resolved::Visit& v : house.visits)
      if (v.date && v.made_for == VisitFor::inspection && (!day || *day < *v.date)) day = *v.date;
  }
  return day ? std::optional(plus_days(*day, *days)) : std::nullopt;
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
