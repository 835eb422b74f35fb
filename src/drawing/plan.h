// From the measures of the house to paper: one standard scale, exact to a thousandth of a point.
#pragma once

#include <functional>
#include <vector>

#include "document/scene.h"
#include "pages/pages.h"
#include "template/template.h"

namespace soundsill::page {

/// What a scene covers, in the house's measures.
struct Extent {
  Point least{}, most{};
  bool empty = true;
  void take(Point p, Length radius = {});
};
[[nodiscard]] Extent extent_of(const document::Scene& scene);

/// A scale, and where the least point of the extent stands.
struct Plan {
  std::int64_t feet_an_inch = 1;
  Point origin{};
  At offset{};

  /// An inch of paper is 72000 milli, a foot 192 sixteenths: 72000 / 192 = 375.
  [[nodiscard]] Milli length(Length l) const;
  [[nodiscard]] At at(Point p) const;
};

/// The first of the standard scales at which all fits; beyond the last one, multiples of it.
[[nodiscard]] std::int64_t scale_for(const std::vector<int>& scales, const std::function<bool(std::int64_t)>& fits);

/// Lines of a hatch within a closed polygon, computed, so that nothing needs a clip.
[[nodiscard]] PathMark hatch_path(const std::vector<At>& polygon, const ShapeStyle& style);
/// A point well inside a polygon; false when it has no inside.
[[nodiscard]] bool point_inside(const std::vector<At>& polygon, At& found, Milli& room);
/// How wide the polygon is to both sides of a point inside, measured level and evenly.
[[nodiscard]] Milli room_around(const std::vector<At>& polygon, At p);
/// A circle as a polygon, for what needs straight edges.
[[nodiscard]] std::vector<At> ring(At middle, Milli radius);

}  // namespace soundsill::page
