// The measured structure: what the drawing says in feet, square feet and distances. No prices, no words for paper.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "casefile/place.h"
#include "casefile/terms.h"
#include "diagnostics/diagnostics.h"
#include "units/units.h"

namespace soundsill {

// The blocks as typed. They are complete types only for who includes casefile/case.h: site/, which fills the survey,
// and readers that have not gone over to its plain values yet.
struct Case;
struct Structure;
struct WallFacts;
struct Partition;
struct Pilaster;
struct Slab;

/// A stretch of one wall, from a to b along it (from the corner where the walk began it).
struct Stretch {
  int wall = 0;
  Length a, b;
  [[nodiscard]] Length length() const { return b - a; }
  friend bool operator==(const Stretch&, const Stretch&) = default;
};

/// One wall, numbered as walked over all parts of the structure.
///
/// Where walls of two parts lie on one another there is one wall with a face in either part. The wall of the part
/// listed first holds it (its thickness lies within that part, unless only the other part gives one); the other keeps
/// its face within its own part and nothing else. So voids are counted over `own`, outside soil over `outer`, and
/// inside soil over the inside faces of every part, both sides of such a wall being soil when both parts have soil.
struct Wall {
  int number = 0;
  std::size_t part = 0;
  Point from, to;                ///< outside face, as walked
  Length length;                 ///< of the outside face, as typed
  Length inside_length;          ///< of the inside face within its part; 0 where there is none
  Point inside_from, inside_to;  ///< ends of the inside face, as walked; both `from` where there is none
  std::vector<Stretch> outer;    ///< where it is an outside wall: all of it, less what lies along another part
  std::vector<Stretch> paved;    ///< of `outer`, where a slab or porch lies against it: no trench can be dug
  /// Where its inside faces lie along it; those at its ends may begin before it or end after it, round inner corners.
  std::vector<Stretch> inner;
  std::vector<Stretch> own;  ///< what counts as this wall: all of it, less what a part listed earlier counts already
  bool shared = false;       ///< lies along other parts with all its length: it is no outside wall
  [[nodiscard]] Length outer_length() const;
  // what the facts say of it; nothing when not said
  std::optional<WallKind> kind;
  std::optional<Length> thick;
  std::optional<Length> footing_outside, footing_inside;
  std::optional<Length> footing_outside_to, footing_inside_to;  ///< at the end of the wall, where they slope
  bool beside_neighbor = false;                                 ///< the next house stands against it
  bool beside_slab = false;                                     ///< said to be paved all along
  /// The weakest of what its depths rest on: an assumed depth never passes for a dug one.
  std::optional<KnownBy> known_by;
  /// Which block of `walls:` gave its kind and its depths, as an index into the structure's wall_blocks.
  std::optional<std::size_t> kind_block, outside_block, inside_block;
  const WallFacts* facts = nullptr;  ///< the last block that spoke of it
  [[nodiscard]] bool hollow() const { return kind && *kind == WallKind::hollow_block; }
};

struct Pier {
  int number = 0;
  Point middle;
  Length width, depth;  ///< along x and along y
  std::size_t group = 0;
  [[nodiscard]] Length perimeter() const { return (width + depth) * 2; }
};

/// What one block of `walls:` says that nobody saw: each answer is tried otherwise (estimate/otherwise.h).
struct SurveyedWallBlock {
  std::vector<int> numbers;      ///< of the walls it names; none when it names all
  bool footing_assumed = false;  ///< its depths
  bool void_assumed = false;     ///< that its block is hollow
};

/// A group of piers, as typed; the piers themselves stand in SurveyedStructure::piers.
struct SurveyedPierGroup {
  std::optional<PierKind> kind;
  std::optional<Length> footing;
  std::optional<KnownBy> known_by;
  std::optional<Ratio> gal_each;  ///< entered by the company
  int count = 0;                  ///< as typed
  Span at, gal_each_at;
};

struct SurveyedChimney {
  std::string name;
  std::optional<Point> middle;
  std::optional<Size> size;
  std::optional<PierKind> kind;
  std::optional<Length> footing;
  std::optional<KnownBy> known_by;
  Span at, name_at;
  [[nodiscard]] Length perimeter() const { return size ? (size->width + size->depth) * 2 : Length{}; }
};

/// A wall within a part, as far as it stands clear between the faces of others.
struct SurveyedPartition {
  const Partition* facts = nullptr;
  std::string name;
  std::optional<WallKind> kind;
  Point from, to;  ///< along its middle
  Length thick, footing;
  std::optional<KnownBy> known_by;
  std::size_t part = 0;
  std::vector<Point> band;  ///< its four corners, as drawn
  Length clear;             ///< along its middle, between what it meets
  Length faces;             ///< of both sides and of ends that stand free: what soil lies along
};

/// Pilasters or step buttresses of one kind. The face that each covers is given back by its own front, so that only
/// its two sides add to what soil lies along.
struct SurveyedPilaster {
  const Pilaster* facts = nullptr;
  std::string name;
  std::optional<PilasterKind> kind;
  std::optional<Sides> side;  ///< outside or inside
  std::vector<Place> places;  ///< their middles along walls, as typed
  std::optional<Length> wide, deep, footing;
  std::optional<KnownBy> known_by;
  std::vector<std::vector<Point>> shapes;  ///< one for each
  Length sides;                            ///< two a piece
};

/// A slab or porch, on the plan.
struct SurveyedSlab {
  const Slab* facts = nullptr;
  std::string name;
  std::optional<Fill> fill;
  std::optional<Place> along;
  std::optional<Length> deep;     ///< away from the wall
  std::optional<Length> footing;  ///< of its own outer walls
  std::optional<KnownBy> known_by;
  Span at, name_at, along_at;
  std::vector<std::vector<Point>> shapes;
  std::vector<Stretch> adjoins;                ///< of outside walls, round corners too: where no trench can be dug
  std::vector<std::pair<Point, Point>> edges;  ///< that stand free
  Length free_edges;
  Ratio area_sqft;
};

/// Wood that stands in soil: posts, stair stringers.
struct SurveyedWood {
  std::string name;
  std::optional<int> posts;
  std::vector<Point> points;
  std::optional<Ratio> gal_each;  ///< entered by the company
  Span at, name_at;
};

struct SurveyedMark {
  std::optional<MarkKind> kind;
  std::string name;
  std::optional<Point> point, to;  ///< `to`: where a line ends that begins at `point`
  std::optional<Size> size;
  std::optional<Place> along;
  Span at, kind_at, point_at;
};

/// An area of the house, seen or not.
struct SurveyedArea {
  std::string name;
  std::optional<Seen> seen;
  std::optional<std::vector<Point>> region;  ///< corners of what was not seen; empty when it lies off the plan
  std::string because, advice;
  Span at, seen_at;
};

/// What was answered about one danger.
struct SurveyedDanger {
  std::string_view key;          ///< as typed: "well"
  std::optional<Answer> answer;  ///< nothing when it was not answered, or could not be read
  bool written = false;
  Span at;
};

/// A stretch of a partition, from where its middle begins.
struct PartitionStretch {
  std::size_t partition = 0;  ///< index into the structure's list
  Length a, b;
};

/// What lies within a distance of a place. Walls are hollow or not; the caller chooses.
struct Near {
  std::vector<Stretch> stretches;  ///< by wall, then along it; touching ones joined
  std::vector<int> piers;          ///< numbers, ascending; a pier that is touched counts whole
  std::vector<std::size_t> chimneys;
  std::vector<std::size_t> slabs, pilasters;
  std::vector<PartitionStretch> partitions;
};

/// A room that soil lies in: what walls and partitions leave between them.
struct Cell {
  Ratio area_sqft;
  Length perimeter;  ///< of all its faces, those of piers left out
};

struct SurveyedPart {
  std::string name;
  Foundation foundation = Foundation::crawl_space;
  std::optional<Length> crawl_height;
  std::optional<Length> joists_above, girders_above, wood_above;  ///< least height above the soil; the last, outside
  std::optional<Length> wall_height, roof_height;
  Span at;
  std::vector<Point> corners;                     ///< outside, as walked, closed implicitly
  std::vector<Point> inside_corners;              ///< inside face, in the order walked; empty when there is none
  std::vector<std::vector<Point>> further_rooms;  ///< inside faces cut off from the first where thick walls meet
  Length outside, inside;  ///< lengths round this part alone, all its rooms; inside is the sum over its walls
  Ratio area_sqft;         ///< within the outside face
  Ratio inside_sqft;       ///< within the inside faces, partitions taken out; 0 where there are none
  std::vector<Cell> cells;
  Length closing_error;   ///< put on the last wall
  bool clockwise = true;  ///< as walked on a plan with north up: the inside lies to the right of each wall
  bool sound = false;     ///< the outline could be read, closes, and does not cross itself
};

struct SurveyedStructure {
  std::string name;
  std::string kind;  ///< in words: "garage"
  const Structure* facts = nullptr;
  std::optional<Soil> soil;
  std::optional<Ground> ground;
  std::vector<SurveyedPart> parts;
  std::vector<Wall> walls;
  std::vector<SurveyedWallBlock> wall_blocks;
  std::vector<Pier> piers;
  std::vector<SurveyedPierGroup> pier_groups;  ///< Pier::group counts through them
  std::vector<SurveyedPartition> partitions;   ///< those that stand in a part
  std::vector<std::string> partition_names;    ///< of all that were typed
  std::vector<SurveyedPilaster> pilasters;     ///< as typed, as are the lists that follow
  std::vector<SurveyedSlab> slabs;
  std::vector<SurveyedChimney> chimneys;
  std::vector<SurveyedWood> wood;
  std::vector<SurveyedMark> marks;
  std::vector<SurveyedArea> areas;
  std::vector<SurveyedDanger> dangers;  ///< all of them in the order of their table; none when the block is missing
  /// Kinds of things whose list could not be read at all: what names one may be right though it is not found.
  std::vector<Place::Kind> unread;
  Span name_at, ground_at, footings_at;  ///< the last: where a footing that is missing is reported
  /// A depth of this side was written and could not be taken: that one is missing is not worth another message.
  bool outside_misread = false, inside_misread = false;
  Length drawn_outside, drawn_inside;  ///< sums over walls; stretches along another part are left out of the outside
  Length outside, inside;              ///< what counts: taped when `measured` says so, else drawn
  bool inside_as_outside = false;      ///< `measured: {inside: as outside}`
  /// False when a wall or pier could not be read: the fault was reported, totals are short, and what refers to a wall
  /// or pier by its number may be right though it is not found.
  bool complete = true;
  [[nodiscard]] bool drawn() const { return !walls.empty(); }

  [[nodiscard]] const Wall* wall(int number) const;
  [[nodiscard]] const Pier* pier(int number) const;

  /// How much could be seen, from the regions of areas not seen: feet of wall faces (inside) and piers.
  Length faces_seen, faces_all;
  int piers_seen = 0;
  std::vector<int> piers_not_seen;
  std::vector<Stretch> walls_not_seen;  ///< behind these stretches of the outside line, to the nearest inch outward
  /// False when an area not (wholly) seen has no region: the figures above then say too much.
  bool seen_counted = true;
};

struct Survey {
  std::vector<SurveyedStructure> structures;
  std::vector<SurveyedStructure> not_inspected;  ///< as typed; nothing of them is measured
  [[nodiscard]] const SurveyedStructure* find(std::string_view name) const;
};

/// Measures every structure that was looked at; others are taken over as typed. Faults of the drawing (open or crossing
/// outline, pier outside, wall named twice, inside longer than outside ...) are reported at the key that made them;
/// what can be measured still is. Its spans point into the case's source.
///
/// How an outline is read. It begins at `start`, else at [0, 0]; a list of nothing but corners that neither begins nor
/// ends at [0, 0] begins at its first corner. A first corner equal to the start makes no wall. A gap of up to an inch
/// at the end goes to the last wall. Only a list of nothing but corners is closed by a wall that nobody typed (it has
/// the last number). A diagonal's corner is rounded to 1/16 in on each axis; its length stays as typed.
///
/// How the inside is found. Each wall takes a band of its own thickness from the outline, measured inward; where the
/// inside turns round a corner of the house (more than 180 degrees), the bands are prolonged until they meet. What is
/// left is the inside; where two collinear walls differ in thickness, the step counts with the thicker one. Lengths are
/// rounded once, to 1/16 in a wall. Without thickness a slab's inside is its outline, and piers have no inside face.
[[nodiscard]] Survey measure(const Case& c, Faults& faults);

/// What lies within `distance` of a place (exactly at the distance counts), measured over the plan. A place of kind
/// wall is the wall's whole thickness over its stretch, so that it counts for both faces; piers, chimneys and slabs are
/// their rectangles, an area is its region; `near N` is for the caller to look up, and nothing is near it here.
///
/// Of a wall: those stretches of its outside line behind which some point of the wall's thickness lies within the
/// distance. Each wall is measured on its own, so a stretch runs round a corner by itself; what a part listed earlier
/// counts is left out. Ends are rounded outward to 1/16 in. A wall that is touched in one point only has no stretch. A
/// pier or chimney base that is touched counts whole. What touches what is decided in whole numbers; the ends of
/// stretches are worked out in long double and rounded with a margin of 1/1000 of 1/16 in, far above its error, so that
/// every machine gives the same.
[[nodiscard]] Near within(const SurveyedStructure& s, const Place& place, Length distance);

/// The point of a place for drawing and measuring; nothing when it does not exist on this structure, or has no place on
/// the plan (wood without points, an area without region, `near N`). Of a stretch: its middle, on the outside line; of
/// all walls or all piers: of the first.
[[nodiscard]] std::optional<Point> locate(const SurveyedStructure& s, const Place& place);
/// The point at a distance along a wall's outside face.
[[nodiscard]] Point along(const Wall& wall, Length distance);
/// The outlines of a place on the plan, as `within` measures from them: a point, a segment or a filled outline each.
[[nodiscard]] std::vector<std::vector<Point>> shapes_of(const SurveyedStructure& s, const Place& place);
/// Whether a place exists on this structure; otherwise words for what is missing ("there is no pier 12; the last is
/// 8"). Empty also for `near N`, and when the drawing is not complete, because that was reported.
[[nodiscard]] std::string missing(const SurveyedStructure& s, const Place& place);
/// Least distance between two places, rounded down to 1/16 in: 0 where they touch; nothing when one has no place.
[[nodiscard]] std::optional<Length> distance(const SurveyedStructure& s, const Place& from, const Place& to);
/// The same between outlines (points, segments, filled outlines).
[[nodiscard]] std::optional<Length> distance(const std::vector<std::vector<Point>>& a,
                                             const std::vector<std::vector<Point>>& b);
/// A strip of soil beside a stretch of wall: `width` wide, outside the wall or along its inside face.
[[nodiscard]] std::vector<Point> strip_beside(const SurveyedStructure& s, const Stretch& stretch, Length width,
                                              bool outside);
/// An outline grown by a margin, as an upright rectangle round it.
[[nodiscard]] std::vector<Point> grown(const std::vector<Point>& shape, Length margin);
/// Distance between a point and the nearest outside line of the walls (soil is treated along it), rounded down to 1/16
/// in; a million feet when there is no wall. How wide the treated soil is, is not known here.
[[nodiscard]] Length distance_to_walls(const SurveyedStructure& s, Point p);
/// Joins touching or overlapping stretches of the same wall, sorted.
[[nodiscard]] std::vector<Stretch> joined(std::vector<Stretch> stretches);
/// What of `from` is left when `away` is taken out, in the order of `from`.
[[nodiscard]] std::vector<Stretch> stretches_less(const std::vector<Stretch>& from, const std::vector<Stretch>& away);
/// What `a` has in common with `b`, in the order of `a`.
[[nodiscard]] std::vector<Stretch> stretches_shared(const std::vector<Stretch>& a, const std::vector<Stretch>& b);

}  // namespace soundsill
