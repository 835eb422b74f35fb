// Pages: marks at fixed points, each with its place in the tree of meaning. Knows nothing of the trade nor of PDF.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "font/font.h"
#include "photo/photo.h"

namespace soundsill::page {

/// A distance on paper in thousandths of a point (1/72000 in). x runs right and y runs DOWN from the top left corner.
using Milli = std::int32_t;
[[nodiscard]] constexpr Milli points(int n) { return n * 1000; }

struct At {
  Milli x = 0, y = 0;
  friend bool operator==(const At&, const At&) = default;
};
struct Box {
  Milli x = 0, y = 0, width = 0, height = 0;
  [[nodiscard]] Milli right() const { return x + width; }
  [[nodiscard]] Milli bottom() const { return y + height; }
};
struct Color {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Color&, const Color&) = default;
};

/// Index into Pages::nodes. Marks that carry no meaning (rules, backgrounds, running heads) are artifacts.
using NodeId = std::int32_t;
inline constexpr NodeId artifact = -1;         ///< decoration within the page
inline constexpr NodeId artifact_header = -2;  ///< running head
inline constexpr NodeId artifact_footer = -3;  ///< running foot

/// Shaped text on a baseline. `glyphs` come from `face`; their advances are scaled by size / units_per_em.
/// `text` is what a reader should get; a line inside a paragraph ends with a space so that words do not join.
struct TextMark {
  At at;  ///< start of the baseline
  const font::Face* face = nullptr;
  Milli size = 0;
  Color color;
  std::vector<font::Glyph> glyphs;
  std::string text;
  Milli width = 0;
  NodeId node = artifact;
};

/// A path of straight and curved pieces, filled, stroked or both.
struct PathMark {
  struct Piece {
    enum class Kind { move, line, curve, close } kind;
    std::array<At, 3> to{};  ///< move and line use to[0]; curve has two controls and its end
  };
  std::vector<Piece> pieces;
  std::optional<Color> fill;
  std::optional<Color> stroke;
  Milli line_width = 1000;
  std::vector<Milli> dash;  ///< on, off, ...; empty for a whole line
  bool round = false;       ///< round caps and joins
  bool even_odd = false;
  std::optional<Box> clip;
  NodeId node = artifact;
};

struct ImageMark {
  Box box;
  std::string photo;  ///< key into Pages::photos
  NodeId node = artifact;
};

/// A place one can tap. `target` is a key of Pages::destinations, or a https:, mailto: or tel: address.
struct LinkMark {
  Box box;
  std::string target;
  std::string description;
  NodeId node = artifact;  ///< a Link node
};

using Mark = std::variant<TextMark, PathMark, ImageMark, LinkMark>;

struct Page {
  Milli width = 0, height = 0;
  std::vector<Mark> marks;  ///< in the order of reading, artifacts wherever they paint right
};

/// A node of the tree of meaning; node 0 is the Document. Parents come before children, and siblings in reading order.
struct Node {
  std::string role;  ///< standard PDF structure types: Document Sect H1.. P L LI Lbl LBody Table THead TBody TR TH TD
                     ///< Figure Caption Link Span
  NodeId parent = artifact;
  std::string alt;             ///< Figure: alternative text
  std::string actual;          ///< what is read in place of marks that are no text: the dot of a list
  std::string numbering;       ///< L: how its labels count ("Disc", "Decimal"), "None" when they are words
  std::string scope;           ///< TH: "Column" or "Row"
  std::string lang;            ///< when it differs from the document's
  std::optional<Box> box;      ///< Figure: where it stands
  std::int32_t box_page = -1;  ///< page of `box`
  int column_span = 1;
};

struct Bookmark {
  std::string title;
  int level = 1;  ///< 1 is outermost
  std::string destination;
};

struct Destination {
  int page = 0;
  Milli y = 0;  ///< from the top of the sheet
};

/// What a photo of Pages::photos was made from, so that it can be made again with fewer pixels.
struct PhotoSource {
  std::string key;  ///< of Document::photos
  photo::Part part;
  Milli width = 0, height = 0;  ///< as placed
};

struct Pages {
  std::vector<Page> pages;
  std::vector<Node> nodes;
  std::map<std::string, Destination> destinations;
  std::vector<Bookmark> bookmarks;
  std::map<std::string, photo::Placed> photos;       ///< by the keys of `photo_sources`, once they are developed
  std::map<std::string, PhotoSource> photo_sources;  ///< by the keys that ImageMarks name
  // what the file says of itself
  std::string title, author, subject, language, created;  ///< `created` is YYYY-MM-DD or empty; never the clock
  std::string source;                                     ///< what it rests on
};

}  // namespace soundsill::page
