// The cut of partial options as copies of typed lines, for readers that have not gone over to resolved::Option yet.
// Goes with the last of them.
#pragma once

#include <vector>

#include "casefile/case.h"
#include "jurisdiction/form.h"

namespace soundsill {

/// Cuts the lines of every partial option to its scope and keeps them in the case; typed lines stay as they are. Called
/// once, before anything points into the case's lines.
void cut_to_scope(Case& c, const Trade& trade);
/// The work lines that an option takes, in the order of the case; `all` takes every line.
[[nodiscard]] std::vector<const Work*> lines_of(const Case& c, const OptionFacts& option);

}  // namespace soundsill
