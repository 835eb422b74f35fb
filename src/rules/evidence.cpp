// Past evidence, evidence that is taken away, and wood that stays wet.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

bool is_past(const Finding& f) {
  return f.kind && *f.kind == FindingKind::evidence && f.state && *f.state == State::past;
}

bool does_none(const Papers& papers, const Work& work) {
  const Method* method = method_of(papers, work);
  return method && method->takes && *method->takes == Takes::nothing;
}

/// The options in which nothing but `none` answers a finding; a line whose method is unknown may treat it.
std::vector<const Offer*> waved_through(const Papers& papers, const std::vector<Offer>& all, const Finding& f) {
  std::vector<const Offer*> out;
  for (const Offer& offer : all) {
    const auto lines = offer.answering(f);
    const auto none = [&](const Work* w) { return does_none(papers, *w); };
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

void past_unanswered(const Papers& papers, Faults& faults) {
  const RuleUse* use = papers.basis.form.uses("past-unanswered");
  if (!use) return;
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    if (!is_past(f) || !in_soil(papers, f) || treatment_visible(f)) continue;
    const auto waved = waved_through(papers, all, f);
    if (waved.empty()) continue;
    std::string what = said(f) + " is past, shows no earlier treatment, and nothing treats it";
    if (waved.size() < all.size()) what += waved.front()->where;
    faults.add({Rule::past_unanswered,
                f.state.at,
                std::move(what),
                "until it is treated no paper may call the house free of termites, or them inactive" + cited(use->cite),
                "answer " + said(f) + " by a line that treats",
                {{waved.front()->answering(f).front()->does.at, "this line answers it"}}});
  }
}

namespace {

const Finding* termites_in(const Papers& papers, const std::string& structure) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Organism* organism = organism_of(papers, f);
    const bool evidence = f.kind && *f.kind != FindingKind::condition;
    if (evidence && f.in && *f.in == structure && organism && organism->group.value_or({}) == "termites") return &f;
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

void evidence_cleared(const Papers& papers, Faults& faults) {
  const RuleUse* use = papers.basis.form.uses("evidence-cleared");
  if (!use) return;
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
      cleared_by_others(w, structure, *termites, *use, faults);
      continue;
    }
    for (const Offer& offer : all) {
      const bool taken = std::find(offer.lines.begin(), offer.lines.end(), &w) != offer.lines.end();
      if (taken && offer.whole && !treated_by(papers, offer, structure, *termites))
        cleared_untreated(w, structure, offer, *termites, *use, faults);
    }
  }
}

namespace {

constexpr std::string_view damp = "damp wood";

const Reading* wettest(const Finding& f) {
  const Reading* most = nullptr;
  for (const Reading& r : items(f.moisture))
    if (r.percent && (!most || r.percent->value > most->percent->value)) most = &r;
  return most;
}

bool dried(const Papers& papers, const std::vector<const Work*>& lines) {
  return std::any_of(lines.begin(), lines.end(), [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    return !method || method->does_correct(damp);  // what an unknown method does is not known
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
        "let a line that puts `" + std::string(damp) + "` right answer " + said(f) + " too");
  }
}

}  // namespace soundsill::rules
