#include "rules/rules.h"

#include "rules/each.h"

namespace soundsill {

void check(const Papers& papers, Faults& faults) {
#define READING(name, severity, doc)
#define WORKING(name, severity, doc)
#define CHECK(name, severity, doc) rules::name(papers, faults);
#include "diagnostics/catalogue.def"
#undef READING
#undef WORKING
#undef CHECK
}

}  // namespace soundsill
