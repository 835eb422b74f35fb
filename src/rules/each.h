// One function for each `check` or `asked` row of the catalogue: a row without a function does not link. Not for other
// folders.
#pragma once

#include "rules/rules.h"

namespace soundsill::rules {

#define DECLARE_reading(name)
#define DECLARE_working(name)
#define DECLARE_check(name) void name(const Papers& papers, Faults& faults);
#define DECLARE_asked(name) void name(const Papers& papers, const RuleUse& use, Faults& faults);
#define RULE(name, who, severity, stage, stops, holds, why) DECLARE_##who(name)
#include "diagnostics/catalogue.def"
#undef DECLARE_reading
#undef DECLARE_working
#undef DECLARE_check
#undef DECLARE_asked

}  // namespace soundsill::rules
