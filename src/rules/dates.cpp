// Serves rules/each.h. Days in the order in which things happen, and how long the paper holds.
#include <algorithm>

#include "rules/calendar.h"
#include "rules/look.h"
#include "service/service.h"

namespace soundsill::rules {
namespace {

struct Day {
  const Field<Date>& date;
  std::string what;
};

/// Reports when `later` lies before `earlier`.
bool in_order(const Day& earlier, const Day& later, Faults& faults) {
  if (!earlier.date || !later.date || *earlier.date <= *later.date) return true;
  faults.add(
      {Rule::dates_out_of_order,
       later.date.at,
       later.what + " on " + print(*later.date) + " comes before " + earlier.what + " on " + print(*earlier.date),
       "a reader who sees impossible dates trusts nothing else on the paper",
       "correct whichever of the two days was mistyped",
       {{earlier.date.at, earlier.what}}});
  return false;
}

std::string named(const Visit& visit) { return visit.id ? quoted(*visit.id) : "the visit"; }

const Visit* first_visit(const Case& c) {
  const Visit* first = nullptr;
  for (const Visit& v : items(c.visits))
    if (v.date && (!first || *v.date < *first->date)) first = &v;
  return first;
}

void around_the_case(const CaseFacts& facts, Faults& faults) {
  const Day ordered{facts.ordered, "the order"}, closing{facts.closing, "closing"};
  const Day due{facts.due_diligence, "the end of due diligence"};
  in_order(ordered, due, faults);
  if (!in_order(due, closing, faults)) return;
  if (!facts.due_diligence) in_order(ordered, closing, faults);
}

void around_the_visits(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  bool good = true;
  for (const Visit& visit : items(c.visits)) {
    const Day day{visit.date, named(visit)};
    if (c.facts) good &= in_order({c.facts->ordered, "the order"}, day, faults);
    if (c.signature) good &= in_order(day, {c.signature->on, "the signature"}, faults);
  }
  const Visit* first = first_visit(c);
  if (!good || !first) return;  // one wrong visit is one message
  const Day visit{first->date, named(*first)};
  if (c.official_sheet) in_order(visit, {c.official_sheet->signed_on, "the official sheet"}, faults);
  for (const Work& work : items(c.work)) in_order(visit, {work.before, "the last day for " + said(work)}, faults);
}

void around_the_signature(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (!c.signature) return;
  const Day signature{c.signature->on, "the signature"};
  if (c.facts) {
    // A closing that comes too early for the signature is one message, not two.
    if (in_order(signature, {c.facts->closing, "closing"}, faults) && c.official_sheet)
      in_order({c.official_sheet->signed_on, "the official sheet"}, {c.facts->closing, "closing"}, faults);
    if (c.facts->replaces) in_order({c.facts->replaces->on, "the earlier revision"}, signature, faults);
  }
  for (const Work& work : items(c.work)) {
    if (work.agreed) in_order({work.agreed->on, "the agreement to " + said(work)}, signature, faults);
    const bool sale = c.facts && c.facts->purpose && *c.facts->purpose == Purpose::sale;
    if (sale) in_order({work.before, "the last day for " + said(work)}, {c.facts->closing, "closing"}, faults);
  }
  if (papers.today && c.signature->on && *papers.today < *c.signature->on)
    faults.add(Rule::dates_out_of_order, c.signature->on.at,
               "the signature on " + print(*c.signature->on) + " is later than today, " + print(*papers.today),
               "a paper signed ahead of its day tells of what nobody has seen yet",
               "write the day on which it is signed");
}

void hours(const Visit& visit, Faults& faults) {
  if (!visit.from || !visit.to || *visit.from < *visit.to) return;
  faults.add({Rule::dates_out_of_order,
              visit.to.at,
              named(visit) + " ends at " + print(*visit.to) + ", and began at " + print(*visit.from),
              "a visit that takes no time looks as if nobody had been there",
              "write the hours of a day from 0:00 to 23:59",
              {{visit.from.at, "it began here"}}});
}

}  // namespace

void dates_out_of_order(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (c.facts) around_the_case(*c.facts, faults);
  around_the_visits(papers, faults);
  around_the_signature(papers, faults);
  for (const Visit& visit : items(c.visits)) hours(visit, faults);
}

std::optional<Date> holds_until(const Basis& basis) {
  if (!basis.form.limits || !basis.c.signature || !basis.c.signature->on) return std::nullopt;
  const auto& age = basis.form.limits->report_age;
  if (!age || !age->value) return std::nullopt;
  return plus_days(*basis.c.signature->on, *age->value);
}

void report_late(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto& rule = papers.basis.form.report;
  if (!rule || !rule->deliver_within || !rule->deliver_within->value || !c.signature || !c.signature->on) return;
  const Datum<int>& within = *rule->deliver_within;
  const Field<Date>* last = nullptr;
  for (const Visit& v : items(c.visits))
    if (v.date && (!last || **last < *v.date)) last = &v.date;
  if (!last || days_between(**last, *c.signature->on) <= *within.value) return;
  faults.add({Rule::report_late,
              c.signature->on.at,
              "the paper is signed " + std::to_string(days_between(**last, *c.signature->on)) +
                  " days after the last visit, and " + std::to_string(*within.value) + " are given to deliver it",
              "a report that is delivered late breaks the state's rule, however good it is" + cited(within.cite),
              "correct whichever day was mistyped, or look again and add that visit",
              {{last->at, "the last visit"}},
              rests_on(within)});
}

void filing_late(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto due = filings_of(papers.basis.form, papers.basis.resolved);
  for (const FilingDue& one : due) {
    const Datum<int>& within = *one.rule->within;
    const std::string paper = *one.rule->paper, from = std::string(yaml::word(*one.rule->from));
    const std::string days = std::to_string(*within.value);
    const std::string why = "the state gives " + days + " days from the " + from + " to file it with " +
                            one.rule->with.value_or("") + cited(within.cite);
    if (one.done && one.by < *one.done->on)
      faults.add(Rule::filing_late, one.done->on_at,
                 "the " + paper + " was filed " + std::to_string(days_between(one.from, *one.done->on)) +
                     " days after the " + from + "; " + days + " are given",
                 why, "correct the day if it was mistyped; else tell that office why", rests_on(within));
    if (!one.done && papers.today && one.by < *papers.today)
      faults.add(Rule::filing_late, first_of({c.filed.key, c.signature.key, c.at}),
                 "the " + paper + " was due on " + print(one.by) + "; nothing says that it was filed", why,
                 "write `filed: [{paper: " + paper + ", on: ...}]`", rests_on(within));
  }
  std::vector<std::string_view> known;
  for (const Filing& rule : items(papers.basis.form.filings))
    if (rule.paper && std::find(known.begin(), known.end(), *rule.paper) == known.end()) known.push_back(*rule.paper);
  for (const resolved::Filed& filed : papers.basis.resolved.filed)
    if (std::find(known.begin(), known.end(), filed.paper) == known.end())
      faults.add(
          Rule::unknown_reference, filed.paper_at, quoted(filed.paper) + " is no paper that the form wants filed",
          "nobody could tell which duty it settles", known.empty() ? "take it out" : "write " + yaml::listed(known));
}

void lapses(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const Datum<int>* age = limit(papers, &Limits::report_age);
  const auto last = holds_until(papers.basis);
  if (!age || !last || !c.facts || !c.facts->closing || *c.facts->closing <= *last) return;
  const int days = days_between(*c.signature->on, *c.facts->closing);
  faults.add({Rule::lapses,
              c.facts->closing.at,
              "closing comes " + std::to_string(days) + " days after the signature, and the paper holds for " +
                  std::to_string(*age->value),
              "the lender may ask for a new inspection in the week of closing" + cited(age->cite),
              "look again before closing: add the visit under `visits:`, and sign after it",
              {{c.signature->on.at, "signed on this day"}}});
}

}  // namespace soundsill::rules
