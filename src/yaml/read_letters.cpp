#include "yaml/read_letters.h"

#include <algorithm>
#include <array>
#include <cstdio>

#include "source/utf8.h"

namespace soundsill::yaml {
namespace {

struct Range {
  std::uint32_t first, last;
  Odd odd;
};

constexpr std::uint32_t last_letter = 0x10FFFF;

// Unicode 15. Unseen: Default_Ignorable_Code_Point (DerivedCoreProperties.txt), the other format characters (Cf) but
// for number signs of scripts that are set, line and paragraph separators, and the braille pattern without dots.
// Leftward: what has Bidi_Class R or AL, or would have (DerivedBidiClass.txt). Private use and noncharacters:
// section 23.5, 23.7.
constexpr Range ranges[] = {
    {0x00AD, 0x00AD, Odd::unseen},     {0x034F, 0x034F, Odd::unseen},   {0x0590, 0x061B, Odd::leftward},
    {0x061C, 0x061C, Odd::unseen},     {0x061D, 0x08FF, Odd::leftward}, {0x115F, 0x1160, Odd::unseen},
    {0x17B4, 0x17B5, Odd::unseen},     {0x180B, 0x180F, Odd::unseen},   {0x200B, 0x200F, Odd::unseen},
    {0x2028, 0x202E, Odd::unseen},     {0x2060, 0x206F, Odd::unseen},   {0x2800, 0x2800, Odd::unseen},
    {0x3164, 0x3164, Odd::unseen},     {0xE000, 0xF8FF, Odd::nothing},  {0xFB1D, 0xFDCF, Odd::leftward},
    {0xFDD0, 0xFDEF, Odd::nothing},    {0xFDF0, 0xFDFF, Odd::leftward}, {0xFE00, 0xFE0F, Odd::unseen},
    {0xFE70, 0xFEFE, Odd::leftward},   {0xFEFF, 0xFEFF, Odd::unseen},   {0xFFA0, 0xFFA0, Odd::unseen},
    {0xFFF0, 0xFFFB, Odd::unseen},     {0xFFFC, 0xFFFF, Odd::nothing},  {0x10800, 0x10FFF, Odd::leftward},
    {0x13430, 0x1343F, Odd::unseen},   {0x1BCA0, 0x1BCA3, Odd::unseen}, {0x1D173, 0x1D17A, Odd::unseen},
    {0x1E800, 0x1EFFF, Odd::leftward}, {0xE0000, 0xE0FFF, Odd::unseen}, {0xF0000, last_letter, Odd::nothing},
};

std::optional<Odd> odd_of(std::uint32_t code) {
  if (code < ranges[0].first) return std::nullopt;
  if ((code & 0xFFFEU) == 0xFFFEU) return Odd::nothing;  // the last two of each plane
  const auto* const found = std::lower_bound(std::begin(ranges), std::end(ranges), code,
                                             [](const Range& range, std::uint32_t c) { return range.last < c; });
  if (found == std::end(ranges) || code < found->first) return std::nullopt;
  return found->odd;
}

/// Space separators (Zs) but for the plain one.
bool is_other_space(std::uint32_t code) {
  return code == 0xA0 || code == 0x1680 || (code >= 0x2000 && code <= 0x200A) || code == 0x202F || code == 0x205F ||
         code == 0x3000;
}

bool plain_bytes(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

/// The text, each letter as `as` gives it.
template <class As>
std::string each_letter(std::string_view text, As as) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const utf8::Letter letter = utf8::letter_at(text, at);
    const std::string_view bytes = text.substr(at, std::max<std::size_t>(letter.bytes, 1));
    out += as(letter.code, bytes);
    at += bytes.size();
  }
  return out;
}

}  // namespace

std::optional<OddLetter> odd_letter(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const utf8::Letter letter = utf8::letter_at(text, at);
    if (const auto odd = odd_of(letter.code)) return OddLetter{letter.code, *odd};
    at += std::max<std::size_t>(letter.bytes, 1);
  }
  return std::nullopt;
}

std::string with_plain_spaces(std::string_view text) {
  if (plain_bytes(text)) return std::string(text);
  return each_letter(text, [](std::uint32_t code, std::string_view bytes) {
    return is_other_space(code) ? std::string_view(" ") : bytes;
  });
}

std::string without_unseen(std::string_view text) {
  return each_letter(text, [](std::uint32_t code, std::string_view bytes) {
    return odd_of(code) == Odd::unseen ? std::string_view() : bytes;
  });
}

std::string with_odd_named(std::string_view text) {
  return each_letter(text, [](std::uint32_t code, std::string_view bytes) {
    return odd_of(code) ? "<" + name_of_letter(code) + ">" : std::string(bytes);
  });
}

std::string name_of_letter(std::uint32_t code) {
  std::array<char, 16> name{};
  std::snprintf(name.data(), name.size(), "U+%04X", static_cast<unsigned>(code));
  return name.data();
}

}  // namespace soundsill::yaml
