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

std::unique_ptr<Plan> house() {
  return crawl(
      "E 40', S 28', W 40', N 28'", "8\"",
      "piers: [{from: [8', 8'], every: [8', 7'], count: [4, 2], size: [16\", 16\"], kind: poured, footing: 1', known "
      "by: dug}]\n"
      "chimneys: [{name: north, at: [20', 20'], size: [4', 3'], kind: solid masonry, footing: 1', known by: dug}]\n"
      "slabs: [{name: front porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6'}]\n"
      "wood: [{name: back deck, posts: 2, at: [[4', 32'], [9', 32']]}, {name: stairs, posts: 2}]\n"
      "areas: [{name: crawl space, seen: no, region: [[0, 0], [20', 0], [20', 9'], [0, 9']], because: ducts}]\n");
}

}  // namespace

TEST_CASE("places are found on the plan") {
  const auto plan = house();
  REQUIRE(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(locate(s, spot(at(3, 4))) == at(3, 4));
  CHECK(locate(s, place("pier 2")) == at(16, 8));
  CHECK(locate(s, place("wall 1")) == at(20, 0));
  CHECK(locate(s, place("wall 2 at 6'")) == at(40, 6));
  CHECK(locate(s, place("wall 3 6' to 10'")) == at(32, 28));
  CHECK(locate(s, place("chimney north")) == at(20, 20));
  CHECK(locate(s, place("slab front porch")) == at(16, -3));
  CHECK(locate(s, place("wood back deck")) == at(4, 32));
  CHECK(locate(s, place("area crawl space")) == Point{ft(10), ft(4, 6)});
  CHECK(locate(s, place("all walls")) == at(20, 0));
  CHECK(locate(s, place("all piers")) == at(8, 8));
  for (const char* nowhere : {"pier 9", "wall 5", "wall 1 at 41'", "near 1", "wood stairs", "chimney south"})
    CHECK_FALSE(locate(s, place(nowhere)).has_value());
}

TEST_CASE("what is missing is told in words") {
  const auto plan = house();
  const SurveyedStructure& s = plan->house();
  CHECK(missing(s, place("pier 12")) == "there is no pier 12; the last is 8");
  CHECK(missing(s, place("wall 9")) == "there is no wall 9; the last is 4");
  CHECK(missing(s, place("wall 2 20' to 30'")) == "wall 2 is 28' long, and ends before 30'");
  CHECK(missing(s, place("slab porch")) == "there is no slab `porch`; there is `front porch`");
  CHECK(missing(s, place("wood shed")) == "there is no wood `shed`; there are `back deck`, `stairs`");
  CHECK(missing(crawl("E 9', S 9', W 9', N 9'")->house(), place("pier 1")) == "there is no pier 1; there are none");
  CHECK(missing(crawl("E 9', S 9', W 9', N 9'")->house(), place("chimney x")) ==
        "there is no chimney `x`; there are none");
  for (const char* there : {"pier 8", "wall 4", "wall 1 0 to 40'", "all walls", "all piers", "wood stairs", "near 3"})
    CHECK(missing(s, place(there)) == "");
}

TEST_CASE("a place along a wall runs from where the walk began it") {
  const auto plan = house();
  CHECK(along(*plan->house().wall(3), ft(10)) == at(30, 28));
  CHECK(along(*plan->house().wall(3), ft(50)) == at(0, 28));
  CHECK(along(*plan->house().wall(3), ft(-1)) == at(40, 28));
}

TEST_CASE("stretches that touch or overlap are joined") {
  CHECK(joined({{2, ft(4), ft(6)}, {1, ft(0), ft(3)}, {1, ft(3), ft(5)}, {1, ft(1), ft(2)}, {2, ft(7), ft(8)}}) ==
        std::vector<Stretch>{{1, ft(0), ft(5)}, {2, ft(4), ft(6)}, {2, ft(7), ft(8)}});
  CHECK(joined({}).empty());
}

TEST_CASE("the distance to the walls is that to the nearest outside line, rounded down") {
  const auto plan = house();
  CHECK(distance_to_walls(plan->house(), at(60, 10)) == ft(20));
  CHECK(distance_to_walls(plan->house(), at(43, -4)) == ft(5));
  CHECK(distance_to_walls(plan->house(), {ft(40, 1), ft(0, -1)}) == Length{22});  // 16 x sqrt 2 = 22.6
  CHECK(distance_to_walls(plan->house(), at(20, 27)) == ft(1));
  CHECK(distance_to_walls(SurveyedStructure{}, at(0, 0)) > ft(100000));
}
