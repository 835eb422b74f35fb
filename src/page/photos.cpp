// Photos, two to a row, as large as their pixels allow.
#include <algorithm>

#include "page/blocks.h"
#include "page/paragraph.h"
#include "page/shapes.h"

namespace soundsill::page {
namespace {

using document::Photo;

constexpr std::int64_t pixels_an_inch = 220, fewest_pixels_an_inch = 150, points_an_inch = 72;

struct Size {
  Milli width = 0, height = 0;
};

class PhotoMaker {
 public:
  PhotoMaker(Workshop& shop, Place place) : shop_(shop), place_(place), look_(shop.look.photos) {
    cell_ = (place.width - look_.gap) / 2;
  }

  Strip row(const Photo& left, const Photo* right) {
    const Size a = size_of(left), b = right ? size_of(*right) : Size{};
    Strip row;
    row.before = look_.before;
    row.after = look_.after;
    const Milli height = right ? std::max(a.height, b.height) : a.height;
    add(row, left, a, 0, height);
    if (right) add(row, *right, b, cell_ + look_.gap, height);
    if (whole_ && height > look_.min_height) row.elastic.push_back({0, height, height - look_.min_height});
    return row;
  }

 private:
  [[nodiscard]] const std::string* bytes_of(const Photo& photo) const {
    const auto found = shop_.document.photos.find(photo.key);
    return found == shop_.document.photos.end() ? nullptr : &found->second;
  }

  // As wide as the cell, but not taller than allowed and never with fewer than 150 pixels to the inch.
  [[nodiscard]] Size size_of(const Photo& photo) const {
    const Size empty{cell_, cell_ / 2};
    const std::string* bytes = bytes_of(photo);
    if (!bytes) return empty;
    const auto header = photo::read_header(*bytes);
    if (!header || header.value->upright_width() <= 0 || header.value->upright_height() <= 0) return empty;
    const std::int64_t w = header.value->upright_width(), h = header.value->upright_height();
    const Milli tallest = std::min(look_.max_height, shop_.column_height * 2 / 3);
    std::int64_t width = std::min<std::int64_t>(cell_, w * points_an_inch * 1000 / fewest_pixels_an_inch);
    if (width * h / w > tallest) width = tallest * w / h;
    return {std::max(milli(width), points(4)), std::max(milli(width * h / w), points(4))};
  }

  void add(Strip& row, const Photo& photo, Size size, Milli x, Milli height) {
    const NodeId group = shop_.node("Div", place_.parent);
    const NodeId figure = shop_.node("Figure", group);
    shop_.at(figure).alt = photo.alt;
    const Box box{x, height - size.height, size.width, size.height};
    row.figures.emplace_back(figure, box);
    put_image(row, photo, box, figure);
    const TextStyle& style = shop_.text(look_.caption);
    Milli bottom = height;
    if (!photo.caption.empty()) {
      const auto lines = set_lines(shop_, photo.caption, {&style, cell_, shop_.node("Caption", group)});
      put_lines(shop_, row, lines, style, {x, height + style.before}, cell_, Align::left);
      bottom += style.before + height_of_lines(lines, style);
    }
    row.height = std::max(row.height, bottom);
  }

  void put_image(Strip& row, const Photo& photo, const Box& box, NodeId figure) {
    const auto pixels = [](Milli length) {
      return static_cast<int>((std::int64_t{length} * pixels_an_inch + points_an_inch * 1000 - 1) /
                              (points_an_inch * 1000));
    };
    const int width = pixels(box.width), height = pixels(box.height);
    const std::string key = photo.key + "@" + std::to_string(width) + "x" + std::to_string(height);
    const std::string* bytes = bytes_of(photo);
    if (bytes && !shop_.pages.photos.contains(key)) {
      auto placed = photo::prepare(*bytes, width, height);
      if (placed) shop_.pages.photos.emplace(key, std::move(*placed.value));
    }
    if (!shop_.pages.photos.contains(key)) {
      placeholder(row, photo, box, figure);
      whole_ = false;
      return;
    }
    row.marks.emplace_back(ImageMark{box, key, figure});
    if (look_.border > 0) row.marks.emplace_back(framed_box(box, look_.border, look_.border_color));
  }

  // The photo's words in an empty frame: better than a hole, and the reader learns what is missing.
  void placeholder(Strip& row, const Photo& photo, const Box& box, NodeId figure) {
    row.marks.emplace_back(framed_box(box, points(1), look_.border_color));
    const TextStyle& style = shop_.text(look_.caption);
    const Milli pad = points(6);
    auto lines = set_lines(shop_, photo.alt, {&style, box.width - 2 * pad, figure});
    const auto fit = static_cast<std::size_t>(std::max(0, (box.height - 2 * pad) / style.leading));
    if (lines.size() > fit) lines.resize(fit);
    put_lines(shop_, row, lines, style, {box.x + pad, box.y + pad}, box.width - 2 * pad, Align::left);
  }

  Workshop& shop_;
  Place place_;
  const PhotosStyle& look_;
  Milli cell_ = 0;
  bool whole_ = true;  ///< all photos could be shown
};

}  // namespace

Strips make(Workshop& shop, const document::Photos& photos, Place place) {
  PhotoMaker maker(shop, place);
  Strips strips;
  for (std::size_t i = 0; i < photos.photos.size(); i += 2)
    strips.push_back(maker.row(photos.photos[i], i + 1 < photos.photos.size() ? &photos.photos[i + 1] : nullptr));
  return strips;
}

}  // namespace soundsill::page
