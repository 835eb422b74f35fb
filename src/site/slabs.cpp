// Serves site/draft.h. Slabs and porches: which walls they lie against, and which of their edges stand free. And what
// stands out from walls.
#include <algorithm>
#include <cmath>

#include "site/clip.h"
#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

long double size_of(Vec a, Vec b) {
  return std::hypot(static_cast<long double>(b.x - a.x), static_cast<long double>(b.y - a.y));
}

/// Stretches of a wall that lie along or within a shape.
std::vector<Stretch> along_shape(const Wall& wall, const Ring& shape) {
  std::vector<Stretch> out;
  if (shape.size() < 3) return out;
  const auto whole = static_cast<long double>(wall.length.sixteenths);
  for (const Piece& p : clipped(vec(wall.from), vec(wall.to), shape)) {
    const Stretch s{wall.number, {std::llround(p.first * whole)}, {std::llround(p.second * whole)}};
    if (s.length() > Length{}) out.push_back(s);
  }
  return out;
}

Length bounded(const std::optional<Length>& typed, Length otherwise, Length most) {
  return std::min(typed.value_or(otherwise), most);
}

/// What a slab that goes round the house has at the corner where a wall ends: between the two strips, as far out as
/// their edges meet. Nothing at an inner corner.
Ring corner_beyond(const SurveyedStructure& s, const Wall& wall, Length deep) {
  const auto next = std::find_if(s.walls.begin(), s.walls.end(), [&](const Wall& other) {
    return other.part == wall.part && other.from == wall.to && other.number != wall.number && !other.outer.empty() &&
           other.outer.front().a == Length{};
  });
  if (next == s.walls.end() || wall.outer.empty() || wall.outer.back().b != wall.length) return {};
  const Vec way = vec(wall.to) - vec(wall.from), on = vec(next->to) - vec(next->from);
  const bool right = cross(way, on) > 0;
  if (cross(way, on) == 0 || right != s.parts[wall.part].clockwise) return {};
  const Ring a = strip(s, wall, {}, wall.length, deep, true), b = strip(s, *next, {}, next->length, deep, true);
  if (a.size() < 4 || b.size() < 4) return {};
  const Vec corner = vec(wall.to), out = a[2] - corner, far = b[3] - corner;
  // Both are `deep` long: they meet at their sum over one plus the cosine between them.
  const auto square = static_cast<long double>(dot(out, out));
  const long double cosine = square > 0 ? static_cast<long double>(dot(out, far)) / square : 0;
  constexpr long double spike = 1.0L / 8;  // a corner so sharp has no tip: it would lie far beyond the plan
  if (1 + cosine < spike) return {corner, corner + out, corner + far};
  const long double share = 1 / (1 + cosine);
  const Vec sum = out + far;
  const Vec tip{std::llround(static_cast<long double>(sum.x) * share),
                std::llround(static_cast<long double>(sum.y) * share)};
  return {corner, corner + out, corner + tip, corner + far};
}

void shape_slab(const SurveyedStructure& s, SurveyedSlab& made) {
  if (!made.along) return;
  const auto put = [&](const Wall& wall, Length a, Length b) {
    if (b <= a) return;
    made.adjoins.push_back({wall.number, a, b});
    made.shapes.push_back(points(strip(s, wall, a, b, made.deep.value_or(Length{}), true)));
  };
  if (made.along->kind == Place::Kind::all_walls)
    for (const Wall& wall : s.walls) {
      for (const Stretch& outer : wall.outer) put(wall, outer.a, outer.b);
      if (const Ring corner = corner_beyond(s, wall, made.deep.value_or(Length{})); !corner.empty())
        made.shapes.push_back(points(corner));
    }
  const Wall* wall = made.along->kind == Place::Kind::wall ? s.wall(made.along->number) : nullptr;
  if (wall)
    put(*wall, bounded(made.along->from, {}, wall->length), bounded(made.along->to, wall->length, wall->length));
}

/// A slab in an inner corner lies against the walls at its sides, too.
void find_adjoining(SurveyedStructure& s, SurveyedSlab& made) {
  std::vector<Stretch> outer;
  for (const Wall& wall : s.walls) {
    outer.insert(outer.end(), wall.outer.begin(), wall.outer.end());
    for (const auto& shape : made.shapes)
      for (const Stretch& one : along_shape(wall, ring(shape))) {
        const bool typed = std::any_of(made.adjoins.begin(), made.adjoins.end(),
                                       [&](const Stretch& other) { return other.wall == one.wall; });
        if (!typed) made.adjoins.push_back(one);
      }
  }
  made.adjoins = common(soundsill::joined(std::move(made.adjoins)), outer);
}

/// What of an edge lies against neither the house nor another slab; the slab's own shape lies right of it. Where two
/// slabs that lap end in one line, the edge is that of the first.
std::vector<Piece> free_pieces(const Draft& draft, const std::vector<Point>& own, Vec a, Vec b) {
  std::vector<Piece> taken;
  const auto take = [&](const std::vector<Piece>& pieces) { taken.insert(taken.end(), pieces.begin(), pieces.end()); };
  for (const PartDraft& part : draft.parts)
    if (part.walk.sound) take(clipped(a, b, part.walk.corners()));
  bool earlier = true;
  for (const SurveyedSlab& other : draft.made.slabs)
    for (const auto& shape : other.shapes) {
      if (&shape == &own)
        earlier = false;
      else if (shape.size() >= 3)
        take(earlier ? clipped(a, b, ring(shape)) : left_covered(a, b, ring(shape)));
    }
  return remaining({{0, 1}}, taken);
}

void find_edges(const Draft& draft, SurveyedSlab& made) {
  long double sum = 0;
  std::vector<Ring> shapes;
  for (const auto& shape : made.shapes) {
    const Ring corners = ring(shape);
    if (corners.size() < 3) continue;
    const bool clockwise = twice_area(corners) > 0;
    shapes.push_back(corners);
    for (std::size_t i = 1; i < corners.size(); ++i) {  // the first edge lies along its wall
      Vec a = corners[i], b = corners[after(i, corners.size())];
      if (!clockwise) std::swap(a, b);
      const auto at = [&](long double t) {
        return point({a.x + std::llround(t * static_cast<long double>(b.x - a.x)),
                      a.y + std::llround(t * static_cast<long double>(b.y - a.y))});
      };
      for (const Piece& p : free_pieces(draft, shape, a, b)) {
        sum += (p.second - p.first) * size_of(a, b);
        made.edges.emplace_back(at(p.first), at(p.second));
      }
    }
  }
  made.free_edges = {std::llround(sum)};
  constexpr std::int64_t square_foot = 192 * 192;
  made.area_sqft = Ratio(std::llround(covered(shapes)), square_foot);
}

void report_overlaps(const SurveyedStructure& s, Faults& faults) {
  for (std::size_t j = 1; j < s.slabs.size(); ++j)
    for (std::size_t i = 0; i < j; ++i)
      for (const auto& a : s.slabs[i].shapes)
        for (const auto& b : s.slabs[j].shapes) {
          if (a.size() < 3 || b.size() < 3 || !share_area(ring(a), ring(b))) continue;
          Diagnostic d{Rule::outline_crosses, s.slabs[j].along_at, {}, {}, {}, {}};
          d.what = "the slab " + quoted(s.slabs[j].name) + " lies partly over " + quoted(s.slabs[i].name);
          d.why = "what they have in common would be drilled, and billed, twice";
          d.fix = "let one of them end where the other begins";
          d.see.push_back({s.slabs[i].along_at, "the other slab"});
          faults.add(std::move(d));
          return;
        }
}

}  // namespace

void find_slabs(Draft& draft, Faults& faults) {
  SurveyedStructure& s = draft.made;
  for (const Slab& facts : items(draft.facts->slabs)) {
    SurveyedSlab made = typed(facts);
    shape_slab(s, made);
    find_adjoining(s, made);
    s.slabs.push_back(std::move(made));
  }
  report_overlaps(s, faults);
  for (SurveyedSlab& made : s.slabs) find_edges(draft, made);
  for (std::size_t i = 0; i < s.walls.size(); ++i) {
    Wall& wall = s.walls[i];
    std::vector<Stretch> paved;
    if (wall.beside_slab) paved = wall.outer;
    for (const SurveyedSlab& slab : s.slabs)
      for (const Stretch& one : slab.adjoins)
        if (one.wall == wall.number) paved.push_back(one);
    wall.paved = common(soundsill::joined(std::move(paved)), wall.outer);
  }
}

namespace {

void misplaced(Faults& faults, const Span& at, std::string what, std::string fix) {
  faults.add(Rule::partition_misplaced, at, std::move(what), "its sides would be measured where it does not stand",
             std::move(fix));
}

void place_one(const Draft& draft, const Place& place, SurveyedPilaster& made, Faults& faults) {
  const SurveyedStructure& s = draft.made;
  const Wall* wall = place.kind == Place::Kind::wall ? s.wall(place.number) : nullptr;
  if (!wall || !place.from || (place.to && *place.to != *place.from)) {
    if (place.kind != Place::Kind::wall || s.complete)
      misplaced(faults, place.at, "this place" + of(made.name) + " is not a point along a wall",
                "write where its middle stands, like \"wall 2 at 6'\"");
    return;
  }
  const Length half{made.wide->sixteenths / 2};
  const Length a = *place.from - half, b = a + *made.wide;
  if (a < Length{} || b > wall->length)
    return misplaced(faults, place.at,
                     "at " + soundsill::print(*place.from) + " one" + of(made.name) + " reaches beyond wall " +
                         std::to_string(wall->number),
                     "compare its width and place with the sketch");
  const bool outside = *made.side == Sides::outside;
  const Length thick = wall->thick.value_or(Length{});
  Ring shape = strip(s, *wall, a, b, outside ? *made.deep : *made.deep + thick, outside);
  made.shapes.push_back(points(shape));
  made.sides += *made.deep * 2;
}

}  // namespace

void place_pilasters(Draft& draft, Faults& faults) {
  for (const Pilaster& facts : items(draft.facts->pilasters)) {
    SurveyedPilaster made = typed(facts);
    const bool read = facts.places && facts.side && facts.wide && facts.deep && facts.footing;
    if (read && *facts.side == Sides::both)
      misplaced(faults, facts.side.at, "a pilaster stands outside or inside of its wall, not on both sides",
                "write `side: outside` or `side: inside`, and the others as a group of their own");
    else if (read && (*facts.wide <= Length{} || *facts.deep <= Length{}))
      misplaced(faults, *facts.wide <= Length{} ? facts.wide.at : facts.deep.at, "a pilaster has no width or depth",
                "write its width and depth as measured");
    else if (read)
      for (const Place& place : *facts.places) place_one(draft, place, made, faults);
    draft.made.pilasters.push_back(std::move(made));
  }
}

}  // namespace soundsill::plan
