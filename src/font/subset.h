// Cutting a font file down to the glyphs that are used. Not for use outside this folder.
#pragma once

#include <hb.h>

#include <cstdint>
#include <set>
#include <string>

namespace soundsill::font {

[[nodiscard]] std::string subset(hb_face_t* face, const std::set<std::uint16_t>& glyphs, const std::string& name);
[[nodiscard]] std::set<std::uint16_t> closure(hb_face_t* face, const std::set<std::uint16_t>& glyphs,
                                              const std::string& name);

}  // namespace soundsill::font
