// Areas less areas. No other file knows the library that clips polygons.
#pragma once

#include <optional>
#include <vector>

#include "site/exact.h"

namespace soundsill::plan {

struct Real {
  double x = 0, y = 0;
};
using RealRing = std::vector<Real>;

/// The outer edges of what is left of an outline when bands are taken from it; empty when nothing of a square inch is
/// left. Nothing when it could not be worked out.
[[nodiscard]] std::optional<std::vector<RealRing>> less(const Ring& outline, const std::vector<RealRing>& bands);

/// Area and length round of each piece that is left of outlines when bands are taken from them, in square sixteenths
/// and sixteenths; the edges of holes count. Nothing when it could not be worked out.
struct Left {
  double area = 0, round = 0;
};
[[nodiscard]] std::optional<std::vector<Left>> left_of(const Ring& outline, const std::vector<Ring>& bands);

/// Area that outlines cover together, in square sixteenths.
[[nodiscard]] double covered(const std::vector<Ring>& outlines);

/// Whether two outlines have an area in common that is wider than an inch.
[[nodiscard]] bool share_area(const Ring& a, const Ring& b);

/// A point well within an outline; nothing when it has no area.
[[nodiscard]] std::optional<Vec> point_within(const Ring& ring);

}  // namespace soundsill::plan
