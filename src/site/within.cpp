// Serves site/draft.h. What lies within a distance of a place.
#include <algorithm>
#include <cmath>
#include <optional>

#include "site/clip.h"
#include "site/draft.h"

namespace soundsill {
namespace plan {
namespace {

using Real80 = long double;

// Ends round outward only by more than this, in sixteenths: an end that is a whole sixteenth stays one.
constexpr Real80 margin = 1e-3L;
constexpr Real80 hair = 1e-7L;  // what a distance may exceed the limit by through arithmetic alone

struct Local {
  Real80 s = 0, v = 0;  ///< along the wall, and inward across it
};
struct Interval {
  Real80 a, b;
};

// A wall's thickness as a strip: s from 0 to its length, v from 0 to its thickness.
class Strip {
 public:
  Strip(const SurveyedStructure& s, const Wall& wall)
      : from_(vec(wall.from)), way_(vec(wall.to) - from_), across_(inward(s, wall)) {
    size_ = std::sqrt(static_cast<Real80>(dot(way_, way_)));
    thickness_ = static_cast<Real80>(wall.thick.value_or(Length{}).sixteenths);
  }
  [[nodiscard]] Real80 length() const { return size_; }
  [[nodiscard]] Real80 thickness() const { return thickness_; }
  [[nodiscard]] Local local(Vec p) const {
    const Vec d = p - from_;
    return {static_cast<Real80>(dot(d, way_)) / size_, static_cast<Real80>(dot(d, across_)) / size_};
  }

 private:
  Vec from_, way_, across_;
  Real80 size_ = 0, thickness_ = 0;
};

// How far the points of a segment reach along a strip, within `d` of them. At a share u of the segment that is
// s(u) + sqrt(d^2 - g(u)^2), g being the distance across; it is largest at an end of the segment, where g bends, where
// g reaches d, or where its slope vanishes: all of them are tried.
class Reach {
 public:
  Reach(Local p, Local q, Real80 thickness, Real80 d) : p_(p), q_(q), t_(thickness), d_(d) {
    for (const Real80 u : {0.0L, 1.0L}) try_share(u);
    for (const Real80 v : {Real80{0}, t_, -d_, t_ + d_}) try_level(v);
    // The slope vanishes where g = d |s'| / hypot(s', v'), on either side of the strip.
    const Real80 steep = std::hypot(q_.s - p_.s, q_.v - p_.v);
    if (steep > 0) {
      const Real80 g = d_ * std::abs(q_.s - p_.s) / steep;
      try_level(-g);
      try_level(t_ + g);
    }
  }
  [[nodiscard]] std::optional<Interval> found() const { return found_; }

 private:
  void try_level(Real80 v) {
    const Real80 rise = q_.v - p_.v;
    if (rise != 0) try_share((v - p_.v) / rise);
  }

  void try_share(Real80 u) {
    if (!(u >= 0 && u <= 1)) return;
    const Real80 s = p_.s + u * (q_.s - p_.s), v = p_.v + u * (q_.v - p_.v);
    const Real80 g = v < 0 ? -v : v > t_ ? v - t_ : 0;
    if (g > d_ + hair) return;
    const Real80 square = d_ * d_ - g * g;
    const Real80 reach = square <= hair * d_ * 2 ? 0 : std::sqrt(square);
    if (!found_) found_ = Interval{s - reach, s + reach};
    found_->a = std::min(found_->a, s - reach);
    found_->b = std::max(found_->b, s + reach);
  }

  Local p_, q_;
  Real80 t_, d_;
  std::optional<Interval> found_;
};

void add_edges(std::vector<Interval>& out, const Strip& strip, const Shape& shape, Real80 d) {
  const std::size_t edges = shape.size() < 3 ? 1 : shape.size();
  for (std::size_t i = 0; i < edges; ++i) {
    const Reach reach(strip.local(shape[i]), strip.local(shape[after(i, shape.size())]), strip.thickness(), d);
    if (const auto found = reach.found()) out.push_back(*found);
  }
}

std::vector<Stretch> rounded(std::vector<Interval> intervals, const Strip& strip, const Wall& wall) {
  std::vector<Stretch> out;
  const Real80 scale = static_cast<Real80>(wall.length.sixteenths) / strip.length();
  for (const Interval& i : intervals) {
    const Real80 a = std::max(i.a, Real80{0}) * scale, b = std::min(i.b, strip.length()) * scale;
    if (!(b - a > 2 * margin)) continue;
    const Length from{static_cast<std::int64_t>(std::floor(a + margin))};
    const Length to{static_cast<std::int64_t>(std::ceil(b - margin))};
    out.push_back({wall.number, std::max(from, Length{}), std::min(to, wall.length)});
  }
  return joined(std::move(out));
}

std::vector<Stretch> near_wall(const SurveyedStructure& s, const Wall& wall, const std::vector<Shape>& shapes,
                               Length d) {
  if (wall.from == wall.to || wall.length <= Length{}) return {};
  const Strip strip(s, wall);
  std::vector<Interval> intervals;
  for (const Shape& shape : shapes) {
    add_edges(intervals, strip, shape, static_cast<Real80>(d.sixteenths));
    for (const Piece& p : clipped(vec(wall.from), vec(wall.to), shape))
      intervals.push_back({p.first * strip.length(), p.second * strip.length()});
  }
  return rounded(std::move(intervals), strip, wall);
}

// A partition as a wall of its own: the band lies on its inner side, whichever way its part was walked.
Wall as_wall(const SurveyedStructure& s, const SurveyedPartition& partition) {
  const bool clockwise = s.parts[partition.part].clockwise;
  Wall wall;
  wall.part = partition.part;
  wall.from = partition.band[clockwise ? 0 : 3];
  wall.to = partition.band[clockwise ? 1 : 2];
  wall.length = plan::distance(vec(wall.from), vec(wall.to));
  wall.thick = partition.thick;
  return wall;
}

// Of its own wall a stretch reaches as far as typed: no rounding of a diagonal's corners comes between.
std::optional<Stretch> own_reach(const SurveyedStructure& s, const Place& place, Length d) {
  const Wall* wall = place.kind == Place::Kind::wall ? s.wall(place.number) : nullptr;
  if (!wall) return std::nullopt;
  const Length a = std::min(place.from.value_or(Length{}), wall->length), b = place.to.value_or(wall->length);
  return Stretch{wall->number, std::max(a - d, Length{}), std::min(b + d, wall->length)};
}

// A wall between two parts stands once, under its earlier number; its other face is as near as it is.
void add_other_faces(const SurveyedStructure& s, std::vector<Stretch>& near) {
  std::vector<Stretch> more;
  for (const Wall& late : s.walls) {
    const std::vector<Stretch> other = without({{late.number, {}, late.length}}, late.own);
    if (other.empty()) continue;
    for (const Stretch& one : near) {
      const Wall& early = *s.wall(one.wall);
      if (early.part == late.part || early.number > late.number) continue;
      const Stretch face = stretch_beside(late, vec(along(early, one.a)), vec(along(early, one.b)));
      if (face.length() <= Length{}) continue;
      for (const Stretch& shared : common({face}, other)) more.push_back(shared);
    }
  }
  near.insert(near.end(), more.begin(), more.end());
  near = soundsill::joined(std::move(near));
}

std::vector<Shape> chimney_shape(const SurveyedStructure& s, const SurveyedChimney& c) {
  Place place;
  place.kind = Place::Kind::chimney;
  place.name = c.name;
  std::vector<Shape> out;
  for (const auto& shape : shapes_of(s, place)) out.push_back(ring(shape));
  return out;
}

bool any_within(const std::vector<Shape>& shapes, const Shape& other, Length d) {
  return std::any_of(shapes.begin(), shapes.end(), [&](const Shape& shape) { return within(shape, other, d); });
}

}  // namespace
}  // namespace plan

Near within(const SurveyedStructure& s, const Place& place, Length distance) {
  Near near;
  std::vector<plan::Shape> shapes;
  for (const auto& shape : shapes_of(s, place)) shapes.push_back(plan::ring(shape));
  if (shapes.empty() || distance < Length{}) return near;
  const auto own = plan::own_reach(s, place, distance);
  for (const Wall& wall : s.walls) {
    std::vector<Stretch> found =
        own && own->wall == wall.number ? std::vector{*own} : plan::near_wall(s, wall, shapes, distance);
    for (const Stretch& stretch : plan::common(found, wall.own)) near.stretches.push_back(stretch);
  }
  plan::add_other_faces(s, near.stretches);
  for (const Pier& pier : s.piers)
    if (plan::any_within(shapes, plan::rectangle(plan::vec(pier.middle), pier.width, pier.depth), distance))
      near.piers.push_back(pier.number);
  const auto& chimneys = s.chimneys;
  for (std::size_t i = 0; i < chimneys.size(); ++i)
    for (const plan::Shape& shape : plan::chimney_shape(s, chimneys[i]))
      if (plan::any_within(shapes, shape, distance)) {
        near.chimneys.push_back(i);
        break;
      }
  const auto any = [&](const std::vector<std::vector<Point>>& of) {
    return std::any_of(of.begin(), of.end(),
                       [&](const auto& shape) { return plan::any_within(shapes, plan::ring(shape), distance); });
  };
  for (std::size_t i = 0; i < s.slabs.size(); ++i)
    if (any(s.slabs[i].shapes)) near.slabs.push_back(i);
  for (std::size_t i = 0; i < s.partitions.size(); ++i)
    for (const Stretch& stretch : plan::near_wall(s, plan::as_wall(s, s.partitions[i]), shapes, distance))
      near.partitions.push_back({i, stretch.a, stretch.b});
  for (std::size_t i = 0; i < s.pilasters.size(); ++i)
    if (any(s.pilasters[i].shapes)) near.pilasters.push_back(i);
  return near;
}

}  // namespace soundsill
