// Cutting a font file down to the glyphs that are used. Not for use outside this folder.
#pragma once

#include <hb.h>

#include <cstdint>
#include <string>
#include <vector>

#include "font/font.h"

namespace soundsill::font {

/// The font file with these glyphs under the numbers they have, and with names and measures.
[[nodiscard]] std::string part(hb_face_t* face, const std::vector<std::uint16_t>& glyphs, const std::string& name);
[[nodiscard]] Subset subset(hb_face_t* face, const std::vector<std::uint16_t>& glyphs, const std::string& name);

}  // namespace soundsill::font
