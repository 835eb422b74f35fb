#include "drawing/plan.h"

#include <algorithm>

#include "pages/shapes.h"

namespace soundsill::page {
namespace {

using Hatch = ShapeStyle::Hatch;
using Stretch = std::pair<At, At>;

// Lines of equal key: x + y rises to the right on paper, x - y falls, y is level.
enum class Direction { rising, falling, level };
std::int64_t key(At p, Direction d) {
  if (d == Direction::rising) return std::int64_t{p.x} + p.y;
  if (d == Direction::falling) return std::int64_t{p.x} - p.y;
  return p.y;
}

std::vector<Stretch> cut(const std::vector<At>& polygon, Direction d, std::int64_t c) {
  std::vector<At> hits;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const At a = polygon[j], b = polygon[i];
    const std::int64_t ka = key(a, d), kb = key(b, d);
    if ((ka <= c) == (kb <= c)) continue;
    const std::int64_t part = kb > ka ? c - ka : ka - c, whole = kb > ka ? kb - ka : ka - kb;
    hits.push_back({a.x + milli(scaled(std::int64_t{b.x} - a.x, part, whole)),
                    a.y + milli(scaled(std::int64_t{b.y} - a.y, part, whole))});
  }
  std::sort(hits.begin(), hits.end(), [](At a, At b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i + 1 < hits.size(); i += 2) stretches.emplace_back(hits[i], hits[i + 1]);
  return stretches;
}

std::vector<Stretch> cuts(const std::vector<At>& polygon, Direction d, std::int64_t step) {
  std::vector<Stretch> all;
  if (polygon.size() < 3 || step < 1) return all;
  std::int64_t low = key(polygon[0], d), high = low;
  for (const At p : polygon) {
    low = std::min(low, key(p, d));
    high = std::max(high, key(p, d));
  }
  // Multiples of the step, so that the hatches of neighbors meet.
  for (std::int64_t c = (low / step - 1) * step; c < high; c += step) {
    if (c <= low) continue;
    for (const Stretch& s : cut(polygon, d, c)) all.push_back(s);
  }
  return all;
}

void add_lines(PathMark& path, const std::vector<Stretch>& stretches) {
  using Kind = PathMark::Piece::Kind;
  for (const auto& [a, b] : stretches) {
    path.pieces.push_back({Kind::move, {a}});
    path.pieces.push_back({Kind::line, {b}});
  }
}

// Round dots as very short lines with round ends.
void add_dots(PathMark& path, const std::vector<At>& polygon, Milli gap) {
  std::vector<Stretch> dots;
  bool odd = false;
  for (const auto& [a, b] : cuts(polygon, Direction::level, gap)) {
    odd = (a.y / gap) % 2 != 0;
    const Milli from = (a.x / gap) * gap + (odd ? gap / 2 : 0);
    for (Milli x = from; x < b.x; x += gap)
      if (x > a.x) dots.emplace_back(At{x, a.y}, At{x + 1, a.y});
  }
  path.round = true;
  add_lines(path, dots);
}

}  // namespace

void Extent::take(Point p, Length radius) {
  const Point low{p.x - radius, p.y - radius}, high{p.x + radius, p.y + radius};
  if (empty) {
    least = low;
    most = high;
    empty = false;
    return;
  }
  least = {std::min(least.x, low.x), std::min(least.y, low.y)};
  most = {std::max(most.x, high.x), std::max(most.y, high.y)};
}

Extent extent_of(const document::Scene& scene) {
  Extent extent;
  for (const auto& shape : scene.shapes)
    for (const Point p : shape.points)
      extent.take(p, shape.kind == document::Shape::Kind::circle ? shape.radius : Length{});
  for (const auto& label : scene.labels) extent.take(label.at);
  for (const auto& marker : scene.markers) extent.take(marker.at);
  return extent;
}

Milli Plan::length(Length l) const {
  constexpr std::int64_t far = 500'000'000;  // far off any paper, and safe to add
  return milli(std::clamp(scaled(l.sixteenths, 375, feet_an_inch), -far, far));
}

At Plan::at(Point p) const { return {offset.x + length(p.x - origin.x), offset.y + length(p.y - origin.y)}; }

std::int64_t scale_for(const std::vector<int>& scales, const std::function<bool(std::int64_t)>& fits) {
  for (const int n : scales)
    if (fits(n)) return n;
  std::int64_t n = scales.empty() ? 10 : scales.back();
  for (const std::int64_t step = n; !fits(n) && n < 1'000'000'000; n = n < 10 * step ? n + step : n * 2) {
  }
  return n;
}

PathMark hatch_path(const std::vector<At>& polygon, const ShapeStyle& style) {
  PathMark path;
  path.stroke = style.hatch_color;
  path.line_width = style.hatch_width;
  const std::int64_t slant = scaled(style.hatch_gap, 14142, 10000);  // so that slanted lines stand as far apart
  switch (style.hatch) {
    case Hatch::none:
      break;
    case Hatch::rising:
      add_lines(path, cuts(polygon, Direction::rising, slant));
      break;
    case Hatch::falling:
      add_lines(path, cuts(polygon, Direction::falling, slant));
      break;
    case Hatch::cross:
      add_lines(path, cuts(polygon, Direction::rising, slant));
      add_lines(path, cuts(polygon, Direction::falling, slant));
      break;
    case Hatch::level:
      add_lines(path, cuts(polygon, Direction::level, style.hatch_gap));
      break;
    case Hatch::dots:
      add_dots(path, polygon, style.hatch_gap);
      break;
  }
  return path;
}

bool point_inside(const std::vector<At>& polygon, At& found, Milli& room) {
  if (polygon.size() < 3) return false;
  Milli top = polygon[0].y, bottom = top;
  for (const At p : polygon) {
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  room = 0;
  // Of three levels the one with the widest stretch; the middle one when it is as good.
  for (const std::int64_t part : {2, 1, 3})
    for (const auto& [a, b] : cut(polygon, Direction::level, top + (std::int64_t{bottom} - top) * part / 4))
      if (b.x - a.x > room + room / 4) {
        room = b.x - a.x;
        found = {(a.x + b.x) / 2, a.y};
      }
  return room > 0;
}

Milli room_around(const std::vector<At>& polygon, At p) {
  for (const auto& [a, b] : cut(polygon, Direction::level, p.y))
    if (a.x <= p.x && p.x <= b.x) return 2 * std::min(p.x - a.x, b.x - p.x);
  return 0;
}

std::vector<At> ring(At m, Milli r) {
  // Sixteen corners; cosines of multiples of 22.5 degrees in 1/10000.
  static constexpr std::int64_t cosines[] = {10000,  9239,  7071,  3827,  0, -3827, -7071, -9239,
                                             -10000, -9239, -7071, -3827, 0, 3827,  7071,  9239};
  std::vector<At> points;
  for (std::size_t i = 0; i < 16; ++i)
    points.push_back(
        {m.x + milli(scaled(r, cosines[i], 10000)), m.y + milli(scaled(r, cosines[(i + 12) % 16], 10000))});
  return points;
}

}  // namespace soundsill::page
