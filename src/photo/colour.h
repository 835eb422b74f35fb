// Colours of any file made sRGB.
#pragma once

#include "photo/pixels.h"
#include "photo/rows.h"

namespace soundsill::photo {

/// Grey stays grey, RGB and CMYK become sRGB. A profile that does not make sense is passed over.
[[nodiscard]] Pixels to_srgb(Pixels pixels, const Shape& shape, bool wide_colours);

}  // namespace soundsill::photo
