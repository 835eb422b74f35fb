#include "pdf/check.h"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace soundsill::pdf {

namespace {

using page::At;
using page::Box;

/// One sheet and what may stand on it.
class Sheet {
 public:
  Sheet(const page::Page& page, std::size_t number) : page_(page), number_(number) {}

  void check() const {
    constexpr page::Milli least = 3'000;
    constexpr page::Milli most = 14'400'000;  // limits of the format
    if (std::min(page_.width, page_.height) < least || std::max(page_.width, page_.height) > most)
      fail("has no possible size");
    for (const page::Mark& mark : page_.marks) std::visit([this](const auto& m) { check(m); }, mark);
  }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    throw std::invalid_argument("page " + std::to_string(number_) + " " + what);
  }

  void expect_inside(std::int64_t x, std::int64_t y, const std::string& what) const {
    if (x < 0 || y < 0 || x > page_.width || y > page_.height)
      fail("has " + what + " off the sheet, at " + std::to_string(x) + ", " + std::to_string(y));
  }

  void expect_inside(const Box& box, const std::string& what) const {
    if (box.width < 0 || box.height < 0) fail("has " + what + " of negative size");
    expect_inside(box.x, box.y, what);
    expect_inside(std::int64_t{box.x} + box.width, std::int64_t{box.y} + box.height, what);
  }

  void check(const page::TextMark& mark) const {
    if (mark.face == nullptr || mark.size <= 0) fail("has text without a face or a size: `" + mark.text + "`");
    std::int64_t units = 0;
    for (const font::Glyph& glyph : mark.glyphs) units += glyph.advance;
    expect_inside(mark.at.x, mark.at.y, "`" + mark.text + "`");
    expect_inside(mark.at.x + units * mark.size / mark.face->units_per_em(), mark.at.y, "`" + mark.text + "`");
  }

  void check(const page::PathMark& mark) const {
    using Kind = page::PathMark::Piece::Kind;
    if (mark.line_width < 0) fail("has a line of negative width");
    if (std::any_of(mark.dash.begin(), mark.dash.end(), [](page::Milli part) { return part < 0; }) ||
        (!mark.dash.empty() && std::count(mark.dash.begin(), mark.dash.end(), 0) == std::ssize(mark.dash)))
      fail("has a line with impossible dashes");
    if (!mark.pieces.empty() && mark.pieces.front().kind != Kind::move) fail("has a path that begins nowhere");
    if (mark.clip) return expect_inside(*mark.clip, "a clip");  // what is cut away may lie anywhere
    for (const auto& piece : mark.pieces) {
      const std::size_t points = piece.kind == Kind::curve ? 3 : piece.kind == Kind::close ? 0 : 1;
      for (std::size_t i = 0; i < points; ++i) expect_inside(piece.to[i].x, piece.to[i].y, "a path");
    }
  }

  void check(const page::ImageMark& mark) const {
    expect_inside(mark.box, "photo `" + mark.photo + "`");
    if (mark.box.width == 0 || mark.box.height == 0) fail("has photo `" + mark.photo + "` without a size");
  }

  void check(const page::LinkMark& mark) const {
    expect_inside(mark.box, "a link to `" + mark.target + "`");
    if (mark.description.empty()) fail("has a link to `" + mark.target + "` that does not say where it leads");
  }

  const page::Page& page_;
  std::size_t number_;
};

void check_places(const page::Pages& pages) {
  const auto count = std::ssize(pages.pages);
  for (const auto& [key, place] : pages.destinations)
    if (place.page < 0 || place.page >= count)
      throw std::invalid_argument("`" + key + "` leads to a page that is not there");
  for (const page::Node& node : pages.nodes)
    if (node.box && (node.box_page < 0 || node.box_page >= count))
      throw std::invalid_argument("a " + node.role + " stands on a page that is not there");
}

}  // namespace

void check(const page::Pages& pages) {
  if (pages.pages.empty()) throw std::invalid_argument("there are no pages");
  if (pages.title.empty() || pages.language.empty())
    throw std::invalid_argument("the pages have no title or no language");
  check_places(pages);
  for (std::size_t i = 0; i < pages.pages.size(); ++i) Sheet(pages.pages[i], i + 1).check();
}

}  // namespace soundsill::pdf
