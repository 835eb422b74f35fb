#include "source/utf8.h"

namespace soundsill::utf8 {

std::u32string decode(std::string_view text) {
  std::u32string letters;
  letters.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    letters += letter.code;
    at += letter.bytes;
  }
  return letters;
}

std::string encode(char32_t letter) {
  const auto follower = [&](unsigned shift) { return static_cast<char>(0x80U | (letter >> shift & 0x3FU)); };
  if (letter < 0x80) return {static_cast<char>(letter)};
  if (letter < 0x800) return {static_cast<char>(0xC0U | letter >> 6U), follower(0)};
  if (letter < 0x10000) return {static_cast<char>(0xE0U | letter >> 12U), follower(6), follower(0)};
  return {static_cast<char>(0xF0U | letter >> 18U), follower(12), follower(6), follower(0)};
}

}  // namespace soundsill::utf8
