#include <algorithm>
#include <cmath>

#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

Place place(std::string_view text) {
  const auto read = read_place(text);
  REQUIRE(read.has_value());
  return *read;
}
Place spot(Point p) {
  Place place;
  place.point = p;
  return place;
}
using Stretches = std::vector<Stretch>;

std::unique_ptr<Plan> house(const std::string& more = {}) {
  return crawl("E 40', S 28', W 40', N 28'", "8\"",
               "piers: [{from: [8', 8'], every: [8', 7'], count: [4, 2], size: [16\", 16\"], kind: poured, footing: "
               "1', known by: dug}]\n" +
                   more);
}

// Distances by brute force, in doubles.
struct P {
  double x, y;
};
P real(Point p) { return {static_cast<double>(p.x.sixteenths), static_cast<double>(p.y.sixteenths)}; }
double to_segment(P p, P a, P b) {
  const double dx = b.x - a.x, dy = b.y - a.y, whole = dx * dx + dy * dy;
  double u = whole > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / whole : 0;
  u = std::clamp(u, 0.0, 1.0);
  return std::hypot(p.x - a.x - u * dx, p.y - a.y - u * dy);
}
double turn(P a, P b, P c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }
double between(P a, P b, P c, P d) {
  if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) return 0;
  return std::min({to_segment(a, c, d), to_segment(b, c, d), to_segment(c, a, b), to_segment(d, a, b)});
}
bool holds(const std::vector<Point>& ring, P p) {
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const P a = real(ring[i]), b = real(ring[(i + 1) % ring.size()]);
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y)) in = !in;
  }
  return in;
}
double to_shape(const std::vector<Point>& shape, P a, P b) {
  if (shape.size() >= 3 && holds(shape, a)) return 0;
  double least = 1e300;
  for (std::size_t i = 0; i < std::max<std::size_t>(shape.size(), 1); ++i)
    least = std::min(least, between(real(shape[i]), real(shape[(i + 1) % shape.size()]), a, b));
  return least;
}

// The distance between a place and the thickness of a wall behind the point at `s` of its outside line.
double sampled(const SurveyedStructure& house, const std::vector<std::vector<Point>>& shapes, const Wall& wall,
               double s) {
  const P a = real(wall.from), b = real(wall.to);
  const double size = std::hypot(b.x - a.x, b.y - a.y), fx = (b.x - a.x) / size, fy = (b.y - a.y) / size;
  const double sign = house.parts[wall.part].clockwise ? 1 : -1, t = static_cast<double>(wall.thick->sixteenths);
  const double along = s * size / static_cast<double>(wall.length.sixteenths);
  const P out{a.x + fx * along, a.y + fy * along}, in{out.x - sign * fy * t, out.y + sign * fx * t};
  double least = 1e300;
  for (const auto& shape : shapes) least = std::min(least, to_shape(shape, out, in));
  return least;
}

bool holds(const Stretches& stretches, int wall, Length s) {
  return std::any_of(stretches.begin(), stretches.end(),
                     [&](const Stretch& x) { return x.wall == wall && x.a <= s && s <= x.b; });
}

Place random_place(std::mt19937& random, const SurveyedStructure& s) {
  const auto pick = [&](int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); };
  Place place;
  const int kind = pick(0, 5);
  place.kind = kind == 0   ? Place::Kind::pier
               : kind == 1 ? Place::Kind::wall
               : kind == 2 ? Place::Kind::area
                           : Place::Kind::point;
  place.point = {Length{pick(-1000, 9000)}, Length{pick(-1000, 7000)}};
  place.number = kind == 0 ? 1 : pick(1, static_cast<int>(s.walls.size()));
  place.name = "dark";
  if (kind == 1) {
    const auto whole = static_cast<int>(s.wall(place.number)->length.sixteenths);
    const int from = pick(0, whole - 1);
    place.from = Length{from};
    place.to = Length{pick(from, whole)};
  }
  return place;
}

// A random house with one pier and one dark region, turned or not.
std::unique_ptr<Plan> random_house(std::mt19937& random, bool slant) {
  const auto pick = [&](int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); };
  Structure s = structure_of(slant ? slanted(random) : stepped(random), Length{pick(64, 200)});
  PierGroup piers;
  piers.at_points.set({Point{Length{pick(0, 5000)}, Length{pick(0, 5000)}}});
  piers.size.set(Size{ft(0, 16), ft(0, 8)});
  s.piers.set({piers});
  Area area;
  area.name.set("dark");
  area.seen.set(Seen::no);
  const Length x{pick(-2000, 6000)}, y{pick(-2000, 6000)}, w{pick(600, 3000)};
  area.region.set({{x, y}, {x + w, y + ft(1)}, {x + ft(2), y + w}, {x + ft(1), y + ft(1)}});
  s.areas.set({area});
  return plan_of(s);
}

}  // namespace

TEST_CASE("a point at a wall reaches as far both ways, and exactly so") {
  const auto plan = house();
  CHECK(within(plan->house(), spot(at(20, 0)), ft(4)).stretches == Stretches{{1, ft(16), ft(24)}});
  CHECK(within(plan->house(), place("wall 1 at 20'"), ft(4)).stretches == Stretches{{1, ft(16), ft(24)}});
  CHECK(within(plan->house(), place("wall 3 6' to 9'"), ft(4)).stretches == Stretches{{3, ft(2), ft(13)}});
  // 3 ft before the wall, 5 ft around: 4 ft each way.
  CHECK(within(plan->house(), spot(at(20, -3)), ft(5)).stretches == Stretches{{1, ft(16), ft(24)}});
  // From within, the inside face is nearer by the thickness.
  CHECK(within(plan->house(), spot({ft(20), ft(3, 8)}), ft(5)).stretches == Stretches{{1, ft(16), ft(24)}});
}

TEST_CASE("a stretch runs round a corner") {
  // The inside face of wall 2 is 1'4" away: sqrt(768^2 - 256^2) = 724.1 sixteenths of it, rounded outward.
  const auto plan = house();
  CHECK(within(plan->house(), spot(at(38, 0)), ft(4)).stretches ==
        Stretches{{1, ft(34), ft(40)}, {2, ft(0), Length{725}}});
}

TEST_CASE("exactly on the limit is inside") {
  const auto plan =
      house("chimneys: [{name: c, at: [30', 22'], size: [4', 4'], kind: poured, footing: 1', known by: dug}]\n");
  // Pier 1 reaches from 7'4" to 8'8" on both axes.
  CHECK(within(plan->house(), spot(at(4, 8)), ft(3, 4)).piers == std::vector<int>{1});
  CHECK(within(plan->house(), spot(at(4, 8)), ft(3, 4) - Length{1}).piers.empty());
  CHECK(within(plan->house(), spot({ft(4, 4), ft(3, 4)}), ft(5)).piers == std::vector<int>{1});  // 3, 4, 5
  CHECK(within(plan->house(), spot({ft(4, 4), ft(3, 4)}), ft(5) - Length{1}).piers.empty());
  CHECK(within(plan->house(), spot(at(26, 24)), ft(2)).chimneys == std::vector<std::size_t>{0});
  CHECK(within(plan->house(), spot(at(26, 24)), ft(2) - Length{1}).chimneys.empty());
  // A wall touched in one point has no stretch; a sixteenth more, and it has one.
  CHECK(within(plan->house(), spot(at(20, -4)), ft(4)).stretches.empty());
  CHECK(within(plan->house(), spot(at(20, -4)), ft(4) + Length{1}).stretches.size() == 1);
  CHECK(within(plan->house(), spot(at(20, 0)), ft(-1)).stretches.empty());
}

TEST_CASE("distance from a pier runs from its side, and a pier is near itself") {
  const auto plan = house();
  const Near near = within(plan->house(), place("pier 2"), ft(6, 8));
  CHECK(near.piers == std::vector<int>{1, 2, 3, 6});  // 8 ft apart, 6'8" between
  CHECK(near.stretches.size() == 1);                  // 7'4" from the outside line, 6'8" from the inside face: touched
  CHECK(within(plan->house(), place("pier 2"), ft(7)).stretches.at(0).wall == 1);
  CHECK(within(plan->house(), place("all piers"), Length{}).piers.size() == 8);
}

TEST_CASE("all walls, a slab, wood and an area are places too") {
  const auto plan = house(
      "slabs: [{name: porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6'}]\n"
      "wood: [{name: deck, posts: 2, at: [[4', 32'], [20', 32']]}]\n"
      "areas: [{name: dark, seen: no, region: [[0, 0], [20', 0], [20', 9'], [0, 9']], because: ducts}]\n");
  const SurveyedStructure& s = plan->house();
  const Near all = within(s, place("all walls"), Length{});
  CHECK(all.stretches == Stretches{{1, ft(0), ft(40)}, {2, ft(0), ft(28)}, {3, ft(0), ft(40)}, {4, ft(0), ft(28)}});
  CHECK(within(s, place("slab porch"), ft(2)).stretches == Stretches{{1, ft(8), ft(24)}});
  CHECK(within(s, place("wood deck"), ft(5)).stretches == Stretches{{3, ft(17), ft(23)}, {3, ft(33), ft(39)}});
  const Near dark = within(s, place("area dark"), Length{});
  CHECK(dark.stretches == Stretches{{1, ft(0), ft(20)}, {4, ft(19), ft(28)}});
  CHECK(dark.piers == std::vector<int>{1, 2});
  CHECK(within(s, place("near 1"), ft(9)).stretches.empty());
  CHECK(within(s, place("pier 99"), ft(9)).piers.empty());
}

TEST_CASE("a wall shared by two parts is near under both its numbers") {
  const auto plan = plan_of(
      "parts:\n"
      "  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n"
      "  - {name: addition, foundation: crawl space, start: [40', 8'], outline: [E 12', S 16', W 12', N 16']}\n"
      "walls: [{walls: all, thick: 8\"}]\n");
  CHECK(within(plan->house(), spot(at(40, 16)), ft(3)).stretches == Stretches{{2, ft(13), ft(19)}, {8, ft(5), ft(11)}});
}

TEST_CASE("what is near agrees with dense sampling") {
  std::mt19937 random(23);
  for (int i = 0; i < 1000; ++i) {
    const auto plan = random_house(random, i % 3 == 0);
    const SurveyedStructure& s = plan->house();
    const Place place = random_place(random, s);
    const Length d{std::uniform_int_distribution<int>(0, 1600)(random)};
    const Near near = within(s, place, d);
    const auto shapes = shapes_of(s, place);
    REQUIRE(!shapes.empty());
    int wrong = 0;
    for (const Wall& wall : s.walls)
      for (std::int64_t k = 0; k <= wall.length.sixteenths; ++k) {
        const bool found = holds(near.stretches, wall.number, Length{k});
        // Along the outside line an end lies within a sixteenth of the truth; the own wall of a diagonal is exact
        // instead.
        const double limit = static_cast<double>(d.sixteenths);
        const double here = sampled(s, shapes, wall, static_cast<double>(k));
        const bool own = place.kind == Place::Kind::wall && place.number == wall.number;
        const double slack = own ? 1.5 : 1e-6;
        if (found && !own) {
          const double before = sampled(s, shapes, wall, std::max(0.0, static_cast<double>(k) - 1));
          const double behind = sampled(
              s, shapes, wall, std::min(static_cast<double>(wall.length.sixteenths), static_cast<double>(k) + 1));
          if (std::min({here, before, behind}) > limit + 1e-6) ++wrong;
        } else if (found ? here > limit + slack : here < limit - slack - 0.01) {
          ++wrong;
        }
      }
    for (const Pier& pier : s.piers) {
      const bool found = std::find(near.piers.begin(), near.piers.end(), pier.number) != near.piers.end();
      double least = 1e300;
      const Length w = pier.middle.x - Length{pier.width.sixteenths / 2},
                   n = pier.middle.y - Length{pier.depth.sixteenths / 2};
      const std::vector<Point> box{{w, n}, {w + pier.width, n}, {w + pier.width, n + pier.depth}, {w, n + pier.depth}};
      for (const auto& shape : shapes) {
        for (std::size_t k = 0; k < 4; ++k)
          least = std::min(least, to_shape(shape, real(box[k]), real(box[(k + 1) % 4])));
        if (holds(box, real(shape[0]))) least = 0;
      }
      if (std::abs(least - static_cast<double>(d.sixteenths)) > 1e-6 &&
          found != (least < static_cast<double>(d.sixteenths)))
        ++wrong;
    }
    CAPTURE(i, static_cast<int>(place.kind), d.sixteenths);
    CHECK(wrong == 0);
  }
}

TEST_CASE("what is near grows with the distance") {
  std::mt19937 random(29);
  for (int i = 0; i < 100; ++i) {
    const auto plan = random_house(random, i % 2 == 0);
    const Place place = random_place(random, plan->house());
    Near last;
    for (int d = 0; d < 2000; d += std::uniform_int_distribution<int>(1, 200)(random)) {
      const Near next = within(plan->house(), place, Length{d});
      for (const Stretch& s : last.stretches)
        CHECK(std::any_of(next.stretches.begin(), next.stretches.end(),
                          [&](const Stretch& n) { return n.wall == s.wall && n.a <= s.a && s.b <= n.b; }));
      CHECK(std::includes(next.piers.begin(), next.piers.end(), last.piers.begin(), last.piers.end()));
      last = next;
    }
  }
}

TEST_CASE("splitting a wall changes no length that is near") {
  const auto one = crawl("E 40', S 28', W 40', N 28'"), two = crawl("E 18', E 22', S 28', W 40', N 28'");
  for (int inches = 0; inches < 200; inches += 7) {
    Length a, b;
    for (const Stretch& s : within(one->house(), spot({ft(16, 5), ft(2)}), ft(0, inches)).stretches) a += s.length();
    for (const Stretch& s : within(two->house(), spot({ft(16, 5), ft(2)}), ft(0, inches)).stretches) b += s.length();
    CHECK(a == b);
  }
}
