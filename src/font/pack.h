// Font files as they go into the program.
#pragma once

#include <string>
#include <string_view>

namespace soundsill::font {

/// The same font, every glyph under its number, without what only screens of pixels need (hinting) and without a kern
/// table, whose pairs stand in GPOS too. Outlines, widths, letters and shaping stay, so that a
/// paper has the same bytes. Throws std::runtime_error when the bytes are no font.
[[nodiscard]] std::string pack_face(std::string_view bytes, const std::string& name);

}  // namespace soundsill::font
