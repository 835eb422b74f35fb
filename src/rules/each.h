// One function for each CHECK row of the catalogue: a row without a function does not link. Not for other folders.
#pragma once

#include "rules/rules.h"

namespace soundsill::rules {

#define READING(name, severity, doc)
#define WORKING(name, severity, doc)
#define CHECK(name, severity, doc) void name(const Papers& papers, Faults& faults);
#include "diagnostics/catalogue.def"
#undef READING
#undef WORKING
#undef CHECK

}  // namespace soundsill::rules
