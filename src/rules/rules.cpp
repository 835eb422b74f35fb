#include "rules/rules.h"

#include "rules/each.h"

namespace soundsill {
namespace {

const RuleUse* asked(const Papers& papers, Rule rule) { return papers.basis.form.uses(info(rule).code); }

}  // namespace

void check(const Papers& papers, Faults& faults) {
#define READING(name, severity, doc, why)
#define WORKING(name, severity, doc, why)
#define CHECK(name, severity, doc, why) rules::name(papers, faults);
#define ASKED(name, severity, doc, why) \
  if (const RuleUse* use = asked(papers, Rule::name)) rules::name(papers, *use, faults);
#include "diagnostics/catalogue.def"
#undef READING
#undef WORKING
#undef CHECK
#undef ASKED
}

void check_photos(const Papers& papers, Faults& faults) { rules::photo_broken(papers, faults); }

}  // namespace soundsill
