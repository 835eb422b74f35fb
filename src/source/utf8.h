// Letters of UTF-8 text (RFC 3629), read strictly: no longer form than need be, no half of a UTF-16 pair, nothing past
// U+10FFFF. The one place that knows how letters are stored.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace soundsill::utf8 {

/// Stands for a byte that belongs to no letter.
constexpr char32_t unknown = U'\uFFFD';

/// A letter (code point) and how many bytes it takes. A byte that belongs to no letter is `unknown`, one byte long, and
/// not valid.
struct Letter {
  char32_t code = unknown;
  std::size_t bytes = 1;
  bool valid = false;
};

/// The letter that begins at a byte of the text; not valid past its end.
[[nodiscard]] inline Letter letter_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {};
  const auto byte = [&](std::size_t i) -> char32_t { return static_cast<unsigned char>(text[at + i]); };
  const char32_t first = byte(0);
  if (first < 0x80) return {first, 1, true};
  if (first < 0xC2 || first > 0xF4) return {};
  const std::size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (text.size() - at < bytes) return {};
  char32_t code = first & (0x7FU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    code = code << 6U | (byte(i) & 0x3FU);
  }
  const bool too_long = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
  const bool half_of_pair = code >= 0xD800 && code < 0xE000;
  if (too_long || half_of_pair || code > 0x10FFFF) return {};
  return {code, bytes, true};
}

/// Whether a byte goes on with a letter that an earlier byte began.
[[nodiscard]] constexpr bool goes_on(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// Where the letter at `at` ends, by the bytes that go on with it, valid or not: text is cut there and nowhere else.
[[nodiscard]] inline std::size_t end_of_letter(std::string_view text, std::size_t at) {
  do ++at;
  while (at < text.size() && goes_on(text[at]));
  return at;
}

/// The letters of a text.
[[nodiscard]] std::u32string decode(std::string_view text);
/// One letter as UTF-8.
[[nodiscard]] std::string encode(char32_t letter);

}  // namespace soundsill::utf8
