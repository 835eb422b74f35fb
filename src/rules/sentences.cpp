// Serves rules/each.h. Words in typed sentences that promise too much or say too little.
#include "rules/look.h"

namespace soundsill::rules {
namespace {

/// What is typed once the work was accepted.
template <class One, class List>
void after_the_signature(const Case& c, One one, List list) {
  if (c.job) list(c.job->notes);
  for (const WaiverSheet& w : items(c.waivers)) one(w.leaves_out), one(w.because);
  for (const Applied& day : items(c.applied)) {
    one(day.because);
    one(day.weather);
    for (const AppliedRun& entry : items(day.runs))
      if (entry.untreated) one(entry.untreated->because);
  }
  if (c.invoice) {
    for (const Fee& fee : items(c.invoice->fees)) one(fee.what);
    for (const Payment& paid : items(c.invoice->paid)) one(paid.how);
  }
  for (const WarrantyEvent& e : items(c.warranty)) one(e.because);
}

/// Calls speaks(text, place) for every sentence that people type and papers print.
template <class Speaks>
void each_sentence(const Papers& papers, Speaks speaks) {
  const auto one = [&](const Field<std::string>& field) {
    if (field) speaks(*field, field.at);
  };
  const auto list = [&](const ListField<std::string>& field) {
    for (const std::string& text : items(field)) speaks(text, item(field.at, text));
  };
  const Case& c = papers.basis.c;
  if (c.facts && c.facts->replaces) one(c.facts->replaces->because);
  for (const Structure& s : c.structures()) {
    one(s.because);
    for (const Area& a : items(s.areas)) one(a.because), one(a.advice);
  }
  for (const Finding& f : items(c.findings)) {
    one(f.where);
    list(f.basis);
    list(f.signs);
    if (f.earlier_treatment) one(f.earlier_treatment->papers);
  }
  for (const PhotoUse& use : photos_of(c)) one(use.photo->shows);
  for (const Work& w : items(c.work)) {
    one(w.because);
    one(w.proof);
    if (w.waiver) one(w.waiver->because);
  }
  for (const OptionFacts& o : items(c.options)) one(o.name), one(o.because);
  for (const Adjustment& a : items(c.adjustments)) one(a.because);
  after_the_signature(c, one, list);
  for (const WarrantyFacts& w : items(papers.basis.company.warranties)) {
    one(w.transfer);
    list(w.conditions);
    list(w.voided_by);
  }
  if (const auto& terms = papers.basis.company.terms) list(terms->included), list(terms->prepare);
}

}  // namespace

void loose_word(const Papers& papers, Faults& faults) {
  const auto& words = items(papers.basis.form.loose_words);
  std::vector<std::string> small;
  for (const LooseWord& loose : words) small.push_back(lower(loose.word.value_or("")));
  each_sentence(papers, [&](const std::string& text, const Span& at) {
    const std::string sentence = lower(text);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const LooseWord& loose = words[i];
      if (!loose.word || sentence.find(small[i]) == std::string::npos || !holds_word(text, *loose.word)) continue;
      faults.add(Rule::loose_word, item(at, *loose.word), "this sentence says " + quoted(*loose.word),
                 loose.because.value_or("") + cited(loose.cite), loose.instead.value_or(""));
    }
  });
}

}  // namespace soundsill::rules
