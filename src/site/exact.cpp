#include "site/exact.h"

#include <algorithm>
#include <cmath>

namespace soundsill::plan {
namespace {

int sign(Wide n) { return n < 0 ? -1 : n > 0 ? 1 : 0; }
int turn(Vec a, Vec b, Vec p) { return sign(cross(b - a, p - a)); }

std::size_t edges(const Shape& shape) { return shape.size() < 3 ? 1 : shape.size(); }
Vec edge_end(const Shape& shape, std::size_t i) { return shape[after(i, shape.size())]; }

bool point_near(Vec p, Vec a, Vec b, Wide square) {
  const Vec d = b - a;
  const Wide forward = dot(p - a, d), whole = dot(d, d);
  if (forward <= 0) return dot(p - a, p - a) <= square;
  if (forward >= whole) return dot(p - b, p - b) <= square;
  const Wide c = cross(d, p - a);
  return c * c <= square * whole;
}

bool edges_near(Vec a, Vec b, Vec c, Vec d, Wide square) {
  return meet(a, b, c, d) || point_near(a, c, d, square) || point_near(b, c, d, square) ||
         point_near(c, a, b, square) || point_near(d, a, b, square);
}

bool holds(const Shape& outer, Vec p) { return outer.size() >= 3 && side(p, outer) != Side::outside; }

struct Box {
  std::int64_t west, north, east, south;
};
Box box(const Ring& r) {
  const auto [w, e] = std::minmax_element(r.begin(), r.end(), [](Vec a, Vec b) { return a.x < b.x; });
  const auto [n, s] = std::minmax_element(r.begin(), r.end(), [](Vec a, Vec b) { return a.y < b.y; });
  return {w->x, n->y, e->x, s->y};
}

// A segment has a point strictly within a box just when both ends lie not beyond one side, and the box's corners lie on
// both sides of its line.
bool enters(Vec a, Vec b, const Box& in) {
  if (std::max(a.x, b.x) <= in.west || std::min(a.x, b.x) >= in.east) return false;
  if (std::max(a.y, b.y) <= in.north || std::min(a.y, b.y) >= in.south) return false;
  const Vec corners[] = {{in.west, in.north}, {in.east, in.north}, {in.east, in.south}, {in.west, in.south}};
  bool left = false, right = false;
  for (const Vec c : corners) {
    left = left || turn(a, b, c) < 0;
    right = right || turn(a, b, c) > 0;
  }
  return left && right;
}

}  // namespace

Ring ring(const std::vector<Point>& points) {
  Ring out;
  for (const Point& p : points) out.push_back(vec(p));
  return out;
}

std::vector<Point> points(const Ring& ring) {
  std::vector<Point> out;
  for (const Vec v : ring) out.push_back(point(v));
  return out;
}

std::int64_t floor_root(Wide n) {
  if (n <= 0) return 0;
  auto root = static_cast<std::int64_t>(std::sqrt(static_cast<long double>(n)));
  while (Wide{root} * root > n) --root;
  while (Wide{root + 1} * (root + 1) <= n) ++root;
  return root;
}

std::int64_t nearest_root(Wide n) {
  const std::int64_t root = floor_root(n);
  const Wide middle = Wide{2} * root + 1;  // (root + 1/2) doubled
  return 4 * n > middle * middle ? root + 1 : root;
}

Length distance(Vec a, Vec b) { return {nearest_root(dot(b - a, b - a))}; }

Wide twice_area(const Ring& ring) {
  Wide sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) sum += cross(ring[i], ring[after(i, ring.size())]);
  return sum;
}

bool on_segment(Vec p, Vec a, Vec b) { return cross(b - a, p - a) == 0 && dot(p - a, p - b) <= 0; }

bool meet(Vec a, Vec b, Vec c, Vec d) {
  if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) return true;
  return on_segment(c, a, b) || on_segment(d, a, b) || on_segment(a, c, d) || on_segment(b, c, d);
}

Side side(Vec p, const Ring& ring) {
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec a = ring[i], b = ring[after(i, ring.size())];
    if (on_segment(p, a, b)) return Side::edge;
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if ((cross(b - a, p - a) > 0) == (b.y > a.y)) in = !in;
  }
  return in ? Side::inside : Side::outside;
}

bool within(const Shape& a, const Shape& b, Length distance) {
  if (a.empty() || b.empty() || distance < Length{}) return false;
  const Box p = box(a), q = box(b);
  const std::int64_t apart = std::max({p.west - q.east, q.west - p.east, p.north - q.south, q.north - p.south});
  if (apart > distance.sixteenths) return false;
  if (holds(a, b.front()) || holds(b, a.front())) return true;
  const Wide square = Wide{distance.sixteenths} * distance.sixteenths;
  for (std::size_t i = 0; i < edges(a); ++i)
    for (std::size_t j = 0; j < edges(b); ++j)
      if (edges_near(a[i], edge_end(a, i), b[j], edge_end(b, j), square)) return true;
  return false;
}

Wide floor_square_distance(Vec p, Vec a, Vec b) {
  const Vec d = b - a;
  const Wide forward = dot(p - a, d), whole = dot(d, d);
  if (forward <= 0) return dot(p - a, p - a);
  if (forward >= whole) return dot(p - b, p - b);
  const Wide c = cross(d, p - a);
  return c * c / whole;
}

Ring rectangle(Vec middle, Length width, Length depth) {
  const std::int64_t west = middle.x - width.sixteenths / 2, north = middle.y - depth.sixteenths / 2;
  const std::int64_t east = west + width.sixteenths, south = north + depth.sixteenths;
  return {{west, north}, {east, north}, {east, south}, {west, south}};
}

bool covers(const Ring& outline, const Ring& rectangle) {
  for (const Vec corner : rectangle)
    if (side(corner, outline) == Side::outside) return false;
  const Box in = box(rectangle);
  for (std::size_t i = 0; i < outline.size(); ++i)
    if (enters(outline[i], outline[after(i, outline.size())], in)) return false;
  // A rectangle that just fills a notch has its corners on the edge too: its middle tells, in halves of a sixteenth.
  Ring doubled;
  for (const Vec v : outline) doubled.push_back(v + v);
  return side({in.west + in.east, in.north + in.south}, doubled) != Side::outside;
}

bool overlap(const Ring& a, const Ring& b) {
  const Box p = box(a), q = box(b);
  return p.west < q.east && q.west < p.east && p.north < q.south && q.north < p.south;
}

}  // namespace soundsill::plan
