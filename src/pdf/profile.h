// A colour profile of our own that says what red, green and blue mean: those of sRGB.
#pragma once

#include <string>

namespace soundsill::pdf {

[[nodiscard]] std::string rgb_profile();

}  // namespace soundsill::pdf
