#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

TEST_CASE("the length round a rectangle agrees with published figures") {
  // A retailer's answer page (undated, secondary), two rows of a trade page, one of a consumer price page (all
  // undated).
  const auto [east, south, feet] =
      GENERATE(table<int, int, int>({{108, 93, 402}, {25, 35, 120}, {35, 40, 150}, {20, 20, 80}}));
  const std::string e = std::to_string(east) + "'", s = std::to_string(south) + "'";
  const auto plan = crawl("E " + e + ", S " + s + ", W " + e + ", N " + s);
  CHECK(plan->whats() == "");
  CHECK(plan->house().outside == ft(feet));
  CHECK(plan->house().parts[0].area_sqft == Ratio(east * south));
}

TEST_CASE("an L and a U are as long as the rectangle round them, and the U's court twice more") {
  CHECK(crawl("E 40', S 16', E 12', S 12', W 52', N 28'")->house().outside == ft(160));
  const auto u = crawl("E 40', S 30', W 10', N 12', W 20', S 12', W 10', N 30'");
  CHECK(u->whats() == "");
  CHECK(u->house().outside == ft(164));
  CHECK(u->house().parts[0].area_sqft == Ratio(40 * 30 - 12 * 20));
}

TEST_CASE("walls are numbered as walked, through all parts") {
  const auto plan = plan_of(
      "parts:\n"
      "  - {name: main, foundation: monolithic slab, outline: [E 40', S 30', W 40', N 30']}\n"
      "  - {name: shed, foundation: monolithic slab, start: [60', 0], outline: [E 8', S 8', W 8', N 8']}\n");
  REQUIRE(plan->house().walls.size() == 8);
  const Wall& fifth = *plan->house().wall(5);
  CHECK(fifth.number == 5);
  CHECK(fifth.part == 1);
  CHECK(fifth.from == at(60, 0));
  CHECK(fifth.to == at(68, 0));
  CHECK(plan->house().wall(0) == nullptr);
  CHECK(plan->house().wall(9) == nullptr);
}

TEST_CASE("a walk may go the other way round") {
  const auto one = crawl("E 40', S 16', E 12', S 12', W 52', N 28'"),
             two = crawl("S 28', E 52', N 12', W 12', N 16', W 40'");
  CHECK(two->whats() == "");
  CHECK(one->house().outside == two->house().outside);
  CHECK(one->house().inside == two->house().inside);
  CHECK(one->house().parts[0].area_sqft == two->house().parts[0].area_sqft);
  CHECK(one->house().parts[0].clockwise);
  CHECK_FALSE(two->house().parts[0].clockwise);
}

TEST_CASE("a gap of an inch or less goes to the last wall and is kept") {
  const auto plan = crawl("E 40', S 28', W 39'11 1/2\", N 28'");
  CHECK(plan->whats() == "");
  CHECK(plan->house().parts[0].closing_error == ft(0, 0, 8));
  CHECK(plan->house().wall(4)->to == at(0, 0));
  const auto straight = crawl("E 40', S 28', W 40', N 27'11\"");
  CHECK(straight->whats() == "");
  CHECK(straight->house().parts[0].closing_error == ft(0, 1));
  CHECK(straight->house().outside == ft(136));
  CHECK(crawl("E 40', S 28', W 40', N 27'10 15/16\"")->faults.size() == 1);
}

TEST_CASE("an open outline says by how much and where") {
  const auto plan = crawl("E 40', S 28', W 37'6\", N 26'9\"");
  CHECK(plan->whats() == "the outline of `main` ends 2'6\" east and 1'3\" south of where it began [outline-open]\n");
  CHECK(plan->at(0) == "outline");
  CHECK(plan->house().walls.size() == 4);
  CHECK_FALSE(plan->house().parts[0].sound);
  CHECK(crawl("E 40', S 28', W 45', N 28'")->whats() ==
        "the outline of `main` ends 5' west of where it began [outline-open]\n");
  CHECK(crawl("E 40'")->whats() == "the outline of `main` ends 40' east of where it began [outline-open]\n");
  CHECK(plan_of("parts: [{name: main, foundation: monolithic slab, outline: []}]")->faults.size() <= 1);
}

TEST_CASE("corners close by themselves, with or without the first one typed again") {
  const auto outline =
      GENERATE(as<std::string>(), "[40', 0], [40', 28'], [0, 28']", "[0, 0], [40', 0], [40', 28'], [0, 28']",
               "[40', 0], [40', 28'], [0, 28'], [0, 0]", "E 40', [40', 28'], [0, 28'], [0, 0]",
               "[40', 0], S 28', W 40', N 28'", "[40', 0], [40', 28'], [0, 28'], [0, 1/2\"]");
  CAPTURE(outline);
  const bool bare = outline.substr(0, 8) == "[40', 0]" && outline.find("[0, 0]") == std::string::npos;
  const auto plan = plan_of("parts: [{name: main, foundation: monolithic slab, " +
                            std::string(bare ? "start: [0, 0], " : "") + "outline: [" + outline + "]}]");
  CHECK(plan->whats() == "");
  REQUIRE(plan->house().walls.size() == 4);
  CHECK(plan->house().wall(1)->to == at(40, 0));
  CHECK(plan->house().outside == ft(136));
}

TEST_CASE("a list of corners without a start begins at its first corner, not at one that nobody typed") {
  const auto plan = plan_of(
      "parts: [{name: main, foundation: monolithic slab, outline: [[40', 0], [60', 0], [60', 20'], [40', 20']]}]");
  CHECK(plan->whats() == "");
  CHECK(plan->house().outside == ft(80));
  CHECK(plan->house().wall(1)->from == at(40, 0));
}

TEST_CASE("a walk that ends in a corner is not closed by guessing") {
  CHECK(crawl("E 40', S 28', [0, 28']")->faults.at(0).rule == Rule::outline_open);
}

TEST_CASE("a diagonal bay keeps its typed lengths") {
  // 5'7" along a diagonal is 3'11 3/8" (758/16 in) on each axis.
  const auto plan = crawl("E 10', NE 5'7\", E 4', SE 5'7\", E 10', S 20', W 31'10 3/4\", N 20'");
  CHECK(plan->whats() == "");
  CHECK(plan->house().wall(2)->length == ft(5, 7));
  CHECK(plan->house().wall(2)->to == Point{ft(10) + Length{758}, Length{-758}});
  CHECK(plan->house().parts[0].closing_error == Length{});
  CHECK(plan->house().outside == ft(10 + 4 + 10 + 20 + 20) + ft(11, 2) + Length{31 * 192 + 172});
}

TEST_CASE("an outline that crosses or touches itself names both walls") {
  const auto crossed = crawl("E 40', S 20', W 20', N 30', W 20', S 10'");
  CHECK(crossed->whats() == "wall 4 of `main` crosses or touches wall 1 [outline-crosses]\n");
  CHECK(crossed->at(0) == "N 30'");
  const auto touching = crawl("E 40', S 20', W 20', N 20', W 10', S 20', W 10', N 20'");
  CHECK(touching->whats() == "wall 4 of `main` crosses or touches wall 1 [outline-crosses]\n");
  const auto folded = crawl("E 40', W 40', S 20', E 40', N 20', W 40'");
  CHECK(folded->whats() == "wall 2 of `main` crosses or touches wall 1 [outline-crosses]\n");
  CHECK(crawl("E 40', W 40'")->whats() ==
        "the outline of `main` has only 2 walls, and nothing within [outline-crosses]\n");
  CHECK(plan_of("parts: [{foundation: monolithic slab, outline: [[0, 0], [9', 0], [9', 0], [9', 9'], [0, 9']]}]")
            ->whats() == "wall 2 ends where it begins [outline-crosses]\n");
  CHECK(plan_of("parts: [{foundation: monolithic slab, outline: [[0, 0], [9', 0], [5', 0]]}]")->faults.size() == 1);
}

TEST_CASE("what reading could not take is passed over in silence") {
  const auto plan = crawl("E 40', S 28 fathoms, W 40', N 28'");
  CHECK(plan->whats() == "");
  CHECK_FALSE(plan->house().complete);
  CHECK_FALSE(plan->house().drawn());
  CHECK(plan_of("parts: []\nwalls: [{walls: 3, thick: 8\"}]")->faults.size() <= 1);
  CHECK(plan_of("soil: clay")->whats().empty());
  CHECK(plan_of("inspected: no\nparts: [{outline: [E 4']}]")->survey.structures.empty());
}

TEST_CASE("a plan without measure is refused, not worked on for ever") {
  std::string steps;
  for (int i = 0; i < 201; ++i) steps += "E 1', S 1', ";
  CHECK(crawl(steps + "W 201', N 201'")->whats() == "a structure has more than 400 walls [too-large]\n");
  CHECK(crawl("E 10000', E 10000', S 10000', W 10000', W 10000', N 10000'")->whats() ==
        "the outline of `main` is more than 10,000 ft wide [too-large]\n");
  const auto large = crawl("E 10000', S 10000', W 10000', N 10000'");
  CHECK(large->whats() == "");
  CHECK(large->house().inside == ft(40000) - ft(0, 64));
}
