// Serves layout/blocks.h. Photos, two to a row, as large as their pixels allow.
#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>

#include "layout/blocks.h"
#include "layout/layout.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using document::Photo;

constexpr std::int64_t points_an_inch = 72;

struct Size {
  Milli width = 0, height = 0;
};

photo::Part part_of(const Photo& photo) {
  return {photo.part.corner.x, photo.part.corner.y, photo.part.width, photo.part.height};
}

/// How many pixels a length on paper takes, at least one.
int pixels(Milli length, int dpi) {
  const std::int64_t whole = points_an_inch * 1000;
  return static_cast<int>(std::max<std::int64_t>(1, (std::int64_t{length} * dpi + whole - 1) / whole));
}

photo::Outcome<photo::Placed> prepared(const std::string& bytes, const PhotoSource& from, PhotosStyle::Step step) {
  return photo::prepare(bytes, pixels(from.width, step.dpi), pixels(from.height, step.dpi), step.quality, from.part);
}

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

  // As wide as the cell, but not taller than allowed and never with fewer pixels to the inch than the template asks.
  [[nodiscard]] Size size_of(const Photo& photo) const {
    const Size empty{cell_, cell_ / 2};
    const std::string* bytes = bytes_of(photo);
    if (!bytes) return empty;
    const auto header = photo::read_header(*bytes);
    if (!header || header.value->upright_width() <= 0 || header.value->upright_height() <= 0) return empty;
    const std::int64_t whole = photo::Part::whole;
    const std::int64_t w =
        std::max<std::int64_t>(1, std::int64_t{header.value->upright_width()} * photo.part.width / whole);
    const std::int64_t h =
        std::max<std::int64_t>(1, std::int64_t{header.value->upright_height()} * photo.part.height / whole);
    const Milli tallest = std::min(look_.max_height, shop_.column_height * 2 / 3);
    std::int64_t width = std::min<std::int64_t>(cell_, w * points_an_inch * 1000 / std::max(look_.least_dpi, 1));
    if (width * h / w > tallest) width = tallest * w / h;
    return {std::max(milli(width), points(4)), std::max(milli(width * h / w), points(4))};
  }

  void add(Strip& row, const Photo& photo, Size size, Milli x, Milli height) {
    const NodeId group = shop_.node("Div", place_.parent);
    // Who listens hears what a picture is before its own words.
    const TextStyle& style = shop_.text(look_.caption);
    Milli bottom = height;
    if (!photo.caption.empty()) {
      const auto lines = set_lines(shop_, photo.caption, {&style, cell_, shop_.node("Caption", group)});
      put_lines(shop_, row, lines, style, {x, height + style.before}, cell_, Align::left);
      bottom += style.before + height_of_lines(lines, style);
    }
    const NodeId figure = shop_.node("Figure", group);
    shop_.at(figure).alt = photo.alt;
    shop_.at(figure).lang = photo.lang;
    const Box box{x, height - size.height, size.width, size.height};
    row.figures.emplace_back(figure, box);
    put_image(row, photo, box, figure);
    row.height = std::max(row.height, bottom);
  }

  void put_image(Strip& row, const Photo& photo, const Box& box, NodeId figure) {
    const PhotosStyle::Step best = look_.steps.front();
    const PhotoSource from{photo.key, part_of(photo), box.width, box.height};
    std::string key = photo.key + "@" + std::to_string(pixels(box.width, best.dpi)) + "x" +
                      std::to_string(pixels(box.height, best.dpi));
    if (from.part != photo::Part{})
      for (const int n : {from.part.x, from.part.y, from.part.width, from.part.height}) key += "," + std::to_string(n);
    const std::string* bytes = bytes_of(photo);
    if (!bytes || !photo::read_header(*bytes)) {
      placeholder(row, photo, box, figure);
      whole_ = false;
      return;
    }
    shop_.pages.photo_sources.emplace(key, from);
    row.marks.emplace_back(ImageMark{box, key, figure});
    if (look_.border > 0) row.marks.emplace_back(framed_box(box, look_.border, look_.border_color));
    for (const document::PhotoSign& sign : photo.signs) put_sign(row, photo.part, sign, box, figure);
  }

  [[nodiscard]] static At on_paper(const document::PhotoPart& part, const document::Spot& spot, const Box& box) {
    const auto place = [](int at, int from, int size, Milli room) {
      return milli(std::clamp<std::int64_t>(scaled(at - from, room, std::max(size, 1)), 0, room));
    };
    return {box.x + place(spot.x, part.corner.x, part.width, box.width),
            box.y + place(spot.y, part.corner.y, part.height, box.height)};
  }

  /// Signs are drawn twice: a light casing under a dark line, so that they stand out on any picture and in a copy.
  void put_sign(Strip& row, const document::PhotoPart& part, const document::PhotoSign& sign, const Box& box,
                NodeId figure) {
    const At from = on_paper(part, sign.from, box), to = on_paper(part, sign.to, box);
    std::vector<PathMark> paths;
    const std::int64_t dx = to.x - from.x, dy = to.y - from.y;
    const std::int64_t length = whole_root(dx * dx + dy * dy);
    if (length == 0) return;
    if (sign.kind == document::PhotoSign::Kind::circle) {
      paths.push_back(circle_path(from, milli(length)));
    } else {
      const std::int64_t head = std::min<std::int64_t>(look_.sign_head, length * 2 / 3);
      const auto barb = [&](int side) {
        return At{milli(to.x - dx * head / length - side * dy * head / (2 * length)),
                  milli(to.y - dy * head / length + side * dx * head / (2 * length))};
      };
      paths.push_back(open_path({from, to}));
      paths.push_back(open_path({barb(1), to, barb(-1)}));
    }
    for (const bool casing : {true, false})
      for (PathMark path : paths) {
        path.stroke = casing ? look_.casing_color : look_.sign_color;
        path.line_width = casing ? look_.sign + 2 * look_.casing : look_.sign;
        path.round = true;
        path.clip = box;
        path.node = figure;
        row.marks.emplace_back(std::move(path));
      }
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

PhotoTroubles develop(Pages& pages, const document::Document& document, const Template& look, std::size_t step,
                      unsigned threads) {
  const auto how = look.photos.steps.at(step);
  std::vector<std::pair<const std::string*, const PhotoSource*>> all;
  for (const auto& [key, from] : pages.photo_sources) all.emplace_back(&key, &from);
  std::vector<photo::Outcome<photo::Placed>> made(all.size());
  std::atomic<std::size_t> next = 0;
  std::mutex mutex;
  std::exception_ptr failed;
  const auto work = [&] {
    try {
      for (std::size_t i = next++; i < all.size(); i = next++)
        made[i] = prepared(document.photos.at(all[i].second->key), *all[i].second, how);
    } catch (...) {  // no memory: thrown where somebody can tell of it
      const std::lock_guard lock(mutex);
      failed = std::current_exception();
    }
  };
  {
    std::vector<std::jthread> helpers;
    try {
      for (std::size_t i = 1; i < std::min<std::size_t>(threads, all.size()); ++i) helpers.emplace_back(work);
    } catch (const std::system_error&) {  // fewer will do, and so will none
    }
    work();
  }
  if (failed) std::rethrow_exception(failed);
  PhotoTroubles troubles;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (made[i])
      pages.photos[*all[i].first] = std::move(*made[i].value);
    else
      troubles.emplace(all[i].second->key, std::move(made[i].trouble));
  }
  return troubles;
}

Strips make(Workshop& shop, const document::Photos& photos, Place place) {
  PhotoMaker maker(shop, place);
  Strips strips;
  for (std::size_t i = 0; i < photos.photos.size(); i += 2)
    strips.push_back(maker.row(photos.photos[i], i + 1 < photos.photos.size() ? &photos.photos[i + 1] : nullptr));
  return strips;
}

}  // namespace soundsill::page
