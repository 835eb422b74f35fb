// Geometry of whole sixteenths of an inch. Every answer in here is exact: no rounding decides what touches what.
#pragma once

#include <cstdint>
#include <vector>

#include "units/units.h"

namespace soundsill::plan {

using Wide = __int128;  // a product of two crossings leaves 64 bits on a plan of some hundred feet

struct Vec {
  std::int64_t x = 0, y = 0;
  friend bool operator==(const Vec&, const Vec&) = default;
};
using Ring = std::vector<Vec>;  ///< corners of a closed outline; the last joins the first

[[nodiscard]] constexpr Vec vec(const Point& p) { return {p.x.sixteenths, p.y.sixteenths}; }
[[nodiscard]] constexpr Point point(Vec v) { return {Length{v.x}, Length{v.y}}; }
[[nodiscard]] constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
[[nodiscard]] constexpr Wide cross(Vec a, Vec b) { return Wide{a.x} * b.y - Wide{a.y} * b.x; }
[[nodiscard]] constexpr Wide dot(Vec a, Vec b) { return Wide{a.x} * b.x + Wide{a.y} * b.y; }
[[nodiscard]] Ring ring(const std::vector<Point>& points);
[[nodiscard]] std::vector<Point> points(const Ring& ring);
[[nodiscard]] inline std::size_t after(std::size_t i, std::size_t count) { return i + 1 == count ? 0 : i + 1; }

/// The whole part of a square root, and the whole number nearest to it.
[[nodiscard]] std::int64_t floor_root(Wide n);
[[nodiscard]] std::int64_t nearest_root(Wide n);
/// The distance to the nearest sixteenth.
[[nodiscard]] Length distance(Vec a, Vec b);

/// Twice the area; positive when the corners run clockwise on a plan whose y grows south.
[[nodiscard]] Wide twice_area(const Ring& ring);

[[nodiscard]] bool on_segment(Vec p, Vec a, Vec b);
/// Whether two closed segments have a point in common.
[[nodiscard]] bool meet(Vec a, Vec b, Vec c, Vec d);

enum class Side { outside, edge, inside };
[[nodiscard]] Side side(Vec p, const Ring& ring);

/// A set of points that is a point, a segment, or a filled outline: by its number of corners.
using Shape = Ring;
/// Whether two shapes come within a distance of each other; exactly at the distance counts.
[[nodiscard]] bool within(const Shape& a, const Shape& b, Length distance);
/// Square of the distance between a point and a segment, rounded down to the whole.
[[nodiscard]] Wide floor_square_distance(Vec p, Vec a, Vec b);

/// An upright rectangle by its middle; of an odd width the spare sixteenth lies east or south.
[[nodiscard]] Ring rectangle(Vec middle, Length width, Length depth);
/// Whether a rectangle lies within an outline; touching it is allowed.
[[nodiscard]] bool covers(const Ring& outline, const Ring& rectangle);
/// Whether two upright rectangles have more than their edges in common.
[[nodiscard]] bool overlap(const Ring& a, const Ring& b);

}  // namespace soundsill::plan
