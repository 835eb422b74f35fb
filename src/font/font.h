// Type: shaping, measuring and subsetting. HarfBuzz is known only here.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace soundsill::font {

/// A glyph of a shaped text. Advances are in font units and include kerning, in whole fiftieths of an em.
struct Glyph {
  std::uint16_t id = 0;       ///< 0 when the face lacks the letter
  std::int32_t advance = 0;   ///< what the pen moves, kerning included
  std::uint32_t cluster = 0;  ///< byte offset of the first letter it stands for
};

/// A font file cut down to some glyphs, and the numbers that they have in it.
struct Subset {
  std::string bytes;
  std::vector<std::uint16_t> numbers;  ///< alongside the glyphs that were asked for
};

/// One face: bytes of a TrueType file that we ship. Construction throws std::runtime_error on bytes that
/// are no font. Shaping fills a cache, so a face serves one thread at a time.
class Face {
 public:
  /// Keeps views: the bytes must outlive the face. `pairs` is what font/pairs.h packed of it, or empty.
  Face(std::string name, std::string_view bytes, std::string_view pairs = {});
  ~Face();
  Face(const Face&) = delete;
  Face& operator=(const Face&) = delete;

  [[nodiscard]] const std::string& name() const;        ///< our own key: "regular", "bold", ...
  [[nodiscard]] const std::string& postscript() const;  ///< from the name table
  [[nodiscard]] int units_per_em() const;
  [[nodiscard]] int ascender() const;      ///< font units, positive
  [[nodiscard]] int descender() const;     ///< font units, negative
  [[nodiscard]] int cap_height() const;    ///< font units
  [[nodiscard]] int x_height() const;      ///< font units
  [[nodiscard]] int italic_angle() const;  ///< whole degrees
  struct Box {
    int left, bottom, right, top;
  };
  [[nodiscard]] Box bounding_box() const;
  [[nodiscard]] int advance(std::uint16_t glyph) const;  ///< without kerning
  [[nodiscard]] bool has(char32_t letter) const;

  /// Shapes one line of left-to-right text with kerning, without ligatures. Cached by text.
  [[nodiscard]] const std::vector<Glyph>& shape(std::string_view utf8) const;
  /// Sum of advances in font units.
  [[nodiscard]] std::int64_t width(std::string_view utf8) const;

  /// The font file with these glyphs under the numbers they have here, and with its names and measures.
  [[nodiscard]] std::string part(const std::vector<std::uint16_t>& glyphs) const;
  /// The font file with these glyphs, what they are composed of, and glyph 0; without hinting and tables of layout.
  [[nodiscard]] Subset subset(const std::vector<std::uint16_t>& glyphs) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

/// The faces of a template by key; `fallback` serves letters that a face lacks.
class Faces {
 public:
  void add(std::string key, std::string_view bytes, std::string_view pairs = {});  ///< the bytes must outlive this
  [[nodiscard]] const Face* find(std::string_view key) const;                      ///< nullptr when there is none
  [[nodiscard]] const Face& fallback() const;  ///< throws std::out_of_range when none was set
  void set_fallback(std::string key);          ///< throws std::out_of_range on an unknown key

 private:
  std::map<std::string, std::unique_ptr<Face>, std::less<>> faces_;
  std::string fallback_;
};

}  // namespace soundsill::font
