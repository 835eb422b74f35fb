// Distances and areas by brute force, in doubles: what the exact geometry of site/ is compared with.
#pragma once

#include <algorithm>
#include <cmath>

#include "site_plan.h"

namespace soundsill::test {

struct Spot {
  double x = 0, y = 0;
};
inline Spot spot_of(Point p) { return {static_cast<double>(p.x.sixteenths), static_cast<double>(p.y.sixteenths)}; }

inline double to_segment(Spot p, Spot a, Spot b) {
  const double dx = b.x - a.x, dy = b.y - a.y, whole = dx * dx + dy * dy;
  const double u = whole > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / whole, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - u * dx, p.y - a.y - u * dy);
}

inline bool holds(const std::vector<Point>& shape, Spot p) {
  bool in = false;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Spot a = spot_of(shape[i]), b = spot_of(shape[(i + 1) % shape.size()]);
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y)) in = !in;
  }
  return shape.size() >= 3 && in;
}

/// The distance between a point and a shape: a point, a segment or a filled outline.
inline double to_shape(Spot p, const std::vector<Point>& shape) {
  if (holds(shape, p)) return 0;
  double least = 1e300;
  for (std::size_t i = 0; i < shape.size(); ++i)
    least = std::min(least, to_segment(p, spot_of(shape[i]), spot_of(shape[(i + 1) % shape.size()])));
  return least;
}
inline double to_shapes(Spot p, const std::vector<std::vector<Point>>& shapes) {
  double least = 1e300;
  for (const auto& shape : shapes) least = std::min(least, to_shape(p, shape));
  return least;
}

/// Points along the edges of a shape, no farther than `step` from each other.
inline std::vector<Spot> along_edges(const std::vector<Point>& shape, double step) {
  std::vector<Spot> out;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Spot a = spot_of(shape[i]), b = spot_of(shape[(i + 1) % shape.size()]);
    const auto count = static_cast<int>(std::ceil(std::hypot(b.x - a.x, b.y - a.y) / step)) + 1;
    for (int k = 0; k <= count; ++k) out.push_back({a.x + (b.x - a.x) * k / count, a.y + (b.y - a.y) * k / count});
  }
  return out;
}

inline Place place(std::string_view text) {
  const auto read = read_place(text);
  REQUIRE(read.has_value());
  return *read;
}
inline Place spot(Point p) {
  Place place;
  place.point = p;
  return place;
}

/// How a plan lies on the sheet changes nothing that is measured: shifted, turned by a quarter, mirrored.
inline Point moved(Point p, int how, Length by = ft(3, 5, 7)) {
  if (how == 1) return {p.x + by, p.y - by};
  if (how == 2) return {-p.y, p.x};
  if (how == 3) return {-p.x, p.y};
  return p;
}
inline std::vector<Point> moved(std::vector<Point> points, int how) {
  for (Point& p : points) p = moved(p, how);
  return points;
}

inline Partition partition_of(Point from, Point to, Length thick, const std::string& name = "cross") {
  Partition p;
  p.name.set(name);
  p.from.set(from);
  p.to.set(to);
  p.thick.set(thick);
  p.footing.set(ft(1));
  return p;
}

}  // namespace soundsill::test
