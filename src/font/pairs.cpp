#include "font/pairs.h"

#include <algorithm>
#include <limits>
#include <stdexcept>

#include "source/utf8.h"

namespace soundsill::font {
namespace {

constexpr int needs_shaper = std::numeric_limits<std::int16_t>::min();
constexpr std::size_t number_bytes = 4, kern_bytes = 2, glyph_bytes = 2, head_bytes = 3 * number_bytes;

/// What English and Spanish papers are made of. Never more than 255.
std::u32string common_letters() {
  std::u32string out;
  for (char32_t c = U' '; c <= U'~'; ++c) out += c;
  for (char32_t c = U'\u00A1'; c <= U'\u00FF'; ++c)
    if (c != U'\u00AD') out += c;  // a soft hyphen is no letter
  return out + U"–—‘’“”•…−≤≥→";
}

/// What names of people and measures may have besides; drawn, but not paired.
std::u32string rarer_letters() {
  std::u32string out;
  for (char32_t c = U'\u0100'; c <= U'\u017F'; ++c) out += c;
  return out + U"′″⅛⅜⅝⅞";
}

void put(std::string& out, std::uint32_t value, std::size_t bytes) {
  for (std::size_t i = 0; i < bytes; ++i) out += static_cast<char>(value >> (8 * i) & 0xFFU);
}

std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < count; ++i)
    value |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[at + i])) << (8 * i);
  return value;
}

/// The advance that kerning adds to the first of two letters, when both keep their glyphs and the second its advance.
int kerning_of(const Face& face, const std::string& left, const std::string& right) {
  const std::vector<Glyph>&both = face.shape(left + right), &first = face.shape(left), &second = face.shape(right);
  const bool plain = both.size() == 2 && both[0].id == first[0].id && both[1].id == second[0].id &&
                     both[0].cluster == 0 && both[1].cluster == left.size() && both[1].advance == second[0].advance;
  return plain ? both[0].advance - first[0].advance : needs_shaper;
}

}  // namespace

std::string pack_pairs(const Face& face) {
  std::vector<std::string> texts;
  std::vector<std::uint16_t> drawn;
  std::string out;
  const std::u32string common = common_letters();
  for (const char32_t letter : common) {
    const std::string text = utf8::encode(letter);
    const auto& glyphs = face.shape(text);
    if (glyphs.size() != 1 || glyphs[0].id == 0) continue;
    texts.push_back(text);
    drawn.push_back(glyphs[0].id);
    put(out, letter, number_bytes);
    put(out, glyphs[0].id, number_bytes);
    put(out, static_cast<std::uint32_t>(glyphs[0].advance), number_bytes);
  }
  for (const char32_t letter : rarer_letters())
    for (const Glyph& glyph : face.shape(utf8::encode(letter)))
      if (glyph.id != 0) drawn.push_back(glyph.id);
  const std::string part = face.part(drawn);
  std::string head;
  put(head, static_cast<std::uint32_t>(texts.size()), number_bytes);
  put(head, static_cast<std::uint32_t>(drawn.size()), number_bytes);
  put(head, static_cast<std::uint32_t>(part.size()), number_bytes);
  for (const std::string& left : texts)
    for (const std::string& right : texts)
      put(out, static_cast<std::uint32_t>(kerning_of(face, left, right)), kern_bytes);
  for (const std::uint16_t glyph : drawn) put(out, glyph, glyph_bytes);
  return head + out + part;
}

Pairs::Pairs(std::string_view packed) {
  constexpr std::size_t letter_bytes = 3 * number_bytes;
  const bool headed = packed.size() >= head_bytes;
  const std::size_t count = headed ? number_at(packed, 0, number_bytes) : unknown;
  const std::size_t drawn = headed ? number_at(packed, number_bytes, number_bytes) : 0;
  const std::size_t part = headed ? number_at(packed, 2 * number_bytes, number_bytes) : 0;
  const std::size_t kerns_at = head_bytes + count * letter_bytes, kerns = count * count * kern_bytes;
  const std::size_t drawn_at = kerns_at + kerns, part_at = drawn_at + drawn * glyph_bytes;
  if (count >= unknown || packed.size() != part_at + part) throw std::invalid_argument("these are no pairs of letters");
  direct_.fill(unknown);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t at = head_bytes + i * letter_bytes;
    const char32_t letter = number_at(packed, at, number_bytes);
    letters_.push_back({static_cast<std::uint16_t>(number_at(packed, at + number_bytes, number_bytes)),
                        static_cast<std::int32_t>(number_at(packed, at + 2 * number_bytes, number_bytes))});
    if (letter < direct_.size())
      direct_[letter] = static_cast<std::uint8_t>(i);
    else
      others_.emplace_back(letter, static_cast<std::uint8_t>(i));
  }
  for (std::size_t i = 0; i < drawn; ++i) {
    const std::uint32_t glyph = number_at(packed, drawn_at + i * glyph_bytes, glyph_bytes);
    if (glyph >= drawn_.size()) drawn_.resize(glyph + std::size_t{1});
    drawn_[glyph] = true;
  }
  kerns_ = packed.substr(kerns_at, kerns);
  part_ = packed.substr(part_at);
}

std::uint8_t Pairs::index_of(char32_t letter) const {
  if (letter < direct_.size()) return direct_[letter];
  const auto found =
      std::find_if(others_.begin(), others_.end(), [&](const auto& other) { return other.first == letter; });
  return found == others_.end() ? unknown : found->second;
}

int Pairs::kerning(std::size_t left, std::size_t right) const {
  return static_cast<std::int16_t>(number_at(kerns_, (left * letters_.size() + right) * kern_bytes, kern_bytes));
}

std::optional<std::vector<Glyph>> Pairs::shape(std::string_view text) const {
  std::vector<Glyph> out;
  out.reserve(text.size());
  std::uint8_t last = unknown;
  for (std::size_t at = 0; at < text.size();) {
    const auto cluster = static_cast<std::uint32_t>(at);
    const utf8::Letter letter = utf8::letter_at(text, at);
    at += letter.bytes;
    const std::uint8_t index = index_of(letter.code);
    if (index == unknown) return std::nullopt;
    if (last != unknown) {
      const int kern = kerning(last, index);
      if (kern == needs_shaper) return std::nullopt;
      out.back().advance += kern;
    }
    out.push_back({letters_[index].glyph, letters_[index].advance, cluster});
    last = index;
  }
  return out;
}

}  // namespace soundsill::font
