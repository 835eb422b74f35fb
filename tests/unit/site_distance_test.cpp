#include "site_sampling.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

using Shapes = std::vector<std::vector<Point>>;

int pick(std::mt19937& random, int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); }

// A point, a segment, an upright box or a slanted outline, near the others or far.
std::vector<Point> random_shape(std::mt19937& random) {
  const auto any = [&](int size) {
    return Point{Length{pick(random, -size, size)}, Length{pick(random, -size, size)}};
  };
  const Point at = any(3000);
  switch (pick(random, 0, 3)) {
    case 0:
      return {at};
    case 1: {
      const Point by = any(1500);
      return {at, {at.x + by.x, at.y + by.y}};
    }
    case 2: {
      const Length w{pick(random, 1, 1500)}, h{pick(random, 1, 1500)};
      return {at, {at.x + w, at.y}, {at.x + w, at.y + h}, {at.x, at.y + h}};
    }
    default: {
      auto out = slanted(random);
      for (Point& p : out) p = {at.x + Length{p.x.sixteenths / 4}, at.y + Length{p.y.sixteenths / 4}};
      return out;
    }
  }
}

// The least distance from points along the edges of either to the other. It is never less than the truth, and exceeds
// it by no more than half a step.
double sampled(const Shapes& a, const Shapes& b, double step) {
  double least = 1e300;
  for (const auto& one : a)
    for (const auto& two : b) {
      for (const Spot p : along_edges(one, step)) least = std::min(least, to_shape(p, two));
      for (const Spot p : along_edges(two, step)) least = std::min(least, to_shape(p, one));
    }
  return least;
}

std::vector<Point> box(std::int64_t west, std::int64_t north, std::int64_t east, std::int64_t south) {
  return {at(west, north), at(east, north), at(east, south), at(west, south)};
}

}  // namespace

TEST_CASE("the distance between outlines is the least between any of their points, rounded down") {
  CHECK(distance({{at(0, 0)}}, {{at(3, 4)}}) == ft(5));
  CHECK(distance({{at(0, 0)}}, {{at(-9, 4), at(9, 4)}}) == ft(4));
  CHECK(distance({{at(0, 0), at(10, 0)}}, {{at(13, 4), at(20, 30)}}) == ft(5));
  CHECK(distance({box(0, 0, 4, 4)}, {box(7, 8, 9, 9)}) == ft(5));
  CHECK(distance({box(0, 0, 4, 4)}, {box(7, 1, 9, 2)}) == ft(3));
  // A diagonal of one foot each way is 271.53 sixteenths.
  CHECK(distance({{at(0, 0)}}, {{at(1, 1)}}) == Length{271});
  // The nearest of several counts.
  CHECK(distance({{at(0, 0)}, {at(50, 0)}}, {{at(90, 0)}, {at(53, 4)}}) == ft(5));
}

TEST_CASE("what touches, crosses or lies within is at no distance, and a hair apart is not") {
  CHECK(distance({box(0, 0, 4, 4)}, {box(4, 4, 9, 9)}) == Length{});
  CHECK(distance({box(0, 0, 4, 4)}, {{at(2, 0)}}) == Length{});
  CHECK(distance({box(0, 0, 9, 9)}, {{at(4, 4)}}) == Length{});
  CHECK(distance({box(0, 0, 9, 9)}, {box(3, 3, 4, 4)}) == Length{});
  CHECK(distance({box(3, 3, 4, 4)}, {box(0, 0, 9, 9)}) == Length{});
  CHECK(distance({{at(-1, 4), at(10, 5)}}, {box(0, 0, 9, 9)}) == Length{});  // no corner of either lies in the other
  CHECK(distance({{at(0, 0), at(4, 4)}}, {{at(0, 4), at(4, 0)}}) == Length{});
  CHECK(distance({box(0, 0, 4, 4)}, {{Point{ft(4) + Length{1}, ft(2)}}}) == Length{1});
}

TEST_CASE("what has no place is at no distance at all") {
  CHECK_FALSE(distance({}, {{at(0, 0)}}).has_value());
  CHECK_FALSE(distance({{at(0, 0)}}, {}).has_value());
  CHECK_FALSE(distance({std::vector<Point>{}}, {{at(0, 0)}}).has_value());
  CHECK(distance({std::vector<Point>{}, {at(3, 4)}}, {{at(0, 0)}}) == ft(5));
}

TEST_CASE("distances agree with dense sampling, and are the same both ways") {
  std::mt19937 random(73);
  constexpr double step = 8;
  int apart = 0, touching = 0;
  for (int i = 0; i < 400; ++i) {
    Shapes a{random_shape(random)}, b{random_shape(random)};
    if (i % 5 == 0) b.push_back(random_shape(random));
    const auto found = distance(a, b);
    CAPTURE(i);
    REQUIRE(found.has_value());
    CHECK(distance(b, a) == found);
    const double about = sampled(a, b, step), exact = static_cast<double>(found->sixteenths);
    CHECK(exact <= about + 1e-6);
    CHECK(exact >= about - step - 1);
    ++(*found == Length{} ? touching : apart);
    // It agrees with what is said to lie within that distance.
    for (auto* shapes : {&a, &b})
      for (auto& shape : *shapes)
        for (Point& p : shape) p = moved(p, 1 + i % 3);
    CHECK(distance(a, b) == found);
  }
  CHECK(apart >= 100);
  CHECK(touching >= 30);
}

TEST_CASE("places of a house are as far apart as their outlines") {
  const auto plan = crawl(
      "E 40', S 28', W 40', N 28'", "8\"",
      "piers: [{at: [[10', 8'], [20', 8']], size: [16\", 16\"], kind: poured, footing: 1', known by: dug}]\n"
      "partitions: [{name: cross, from: [0, 14'], to: [40', 14'], thick: 8\", footing: 1', known by: dug}]\n"
      "pilasters: [{name: p, kind: pilaster, at: [wall 1 at 30'], side: outside, wide: 2', deep: 1', footing: 1', "
      "known by: dug}]\n"
      "slabs: [{name: porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6', footing: 1', known by: dug}]\n"
      "marks: [{kind: well, name: well, at: [50', 34']}, {kind: hatch, name: hatch, along: wall 1 at 30'}]\n");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(distance(s, place("pier 1"), place("pier 2")) == ft(8, 8));
  CHECK(distance(s, place("pier 1"), place("partition cross")) == ft(5));  // 8'8" to 13'8"
  CHECK(distance(s, place("pier 1"), place("wall 1")) == ft(6, 8));        // from its inside face
  CHECK(distance(s, place("slab porch"), place("pilaster p")) == ft(7));   // 22' to 29'
  CHECK(distance(s, place("slab porch"), place("wall 1 at 30'")) == ft(8));
  CHECK(distance(s, place("slab porch"), place("wall 1")) == Length{});
  CHECK(distance(s, place("mark well"), place("wall 2 0' to 26'")).value() ==
        Length{2458});  // hypot(10', 8') is 2458.8
  CHECK(distance(s, place("mark well"), place("all walls")) == distance(s, place("mark well"), spot(at(40, 28))));
  CHECK_FALSE(distance(s, place("mark hatch"), place("wall 1")).has_value());
  CHECK_FALSE(distance(s, place("near 1"), place("wall 1")).has_value());
  CHECK_FALSE(distance(s, place("wall 1"), place("pier 9")).has_value());
  CHECK_FALSE(distance(s, place("partition none"), place("wall 1")).has_value());
}

TEST_CASE("a distance is the least at which a thing is near") {
  std::mt19937 random(79);
  for (int i = 0; i < 100; ++i) {
    Structure facts = structure_of(stepped(random), ft(0, 8));
    PierGroup piers;
    piers.at_points.set({Point{Length{pick(random, 0, 5000)}, Length{pick(random, 0, 5000)}}});
    piers.size.set(Size{ft(0, 16), ft(0, 8)});
    facts.piers.set({piers});
    const auto plan = plan_of(facts);
    const SurveyedStructure& s = plan->house();
    if (s.piers.empty()) continue;
    const Place from = spot({Length{pick(random, -2000, 9000)}, Length{pick(random, -2000, 6000)}});
    const Length d = distance(s, from, place("pier 1")).value();
    CAPTURE(i);
    CHECK(within(s, from, d + Length{1}).piers.size() == 1);  // it is rounded down
    CHECK(within(s, from, d - Length{1}).piers.empty());
  }
}

TEST_CASE("a strip beside a wall lies outside of it, or along its inside face") {
  const auto plan = crawl("E 40', S 28', W 40', N 28'");
  const SurveyedStructure& s = plan->house();
  CHECK(strip_beside(s, {1, ft(10), ft(22)}, ft(1), true) ==
        std::vector<Point>{at(10, 0), at(22, 0), at(22, -1), at(10, -1)});
  CHECK(strip_beside(s, {1, ft(10), ft(22)}, ft(1), false) ==
        std::vector<Point>{{ft(10), ft(0, 8)}, {ft(22), ft(0, 8)}, {ft(22), ft(1, 8)}, {ft(10), ft(1, 8)}});
  CHECK(strip_beside(s, {2, ft(10), ft(22)}, ft(2), true) ==
        std::vector<Point>{at(40, 10), at(40, 22), at(42, 22), at(42, 10)});
  CHECK(strip_beside(s, {3, ft(10), ft(22)}, ft(2), false) ==
        std::vector<Point>{{ft(30), ft(27, 4)}, {ft(18), ft(27, 4)}, {ft(18), ft(25, 4)}, {ft(30), ft(25, 4)}});
  CHECK(strip_beside(s, {9, ft(10), ft(22)}, ft(2), false).empty());
}

TEST_CASE("a strip lies on the same side when the walk goes the other way round") {
  const auto plan = crawl("S 28', E 40', N 28', W 40'");
  const SurveyedStructure& s = plan->house();
  REQUIRE_FALSE(s.parts[0].clockwise);
  CHECK(strip_beside(s, {1, ft(10), ft(22)}, ft(1), true) ==
        std::vector<Point>{at(0, 10), at(0, 22), at(-1, 22), at(-1, 10)});
  CHECK(strip_beside(s, {1, ft(10), ft(22)}, ft(1), false) ==
        std::vector<Point>{{ft(0, 8), ft(10)}, {ft(0, 8), ft(22)}, {ft(1, 8), ft(22)}, {ft(1, 8), ft(10)}});
  CHECK(strip_beside(s, {4, ft(10), ft(22)}, ft(2), true) ==
        std::vector<Point>{at(30, 0), at(18, 0), at(18, -2), at(30, -2)});
}

TEST_CASE("a strip beside a diagonal wall stands square to it, and one beside a slab begins at its edge") {
  // Wall 2 runs down a slope of 3, 4, 5.
  const auto slope = crawl("[20', 0], [35', 20'], [0, 20'], [0, 0]", "10\"");
  CHECK(strip_beside(slope->house(), {2, ft(5), ft(15)}, ft(5), true) ==
        std::vector<Point>{at(23, 4), at(29, 12), at(33, 9), at(27, 1)});
  // The inside face lies 10" in: 8" west and 6" south.
  CHECK(
      strip_beside(slope->house(), {2, ft(5), ft(15)}, ft(5), false) ==
      std::vector<Point>{{ft(22, 4), ft(4, 6)}, {ft(28, 4), ft(12, 6)}, {ft(24, 4), ft(15, 6)}, {ft(18, 4), ft(7, 6)}});
  const auto bare =
      plan_of("parts: [{name: main, foundation: monolithic slab, outline: [E 40', S 28', W 40', N 28']}]");
  CHECK(strip_beside(bare->house(), {1, ft(10), ft(22)}, ft(1), false) ==
        std::vector<Point>{at(10, 0), at(22, 0), at(22, 1), at(10, 1)});
}

TEST_CASE("strips of any plan lie beside their wall, as wide as asked") {
  std::mt19937 random(83);
  for (int i = 0; i < 100; ++i) {
    auto corners = i % 2 == 0 ? stepped(random) : slanted(random);
    if (i % 4 >= 2) std::reverse(corners.begin(), corners.end());
    const auto plan = plan_of(structure_of(corners, ft(0, 8)));
    const SurveyedStructure& s = plan->house();
    const Length width{pick(random, 16, 400)};
    for (const Wall& wall : s.walls)
      for (const bool outside : {true, false}) {
        const Length third{wall.length.sixteenths / 3};
        const auto strip = strip_beside(s, {wall.number, third, third * 2}, width, outside);
        REQUIRE(strip.size() == 4);
        CAPTURE(i, wall.number, outside);
        const Spot a = spot_of(wall.from), b = spot_of(wall.to);
        const double near = outside ? 0 : 128, far = near + static_cast<double>(width.sixteenths);
        const auto across = [&](const Point& p) {  // positive to the right of the walk
          const Spot q = spot_of(p);
          return ((b.x - a.x) * (q.y - a.y) - (b.y - a.y) * (q.x - a.x)) / std::hypot(b.x - a.x, b.y - a.y);
        };
        const double sign = s.parts[0].clockwise == outside ? -1 : 1;
        for (const std::size_t k : {0U, 1U}) CHECK(std::abs(across(strip[k]) - sign * near) <= 1.5);
        for (const std::size_t k : {2U, 3U}) CHECK(std::abs(across(strip[k]) - sign * far) <= 1.5);
        CHECK(std::abs(to_segment(spot_of(strip[0]), a, b) - near) <= 1.5);
        CHECK(std::abs(to_segment(spot_of(strip[2]), a, b) - far) <= 1.5);
      }
  }
}

TEST_CASE("an outline is grown to an upright rectangle round it") {
  CHECK(grown({at(3, 4)}, ft(2)) == box(1, 2, 5, 6));
  CHECK(grown({at(5, 1), at(-3, 4)}, ft(1)) == box(-4, 0, 6, 5));
  CHECK(grown({at(0, 0), at(9, 2), at(3, 8)}, Length{}) == box(0, 0, 9, 8));
  CHECK(grown({}, ft(1)).empty());
}
