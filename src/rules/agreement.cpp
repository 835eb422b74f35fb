// Serves rules/each.h. What is signed before the work, and by when.
#include <algorithm>

#include "rules/aftercare.h"

namespace soundsill::rules {
namespace {

bool leaves_out(const Papers& papers, const Treatment& t) {
  const auto& rule = papers.basis.form.partial;
  const bool waiver = rule && rule->value && *rule->value == Partial::waiver;
  return waiver && t.option && t.option->scope && *t.option->scope != Scope::full;
}

/// A waiver that was signed too late holds only when both agreed to it.
void in_time(const Papers& papers, const Field<Date>& on, const std::string& who, bool agreed, Faults& faults) {
  const auto begin = begins(papers.basis.resolved);
  if (!on || !begin || *on <= *begin || agreed) return;
  const auto& rule = papers.basis.form.partial;
  faults.add(
      Rule::waiver_unsigned, on.at, who + " on " + print(*on) + ", after the work began on " + print(*begin),
      "a waiver that follows the work holds only when both agree to it" + (rule ? cited(rule->cite) : std::string()),
      "correct the day, or write `agreed after: {by: ..., on: ...}` once both have agreed");
}

/// The lines that the scope of an option cuts, or leaves out altogether.
std::vector<const Work*> lines_cut(const Case& c, const Treatment& t) {
  std::vector<const Work*> out;
  for (const Work& w : items(c.work))
    if (w.id && std::any_of(c.scoped.begin(), c.scoped.end(),
                            [&](const ScopedLine& s) { return s.option == t.id && s.line == *w.id; }))
      out.push_back(&w);
  return out;
}

void signed_sheet(const Papers& papers, const Treatment& t, const WaiverSheet& sheet, Faults& faults) {
  const auto& rule = papers.basis.form.partial;
  if (!sheet.owner_accepts.written())
    return faults.add(Rule::waiver_unsigned, first_of({sheet.leaves_out.at, sheet.at}),
                      "the waiver of " + called(t) + " is not signed by the owner",
                      "a waiver that one side has not signed is none, and the work may not begin" +
                          (rule ? cited(rule->cite) : std::string()),
                      "write `owner accepts: {by: ..., on: ...}` once it is signed");
  const bool agreed = sheet.agreed_after.written();
  in_time(papers, sheet.on, "the waiver was signed", agreed, faults);
  if (sheet.on && sheet.owner_accepts && sheet.owner_accepts->on && *sheet.on != *sheet.owner_accepts->on)
    in_time(papers, sheet.owner_accepts->on, "the owner accepted the waiver", agreed, faults);
}

/// Each line that is cut needs a waiver of its own, or a sheet that takes it in.
void signed_sheets(const Papers& papers, const Treatment& t, Faults& faults) {
  const Case& c = papers.basis.c;
  if (c.waivers.unread()) return;
  std::vector<const resolved::WaiverSheet*> sheets;
  std::vector<std::string> bare;
  const auto look = [&](const resolved::WaiverSheet* sheet, const std::string& line) {
    if (!sheet)
      bare.push_back(line);
    else if (std::find(sheets.begin(), sheets.end(), sheet) == sheets.end())
      sheets.push_back(sheet);
  };
  const auto cut = lines_cut(c, t);
  for (const Work* w : cut)
    if (!w->waiver.written()) look(sheet_of(papers.basis.resolved, t.id, *w->id), said(*w));
  if (cut.empty()) look(sheet_of(papers.basis.resolved, t.id, {}), {});
  for (const resolved::WaiverSheet* sheet : sheets) signed_sheet(papers, t, *sheet->typed, faults);
  if (bare.empty()) return;
  const auto& rule = papers.basis.form.partial;
  const std::string of = bare.size() < cut.size() ? " at " + listed(bare) : std::string();
  const Rests rests = rule ? rests_on(*rule) : Rests::read;
  faults.add(Rule::waiver_unsigned, first_of({c.accepted ? c.accepted->option.at : Span{}, t.option->scope.at}),
             called(t) + " leaves out of the minimum" + of + ", and no waiver of it is signed",
             "the work may not begin before the owner has waived in writing what is left out" +
                 (rule ? cited(rule->cite) : std::string()),
             "take the worksheet of the agreement, have the state's form signed, and write it under `waivers:`", rests);
}

/// A run that was left out was waived by the end of that day.
void left_runs(const Papers& papers, Faults& faults) {
  for (const Applied& day : items(papers.basis.c.applied))
    for (const AppliedRun& entry : items(day.runs)) {
      if (!entry.untreated || !entry.untreated->on || !day.on || *entry.untreated->on <= *day.on) continue;
      faults.add({Rule::waiver_unsigned,
                  entry.untreated->on.at,
                  "run " + (entry.run ? std::to_string(*entry.run) : std::string("?")) + " was left untreated on " +
                      print(*day.on) + ", and waived only on " + print(*entry.untreated->on),
                  "until it is waived the full minimum is the standard, and the work falls short of it",
                  "correct the day, or treat the run and record its gallons",
                  {{day.on.at, "the day of the work"}}});
    }
}

}  // namespace

void waiver_unsigned(const Papers& papers, Faults& faults) {
  const Treatment* t = under_way(papers);
  if (!t || papers.wanted == Wanted::agreement) return;
  std::vector<std::string_view> told;
  for (const Task& task : t->tasks) {
    const Work& w = *task.work;
    const std::string_view id = w.id ? std::string_view(*w.id) : std::string_view();
    if (!w.waiver || std::find(told.begin(), told.end(), id) != told.end()) continue;
    told.push_back(id);
    in_time(papers, w.waiver->on, "the waiver of " + said(w) + " was signed", false, faults);
  }
  left_runs(papers, faults);
  if (leaves_out(papers, *t)) signed_sheets(papers, *t, faults);
}

void agreement_late(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto& rule = papers.basis.form.agreement;
  const auto treated = treated_on(papers.basis.resolved);
  if (!rule || !rule->within_days || !rule->within_days->value || !treated) return;
  const int days = *rule->within_days->value;
  const std::string why =
      "after that day the full minimum is the standard, whatever was agreed" + cited(rule->within_days->cite);
  if (c.agreement && c.agreement->on && days_between(*treated, *c.agreement->on) > days)
    faults.add(Rule::agreement_late, c.agreement->on.at,
               "the agreement comes " + std::to_string(days_between(*treated, *c.agreement->on)) +
                   " days after treatment began, not within " + std::to_string(days),
               why, "correct the day if it was mistyped; else ask the regulator before anything is printed",
               rests_on(*rule->within_days));
  if (!c.agreement.written() && papers.today && days_between(*treated, *papers.today) > days)
    faults.add(Rule::agreement_late, c.applied.key,
               "treatment began " + std::to_string(days_between(*treated, *papers.today)) +
                   " days ago, and no agreement is signed",
               why, "have it signed, and write `agreement: {on: ..., by: ...}`", rests_on(*rule->within_days));
}

void agreement_unattached(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto& rule = papers.basis.form.agreement;
  const auto treated = treated_on(papers.basis.resolved);
  if (!rule || !rule->with_report || !rule->with_report->value.value_or(false) || !treated) return;
  if (!c.signature || !c.signature->on || *c.signature->on < *treated) return;
  const Treatment* t = chosen_of(papers);
  if (!t || (c.agreement && c.agreement->attached.unread()) || c.agreement.unread()) return;
  const auto& attached = c.agreement ? items(c.agreement->attached) : items(ListField<Attached>{});
  const auto lacks = [&](Attached paper) {
    return std::find(attached.begin(), attached.end(), paper) == attached.end();
  };
  const bool warranted = term_of(papers.basis, *t).has_value();
  const bool agreement = lacks(Attached::agreement);
  if (!agreement && !(warranted && lacks(Attached::warranty))) return;
  faults.add({Rule::agreement_unattached,
              first_of({c.agreement ? c.agreement->attached.at : Span{}, c.agreement.key, c.applied.key}),
              std::string("the house was treated with the report, and its ") + (agreement ? "agreement" : "warranty") +
                  " is not attached",
              "agreement and warranty count as a part of that report" + cited(rule->with_report->cite),
              std::string("attach it, and write `attached: [") + (warranted ? "agreement, warranty" : "agreement") +
                  "]` under `agreement:`",
              {{c.signature->on.at, "the report is signed on this day"}},
              rests_on(*rule->with_report)});
}

void promise_too_long(const Papers& papers, Faults& faults) {
  const auto& rule = papers.basis.form.free_treatment;
  const auto& agreement = papers.basis.c.agreement;
  if (!agreement || !agreement->free_days) return;
  if (!rule || !rule->from.written())
    return faults.add(Rule::unknown_reference, agreement->free_days.at,
                      "free treatment is promised for " + std::to_string(*agreement->free_days) +
                          " days, and the form does not say from when they count",
                      "the agreement could not name the last of these days, and would not print them",
                      "take the key out, or add `free treatment:` to a form of your own (--forms)");
  if (!rule->days || !rule->at_most.value_or(false)) return;
  if (*agreement->free_days <= *rule->days) return;
  faults.add(Rule::promise_too_long, agreement->free_days.at,
             "free treatment is promised for " + std::to_string(*agreement->free_days) + " days; " +
                 std::to_string(*rule->days) + " is the most",
             "the state forbids a longer promise" + cited(rule->cite),
             "promise " + std::to_string(*rule->days) + " days, or leave the key out", rests_on(*rule));
}

namespace {

/// A line that applies a product against a fungus.
const Work* fungicide_of(const Papers& papers, const Treatment& t) {
  for (const Task& task : t.tasks) {
    if (!task.method || !task.method->uses_product.value_or(false) || task.work->who() != By::us) continue;
    for (const int no : items(task.work->answers)) {
      const Finding* f = finding_of(papers, no);
      if (f && papers.basis.trade.in_group(f->organism, OrganismGroup::fungi)) return task.work;
    }
  }
  return nullptr;
}

}  // namespace

void fungus_notice(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const auto& rule = papers.basis.form.agreement;
  if (!rule || !rule->fungus_notice || !rule->fungus_notice->value.value_or(false)) return;
  const Treatment* t = under_way(papers);
  const Work* work = t ? fungicide_of(papers, *t) : nullptr;
  if (!work || c.agreement.unread()) return;
  const std::string cite = cited(rule->fungus_notice->cite);
  if (!c.agreement || !c.agreement->fungus_notice.written())
    return faults.add(Rule::fungus_notice, work->does.at,
                      said(*work) + " applies a fungicide, and no written notice went before it",
                      "the owner is told first what decays, how wet the wood is, and whether fungi can grow" + cite,
                      "hand the notice over, and write `fungus notice:` with its day under `agreement:`",
                      rests_on(*rule->fungus_notice));
  const auto begin = begins(papers.basis.resolved);
  const auto& notice = c.agreement->fungus_notice;
  if (notice && begin && *begin < *notice)
    faults.add(Rule::fungus_notice, notice.at,
               "the notice of " + print(*notice) + " comes after the work began on " + print(*begin),
               "the owner is told before the fungicide is applied" + cite, "correct whichever day was mistyped",
               rests_on(*rule->fungus_notice));
}

void locate_unsaid(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (!c.job || (papers.wanted != Wanted::work_order && !c.job.written())) return;
  const Treatment* t = chosen_of(papers);
  if (!t) return;
  const auto into_soil = [](const Run& run) { return breaks_ground(run.kind); };
  const auto run = std::find_if(t->runs.begin(), t->runs.end(), into_soil);
  if (run == t->runs.end() || c.job->locate.unread()) return;
  const std::string why = "a rod or drill that meets a gas or power line kills";
  if (!c.job->locate.written())
    return faults.add(Rule::locate_unsaid, c.job.key, "the work goes into the soil, and no locate ticket is named", why,
                      "call, and write `locate: {ticket: \"...\", called: ..., clear from: ..., until: ...}`");
  const Locate& l = *c.job->locate;
  if (!c.job->on || !l.from || !l.until || *l.until < *l.from) return;
  if (*l.from <= *c.job->on && *c.job->on <= *l.until) return;
  faults.add({Rule::locate_unsaid,
              c.job->on.at,
              "the crew comes on " + print(*c.job->on) + "; the ticket holds from " + print(*l.from) + " to " +
                  print(*l.until),
              why,
              "ask for the marks anew, or move the day",
              {{l.ticket.at, "the ticket"}}});
}

}  // namespace soundsill::rules
