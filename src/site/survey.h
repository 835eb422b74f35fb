// The measured structure: what the drawing says in feet, square feet and distances. No prices, no words for paper.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "casefile/case.h"
#include "diagnostics/diagnostics.h"
#include "units/units.h"

namespace soundsill {

/// One wall, numbered as walked over all parts of the structure.
struct Wall {
  int number = 0;
  std::size_t part = 0;
  Point from, to;  ///< outside face, as walked
  Length length;   ///< of the outside face
  Length inside_length;  ///< of the inside face (0 for an inner wall shared by two parts, or where there is no inside face)
  Point inside_from, inside_to;
  bool shared = false;  ///< lies along a wall of another part: it is no outside wall, and is counted once
  // what the facts say of it; nothing when not said
  std::optional<WallKind> kind;
  std::optional<Length> thick;
  std::optional<Length> footing_outside, footing_inside;
  std::optional<KnownBy> known_by;
  const WallFacts* facts = nullptr;  ///< the last block that spoke of it
  [[nodiscard]] bool hollow() const { return kind && *kind == WallKind::hollow_block; }
};

struct Pier {
  int number = 0;
  Point middle;
  Length width, depth;      ///< along x and along y
  std::size_t group = 0;
  [[nodiscard]] Length perimeter() const { return (width + depth) * 2; }
};

/// A stretch of one wall, from a to b along it (from the corner where the walk began it).
struct Stretch {
  int wall = 0;
  Length a, b;
  [[nodiscard]] Length length() const { return b - a; }
  friend bool operator==(const Stretch&, const Stretch&) = default;
};

/// What lies within a distance of a place. Walls are hollow or not; the caller chooses.
struct Near {
  std::vector<Stretch> stretches;  ///< by wall, then along it; touching ones joined
  std::vector<int> piers;          ///< numbers, ascending; a pier that is touched counts whole
  std::vector<std::size_t> chimneys;
};

struct SurveyedPart {
  std::string name;
  Foundation foundation = Foundation::crawl_space;
  std::vector<Point> corners;         ///< outside, as walked, closed implicitly
  std::vector<Point> inside_corners;  ///< inside face; empty when there is none
  Length outside, inside;             ///< lengths round
  Ratio area_sqft;                    ///< within the outside face
  Length closing_error;               ///< put on the last wall
};

struct SurveyedStructure {
  std::string name;
  const Structure* facts = nullptr;
  std::vector<SurveyedPart> parts;
  std::vector<Wall> walls;
  std::vector<Pier> piers;
  Length drawn_outside, drawn_inside;  ///< sums over walls, shared walls left out of the outside
  Length outside, inside;              ///< what counts: taped when `measured` says so, else drawn
  bool inside_as_outside = false;      ///< `measured: {inside: as outside}`
  bool drawn() const { return !parts.empty(); }

  [[nodiscard]] const Wall* wall(int number) const;
  [[nodiscard]] const Pier* pier(int number) const;

  /// How much could be seen, from the regions of areas not seen: feet of wall faces (inside) and piers.
  Length faces_seen, faces_all;
  int piers_seen = 0;
  std::vector<int> piers_not_seen;
};

struct Survey {
  std::vector<SurveyedStructure> structures;
  [[nodiscard]] const SurveyedStructure* find(std::string_view name) const;
};

/// Measures every structure that was looked at. Faults of the drawing (open or crossing outline, pier outside, wall named
/// twice, inside longer than outside ...) are reported at the key that made them; what can be measured still is.
[[nodiscard]] Survey measure(const Case& c, Faults& faults);

/// What lies within `distance` of a place (<= counts as within), measured over the plan from the place to the nearest
/// point of wall face or pier side. Of a wall: the stretch of its outside line. Deterministic, to 1/16 in.
[[nodiscard]] Near within(const SurveyedStructure& s, const Place& place, Length distance);

/// The point of a place for drawing and measuring; nothing when it does not exist on this structure.
[[nodiscard]] std::optional<Point> locate(const SurveyedStructure& s, const Place& place);
/// The point at a distance along a wall's outside face.
[[nodiscard]] Point along(const Wall& wall, Length distance);
/// Whether a place exists on this structure; otherwise words for what is missing ("there is no pier 12; the last is 8").
[[nodiscard]] std::string missing(const SurveyedStructure& s, const Place& place);
/// Distance between a point and the nearest treated soil, when soil is treated along these walls' outside.
[[nodiscard]] Length distance_to_walls(const SurveyedStructure& s, Point p);
/// Joins touching or overlapping stretches of the same wall, sorted.
[[nodiscard]] std::vector<Stretch> joined(std::vector<Stretch> stretches);

}  // namespace soundsill
