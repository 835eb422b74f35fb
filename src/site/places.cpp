// Serves site/draft.h. Places of a plan: whether they exist, and where they lie.
#include <algorithm>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill {
namespace plan {
namespace {

using Kind = Place::Kind;

// How far one goes from a wall to be `across` it, inward; outward when negative.
Vec step_across(const SurveyedStructure& s, const Wall& wall, Length across) {
  const Vec n = inward(s, wall);
  const Wide size = nearest_root(Wide{256} * 256 * dot(n, n));  // in 1/256, so that a diagonal is not cut short
  if (size == 0) return {};
  const auto share = [&](std::int64_t k) {
    const Wide way = Wide{k} * across.sixteenths * 512;
    return static_cast<std::int64_t>((way + (way < 0 ? -size : size)) / (2 * size));
  };
  return {share(n.x), share(n.y)};
}

template <class T>
const T* named(const std::vector<T>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& t) { return t.name == name; });
  return found == all.end() ? nullptr : &*found;
}

/// The names of the things of one kind, and how many there are, named or not.
struct Names {
  std::vector<std::string> names;
  std::size_t count = 0;
};
template <class T>
Names names_of(const std::vector<T>& all) {
  Names out;
  out.count = all.size();
  for (const T& one : all)
    if (!one.name.empty()) out.names.push_back(one.name);
  return out;
}
Names names_of(const std::vector<std::string>& names) { return {names, names.size()}; }

// "there is no slab `porch`; there is `front porch`"
std::string no_named(const SurveyedStructure& s, const Place& place, std::string_view thing, const Names& known) {
  const bool unread = std::find(s.unread.begin(), s.unread.end(), place.kind) != s.unread.end();
  if (unread || std::find(known.names.begin(), known.names.end(), place.name) != known.names.end()) return {};
  std::string others;
  for (const std::string& name : known.names) others += (others.empty() ? "" : ", ") + quoted(name);
  return "there is no " + std::string(thing) + " " + quoted(place.name) + "; there " +
         (others.empty() ? "are none" : (known.count == 1 ? "is " : "are ") + others);
}

std::string missing_wall(const SurveyedStructure& s, const Place& place) {
  const Wall* wall = s.wall(place.number);
  if (!wall) return s.complete ? no_such("wall", place.number, s.walls.size()) : std::string();
  const Length end = std::max(place.from.value_or(Length{}), place.to.value_or(Length{}));
  if (end <= wall->length) return {};
  return "wall " + std::to_string(wall->number) + " is " + soundsill::print(wall->length) + " long, and ends before " +
         soundsill::print(end);
}

/// Whether both points lie along a wall, to the inch within which parts adjoin.
bool on_line(const Wall& wall, Vec a, Vec b) {
  constexpr std::int64_t inch = 16;
  const auto near = [&](Vec p) { return floor_square_distance(p, vec(wall.from), vec(wall.to)) <= Wide{inch} * inch; };
  return near(a) && near(b);
}

// The masonry of a stretch. Where a part listed earlier counts the wall, it stands on the other side of the line.
std::vector<Shape> masonry(const SurveyedStructure& s, const Wall& wall, Length a, Length b) {
  const Stretch whole{wall.number, a, b};
  const bool point = a == b;
  const auto holds = [&](const Stretch& own) { return own.a <= a && a <= own.b; };
  std::vector<Shape> out;
  std::vector<Stretch> own =
      point ? (std::any_of(wall.own.begin(), wall.own.end(), holds) ? std::vector{whole} : std::vector<Stretch>{})
            : common({whole}, wall.own);
  std::vector<Stretch> other =
      point ? (own.empty() ? std::vector{whole} : std::vector<Stretch>{}) : without({whole}, wall.own);
  for (const Stretch& one : own) out.push_back(strip(s, wall, one.a, one.b, wall.thick.value_or(Length{}), false));
  for (const Stretch& one : other) {
    const Vec from = vec(along(wall, one.a)), to = vec(along(wall, one.b));
    Length thick = wall.thick.value_or(Length{});
    bool beyond = true;
    for (const Wall& early : s.walls) {
      if (early.part == wall.part || early.number > wall.number || !on_line(early, from, to)) continue;
      beyond = early.thick || !wall.thick;
      thick = early.thick.value_or(thick);
    }
    out.push_back(strip(s, wall, one.a, one.b, thick, beyond));
  }
  return out;
}

std::vector<Shape> wall_shapes(const SurveyedStructure& s, const Place& place) {
  const Wall* wall = s.wall(place.number);
  if (!wall) return {};
  const Length a = std::min(place.from.value_or(Length{}), wall->length);
  const Length b = std::min(place.to.value_or(wall->length), wall->length);
  return masonry(s, *wall, a, b);
}

Ring whole_wall(const SurveyedStructure& s, const Wall& wall) {
  return strip(s, wall, {}, wall.length, wall.thick.value_or(Length{}), false);
}

Ring slab_shape(const SurveyedStructure& s, const SurveyedSlab& slab) {
  if (!slab.along || slab.along->kind != Kind::wall) return {};
  const Wall* wall = s.wall(slab.along->number);
  if (!wall) return {};
  const Length a = std::min(slab.along->from.value_or(Length{}), wall->length);
  const Length b = std::min(slab.along->to.value_or(wall->length), wall->length);
  return strip(s, *wall, a, b, slab.deep.value_or(Length{}), true);
}

std::vector<Shape> slab_shapes(const SurveyedStructure& s, const SurveyedSlab* slab) {
  if (!slab || !slab->along) return {};
  if (slab->along->kind != Kind::all_walls) return {slab_shape(s, *slab)};
  std::vector<Shape> out;
  for (const Wall& wall : s.walls) out.push_back(strip(s, wall, {}, wall.length, slab->deep.value_or(Length{}), true));
  return out;
}

std::vector<Shape> pier_shapes(const SurveyedStructure& s, const Place& place) {
  std::vector<Shape> out;
  for (const Pier& p : s.piers)
    if (place.kind == Kind::all_piers || p.number == place.number)
      out.push_back(rectangle(vec(p.middle), p.width, p.depth));
  return out;
}

std::vector<Shape> wood_shapes(const SurveyedWood* wood) {
  std::vector<Shape> out;
  if (wood)
    for (const Point& p : wood->points) out.push_back({vec(p)});
  return out;
}

std::vector<Shape> mark_shapes(const SurveyedMark* mark) {
  if (!mark || !mark->point) return {};
  const Vec at = vec(*mark->point);
  if (mark->to) return {{at, vec(*mark->to)}};
  if (mark->size) return {rectangle(at, mark->size->width, mark->size->depth)};
  return {{at}};
}

// What a name stands for that the survey has worked out.
std::vector<Shape> surveyed_shapes(const SurveyedStructure& s, const Place& place) {
  std::vector<Shape> out;
  if (place.kind == Kind::partition)
    for (const SurveyedPartition& p : s.partitions)
      if (p.name == place.name) out.push_back(ring(p.band));
  if (place.kind == Kind::pilaster)
    for (const SurveyedPilaster& p : s.pilasters)
      if (p.name == place.name)
        for (const auto& shape : p.shapes) out.push_back(ring(shape));
  return out;
}

std::vector<Shape> raw_shapes(const SurveyedStructure& s, const Place& place) {
  switch (place.kind) {
    case Kind::point:
      return {{vec(place.point)}};
    case Kind::pier:
    case Kind::all_piers:
      return pier_shapes(s, place);
    case Kind::wall:
      return wall_shapes(s, place);
    case Kind::all_walls: {
      std::vector<Shape> out;
      for (const Wall& wall : s.walls) out.push_back(whole_wall(s, wall));
      return out;
    }
    case Kind::near:
      return {};
    default:
      break;
  }
  if (place.kind == Kind::slab) return slab_shapes(s, named(s.slabs, place.name));
  if (place.kind == Kind::partition || place.kind == Kind::pilaster) return surveyed_shapes(s, place);
  if (place.kind == Kind::mark) return mark_shapes(named(s.marks, place.name));
  if (place.kind == Kind::wood) return wood_shapes(named(s.wood, place.name));
  if (place.kind == Kind::chimney) {
    const SurveyedChimney* c = named(s.chimneys, place.name);
    if (!c || !c->middle) return {};
    const Size size = c->size.value_or(Size{});
    return {size.width > Length{} && size.depth > Length{} ? rectangle(vec(*c->middle), size.width, size.depth)
                                                           : Ring{vec(*c->middle)}};
  }
  const SurveyedArea* area = named(s.areas, place.name);
  return area && area->region ? std::vector<Shape>{ring(*area->region)} : std::vector<Shape>{};
}

std::optional<Point> middle(const Shape& shape) {
  if (shape.empty()) return std::nullopt;
  if (shape.size() < 3) return point(shape.front());
  const auto within = point_within(shape);
  return point(within.value_or(shape.front()));
}

void check_along(Draft& draft, const Field<Place>& along, bool stretch, Faults& faults) {
  if (!along) return;
  const bool wall = along->kind == Kind::wall || along->kind == Kind::all_walls;
  const bool spot = stretch && along->from && along->to && *along->from == *along->to;
  std::string what = missing(draft.made, *along);
  if (!wall)
    what = "this place is not a stretch of a wall";
  else if (spot)
    what = "this is one point of wall " + std::to_string(along->number) + ", and no stretch of it";
  if (what.empty()) return;
  faults.add(
      Rule::bad_wall, along.at, std::move(what), "what lies along a wall would be missing from drawing and measure",
      "name a wall and a stretch within it, like \"wall 1 10' to 22'\"; lengths run from where the walk began it");
}

}  // namespace

Ring strip(const SurveyedStructure& s, const Wall& wall, Length a, Length b, Length across, bool out) {
  const Vec from = vec(along(wall, a)), to = vec(along(wall, b));
  if (across <= Length{}) return from == to ? Ring{from} : Ring{from, to};
  const Vec by = step_across(s, wall, out ? -across : across);
  if (by == Vec{}) return {from};
  return from == to ? Ring{from, from + by} : Ring{from, to, to + by, from + by};
}

void check_alongs(Draft& draft, Faults& faults) {
  for (const Slab& slab : items(draft.facts->slabs)) check_along(draft, slab.along, true, faults);
  for (const Mark& mark : items(draft.facts->marks)) check_along(draft, mark.along, false, faults);
}

}  // namespace plan

std::vector<std::vector<Point>> shapes_of(const SurveyedStructure& s, const Place& place) {
  std::vector<std::vector<Point>> out;
  for (const plan::Shape& shape : plan::raw_shapes(s, place))
    if (!shape.empty()) out.push_back(plan::points(shape));
  return out;
}

std::optional<Point> locate(const SurveyedStructure& s, const Place& place) {
  using plan::Kind;
  if (place.kind == Kind::wall || place.kind == Kind::all_walls) {
    const Wall* wall = s.wall(place.kind == Kind::wall ? place.number : 1);
    if (!wall || (place.kind == Kind::wall && !plan::missing_wall(s, place).empty())) return std::nullopt;
    const Length a = place.from.value_or(Length{}), b = place.to.value_or(wall->length);
    return along(*wall, Length{(a + b).sixteenths / 2});
  }
  if (place.kind == Kind::pier) {
    const Pier* pier = s.pier(place.number);
    return pier ? std::optional(pier->middle) : std::nullopt;
  }
  const auto shapes = plan::raw_shapes(s, place);
  return shapes.empty() ? std::nullopt : plan::middle(shapes.front());
}

std::string missing(const SurveyedStructure& s, const Place& place) {
  using plan::Kind;
  switch (place.kind) {
    case Kind::wall:
      return plan::missing_wall(s, place);
    case Kind::pier:
      return s.pier(place.number) || !s.complete ? "" : plan::no_such("pier", place.number, s.piers.size());
    case Kind::all_walls:
      return s.walls.empty() && s.complete ? "there are no walls" : "";
    case Kind::all_piers:
      return s.piers.empty() && s.complete ? "there are no piers" : "";
    case Kind::chimney:
      return plan::no_named(s, place, "chimney", plan::names_of(s.chimneys));
    case Kind::slab:
      return plan::no_named(s, place, "slab", plan::names_of(s.slabs));
    case Kind::wood:
      return plan::no_named(s, place, "wood", plan::names_of(s.wood));
    case Kind::area:
      return plan::no_named(s, place, "area", plan::names_of(s.areas));
    case Kind::partition:
      return plan::no_named(s, place, "partition", plan::names_of(s.partition_names));
    case Kind::pilaster:
      return plan::no_named(s, place, "pilaster", plan::names_of(s.pilasters));
    case Kind::mark:
      return plan::no_named(s, place, "mark", plan::names_of(s.marks));
    default:
      return "";
  }
}

std::optional<Length> distance(const std::vector<std::vector<Point>>& a, const std::vector<std::vector<Point>>& b) {
  std::optional<plan::Wide> least;
  const auto corner_to_edges = [&](const plan::Ring& one, const plan::Ring& two) {
    for (const plan::Vec p : one)
      for (std::size_t i = 0; i < two.size(); ++i) {
        const plan::Wide square = plan::floor_square_distance(p, two[i], two[plan::after(i, two.size())]);
        if (!least || square < *least) least = square;
      }
  };
  for (const auto& first : a)
    for (const auto& second : b) {
      const plan::Ring one = plan::ring(first), two = plan::ring(second);
      if (one.empty() || two.empty()) continue;
      if (plan::within(one, two, Length{})) return Length{};
      corner_to_edges(one, two);
      corner_to_edges(two, one);
    }
  return least ? std::optional(Length{plan::floor_root(*least)}) : std::nullopt;
}

std::optional<Length> distance(const SurveyedStructure& s, const Place& from, const Place& to) {
  return distance(shapes_of(s, from), shapes_of(s, to));
}

std::vector<Point> strip_beside(const SurveyedStructure& s, const Stretch& stretch, Length width, bool outside) {
  const Wall* wall = s.wall(stretch.wall);
  if (!wall) return {};
  const Length thick = wall->thick.value_or(Length{});
  const plan::Vec near = plan::step_across(s, *wall, outside ? Length{} : thick);
  const plan::Vec far = plan::step_across(s, *wall, outside ? -width : thick + width);
  const plan::Vec a = plan::vec(along(*wall, stretch.a)), b = plan::vec(along(*wall, stretch.b));
  return plan::points({a + near, b + near, b + far, a + far});
}

std::vector<Point> grown(const std::vector<Point>& shape, Length margin) {
  if (shape.empty()) return {};
  Point low = shape.front(), high = shape.front();
  for (const Point& p : shape) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  low = {low.x - margin, low.y - margin};
  high = {high.x + margin, high.y + margin};
  return {low, {high.x, low.y}, high, {low.x, high.y}};
}

Length distance_to_walls(const SurveyedStructure& s, Point p) {
  std::optional<plan::Wide> least;
  for (const Wall& wall : s.walls)
    for (const Stretch& stretch : wall.outer) {
      const plan::Vec a = plan::vec(along(wall, stretch.a)), b = plan::vec(along(wall, stretch.b));
      const plan::Wide square = plan::floor_square_distance(plan::vec(p), a, b);
      if (!least || square < *least) least = square;
    }
  return least ? Length{plan::floor_root(*least)} : Length::feet(1'000'000);
}

}  // namespace soundsill
