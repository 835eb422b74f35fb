// Serves rules/each.h. Whether findings and work lines answer each other.
#include <algorithm>

#include "rules/cover.h"

namespace soundsill::rules {
namespace {

bool is_none(const Papers& papers, const Work& work) {
  const Method* method = method_of(papers, work);
  return method && method->takes && *method->takes == Takes::nothing;
}

void answered_nowhere(const Finding& f, Faults& faults) {
  const std::string no = std::to_string(*f.no);
  faults.add(Rule::unanswered, f.no.at, "no work line answers finding " + no,
             "buyer and lender would read of a problem, and of nothing that is done about it",
             "add a line to `work:` with `answers: [" + no + "]`; `do: none` takes `because:` and `by:`");
}

void answered_elsewhere(const Papers& papers, const Finding& f, const Offer& offer, Faults& faults) {
  std::vector<std::string> lines;
  for (const Work& w : items(papers.basis.c.work))
    if (answers(w, *f.no) && w.id) lines.push_back(quoted(*w.id));
  const std::string option = offer.option->id ? "option " + quoted(*offer.option->id) : "this option";
  faults.add({Rule::unanswered,
              first_of({offer.option->work.at, offer.option->at}),
              option + " leaves " + said(f) + " unanswered",
              "whoever takes this option would pay, and still have that finding open at closing",
              "take " + listed(lines, "or") + " into its `work:`, or another line that answers " + said(f),
              {{f.no.at, "the finding"}}});
}

}  // namespace

void unanswered(const Papers& papers, Faults& faults) {
  const auto all = offers(papers, faults);
  const auto& lines = items(papers.basis.c.work);
  const auto answers_read = [&](const Work& w) { return !w.answers.unread() && !misread(w.answers.at, faults); };
  if (!std::all_of(lines.begin(), lines.end(), answers_read)) return;
  for (const Finding& f : items(papers.basis.c.findings)) {
    if (!f.no) continue;
    const bool somewhere = std::any_of(lines.begin(), lines.end(), [&](const Work& w) { return answers(w, *f.no); });
    if (!somewhere && !papers.basis.c.work.unread() && !items_lost(papers, faults)) answered_nowhere(f, faults);
    if (!somewhere) continue;
    for (const Offer& offer : all)
      if (offer.option && offer.whole && offer.answering(f).empty()) answered_elsewhere(papers, f, offer, faults);
  }
}

void orphan(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    if (w.answers.unread() || w.preventive.unread() || w.preventive.value_or(false)) continue;
    if (!items(w.answers).empty() || (w.answers && misread(w.answers.at, faults))) continue;
    faults.add(Rule::orphan, first_of({w.answers.at, w.id.at, w.at}), said(w) + " answers no finding",
               "the buyer would pay for work without being told what for",
               "write `answers: [...]`, or `preventive: yes` when nothing was found");
  }
}

void does_nothing(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    if (!is_none(papers, w)) continue;
    std::vector<std::string> lacks;
    if (!w.because.written()) lacks.emplace_back("`because`");
    if (!w.by.written()) lacks.emplace_back("`by`");
    if (lacks.empty()) continue;
    faults.add(
        Rule::does_nothing, w.does.at, said(w) + " does nothing, and has no " + listed(lacks, "and no"),
        "the lender takes a finding without work, reason and name for an open one",
        "write " + std::string(lacks.size() == 2
                                   ? "`because: ...` and `by:` us, owner, contractor, other company or warranty holder"
                               : lacks[0] == "`by`" ? "`by:` with who decided it"
                                                    : "`because:` with the reason"));
  }
}

namespace {

/// Whether it is known what a finding needs.
bool judged(const Papers& papers, const Finding& f) {
  if (!f.kind) return false;
  if (*f.kind == FindingKind::condition) return f.condition && papers.basis.trade.condition(*f.condition);
  return *f.kind == FindingKind::damage || organism_of(papers, f);
}

bool fits(const Method& method, const Finding& f) {
  switch (*f.kind) {
    case FindingKind::evidence:
      return method.is_against(*f.organism);
    case FindingKind::damage:
      return method.mends_damage.value_or(false);
    case FindingKind::condition:
      return method.does_correct(*f.condition);
  }
  return false;
}

std::string unfit_words(const Work& w, const Finding& f) {
  const std::string method = quoted(*w.does);
  switch (*f.kind) {
    case FindingKind::evidence:
      return method + " does not work against " + quoted(*f.organism) + " of " + said(f);
    case FindingKind::damage:
      return method + " does not mend the damage of " + said(f);
    case FindingKind::condition:
      return method + " does not put right " + quoted(*f.condition) + " of " + said(f);
  }
  return {};
}

std::string fitting(const Papers& papers, const Finding& f) {
  std::vector<std::string> words;
  for (const Method& m : items(papers.basis.trade.methods))
    if (m.name && fits(m, f)) words.push_back(quoted(*m.name));
  if (words.empty()) return "answer " + said(f) + " by a line with `do: none`, `because:` and `by:`";
  return "answer " + said(f) + " by a line that does " + listed(words, "or");
}

}  // namespace

void unfit_method(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    if (!method || is_none(papers, w)) continue;
    for (const int no : items(w.answers)) {
      const Finding* f = finding_of(papers, no);
      if (!f || !judged(papers, *f) || fits(*method, *f)) continue;
      const char* why = *f->kind == FindingKind::damage ? "the buyer would take the wood for mended"
                                                        : "the finding would stay as it is, and read as answered";
      faults.add({Rule::unfit_method,
                  w.does.at,
                  unfit_words(w, *f),
                  why,
                  fitting(papers, *f),
                  {{first_of({f->organism.at, f->condition.at, f->kind.at}), said(*f)}}});
    }
  }
}

namespace {

void elsewhere(const Work& w, const Finding& f, const std::string& place, Faults& faults) {
  faults.add({Rule::out_of_reach,
              item(w.answers.at, std::to_string(*f.no)),
              said(w) + " is done in " + quoted(place) + ", and " + said(f) + " is in " + quoted(*f.in),
              "work in one building does nothing about what was found in another",
              "answer " + said(f) + " by a line with " + quoted("in: " + *f.in),
              {{f.in.at, said(f)}}});
}

bool is_soil_work(const Method& method) {
  const Takes takes = method.takes.value_or(Takes::nothing);
  return takes == Takes::soil || takes == Takes::backfill;
}

/// Soil is treated in one unbroken zone: one line may do the outside and another the inside, where a slab lies over it
/// the zone goes on through holes, and near a well by backfill, however far from what was found, as long as a trench
/// that answers the same finding reaches it.
bool goes_on(const Papers& papers, const Work& w, const Finding& f, const SurveyedStructure& s) {
  const Method* method = method_of(papers, w);
  if (!method || (method->takes.value_or(Takes::nothing) != Takes::slab && !is_soil_work(*method))) return false;
  const auto& all = items(papers.basis.c.work);
  return std::any_of(all.begin(), all.end(), [&](const Work& other) {
    const Method* m = method_of(papers, other);
    const auto& answered = items(other.answers);
    return m && &other != &w && is_soil_work(*m) && structure_of(papers, other) == s.name &&
           std::find(answered.begin(), answered.end(), *f.no) != answered.end() &&
           reaches(papers, cover_of(papers, other, s), s, f);
  });
}

void not_reached(const Papers& papers, const Work& w, const Cover& cover, const Finding& f, const SurveyedStructure& s,
                 Faults& faults) {
  if (cover.known && cover.empty()) {
    faults.add(Rule::out_of_reach, w.does.at, said(w) + " names no wall, pier or other place",
               "the crew would not know where to work, and nothing could be measured or priced",
               "write `walls:`, `piers:`, `near:` or `at:`");
    return;
  }
  if (reaches(papers, cover, s, f) || goes_on(papers, w, f, s)) return;
  const std::string no = std::to_string(*f.no);
  faults.add({Rule::out_of_reach,
              item(w.answers.at, no),
              said(w) + " does not reach finding " + no + " at " + quoted(typed(f.place.at)),
              "the crew would treat elsewhere and pass by what was found; a line reaches " + print(void_reach(papers)) +
                  " beyond what it names",
              "take its place into `walls:`, `piers:` or `at:`, or write `near: [" + no + "]`",
              {{f.place.at, said(f)}}});
}

}  // namespace

void out_of_reach(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    const std::string place = structure_of(papers, w);
    if (!method || place.empty()) continue;
    std::optional<Cover> cover;  // worked out once for a line, however many findings it answers
    for (const int no : items(w.answers)) {
      const Finding* f = finding_of(papers, no);
      if (!f || !f->in) continue;
      const SurveyedStructure* s = papers.basis.survey.find(place);
      if (!s) continue;  // other rules speak
      if (place != *f->in && papers.basis.survey.find(*f->in)) elsewhere(w, *f, place, faults);
      const bool placed = place == *f->in && f->place && s->drawn();
      if (!placed || !on_plan(*method)) continue;
      if (!cover) cover = cover_of(papers, w, *s);
      not_reached(papers, w, *cover, *f, *s, faults);
    }
  }
}

void no_firm(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    if (!method || !method->names_firm.value_or(false) || w.who() == By::us || w.firm.written()) continue;
    faults.add(Rule::no_firm, first_of({w.by.at, w.does.at}), said(w) + " is left to others, and nobody is named",
               "it takes a license of its own" + cited(method->cite) + "; whoever does it has to be known",
               "write `firm:` with name and license, or `by: us` when our license covers it");
  }
}

void no_proof(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const bool others = w.by && (*w.by == By::other_company || *w.by == By::warranty_holder);
    if (!others || w.proof.written() || is_none(papers, w)) continue;
    faults.add(
        Rule::no_proof, w.by.at,
        said(w) + " is left to the " + std::string(yaml::word(*w.by)) + ", and nothing will prove it",
        "buyer and lender would have nobody's word for it but ours",
        "write `proof:` with the paper that will show it, like their treatment record or their warranty's number");
  }
}

}  // namespace soundsill::rules
