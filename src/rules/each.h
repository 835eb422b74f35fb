// One function for each CHECK or ASKED row of the catalogue: a row without a function does not link. Not for other
// folders.
#pragma once

#include "rules/rules.h"

namespace soundsill::rules {

#define READING(name, severity, doc, why)
#define WORKING(name, severity, doc, why)
#define CHECK(name, severity, doc, why) void name(const Papers& papers, Faults& faults);
#define ASKED(name, severity, doc, why) void name(const Papers& papers, const RuleUse& use, Faults& faults);
#include "diagnostics/catalogue.def"
#undef READING
#undef WORKING
#undef CHECK
#undef ASKED

}  // namespace soundsill::rules
