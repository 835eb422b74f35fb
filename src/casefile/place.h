// Places of a plan as people type them, and the walk round an outline.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/units.h"
#include "yaml/keys.h"

namespace soundsill {

/// A place on the plan of one structure: `[12', 8']`, `pier 7`, `wall 3`, `wall 3 at 6'`, `wall 3 6' to 9'`, `all
/// walls`, `all piers`, `near 1`, or a thing with a name: `chimney NAME`, `slab NAME`, `wood NAME`, `area NAME`,
/// `partition NAME`, `pilaster NAME`, `mark NAME`.
/// Lengths along a wall run from the corner where the walk began it.
struct Place {
  enum class Kind {
    point,
    pier,
    wall,
    all_walls,
    all_piers,
    near,
    chimney,
    slab,
    wood,
    area,
    partition,
    pilaster,
    mark
  };
  Kind kind = Kind::point;
  Point point;                     ///< of kind point
  int number = 0;                  ///< of a pier, a wall, or the finding after `near`
  std::optional<Length> from, to;  ///< stretch of a wall; `at 6'` has both alike
  std::string name;
  Span at;
};
[[nodiscard]] std::optional<Place> read_place(std::string_view text);

/// Which walls a line speaks of: all, none, or some, each whole or a stretch of it.
struct WallStretch {
  int wall = 0;
  std::optional<Length> from, to;
  Span at;
};
struct WallSet {
  bool all = false;
  std::vector<WallStretch> some;
  [[nodiscard]] bool none() const { return !all && some.empty(); }
};

/// Which piers: all, none, or numbers and ranges (`[1, 2]`, `3 to 8`).
struct PierSet {
  bool all = false;
  std::vector<int> some;
  Span at;
  [[nodiscard]] bool none() const { return !all && some.empty(); }
};

/// One wall of a walk: `E 40'`, `NW 5'7"`, or the corner it leads to, `[40', 16']`.
struct Step {
  enum class Kind { walk, corner };
  Kind kind = Kind::walk;
  int east = 0, south = 0;  ///< -1, 0 or 1
  Length length;
  Point corner;
  Span at;
};

struct Size {
  Length width, depth;  ///< along x and along y
};
/// Lumber by its nominal size in inches: `2x6`.
struct LumberSize {
  int thick = 0, wide = 0;
};
struct Count {
  int across = 1, down = 1;
};

/// A length, or the words `as outside`: the company bids the inside of the walls as long as the outside.
struct InsideMeasure {
  bool as_outside = false;
  Length length;
};

/// A point of a photo, in percent of the upright picture from its left and from its top.
struct PhotoPoint {
  Percent x, y;
};
/// The part of a photo that is shown: its left and top, its width and height, in percent of the upright picture.
struct PhotoCrop {
  Percent x, y, width, height;
};

/// The answer to a danger: none, not known, or where it is, in words.
struct Answer {
  enum class Kind { none, not_known, there };
  Kind kind = Kind::none;
  std::vector<std::string> places;
};

namespace yaml {
#define SOUNDSILL_FREE(type, how, json)                                                                 \
  template <>                                                                                           \
  struct Reading<type> {                                                                                \
    static constexpr Shape shape() { return {.kind = Shape::Kind::free, .says = how, .schema = json}; } \
    static std::optional<type> read(Reader& reader, const Node& node);                                  \
  };
// The schemas take whatever the readers take, and as little else as a pattern can tell. `#/$defs/...` are the kinds of
// values that listing/schema.cpp defines.
SOUNDSILL_FREE(Place, "`pier 7`, `wall 3 6' to 9'`, `near 1`, or a point like [12', 8']",
               R"({"anyOf": [{"$ref": "#/$defs/point"}, {"type": "string", "pattern":
        "^(all walls|all piers|(pier|near) +[0-9]{1,4}|wall +[0-9]{1,4}( +.+)?|(chimney|slab|wood|area|partition|pilaster|mark) +.+)$"}]})")
SOUNDSILL_FREE(Point, "a point: [east, south], like [12', 8']", R"({"$ref": "#/$defs/point"})")
SOUNDSILL_FREE(WallSet, "`all`, `none`, or walls like [1, 3] or \"3 6' to 9'\"", R"({"$ref": "#/$defs/walls"})")
SOUNDSILL_FREE(PierSet, "`all`, `none`, or numbers like [1, 2] or \"3 to 8\"", R"({"$ref": "#/$defs/piers"})")
SOUNDSILL_FREE(
    Step, "direction and length, like E 40', or a corner like [40', 16']",
    R"({"anyOf": [{"$ref": "#/$defs/point"}, {"type": "string", "pattern": "^(N|S|E|W|NE|NW|SE|SW|EN|ES|WN|WS) +[0-9].*$"}]})")
SOUNDSILL_FREE(Size, "two lengths: [16\", 16\"]",
               R"({"type": "array", "minItems": 2, "maxItems": 2, "items": {"$ref": "#/$defs/length"}})")
SOUNDSILL_FREE(LumberSize, "a nominal size in inches, like 2x6",
               R"({"type": "string", "pattern": "^[0-9]{1,2}x[0-9]{1,2}$"})")
SOUNDSILL_FREE(
    Count, "two counts, across and down: [4, 2]",
    R"({"type": "array", "minItems": 2, "maxItems": 2, "items": {"type": "integer", "minimum": 1, "maximum": 200}})")
SOUNDSILL_FREE(InsideMeasure, "a length, or `as outside`",
               R"({"anyOf": [{"const": "as outside"}, {"$ref": "#/$defs/length"}]})")
SOUNDSILL_FREE(Answer, "`none`, `not known`, or where it is, in words", R"({"$ref": "#/$defs/answer"})")
SOUNDSILL_FREE(PhotoPoint, "two percentages of the upright picture, from its left and its top: [40, 55]",
               R"({"type": "array", "minItems": 2, "maxItems": 2, "items": {"$ref": "#/$defs/percent"}})")
SOUNDSILL_FREE(PhotoCrop, "four percentages of the upright picture, left, top, width and height: [10, 20, 60, 60]",
               R"({"type": "array", "minItems": 4, "maxItems": 4, "items": {"$ref": "#/$defs/percent"}})")
#undef SOUNDSILL_FREE
}  // namespace yaml
}  // namespace soundsill
