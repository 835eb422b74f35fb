#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

std::unique_ptr<Plan> with_walls(const std::string& walls) {
  return plan_of("parts: [{name: main, foundation: crawl space, outline: [E 40', S 30', W 40', N 30']}]\n" + walls);
}

std::unique_ptr<Plan> two_parts(const std::string& second, const std::string& foundation = "crawl space") {
  return plan_of(
      "parts:\n  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n  - {name: addition, "
      "foundation: " +
      foundation + ", " + second + "}\nwalls: [{walls: all, thick: 8\"}]\n");
}

}  // namespace

TEST_CASE("numbers override `all` field by field, wherever they stand") {
  const auto plan = with_walls(
      "walls:\n"
      "  - {walls: 3, kind: poured, footing: {outside: 3', known by: dug}}\n"
      "  - {walls: all, kind: hollow block, thick: 8\", footing: {outside: 18\", inside: 12\", known by: assumed}}\n"
      "  - {walls: all, thick: 10\"}\n");
  CHECK(plan->whats() == "");
  const Wall &one = *plan->house().wall(1), &three = *plan->house().wall(3);
  CHECK(one.hollow());
  CHECK(one.thick == ft(0, 10));
  CHECK(one.footing_outside == ft(1, 6));
  CHECK(*three.kind == WallKind::poured);
  CHECK(three.thick == ft(0, 10));
  CHECK(three.footing_outside == ft(3));
  CHECK(three.footing_inside == ft(1));
  CHECK(*three.known_by == KnownBy::assumed);  // its inside depth still is
  CHECK(three.facts == &plan->c->structures()[0].walls->at(0));
}

TEST_CASE("wall facts that reach no wall, or one wall twice, are faults") {
  const auto plan = with_walls(
      "walls:\n"
      "  - {walls: all, thick: 8\"}\n"
      "  - {walls: [2, 9], kind: poured}\n"
      "  - {walls: [1, 2], kind: stone}\n"
      "  - {walls: [4, 4], thick: 10\"}\n"
      "  - {walls: \"3 6' to 9'\", kind: poured}\n");
  CHECK(plan->whats() ==
        "there is no wall 9; the last is 4 [bad-wall]\n"
        "`kind` of wall 2 is given twice [bad-wall]\n"
        "wall 4 is named twice here [bad-wall]\n"
        "facts of wall 3 are given for a stretch of it [bad-wall]\n");
  CHECK(plan->at(0) == "9");
  CHECK(plan->at(2) == "4");
}

TEST_CASE("different fields of one wall may come from different blocks") {
  CHECK(with_walls("walls:\n  - {walls: all, thick: 8\"}\n  - {walls: 2, kind: poured}\n  - {walls: 2, thick: 10\"}\n")
            ->whats()
            .empty());
  const auto twice = with_walls(
      "walls:\n  - {walls: all, thick: 8\"}\n  - {walls: 2, footing: {outside: 2', inside: 1', known by: dug}}\n"
      "  - {walls: 2, footing: {outside: 2', inside: 1', known by: dug}}\n");
  CHECK(twice->whats() == "`footing` of wall 2 is given twice [bad-wall]\n");
}

TEST_CASE("a thickness has to be one, and is told once") {
  CHECK(with_walls("walls: [{walls: all, thick: 0}]")->whats() == "a wall cannot be 0\" thick [bad-wall]\n");
  CHECK(with_walls("walls: [{walls: all, thick: 3'1\"}]")->whats() ==
        "3'1\" is thicker than any foundation wall (3 ft) [bad-wall]\n");
  CHECK(with_walls("walls: [{walls: all, kind: poured}]")->whats() ==
        "walls 1, 2, 3 and 4 of `main` have no thickness [bad-wall]\n");
  CHECK(with_walls("walls: [{walls: [1, 2, 4], thick: 8\"}]")->whats() ==
        "wall 3 of `main` has no thickness [bad-wall]\n");
  CHECK(with_walls("")->at(0) == "outline");
  CHECK(with_walls("walls: [{walls: all, thick: thick}]")->whats().empty());
}

TEST_CASE("walls shared by two parts are no outside walls and count once") {
  const auto plan = two_parts("start: [40', 8'], outline: [E 12', S 16', W 12', N 16']");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(s.drawn_outside == ft(136 + 24));
  const Wall &east = *s.wall(2), &west = *s.wall(8);
  CHECK(east.outer == std::vector<Stretch>{{2, ft(0), ft(8)}, {2, ft(24), ft(28)}});
  CHECK(east.own == std::vector<Stretch>{{2, ft(0), ft(28)}});
  CHECK_FALSE(east.shared);
  CHECK(west.shared);
  CHECK(west.own.empty());
  CHECK(west.outer_length() == Length{});
  // The thickness lies within `main`; the other face is the addition's.
  CHECK(east.inside_length == ft(26, 8));
  CHECK(west.inside_length == ft(14, 8));
  CHECK(s.parts[1].inside == (ft(11, 4) + ft(14, 8)) * 2);
  CHECK(s.parts[0].inside == ft(136) - ft(0, 64));
}

TEST_CASE("a shared wall needs no thickness of its own, and may belong to the part listed later") {
  const auto plan = plan_of(
      "parts:\n"
      "  - {name: porch, foundation: monolithic slab, start: [40', 8'], outline: [E 12', S 16', W 12', N 16']}\n"
      "  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n"
      "walls: [{walls: [5, 6, 7, 8], thick: 8\"}]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().parts[1].inside == ft(136) - ft(0, 64));
  CHECK(plan->house().parts[0].inside == ft(56));
  CHECK(plan->house().drawn_outside == ft(160));
}

TEST_CASE("an addition wider than the wall it adjoins has its own wall beside it") {
  const auto plan = two_parts("start: [40', 20'], outline: [E 12', S 16', W 12', N 16']");
  CHECK(plan->whats() == "");
  const Wall& west = *plan->house().wall(8);
  CHECK(west.outer == std::vector<Stretch>{{8, ft(0), ft(8)}});
  CHECK(west.own == west.outer);
  CHECK(plan->house().drawn_outside == ft(136 + 56 - 16));
}

TEST_CASE("parts that lie over one another are a fault, parts that meet at a corner or an inch apart are not") {
  CHECK(two_parts("start: [36', 8'], outline: [E 12', S 16', W 12', N 16']")->whats() ==
        "`addition` lies partly over `main` [outline-crosses]\n");
  CHECK(two_parts("start: [4', 8'], outline: [E 12', S 16', W 12', N 16']")->faults.size() == 1);
  CHECK(two_parts("start: [0, 0], outline: [E 40', S 28', W 40', N 28']")->faults.size() == 1);
  CHECK(two_parts("start: [40', 28'], outline: [E 12', S 16', W 12', N 16']")->faults.empty());
  const auto close = two_parts("start: [40'0 1/2\", 8'], outline: [E 12', S 16', W 12', N 16']");
  CHECK(close->faults.empty());
  CHECK(close->house().drawn_outside == ft(160));
}

TEST_CASE("slabs and marks lie along a wall that exists, within its length") {
  const auto plan = with_walls(
      "walls: [{walls: all, thick: 8\"}]\n"
      "slabs:\n"
      "  - {name: porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6'}\n"
      "  - {name: stoop, fill: earth, along: \"wall 2 20' to 32'\", deep: 6'}\n"
      "  - {name: drive, fill: none, along: wall 7, deep: 6'}\n"
      "  - {name: step, fill: none, along: pier 1, deep: 6'}\n"
      "  - {name: spot, fill: none, along: wall 1 at 6', deep: 6'}\n"
      "marks: [{kind: hatch, along: wall 4 at 31'}, {kind: hatch, along: wall 4 at 30'}]\n");
  CHECK(plan->whats() ==
        "wall 2 is 30' long, and ends before 32' [bad-wall]\n"
        "there is no wall 7; the last is 4 [bad-wall]\n"
        "this place is not a stretch of a wall [bad-wall]\n"
        "this is one point of wall 1, and no stretch of it [bad-wall]\n"
        "wall 4 is 30' long, and ends before 31' [bad-wall]\n");
}

TEST_CASE("two squares side by side at any angle share one wall") {
  std::mt19937 random(31);
  for (int i = 0; i < 300; ++i) {
    const auto pick = [&] { return std::uniform_int_distribution<int>(500, 5000)(random); };
    const Length dx{pick()}, dy{pick()}, t = ft(0, 8);
    const std::vector<Point> one{{}, {dx, dy}, {dx - dy, dy + dx}, {-dy, dx}},
        two{{}, {dy, -dx}, {dx + dy, dy - dx}, {dx, dy}};
    Structure s = structure_of(one, t);
    s.parts.set({part_of(one), part_of(two)});
    const auto plan = plan_of(s);
    REQUIRE(plan->whats() == "");
    CAPTURE(dx.sixteenths, dy.sixteenths);
    const SurveyedStructure& house = plan->house();
    CHECK(house.wall(1)->outer.empty());
    CHECK(house.wall(8)->own.empty());
    CHECK(house.drawn_outside == house.wall(1)->length * 6);
    const Length apart = house.parts[1].inside - (house.wall(1)->length * 4 - t * 6);
    CHECK((apart <= Length{4} && -apart <= Length{4}));
  }
}
