// Serves rules/each.h. Evidence: what a call of active rests on, what past evidence asks for, and who may take it
// away.
#include <algorithm>
#include <set>

#include "rules/look.h"

namespace soundsill::rules {

namespace {

bool names(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}

/// A sign is a whole item, or begins one and is set off: "live larvae were not seen" is none.
bool names_sign(std::string_view seen, std::string_view sign) {
  const std::string item = lower(seen);
  return item.starts_with(lower(sign)) &&
         (item.size() == sign.size() || std::string_view(",;.(").find(item[sign.size()]) != std::string_view::npos ||
          item.substr(sign.size()).starts_with(" ("));
}

bool rests_on(const Finding& f, const ActiveTest& test) {
  const auto& signs = items(test.any_of);
  const auto& basis = items(f.basis);
  return std::any_of(basis.begin(), basis.end(), [&](const std::string& seen) {
    return std::any_of(signs.begin(), signs.end(), [&](const std::string& sign) { return names_sign(seen, sign); });
  });
}

bool above(const ActiveTest& test) { return test.moisture_above && test.moisture_above->value; }

/// The number that a test asks of the wood's moisture; nothing when it asks none.
const Datum<Percent>* moisture_asked(const ActiveTest& test) {
  if (above(test)) return &*test.moisture_above;
  return test.moisture_from && test.moisture_from->value ? &*test.moisture_from : nullptr;
}

bool wet_enough(const Finding& f, const ActiveTest& test) {
  const Datum<Percent>* asked = moisture_asked(test);
  const auto& readings = items(f.moisture);
  return !asked || std::any_of(readings.begin(), readings.end(), [&](const Reading& r) {
    const Ratio& least = asked->value->value;
    return r.percent && (above(test) ? least < r.percent->value : least <= r.percent->value);
  });
}

std::string moisture_of(const ActiveTest& test) {
  const Datum<Percent>& asked = *moisture_asked(test);
  return (above(test) ? "above " : "of at least ") + shortest(asked.value->value, 2) + " %";
}

/// That signs are seen and the wood is measured at all is the duty; how wet it has to be is a number.
Rests rests(const Finding& f, const ActiveTest& test, bool seen) {
  return seen && !items(f.moisture).empty() ? rests_on(*moisture_asked(test)) : rests_on(test);
}

}  // namespace

void weak_basis(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const bool active = f.kind && *f.kind == FindingKind::evidence && f.state && *f.state == State::active;
    if (!active || !f.organism || items(f.basis).empty()) continue;  // without a basis another rule speaks
    for (const ActiveTest& test : items(papers.basis.form.active_tests)) {
      if (!names(test.organisms, *f.organism)) continue;
      const bool seen = rests_on(f, test), wet = wet_enough(f, test);
      if (seen && wet) continue;
      std::vector<std::string> signs;
      for (const std::string& sign : items(test.any_of)) signs.push_back(quoted(sign));
      std::string fix = seen ? "give the reading under `moisture:`"
                             : "let an item of `basis:` be " + listed(signs, "or") + ", alone or with a comma after it";
      if (!seen && !wet) fix += ", and give the reading under `moisture:`";
      faults.add({Rule::weak_basis,
                  f.basis.at,
                  said(f) + " calls " + quoted(*f.organism) + " active " +
                      (seen ? "without a reading " + moisture_of(test) : "on signs that do not show it"),
                  "a call on weak evidence sells a treatment that nobody needs" + cited(test.cite),
                  fix + "; if it was not seen, write `state: past` or `not determined`",
                  {{f.state.at, "called active here"}},
                  rests(f, test, seen)});
    }
  }
}

namespace {

bool is_past(const Finding& f) {
  return f.kind && *f.kind == FindingKind::evidence && f.state && *f.state == State::past;
}

bool does_none(const Papers& papers, const Work& work) {
  const Method* method = method_of(papers, work);
  return method && method->takes && *method->takes == Takes::nothing;
}

/// The options in which nothing but `none` answers a finding, and nobody has signed for it; a line whose method is
/// unknown may treat it.
std::vector<const Offer*> waved_through(const Papers& papers, const std::vector<Offer>& all, const Finding& f) {
  std::vector<const Offer*> out;
  for (const Offer& offer : all) {
    const auto lines = offer.answering(f);
    const auto none = [&](const Work* w) { return does_none(papers, *w) && !waived(*w); };
    if (offer.whole && !lines.empty() && std::all_of(lines.begin(), lines.end(), none)) out.push_back(&offer);
  }
  return out;
}

bool treatment_visible(const Finding& f) {
  if (f.earlier_treatment.unread()) return true;
  if (!f.earlier_treatment) return false;
  return f.earlier_treatment->visible.unread() || f.earlier_treatment->visible.value_or(false);
}

}  // namespace

void earlier_treatment_unsaid(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings))
    if (is_past(f) && in_soil(papers, f) && !f.earlier_treatment.written() && !f.live_seen.value_or(false))
      faults.add(Rule::earlier_treatment_unsaid, f.state.at,
                 said(f) + " is past, and does not say whether an earlier treatment can be seen",
                 "whether the house is to be treated hangs on it",
                 "write `earlier treatment: {visible: yes}` or `{visible: no}`, and `papers:` where there are any");
}

void past_unanswered(const Papers& papers, const RuleUse& use, Faults& faults) {
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    if (!is_past(f) || !in_soil(papers, f) || !f.earlier_treatment.written() || treatment_visible(f)) continue;
    const auto waved = waved_through(papers, all, f);
    if (waved.empty()) continue;
    std::string what = said(f) + " is past, shows no earlier treatment, and nothing treats it";
    if (waved.size() < all.size()) what += waved.front()->where;
    faults.add({Rule::past_unanswered,
                f.state.at,
                std::move(what),
                "until it is treated no paper may call the house free of termites, or them inactive" + cited(use.cite),
                "answer " + said(f) + " by a line that treats",
                {{waved.front()->answering(f).front()->does.at, "this line answers it"}}});
  }
}

void live_left(const Papers& papers, Faults& faults) {
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    const bool active = f.kind && *f.kind == FindingKind::evidence &&
                        ((f.state && *f.state == State::active) || f.live_seen.value_or(false));
    if (!active) continue;
    const auto waved = waved_through(papers, all, f);
    if (waved.empty()) continue;
    faults.add({Rule::live_left,
                first_of({f.state.at, f.live_seen.at}),
                said(f) + " is active, and nothing is done about it" +
                    (waved.size() < all.size() ? waved.front()->where : std::string()),
                "insects go on eating the house that the paper is about",
                "answer it by a line that treats, or add the owner's signed refusal as `waiver: {by: ..., on: ..., "
                "because: ...}`",
                {{waved.front()->answering(f).front()->does.at, "this line leaves it"}}});
  }
}

void past_unexplained(const Papers& papers, Faults& faults) {
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    const bool soil = in_soil(papers, f);
    if (!is_past(f) || !organism_of(papers, f) || (soil && !f.earlier_treatment.written())) continue;
    if (soil && papers.basis.form.uses(info(Rule::past_unanswered).code)) continue;  // which asks for more
    const bool papers_say = f.earlier_treatment && f.earlier_treatment->papers.written();
    const bool explained = soil ? treatment_visible(f) || papers_say : papers_say || f.basis.written();
    const auto waved = explained ? std::vector<const Offer*>() : waved_through(papers, all, f);
    if (waved.empty()) continue;
    faults.add({Rule::past_unexplained,
                f.state.at,
                said(f) + " is past, and is left alone without an earlier treatment" + (soil ? "" : " or a basis"),
                "an old infestation without treatment and without explanation is sent back",
                soil ? "write what papers say of an earlier treatment under `earlier treatment:`, or treat it"
                     : "write `basis:` with what shows that it is over, or answer it by a line that treats",
                {{waved.front()->answering(f).front()->does.at, "this line leaves it alone"}}});
  }
}

namespace {

bool was_treated(const Finding& f) {
  return is_past(f) && f.organism && f.earlier_treatment && f.earlier_treatment->visible.value_or(false);
}
/// Whether work is called for by it: evidence that is live or not yet known, or old without a sign that it was treated.
bool calls_for_treatment(const Finding& f) {
  return f.kind && *f.kind == FindingKind::evidence && f.organism && !was_treated(f);
}

}  // namespace

void treatment_unneeded(const Papers& papers, const RuleUse& use, Faults& faults) {
  std::set<int> told;  // several lines against one finding are one cause
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    if (!method || w.who() != By::us || w.preventive.value_or(false) || w.preventive.unread()) continue;
    const auto& answers = items(w.answers);
    // What is done for another finding anyway may answer this one as well.
    if (std::any_of(answers.begin(), answers.end(), [&](int no) {
          const Finding* f = finding_of(papers, no);
          return f && calls_for_treatment(*f) && method->is_against(*f->organism);
        }))
      continue;
    for (const int no : answers) {
      const Finding* f = finding_of(papers, no);
      if (!f || !was_treated(*f) || !method->is_against(*f->organism) || !told.insert(no).second) continue;
      faults.add({Rule::treatment_unneeded,
                  item(w.answers.at, std::to_string(no)),
                  said(w) + " treats " + said(*f) + ", which is past and was treated before",
                  "the state lets work be sold against live insects, or old ones without a treatment" + cited(use.cite),
                  "answer it by `do: none` with `because:`, or write `preventive: yes`",
                  {{f->earlier_treatment.at, "the earlier treatment"}}});
    }
  }
}

namespace {

const Finding* termites_in(const Papers& papers, const std::string& structure) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const bool evidence = f.kind && *f.kind != FindingKind::condition;
    if (evidence && f.in && *f.in == structure && papers.basis.trade.in_group(f.organism, OrganismGroup::termites))
      return &f;
  }
  return nullptr;
}

bool treated_by(const Papers& papers, const Offer& offer, const std::string& structure, const Finding& termites) {
  return std::any_of(offer.lines.begin(), offer.lines.end(), [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    const std::string place = structure_of(papers, *w);
    return method && w->who() == By::us && method->is_against(*termites.organism) &&
           (place.empty() || place == structure);
  });
}

constexpr std::string_view evidence_why =
    "tubes and infested scraps are evidence; nobody may take them away but within the treatment";

void cleared_by_others(const Work& w, const std::string& structure, const Finding& f, const RuleUse& use,
                       Faults& faults) {
  faults.add(
      {Rule::evidence_cleared,
       w.by.at,
       said(w) + " lets " + quoted(yaml::word(*w.by)) + " clear " + quoted(structure) + ", where termites were found",
       std::string(evidence_why) + cited(use.cite),
       "write `by: us`, in an option that treats",
       {{f.organism.at, said(f)}}});
}

void cleared_untreated(const Work& w, const std::string& structure, const Offer& offer, const Finding& f,
                       const RuleUse& use, Faults& faults) {
  faults.add({Rule::evidence_cleared,
              w.does.at,
              said(w) + " clears " + quoted(structure) + ", and nothing treats the termites" + offer.where,
              std::string(evidence_why) + cited(use.cite),
              "take a line that treats them into the same option",
              {{f.organism.at, said(f)}}});
}

}  // namespace

void evidence_cleared(const Papers& papers, const RuleUse& use, Faults& faults) {
  const auto all = offers(papers, faults);
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    if (!method || !method->clears_evidence.value_or(false) || w.by.unread()) continue;
    std::string structure = structure_of(papers, w);
    for (const int no : items(w.answers))
      if (const Finding* f = finding_of(papers, no); structure.empty() && f && f->in) structure = *f->in;
    const Finding* termites = termites_in(papers, structure);
    if (!termites) continue;
    if (w.who() != By::us) {
      cleared_by_others(w, structure, *termites, use, faults);
      continue;
    }
    for (const Offer& offer : all) {
      const bool taken = std::find(offer.lines.begin(), offer.lines.end(), &w) != offer.lines.end();
      if (taken && offer.whole && !treated_by(papers, offer, structure, *termites))
        cleared_untreated(w, structure, offer, *termites, use, faults);
    }
  }
}

}  // namespace soundsill::rules
