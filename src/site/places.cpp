// Places of a plan: whether they exist, and where they lie.
#include <algorithm>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill {
namespace plan {
namespace {

using Kind = Place::Kind;

template <class T>
const T* named(const ListField<T>& list, const std::string& name) {
  const auto& all = items(list);
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& t) { return t.name && *t.name == name; });
  return found == all.end() ? nullptr : &*found;
}

// "there is no slab `porch`; there is `front porch`"
template <class T>
std::string no_named(std::string_view thing, const ListField<T>& list, const std::string& name) {
  if (list.unread() || named(list, name)) return {};
  std::string others;
  for (const T& t : items(list))
    if (t.name) others += (others.empty() ? "" : ", ") + quoted(*t.name);
  return "there is no " + std::string(thing) + " " + quoted(name) + "; there " +
         (others.empty() ? "are none" : (items(list).size() == 1 ? "is " : "are ") + others);
}

std::string missing_wall(const SurveyedStructure& s, const Place& place) {
  const Wall* wall = s.wall(place.number);
  if (!wall) return s.complete ? no_such("wall", place.number, s.walls.size()) : std::string();
  const Length end = std::max(place.from.value_or(Length{}), place.to.value_or(Length{}));
  if (end <= wall->length) return {};
  return "wall " + std::to_string(wall->number) + " is " + soundsill::print(wall->length) + " long, and ends before " +
         soundsill::print(end);
}

// The thickness of a wall behind a stretch of its outside line, and what lies in front of it for `out`.
Ring strip(const SurveyedStructure& s, const Wall& wall, Length a, Length b, Length across, bool out) {
  const Vec from = vec(along(wall, a)), to = vec(along(wall, b));
  if (across <= Length{}) return from == to ? Ring{from} : Ring{from, to};
  const Vec n = inward(s, wall);
  const Wide size = nearest_root(Wide{256} * 256 * dot(n, n));  // in 1/256, so that a diagonal is not cut short
  if (size == 0) return {from};
  const auto share = [&](std::int64_t k) {
    const Wide way = Wide{k} * across.sixteenths * 512;
    return static_cast<std::int64_t>((way + (way < 0 ? -size : size)) / (2 * size)) * (out ? -1 : 1);
  };
  const Vec by{share(n.x), share(n.y)};
  return from == to ? Ring{from, from + by} : Ring{from, to, to + by, from + by};
}

Ring wall_shape(const SurveyedStructure& s, const Place& place) {
  const Wall* wall = s.wall(place.number);
  if (!wall) return {};
  const Length a = std::min(place.from.value_or(Length{}), wall->length);
  const Length b = std::min(place.to.value_or(wall->length), wall->length);
  return strip(s, *wall, a, b, wall->thick.value_or(Length{}), false);
}

Ring whole_wall(const SurveyedStructure& s, const Wall& wall) {
  return strip(s, wall, {}, wall.length, wall.thick.value_or(Length{}), false);
}

Ring slab_shape(const SurveyedStructure& s, const Slab& slab) {
  if (!slab.along || slab.along->kind != Kind::wall) return {};
  const Wall* wall = s.wall(slab.along->number);
  if (!wall) return {};
  const Length a = std::min(slab.along->from.value_or(Length{}), wall->length);
  const Length b = std::min(slab.along->to.value_or(wall->length), wall->length);
  return strip(s, *wall, a, b, slab.deep.value_or(Length{}), true);
}

std::vector<Shape> slab_shapes(const SurveyedStructure& s, const Slab* slab) {
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

std::vector<Shape> wood_shapes(const WoodContact* wood) {
  std::vector<Shape> out;
  if (wood)
    for (const Point& p : items(wood->at_points)) out.push_back({vec(p)});
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
      return {wall_shape(s, place)};
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
  if (!s.facts) return {};
  if (place.kind == Kind::slab) return slab_shapes(s, named(s.facts->slabs, place.name));
  if (place.kind == Kind::wood) return wood_shapes(named(s.facts->wood, place.name));
  if (place.kind == Kind::chimney) {
    const Chimney* c = named(s.facts->chimneys, place.name);
    if (!c || !c->at_point) return {};
    const Size size = c->size.value_or({});
    return {size.width > Length{} && size.depth > Length{} ? rectangle(vec(*c->at_point), size.width, size.depth)
                                                           : Ring{vec(*c->at_point)}};
  }
  const Area* area = named(s.facts->areas, place.name);
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
      return s.facts ? plan::no_named("chimney", s.facts->chimneys, place.name) : "";
    case Kind::slab:
      return s.facts ? plan::no_named("slab", s.facts->slabs, place.name) : "";
    case Kind::wood:
      return s.facts ? plan::no_named("wood", s.facts->wood, place.name) : "";
    case Kind::area:
      return s.facts ? plan::no_named("area", s.facts->areas, place.name) : "";
    default:
      return "";
  }
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
