// Days that the papers of a case are reckoned by.
#pragma once

#include <optional>

#include "treatment/treatment.h"

namespace soundsill::rules {

/// The last day on which the paper still holds: so many days after the signature as form and loan say.
[[nodiscard]] std::optional<Date> holds_until(const Basis& basis);

}  // namespace soundsill::rules
