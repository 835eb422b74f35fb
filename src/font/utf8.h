// Letters of a UTF-8 text. Not for use outside this folder: others have font::codepoints.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace soundsill::font {

/// Decodes the letter at `at` and moves on; a byte that is no UTF-8 gives U+FFFD.
[[nodiscard]] char32_t next_letter(std::string_view utf8, std::size_t& at);

/// One letter as UTF-8.
[[nodiscard]] std::string utf8(char32_t letter);

}  // namespace soundsill::font
