// Serves font/font.h.
#include <stdexcept>

#include "font/font.h"
#include "font/utf8.h"

namespace soundsill::font {

namespace {

constexpr char32_t replacement = 0xFFFD;

/// Number of bytes that a first byte announces, 0 when it is none.
std::size_t announced(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first < 0xE0) return 2;
  if (first >= 0xE0 && first < 0xF0) return 3;
  if (first >= 0xF0 && first < 0xF5) return 4;
  return 0;
}

bool is_letter(char32_t value, std::size_t size) {
  const bool shortest = size < 3 || value >= (size == 3 ? 0x800U : 0x10000U);
  return shortest && value <= 0x10FFFF && !(value >= 0xD800 && value < 0xE000);
}

}  // namespace

char32_t next_letter(std::string_view utf8, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(utf8[i]); };
  const std::size_t begin = at++;
  const std::size_t size = announced(byte(begin));
  if (size == 0 || begin + size > utf8.size()) return replacement;
  if (size == 1) return byte(begin);
  char32_t value = byte(begin) & (0x7FU >> size);
  for (std::size_t i = begin + 1; i < begin + size; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return replacement;
    value = value << 6U | (byte(i) & 0x3FU);
  }
  if (!is_letter(value, size)) return replacement;
  at = begin + size;
  return value;
}

std::string utf8(char32_t letter) {
  constexpr char32_t six_bits = 0x3F;
  const auto follower = [&](unsigned shift) { return static_cast<char>(0x80U | (letter >> shift & six_bits)); };
  if (letter < 0x80) return {static_cast<char>(letter)};
  if (letter < 0x800) return {static_cast<char>(0xC0U | letter >> 6U), follower(0)};
  if (letter < 0x10000) return {static_cast<char>(0xE0U | letter >> 12U), follower(6), follower(0)};
  return {static_cast<char>(0xF0U | letter >> 18U), follower(12), follower(6), follower(0)};
}

std::u32string codepoints(std::string_view utf8) {
  std::u32string letters;
  letters.reserve(utf8.size());
  for (std::size_t at = 0; at < utf8.size();) letters += next_letter(utf8, at);
  return letters;
}

void Faces::add(std::string key, std::string_view bytes, std::string_view pairs) {
  auto face = std::make_unique<Face>(key, bytes, pairs);
  faces_.insert_or_assign(std::move(key), std::move(face));
}

const Face* Faces::find(std::string_view key) const {
  const auto found = faces_.find(key);
  return found == faces_.end() ? nullptr : found->second.get();
}

const Face& Faces::fallback() const {
  const Face* face = find(fallback_);
  if (face == nullptr) throw std::out_of_range("no fallback face was set");
  return *face;
}

void Faces::set_fallback(std::string key) {
  if (find(key) == nullptr) throw std::out_of_range("there is no face `" + key + "`");
  fallback_ = std::move(key);
}

}  // namespace soundsill::font
