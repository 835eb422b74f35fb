// Serves rules/each.h. Whether a paper after the estimate has what it tells of, and the days on which it happened.
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

  /// Reports a treatment on record of which nobody can tell what it was: no warranty could be reckoned from it.
  [[nodiscard]] bool whose() const {
    if (!c.applied.written() || c.accepted.written() || c.options.unread() || c.work.unread()) return false;
    if (chosen_treatment(papers.basis.resolved, papers.treatments)) return false;
    not_yet(c.applied.key,
            papers.treatments.empty() ? "a treatment is on record, and the case has no work that it could be of"
                                      : "a treatment is on record, and none of " +
                                            std::to_string(papers.treatments.size()) + " options is accepted",
            "nobody could tell what was warranted, and what comes due would be forgotten",
            papers.treatments.empty() ? "add `work:` and `options:`, or take `applied:` out"
                                      : "write `accepted: {option: ..., by: ..., on: ...}`");
    return true;
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
    if (done && c.applied && !finished_on(papers.basis.resolved) && treated_on(papers.basis.resolved))
      return not_yet(c.applied.key, "the work is not finished: its last day says that it goes on",
                     "a record of half a treatment would be taken for the whole", "add the next day under `applied:`");
    if (papers.wanted == Wanted::certificate && c.applied && !term_of(papers.basis, t) &&
        treated_on(papers.basis.resolved))
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
  const Ready ready{papers, faults};
  if (ready.whose()) return;
  if (papers.wanted == Wanted::packet || papers.wanted == Wanted::notice) return;
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

/// A day that comes before what it follows.
struct Slip {
  const Field<Date>* later = nullptr;
  std::string what;
  const Field<Date>* earlier = nullptr;
  std::string than;
};

/// Days that must not come before another. What contradicts one day is told in one message: most likely that day was
/// mistyped.
struct Order {
  const Papers& papers;
  Faults& faults;
  const Case& c = papers.basis.c;
  std::vector<Slip> slips{};

  /// Whether nothing was wrong.
  bool after(const Field<Date>& later, const std::string& what, const Field<Date>* earlier, const std::string& than) {
    if (!later || !earlier || !*earlier || **earlier <= *later) return true;
    slips.push_back({&later, what, earlier, than});
    return false;
  }

  [[nodiscard]] const Field<Date>* first_visit() const {
    const Field<Date>* first = nullptr;
    for (const Visit& v : items(c.visits))
      if (v.date && (!first || *v.date < **first)) first = &v.date;
    return first;
  }

  void acceptance() {
    if (!c.accepted) return;
    const auto& accepted = c.accepted->on;
    after(accepted, "the acceptance", first_visit(), "the visit");
    if (c.job) after(c.job->on, "the work", &accepted, "the acceptance");
    for (const Applied& day : items(c.applied))
      if (!after(day.on, "the treatment", &accepted, "the acceptance")) return;
  }

  void papers_signed() {
    const auto* visit = first_visit();
    if (c.agreement) {
      after(c.agreement->on, "the agreement", visit, "the visit");
      after(c.agreement->fungus_notice, "the notice of fungi", visit, "the visit");
    }
    for (const WaiverSheet& sheet : items(c.waivers)) {
      after(sheet.on, "the waiver", visit, "the visit");
      if (sheet.owner_accepts) after(sheet.owner_accepts->on, "the owner's signature", visit, "the visit");
      if (sheet.agreed_after) after(sheet.agreed_after->on, "the later agreement", &sheet.on, "the waiver");
    }
  }

  /// An inspection may be paid when it is ordered, and billed on its day; work is billed once it is accepted.
  void money() {
    if (!c.invoice) return;
    const auto* visit = first_visit();
    const bool ordered = c.facts && c.facts->ordered;
    if (after(c.invoice->on, "the invoice", visit, "the visit") && c.accepted)
      after(c.invoice->on, "the invoice", &c.accepted->on, "the acceptance");
    for (const Payment& p : items(c.invoice->paid))
      after(p.on, "the payment", ordered ? &c.facts->ordered : visit, ordered ? "the order" : "the visit");
  }

  void ticket() {
    if (!c.job || !c.job->locate) return;
    const Locate& l = *c.job->locate;
    after(l.called, "the call for the ticket", first_visit(), "the visit");
    if (after(l.from, "the day the ticket begins", &l.called, "the call for it"))
      after(l.until, "the day the ticket ends", &l.from, "the day it begins");
  }

  void days() {
    for (const Applied& day : items(c.applied)) {
      if (day.goes_on && day.on && *day.goes_on <= *day.on)
        faults.add({Rule::service_dates,
                    day.goes_on.at,
                    "the work goes on on " + print(*day.goes_on) + ", which is not after " + print(*day.on),
                    "a reader who sees impossible days trusts no other figure of the record",
                    "write the next day of work, or take `goes on:` out when it is finished",
                    {{day.on.at, "the day before it"}}});
      if (day.retreatment.value_or(false)) after(day.on, "the retreatment", first_day_typed(papers), "the treatment");
      if (!day.from || !day.to || *day.from < *day.to) continue;
      faults.add(Rule::service_dates, day.to.at,
                 "the treatment ends at " + print(*day.to) + ", and began at " + print(*day.from),
                 "a record that takes no time looks as if nobody had been there", "correct one of the two hours");
    }
  }

  void events() {
    const Field<Date>* first = first_day_typed(papers);
    const WarrantyEvent* missed = nullptr;
    for (const WarrantyEvent& e : items(c.warranty))
      if (e.did && e.on && *e.did == WarrantyDid::missed && (!missed || *e.on < *missed->on)) missed = &e;
    for (const WarrantyEvent& e : items(c.warranty)) {
      if (!e.did || !e.on) continue;
      const std::string what = "`" + std::string(yaml::word(*e.did)) + "`";
      const bool told = c.applied.unread() || (c.applied && !first);  // of days that could not be read
      if (first)
        after(e.on, what, first, "the treatment");
      else if (!told)
        faults.add(Rule::service_dates, e.on.at, what + " on " + print(*e.on) + " has no treatment before it",
                   "a warranty begins with the treatment, and no treatment is on record",
                   "write the day of treatment under `applied:`");
      if (e.settled) after(e.settled, "the day it was settled", &e.on, what);
      if (missed && *e.did == WarrantyDid::renewed && *missed->on < *e.on)
        faults.add({Rule::service_dates,
                    e.on.at,
                    what + " on " + print(*e.on) + " comes after the warranty ended on " + print(*missed->on),
                    "the certificate would call a warranty ended that was paid for",
                    "take the event `missed` out, or the renewal",
                    {{missed->on.at, "missed on this day"}}});
    }
  }

  /// What has happened lies behind today. Only work, tickets and what goes on may be planned ahead.
  void future() {
    if (!papers.today) return;
    const auto past = [&](const Field<Date>& on, const std::string& what) {
      if (!on || *on <= *papers.today) return;
      faults.add(Rule::service_dates, on.at,
                 what + " on " + print(*on) + " is later than today, " + print(*papers.today),
                 "the paper would tell of what nobody has done yet", "write the day on which it happened");
    };
    if (c.accepted) past(c.accepted->on, "the acceptance");
    if (c.job && c.job->locate) past(c.job->locate->called, "the call for the ticket");
    if (c.agreement) past(c.agreement->on, "the agreement"), past(c.agreement->fungus_notice, "the notice of fungi");
    for (const WaiverSheet& sheet : items(c.waivers)) {
      past(sheet.on, "the waiver");
      if (sheet.owner_accepts && (!sheet.on || *sheet.on <= *papers.today))
        past(sheet.owner_accepts->on, "the owner's signature");
    }
    for (const Applied& day : items(c.applied))
      past(day.on, day.retreatment.value_or(false) ? "the retreatment" : "the treatment");
    if (c.invoice) {
      past(c.invoice->on, "the invoice");
      for (const Payment& p : items(c.invoice->paid)) past(p.on, "the payment");
    }
    for (const WarrantyEvent& e : items(c.warranty)) {
      if (e.did) past(e.on, "`" + std::string(yaml::word(*e.did)) + "`");
      if (e.on && *e.on <= *papers.today) past(e.settled, "the day it was settled");
    }
  }

  void tell() const {
    for (std::size_t i = 0; i < slips.size(); ++i) {
      const Slip& s = slips[i];
      const auto same = [&](const Slip& other) { return other.earlier == s.earlier; };
      if (std::any_of(slips.begin(), slips.begin() + static_cast<std::ptrdiff_t>(i), same)) continue;
      Diagnostic d{Rule::service_dates,
                   s.later->at,
                   s.what + " on " + print(**s.later) + " comes before " + s.than + " on " + print(**s.earlier),
                   "a reader who sees impossible days trusts no other figure of the record",
                   "correct whichever of the two days was mistyped",
                   {{s.earlier->at, s.than}}};
      for (std::size_t j = i + 1; j < slips.size(); ++j)
        if (same(slips[j])) {
          d.fix = "correct " + s.than + " if it was mistyped, else each of the others";
          d.see.push_back({slips[j].later->at, slips[j].what + " comes before it, too"});
        }
      faults.add(std::move(d));
    }
  }
};

}  // namespace

void service_dates(const Papers& papers, Faults& faults) {
  Order order{papers, faults};
  order.acceptance();
  order.papers_signed();
  order.ticket();
  order.money();
  order.days();
  order.events();
  order.future();
  order.tell();
}

}  // namespace soundsill::rules
