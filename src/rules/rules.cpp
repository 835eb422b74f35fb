#include "rules/rules.h"

#include <algorithm>

#include "rules/each.h"

namespace soundsill {
namespace {

bool for_this_purpose(const Papers& papers, const RuleUse& use) {
  const auto& facts = papers.basis.c.facts;
  if (!use.needed_for || !facts || !facts->purpose) return true;
  const auto& purposes = *use.needed_for;
  return std::find(purposes.begin(), purposes.end(), yaml::word(*facts->purpose)) != purposes.end();
}

/// A rule that the form asks for rests on the text that the form names for it.
template <class Speaks>
void asked(const Papers& papers, Rule rule, Speaks speaks, Faults& faults) {
  const RuleUse* use = papers.basis.form.uses(info(rule).code);
  if (!use || !for_this_purpose(papers, *use)) return;
  const std::size_t first = faults.all().size();
  speaks(papers, *use, faults);
  faults.rest(first, rests_on(*use));
}

}  // namespace

void check(const Papers& papers, Faults& faults) {
#define READING(name, severity, doc, why)
#define WORKING(name, severity, doc, why)
#define CHECK(name, severity, doc, why) rules::name(papers, faults);
#define ASKED(name, severity, doc, why) asked(papers, Rule::name, rules::name, faults);
#include "diagnostics/catalogue.def"
#undef READING
#undef WORKING
#undef CHECK
#undef ASKED
}

void check_photos(const Papers& papers, Faults& faults) { rules::photo_broken(papers, faults); }

}  // namespace soundsill
