#include "site/overlay.h"

#include <algorithm>
#include <cmath>
#include <polyclipping/clipper.hpp>

namespace soundsill::plan {
namespace {

using ClipperLib::Path;
using ClipperLib::Paths;

// Clipper counts in whole numbers: 4,096 to the sixteenth are finer than any figure on paper, and a plan of 1,000 feet
// still has room.
constexpr double fine = 4096;
constexpr double fine_area = fine * fine;
constexpr double square_inch = 256;  // of sixteenths
constexpr double inch = 16;

Path path(const RealRing& ring) {
  Path out;
  for (const Real& p : ring) out.emplace_back(std::llround(p.x * fine), std::llround(p.y * fine));
  // All outlines run the same way round, so that where two lie over one another counts once.
  if (!ClipperLib::Orientation(out)) std::reverse(out.begin(), out.end());
  return out;
}

Path path(const Ring& ring) {
  RealRing out;
  for (const Vec v : ring) out.push_back({static_cast<double>(v.x), static_cast<double>(v.y)});
  return path(out);
}

/// Nothing when the coordinates are beyond what the library counts with.
bool overlay(ClipperLib::ClipType what, const Paths& subject, const Paths& clip, ClipperLib::PolyTree& out) {
  try {
    ClipperLib::Clipper clipper(ClipperLib::ioStrictlySimple);
    clipper.AddPaths(subject, ClipperLib::ptSubject, true);
    clipper.AddPaths(clip, ClipperLib::ptClip, true);
    return clipper.Execute(what, out, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
  } catch (const ClipperLib::clipperException&) {
    return false;
  }
}

double area(const Path& path) { return std::abs(ClipperLib::Area(path)) / fine_area; }

double round(const Path& path) {
  double sum = 0;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto &a = path[i], &b = path[after(i, path.size())];
    sum += std::hypot(static_cast<double>(b.X - a.X), static_cast<double>(b.Y - a.Y)) / fine;
  }
  return sum;
}

RealRing real(const Path& path) {
  RealRing out;
  for (const auto& p : path) out.push_back({static_cast<double>(p.X) / fine, static_cast<double>(p.Y) / fine});
  return out;
}

/// Calls `use` with each piece: its outer edge and the edges of its holes. Pieces within holes are pieces too.
template <class Use>
void each_piece(const ClipperLib::PolyNode& node, Use use) {
  for (const ClipperLib::PolyNode* piece : node.Childs) {
    Paths holes;
    for (const ClipperLib::PolyNode* hole : piece->Childs) {
      holes.push_back(hole->Contour);
      each_piece(*hole, use);
    }
    use(piece->Contour, holes);
  }
}

/// Without slits and spikes a hair wide: neighboring bands whose corners were rounded apart leave them. The edges are
/// moved in and out again, and stand where they stood.
Paths without_slits(const ClipperLib::PolyTree& tree) {
  constexpr double hair = 16;  // of the fine units: 1/4096 in
  constexpr double sharpest = 1000;
  const auto moved = [](const Paths& paths, double by) {
    ClipperLib::ClipperOffset offset(sharpest);
    offset.AddPaths(paths, ClipperLib::jtMiter, ClipperLib::etClosedPolygon);
    Paths out;
    offset.Execute(out, by);
    return out;
  };
  Paths all;
  ClipperLib::PolyTreeToPaths(tree, all);
  return moved(moved(all, -hair), hair);
}

Left measured(const Path& outer, const Paths& holes) {
  Left out{area(outer), round(outer)};
  for (const Path& hole : holes) {
    out.area -= area(hole);
    out.round += round(hole);
  }
  return out;
}

/// Where a level line through an outline lies within it for the longest way, its middle.
std::optional<Vec> middle_of_widest(const Ring& ring) {
  std::vector<std::int64_t> levels;
  for (const Vec v : ring) levels.push_back(v.y);
  std::sort(levels.begin(), levels.end());
  std::optional<Vec> best;
  double widest = 0;
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    const double y = static_cast<double>(levels[i] + levels[i + 1]) / 2;
    std::vector<double> crossings;
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const Vec a = ring[k], b = ring[after(k, ring.size())];
      const auto ay = static_cast<double>(a.y), by = static_cast<double>(b.y);
      if ((ay < y) == (by < y)) continue;
      crossings.push_back(static_cast<double>(a.x) + static_cast<double>(b.x - a.x) * (y - ay) / (by - ay));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
      if (crossings[k + 1] - crossings[k] <= widest) continue;
      widest = crossings[k + 1] - crossings[k];
      best = Vec{std::llround((crossings[k] + crossings[k + 1]) / 2), std::llround(y)};
    }
  }
  return best;
}

/// The middle of its area, as if it were cut out of a board.
std::optional<Vec> centroid(const Ring& ring) {
  long double x = 0, y = 0, twice = 0;
  const Vec from = ring.front();  // near the outline, so that no digits are lost
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec a = ring[i] - from, b = ring[after(i, ring.size())] - from;
    const auto c = static_cast<long double>(cross(a, b));
    x += static_cast<long double>(a.x + b.x) * c;
    y += static_cast<long double>(a.y + b.y) * c;
    twice += c;
  }
  if (twice == 0) return std::nullopt;
  return Vec{from.x + std::llround(x / (3 * twice)), from.y + std::llround(y / (3 * twice))};
}

}  // namespace

std::optional<std::vector<RealRing>> less(const Ring& outline, const std::vector<RealRing>& bands) {
  Paths taken;
  for (const RealRing& band : bands) taken.push_back(path(band));
  ClipperLib::PolyTree left;
  if (!overlay(ClipperLib::ctDifference, {path(outline)}, taken, left)) return std::nullopt;
  std::vector<RealRing> out;
  for (const Path& edge : without_slits(left))
    if (ClipperLib::Orientation(edge) && area(edge) >= square_inch) out.push_back(real(edge));  // else it is a hole
  return out;
}

double covered(const std::vector<Ring>& outlines) {
  Paths all;
  for (const Ring& one : outlines) all.push_back(path(one));
  ClipperLib::PolyTree joined;
  double sum = 0;
  if (overlay(ClipperLib::ctUnion, all, {}, joined))
    each_piece(joined, [&](const Path& outer, const Paths& holes) { sum += measured(outer, holes).area; });
  return sum;
}

std::optional<std::vector<Left>> left_of(const Ring& outline, const std::vector<Ring>& bands) {
  Paths taken;
  for (const Ring& band : bands) taken.push_back(path(band));
  ClipperLib::PolyTree left;
  if (!overlay(ClipperLib::ctDifference, {path(outline)}, taken, left)) return std::nullopt;
  std::vector<Left> out;
  each_piece(left, [&](const Path& outer, const Paths& holes) {
    if (const Left piece = measured(outer, holes); piece.area >= square_inch) out.push_back(piece);
  });
  return out;
}

bool share_area(const Ring& a, const Ring& b) {
  ClipperLib::PolyTree common;
  if (!overlay(ClipperLib::ctIntersection, {path(a)}, {path(b)}, common)) return false;
  Paths pieces, core;
  ClipperLib::PolyTreeToPaths(common, pieces);
  // Two parts typed half an inch over one another share a sliver, no room: what is left after half an inch is taken off
  // all round was wider than an inch.
  ClipperLib::ClipperOffset offset;
  offset.AddPaths(pieces, ClipperLib::jtMiter, ClipperLib::etClosedPolygon);
  offset.Execute(core, -inch / 2 * fine);
  return !core.empty();
}

std::optional<Vec> point_within(const Ring& ring) {
  if (ring.size() < 3) return std::nullopt;
  if (const auto middle = centroid(ring); middle && side(*middle, ring) == Side::inside) return middle;
  return middle_of_widest(ring);
}

}  // namespace soundsill::plan
