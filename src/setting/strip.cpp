#include "setting/strip.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <map>

#include "pages/shapes.h"

namespace soundsill::page {

void merge(Strip& whole, const Strip& part, Milli dx, Milli dy) {
  whole.marks.reserve(whole.marks.size() + part.marks.size());
  for (Mark mark : part.marks) {
    shift(mark, dx, dy);
    whole.marks.push_back(std::move(mark));
  }
  for (const auto& [id, y] : part.places) whole.places.emplace_back(id, y + dy);
  for (const Elastic& e : part.elastic) whole.elastic.push_back({e.top + dy, e.bottom + dy, e.give});
  for (auto [node, box] : part.figures) {
    box.x += dx;
    box.y += dy;
    whole.figures.emplace_back(node, box);
  }
}

Strip stacked(const Strips& strips) {
  Strip whole;
  if (strips.empty()) return whole;
  whole.before = strips.front().before;
  whole.after = strips.back().after;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    if (i > 0) whole.height += std::max(strips[i - 1].after, strips[i].before);
    merge(whole, strips[i], 0, whole.height);
    whole.height += strips[i].height;
  }
  return whole;
}

Milli height_of(const Strips& strips) {
  Milli height = 0;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    if (i > 0) height += std::max(strips[i - 1].after, strips[i].before);
    height += strips[i].height;
  }
  return height;
}

void append(Strips& to, Strips more) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void indent(Strips& strips, Milli dx) {
  std::map<const Strip*, std::shared_ptr<const Strip>> heads;  // a head is shared by many strips: moved once
  for (Strip& strip : strips) {
    for (Mark& mark : strip.marks) shift(mark, dx, 0);
    for (auto& figure : strip.figures) figure.second.x += dx;
    if (!strip.head) continue;
    auto& moved = heads[strip.head.get()];
    if (!moved) {
      Strip head = *strip.head;
      for (Mark& mark : head.marks) shift(mark, dx, 0);
      moved = std::make_shared<const Strip>(std::move(head));
    }
    strip.head = moved;
  }
}

namespace {

bool is_path(const Mark& mark) { return std::holds_alternative<PathMark>(mark); }

// Moves what ends above `limit` into a piece; paths that reach over an edge of the piece are clipped to it.
Strip piece_of(std::vector<Mark>& rest, Milli top, Milli limit) {
  Strip piece;
  std::vector<Mark> later;
  Milli next = INT32_MAX;
  for (const Mark& mark : rest)
    if (!is_path(mark) && bounds(mark).bottom() > limit) next = std::min(next, bounds(mark).y);
  // One line that is taller than any page stands where it stands.
  const bool stuck = next <= top;
  const Milli end = stuck ? limit : std::min(limit, next);
  for (Mark& mark : rest) {
    const Box box = bounds(mark);
    const bool here = is_path(mark) ? box.y < end : stuck || box.bottom() <= limit;
    const bool on = is_path(mark) ? box.bottom() > end : !here;
    if (on) later.push_back(mark);
    if (!here) continue;
    if (auto* path = std::get_if<PathMark>(&mark); path && (box.y < top || on))
      path->clip = Box{box.x - path->line_width, std::max(top, box.y), box.width + 2 * path->line_width,
                       std::min(end, box.bottom()) - std::max(top, box.y)};
    shift(mark, 0, -top);
    piece.marks.push_back(std::move(mark));
  }
  piece.height = end - top;
  rest = std::move(later);
  return piece;
}

}  // namespace

namespace {

/// Makes one band lower: what stands below moves up. Photos in it keep their shape, and what is drawn on a photo keeps
/// its place in the picture.
struct Squeeze {
  Elastic band;
  Milli by;
  std::vector<Box> photos;  ///< in the band, as they stood before

  [[nodiscard]] Milli smaller(Milli length) const {
    const std::int64_t height = band.bottom - band.top;
    return milli(scaled(length, height - by, height));
  }
  [[nodiscard]] bool below(Milli y) const { return y >= band.bottom; }
  [[nodiscard]] bool in_band(const Box& b) const { return b.y < band.bottom && b.bottom() > band.top; }
  /// The left side from which things shrink: that of the photo on which something stands, else its own.
  [[nodiscard]] Milli left_of(const Box& b) const {
    const At middle{b.x + b.width / 2, b.y + b.height / 2};
    for (const Box& photo : photos)
      if (middle.x >= photo.x && middle.x <= photo.right() && middle.y >= photo.y && middle.y <= photo.bottom())
        return photo.x;
    return b.x;
  }
  [[nodiscard]] At moved(At a, Milli left) const {
    return {left + smaller(a.x - left), band.top + smaller(a.y - band.top)};
  }
  void apply(Box& b) const {
    if (below(b.y)) {
      b.y -= by;
    } else if (in_band(b)) {
      const At corner = moved({b.x, b.y}, left_of(b));
      b = {corner.x, corner.y, smaller(b.width), smaller(b.height)};
    }
  }
  void operator()(TextMark& t) const {
    if (below(t.at.y)) t.at.y -= by;
  }
  void operator()(ImageMark& i) const { apply(i.box); }
  void operator()(LinkMark& l) const {
    if (below(l.box.y)) l.box.y -= by;
  }
  void operator()(PathMark& p) const {
    // A sign may reach over the edge of its photo; what is seen of it says where it belongs.
    const Box box = p.clip ? *p.clip : bounds(Mark{p});
    const Milli left = left_of(box);
    for (auto& piece : p.pieces)
      for (At& to : piece.to) {
        if (below(box.y))
          to.y -= by;
        else if (in_band(box))
          to = moved(to, left);
      }
    if (p.clip) apply(*p.clip);
  }
};

std::vector<Box> photos_in(const std::vector<Mark>& marks, const Elastic& band) {
  std::vector<Box> photos;
  for (const Mark& mark : marks)
    if (const auto* image = std::get_if<ImageMark>(&mark);
        image && image->box.y >= band.top && image->box.bottom() <= band.bottom)
      photos.push_back(image->box);
  return photos;
}

}  // namespace

Strip squeezed(Strip strip, Milli by) {
  std::int64_t left = by, give = 0;
  for (const Elastic& e : strip.elastic) give += e.give;
  // From the last band to the first, so that the places of those above stay true.
  for (std::size_t i = strip.elastic.size(); i-- > 0 && give > 0;) {
    const Squeeze squeeze{strip.elastic[i], milli(left * strip.elastic[i].give / give),
                          photos_in(strip.marks, strip.elastic[i])};
    give -= squeeze.band.give;
    left -= squeeze.by;
    for (Mark& mark : strip.marks) std::visit(squeeze, mark);
    for (auto& figure : strip.figures) squeeze.apply(figure.second);
    for (auto& place : strip.places)
      if (squeeze.below(place.second)) place.second -= squeeze.by;
    strip.height -= squeeze.by;
  }
  return strip;
}

Strips cut_to(const Strip& strip, Milli room) {
  Strips pieces;
  std::vector<Mark> rest = strip.marks;
  for (Milli top = 0; top < strip.height;) {
    const bool last = strip.height - top <= room;
    Strip piece = piece_of(rest, top, last ? strip.height : top + room);
    piece.height = std::max(piece.height, points(1));
    const Milli end = top + piece.height;
    for (const auto& [id, y] : strip.places)
      if (y >= top && y < end) piece.places.emplace_back(id, y - top);
    for (const auto& [node, box] : strip.figures)
      if (box.y >= top && box.y < end)
        piece.figures.emplace_back(node, Box{box.x, box.y - top, box.width, std::min(box.height, end - box.y)});
    piece.head = strip.head;
    pieces.push_back(std::move(piece));
    top = end;
  }
  pieces.front().before = strip.before;
  pieces.back().after = strip.after;
  pieces.back().keep = strip.keep;
  return pieces;
}

Strip as_artifact(Strip strip) {
  std::erase_if(strip.marks, [](const Mark& m) { return std::holds_alternative<LinkMark>(m); });
  for (Mark& mark : strip.marks) std::visit([](auto& m) { m.node = artifact; }, mark);
  strip.places.clear();
  strip.figures.clear();
  return strip;
}

}  // namespace soundsill::page
