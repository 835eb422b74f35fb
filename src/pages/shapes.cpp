#include "pages/shapes.h"

#include <algorithm>

namespace soundsill::page {
namespace {

using Kind = PathMark::Piece::Kind;

Box path_bounds(const PathMark& path) {
  std::int64_t left = INT32_MAX, top = INT32_MAX, right = INT32_MIN, bottom = INT32_MIN;
  const auto take = [&](At p) {
    left = std::min<std::int64_t>(left, p.x);
    right = std::max<std::int64_t>(right, p.x);
    top = std::min<std::int64_t>(top, p.y);
    bottom = std::max<std::int64_t>(bottom, p.y);
  };
  for (const auto& piece : path.pieces) {
    if (piece.kind == Kind::close) continue;
    take(piece.to[0]);
    if (piece.kind != Kind::curve) continue;
    take(piece.to[1]);
    take(piece.to[2]);
  }
  if (left > right) return {};
  return {milli(left), milli(top), milli(right - left), milli(bottom - top)};
}

Box text_bounds(const TextMark& text) {
  if (!text.face) return {text.at.x, text.at.y, text.width, 0};
  const int em = text.face->units_per_em();
  const Milli up = milli(scaled(text.size, text.face->ascender(), em));
  const Milli down = milli(scaled(text.size, -text.face->descender(), em));
  return {text.at.x, text.at.y - up, ink_width(text), up + down};
}

struct Shift {
  Milli dx, dy;
  void move(At& p) const {
    p.x += dx;
    p.y += dy;
  }
  void move(Box& b) const {
    b.x += dx;
    b.y += dy;
  }
  void operator()(TextMark& t) const { move(t.at); }
  void operator()(ImageMark& i) const { move(i.box); }
  void operator()(LinkMark& l) const { move(l.box); }
  void operator()(PathMark& p) const {
    for (auto& piece : p.pieces)
      for (At& to : piece.to) move(to);
    if (p.clip) move(*p.clip);
  }
};

int side(At a, At b, At p) {
  const std::int64_t turn =
      (std::int64_t{b.x} - a.x) * (std::int64_t{p.y} - a.y) - (std::int64_t{b.y} - a.y) * (std::int64_t{p.x} - a.x);
  return turn > 0 ? 1 : turn < 0 ? -1 : 0;
}

}  // namespace

std::int64_t whole_root(std::int64_t n) {
  if (n <= 0) return 0;
  std::int64_t low = 0, high = 3'037'000'499;
  while (low < high) {
    const std::int64_t middle = (low + high + 1) / 2;
    if (middle * middle <= n)
      low = middle;
    else
      high = middle - 1;
  }
  return low;
}

bool overlap(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

Box grown(const Box& box, Milli by) { return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by}; }

Box united(const Box& a, const Box& b) {
  const Milli x = std::min(a.x, b.x), y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

bool inside(const Box& inner, const Box& outer) {
  return inner.x >= outer.x && inner.y >= outer.y && inner.right() <= outer.right() && inner.bottom() <= outer.bottom();
}

bool touches(At a, At b, const Box& box) {
  if (std::max(a.x, b.x) < box.x || std::min(a.x, b.x) > box.right()) return false;
  if (std::max(a.y, b.y) < box.y || std::min(a.y, b.y) > box.bottom()) return false;
  const int first = side(a, b, {box.x, box.y});
  return first != side(a, b, {box.right(), box.y}) || first != side(a, b, {box.right(), box.bottom()}) ||
         first != side(a, b, {box.x, box.bottom()}) || first == 0;
}

bool within(At p, const std::vector<At>& polygon) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const At a = polygon[j], b = polygon[i];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    const std::int64_t left = (std::int64_t{p.x} - a.x) * (b.y - a.y);
    const std::int64_t right = (std::int64_t{p.y} - a.y) * (b.x - a.x);
    if (b.y > a.y ? left < right : left > right) in = !in;
  }
  return in;
}

PathMark line_path(At a, At b, Milli width, Color color) {
  PathMark path;
  path.pieces = {{Kind::move, {a}}, {Kind::line, {b}}};
  path.stroke = color;
  path.line_width = width;
  return path;
}

PathMark open_path(const std::vector<At>& points) {
  PathMark path;
  for (const At p : points) path.pieces.push_back({path.pieces.empty() ? Kind::move : Kind::line, {p}});
  return path;
}

PathMark closed_path(const std::vector<At>& points) {
  PathMark path = open_path(points);
  if (!path.pieces.empty()) path.pieces.push_back({Kind::close, {}});
  return path;
}

PathMark filled_box(const Box& box, Color color) {
  PathMark path =
      closed_path({{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}});
  path.fill = color;
  return path;
}

PathMark framed_box(const Box& box, Milli width, Color color) {
  PathMark path = filled_box(box, color);
  path.fill.reset();
  path.stroke = color;
  path.line_width = width;
  return path;
}

PathMark circle_path(At m, Milli r) {
  const Milli k = milli(scaled(r, 5523, 10000));  // how far the controls stand for a quarter of a circle
  PathMark path;
  path.pieces = {{Kind::move, {At{m.x + r, m.y}}},
                 {Kind::curve, {At{m.x + r, m.y + k}, At{m.x + k, m.y + r}, At{m.x, m.y + r}}},
                 {Kind::curve, {At{m.x - k, m.y + r}, At{m.x - r, m.y + k}, At{m.x - r, m.y}}},
                 {Kind::curve, {At{m.x - r, m.y - k}, At{m.x - k, m.y - r}, At{m.x, m.y - r}}},
                 {Kind::curve, {At{m.x + k, m.y - r}, At{m.x + r, m.y - k}, At{m.x + r, m.y}}},
                 {Kind::close, {}}};
  return path;
}

void shift(Mark& mark, Milli dx, Milli dy) { std::visit(Shift{dx, dy}, mark); }

Box bounds(const Mark& mark) {
  if (const auto* text = std::get_if<TextMark>(&mark)) return text_bounds(*text);
  if (const auto* path = std::get_if<PathMark>(&mark)) return path_bounds(*path);
  if (const auto* image = std::get_if<ImageMark>(&mark)) return image->box;
  return std::get<LinkMark>(mark).box;
}

Milli ink_width(const TextMark& text) {
  std::size_t end = text.text.size();
  std::int64_t spaces = 0;
  for (std::size_t i = text.glyphs.size(); i-- > 0 && end > 0 && text.text[end - 1] == ' '; --end)
    spaces += text.glyphs[i].advance;
  if (!text.face || spaces == 0) return text.width;
  return text.width - milli(scaled(text.size, spaces, text.face->units_per_em()));
}

}  // namespace soundsill::page
