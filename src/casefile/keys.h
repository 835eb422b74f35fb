// The key tables of a case file, for who says how it is written and reads none.
#pragma once

#include "yaml/keys.h"

namespace soundsill {

/// The outermost table; those of its blocks hang on it.
[[nodiscard]] const yaml::Block& case_keys();

}  // namespace soundsill
