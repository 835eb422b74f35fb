// Marks off their sheet and the like: faults of the layout that a reader of the file would not complain about.
#pragma once

#include "pages/pages.h"

namespace soundsill::pdf {

/// Throws std::invalid_argument on the first mark that cannot be right.
void check(const page::Pages& pages);

}  // namespace soundsill::pdf
