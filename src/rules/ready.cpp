// Whether a paper after the estimate has what it tells of, and the days on which it happened.
#include <algorithm>

#include "rules/aftercare.h"

namespace soundsill::rules {
namespace {

struct Ready {
  const Papers& papers;
  Faults& faults;
  const Case& c = papers.basis.c;

  void not_yet(Span at, std::string what, std::string why, std::string fix) const {
    faults.add(Rule::paper_unready, first_of({at, c.options.key, c.work.key, c.findings.key, c.at}), std::move(what),
               std::move(why), std::move(fix));
  }

  [[nodiscard]] bool option() const {
    const Treatment* t = chosen_of(papers);
    if (!t) {
      const bool billed = papers.wanted == Wanted::invoice && c.invoice && !items(c.invoice->fees).empty();
      if (billed && papers.treatments.empty()) return true;
      if (papers.treatments.empty())
        not_yet({}, "there is no work of which this paper could tell", "it would be an empty sheet",
                "add `work:` and `options:`, or hand over the packet alone");
      else if (!c.accepted.written())
        not_yet(c.options.at, std::to_string(papers.treatments.size()) + " options are offered, and none is accepted",
                "nobody could tell which of them is meant",
                "write `accepted: {option: ..., by: ..., on: ...}`, or name one with --option");
      return false;
    }
    if (!papers.chosen || papers.chosen->id == t->id) return true;
    not_yet(c.accepted ? c.accepted->option.at : Span{},
            quoted(t->id) + " is accepted, and the paper is asked for " + quoted(papers.chosen->id),
            "the crew would do what nobody has agreed to", "leave --option out, or correct what was accepted");
    return false;
  }

  void paper(const Treatment& t) const {
    const bool ours =
        std::any_of(t.tasks.begin(), t.tasks.end(), [](const Task& task) { return task.work->who() == By::us; });
    const bool done = papers.wanted == Wanted::record || papers.wanted == Wanted::certificate;
    if (papers.wanted == Wanted::work_order && !ours)
      return not_yet(t.option ? t.option->id.at : Span{}, called(t) + " has no work of ours",
                     "the crew would be sent out with an empty sheet", "make the work order for another option");
    if (papers.wanted == Wanted::work_order && !c.job.written())
      return not_yet(c.accepted.key, "no day and no crew is named for the work",
                     "a work order without them is nobody's order", "write `job: {on: ..., crew: [...]}`");
    if (papers.wanted == Wanted::invoice && !c.invoice.written())
      return not_yet(c.accepted.key, "the case has no `invoice` block", "an invoice has a number and a day",
                     "write `invoice: {number: \"...\", on: ...}`");
    if (done && !c.applied.written())
      return not_yet(c.accepted.key, "the case has no `applied` block: no treatment is on record",
                     "nothing may be said of a treatment that nobody has written down",
                     "write what was applied, day by day, under `applied:`");
    if (done && c.applied && !finished_on(c) && treated_on(c))
      return not_yet(c.applied.key, "the work is not finished: its last day says that it goes on",
                     "a record of half a treatment would be taken for the whole", "add the next day under `applied:`");
    if (papers.wanted == Wanted::certificate && c.applied && !term_of(papers.basis, t) && treated_on(c))
      return not_yet(t.option ? t.option->warranty.at : Span{}, called(t) + " carries no warranty",
                     "a certificate would promise what nobody has promised",
                     "name a warranty of the company file, or leave the certificate");
  }
};

}  // namespace

void paper_unready(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (c.accepted && c.accepted->option) {
    const auto known = all_of(items(c.options), &OptionFacts::id);
    if (std::find(known.begin(), known.end(), *c.accepted->option) == known.end())
      return faults.add(Rule::unknown_reference, c.accepted->option.at,
                        quoted(*c.accepted->option) + " is no option of this case",
                        "nobody could tell what was accepted",
                        did_you_mean(*c.accepted->option, known,
                                     known.empty() ? "add it under `options:`" : "name one of " + yaml::listed(known)));
  }
  if (papers.wanted == Wanted::packet) return;
  const Ready ready{papers, faults};
  if (!ready.option()) return;
  if (const Treatment* t = chosen_of(papers)) ready.paper(*t);
}

void revision_twice(const Papers& papers, Faults& faults) {
  const auto& facts = papers.basis.c.facts;
  if (!facts || !facts->revision || !facts->replaces || !facts->replaces->revision) return;
  const int now = *facts->revision, old = *facts->replaces->revision;
  if (old < now) return;
  faults.add({Rule::revision_twice,
              facts->replaces->revision.at,
              "revision " + std::to_string(now) + " replaces revision " + std::to_string(old),
              "two papers of one case with one number: nobody could tell which counts",
              "count `revision:` up by one for each paper that leaves the house",
              {{facts->revision.at, "the number of this paper"}}});
}

namespace {

/// Days that must not come before another, each told once.
struct Order {
  const Papers& papers;
  Faults& faults;
  const Case& c = papers.basis.c;

  bool after(const Field<Date>& later, const std::string& what, const Field<Date>& earlier,
             const std::string& than) const {
    if (!later || !earlier || *earlier <= *later) return true;
    faults.add({Rule::service_dates,
                later.at,
                what + " on " + print(*later) + " comes before " + than + " on " + print(*earlier),
                "a reader who sees impossible days trusts no other figure of the record",
                "correct whichever of the two days was mistyped",
                {{earlier.at, than}}});
    return false;
  }

  [[nodiscard]] const Field<Date>* first_visit() const {
    const Field<Date>* first = nullptr;
    for (const Visit& v : items(c.visits))
      if (v.date && (!first || *v.date < **first)) first = &v.date;
    return first;
  }
  [[nodiscard]] const Field<Date>* first_day() const {
    const Field<Date>* first = nullptr;
    for (const Applied& day : items(c.applied))
      if (day.on && !day.retreatment.value_or(false) && (!first || *day.on < **first)) first = &day.on;
    return first;
  }

  void acceptance() const {
    if (!c.accepted) return;
    const auto& accepted = c.accepted->on;
    if (const auto* visit = first_visit()) after(accepted, "the acceptance", *visit, "the visit");
    if (c.job) after(c.job->on, "the work", accepted, "the acceptance");
    for (const Applied& day : items(c.applied))
      if (!after(day.on, "the treatment", accepted, "the acceptance")) return;
  }

  void ticket() const {
    if (!c.job || !c.job->locate) return;
    const Locate& l = *c.job->locate;
    if (after(l.from, "the day the ticket begins", l.called, "the call for it"))
      after(l.until, "the day the ticket ends", l.from, "the day it begins");
  }

  void days() const {
    for (const Applied& day : items(c.applied)) {
      if (day.goes_on) after(day.goes_on, "the day the work goes on", day.on, "the day before it");
      if (day.retreatment.value_or(false)) {
        if (const auto* first = first_day()) after(day.on, "the retreatment", *first, "the treatment");
      }
      if (!day.from || !day.to || *day.from < *day.to) continue;
      faults.add(Rule::service_dates, day.to.at,
                 "the treatment ends at " + print(*day.to) + ", and began at " + print(*day.from),
                 "a record that takes no time looks as if nobody had been there", "correct one of the two hours");
    }
  }

  void events() const {
    const Field<Date>* first = first_day();
    for (const WarrantyEvent& e : items(c.warranty)) {
      if (!e.did || !e.on) continue;
      const std::string what = "`" + std::string(yaml::word(*e.did)) + "`";
      const bool told = c.applied.unread() || (c.applied && !first);  // of days that could not be read
      if (first)
        after(e.on, what, *first, "the treatment");
      else if (!told)
        faults.add(Rule::service_dates, e.on.at, what + " on " + print(*e.on) + " has no treatment before it",
                   "a warranty begins with the treatment, and no treatment is on record",
                   "write the day of treatment under `applied:`");
      if (e.settled) after(e.settled, "the day it was settled", e.on, what);
    }
  }
};

}  // namespace

void service_dates(const Papers& papers, Faults& faults) {
  const Order order{papers, faults};
  order.acceptance();
  order.ticket();
  order.days();
  order.events();
}

}  // namespace soundsill::rules
