// Which glyphs common letters get and how each two of them are kerned, asked of HarfBuzz while the program is built: to
// shape the words of one packet would take a fifth of its time.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "font/font.h"

namespace soundsill::font {

/// Shapes every two common letters and packs what came out, with the part of the font file that draws them.
[[nodiscard]] std::string pack_pairs(const Face& face);

/// Shapes texts out of such a pack.
class Pairs {
 public:
  /// Keeps a view. Throws std::invalid_argument on bytes that are no pack.
  explicit Pairs(std::string_view packed);

  /// Nothing for a text with a letter or a pair (an accent apart, say) that needs the shaper.
  [[nodiscard]] std::optional<std::vector<Glyph>> shape(std::string_view text) const;
  /// The part of the font file that has the glyphs of the common letters and of some more: a tenth of the whole, and
  /// all that most papers look into.
  [[nodiscard]] std::string_view part() const { return part_; }
  [[nodiscard]] bool draws(std::uint16_t glyph) const { return glyph < drawn_.size() && drawn_[glyph]; }

 private:
  struct Letter {
    std::uint16_t glyph = 0;
    std::int32_t advance = 0;
  };
  static constexpr std::uint8_t unknown = 255;

  [[nodiscard]] std::uint8_t index_of(char32_t letter) const;
  [[nodiscard]] int kerning(std::size_t left, std::size_t right) const;

  std::vector<Letter> letters_;
  std::array<std::uint8_t, 256> direct_{};  ///< of U+0000 to U+00FF
  std::vector<std::pair<char32_t, std::uint8_t>> others_;
  std::string_view kerns_, part_;
  std::vector<bool> drawn_;  ///< by glyph
};

}  // namespace soundsill::font
