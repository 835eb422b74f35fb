// What must not change a plan, and what must change it evenly: over random houses.
#include <catch2/catch.hpp>
#include <random>

#include "estimate/otherwise.h"
#include "support/small_house.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

struct Vec {
  int x = 0, y = 0;  ///< inches
};

/// A rectilinear outline: a rectangle with a notch taken from one corner, walked clockwise.
std::vector<Vec> random_corners(std::mt19937& random) {
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
  const int w = pick(240, 700), h = pick(240, 500), a = pick(60, w - 120), b = pick(60, h - 120);
  return {{0, 0}, {w, 0}, {w, h - b}, {w - a, h - b}, {w - a, h}, {0, h}};
}

std::string inches(int n) { return std::to_string(n) + "\""; }

std::string corners_typed(const std::vector<Vec>& corners) {
  std::string out;
  for (const Vec& c : corners) out += (out.empty() ? "[" : ", [") + inches(c.x) + ", " + inches(c.y) + "]";
  return out;
}

SmallHouse house_of(const std::vector<Vec>& corners) {
  SmallHouse house;
  // Corners that begin away from [0, 0] begin at their first one.
  house.foundation =
      "crawl space, crawl height: 30\", start: [" + inches(corners.front().x) + ", " + inches(corners.front().y) + "]";
  std::vector<Vec> rest(corners.begin() + 1, corners.end());
  house.outline = corners_typed(rest) + ", [" + inches(corners.front().x) + ", " + inches(corners.front().y) + "]";
  house.walls = R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 20", inside: 14", known by: dug}})";
  house.work =
      "{id: s, preventive: yes, do: treat soil, walls: all}, {id: v, preventive: yes, do: drill and treat voids, "
      "walls: all}, "
      "{id: b, preventive: yes, do: set bait stations}, {id: c, preventive: yes, do: lay vapor retarder}";
  house.company = "retarder sheet: 12'\n";
  house.label = "{soil depth: 30\"}";
  return house;
}

struct Totals {
  Ratio gallons, stations, cover;
  int holes = 0;
  Money price;
  friend bool operator==(const Totals&, const Totals&) = default;
};

Totals totals_of(const SmallHouse& house) {
  const PlannedHouse p(house);
  INFO(told(p.run.faults));
  REQUIRE(p.run.faults.errors() == 0);
  return {p.treatment().gallons, Ratio(p.only(RunKind::stations).count), p.only(RunKind::crawl_cover).sq_ft,
          p.treatment().holes, p.estimate().total};
}

template <class Change>
std::vector<Vec> changed(std::vector<Vec> corners, Change change) {
  for (Vec& c : corners) c = change(c);
  return corners;
}

}  // namespace

TEST_CASE("shift, quarter turn, mirror and walking the other way round change no gallon, hole, station or cent") {
  std::mt19937 random(20260401);
  for (int i = 0; i < 120; ++i) {
    const auto corners = random_corners(random);
    const Totals all = totals_of(house_of(corners));
    CHECK(all.gallons > Ratio(0));
    CHECK(totals_of(house_of(changed(corners, [](Vec c) { return Vec{c.x + 77, c.y + 131}; }))) == all);
    CHECK(totals_of(house_of(changed(corners, [](Vec c) { return Vec{-c.y, c.x}; }))) == all);
    CHECK(totals_of(house_of(changed(corners, [](Vec c) { return Vec{-c.x, c.y}; }))) == all);
    auto other_way = corners;
    std::reverse(other_way.begin(), other_way.end());
    CHECK(totals_of(house_of(other_way)) == all);
  }
}

TEST_CASE("splitting a wall of any house changes no total and no hole count") {
  std::mt19937 random(20260402);
  for (int i = 0; i < 120; ++i) {
    auto corners = random_corners(random);
    const Totals all = totals_of(house_of(corners));
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, corners.size() - 1)(random);
    const Vec a = corners[at], b = corners[(at + 1) % corners.size()];
    const int share = std::uniform_int_distribution(1, 9)(random);
    corners.insert(corners.begin() + static_cast<std::ptrdiff_t>(at) + 1,
                   Vec{a.x + (b.x - a.x) * share / 10, a.y + (b.y - a.y) * share / 10});
    CHECK(totals_of(house_of(corners)) == all);
  }
}

TEST_CASE(
    "twice the rate is twice the gallons of every run, and each run of a house twice as deep takes twice as much") {
  SmallHouse house;
  house.work = "{id: s, preventive: yes, do: treat soil, walls: all}";
  house.label = "{soil depth: 60\"}";
  const Ratio once = PlannedHouse(house).treatment().gallons;
  SmallHouse deep = house;
  deep.walls = edited(house.walls, "outside: 12\", inside: 12\"", "outside: 24\", inside: 24\"");
  // Each run is rounded to a tenth before the sum: two runs differ by a tenth at most.
  const Ratio twice = PlannedHouse(deep).treatment().gallons, off = twice - once * Ratio(2);
  CHECK((off < Ratio(0) ? Ratio(0) - off : off) <= Ratio(1, 10));
  SmallHouse rich = house;
  rich.form = edited(house.form, "soil rate: {value: 4,", "soil rate: {value: 8,");
  const Ratio more = PlannedHouse(rich).treatment().gallons - once * Ratio(2);
  CHECK((more < Ratio(0) ? Ratio(0) - more : more) <= Ratio(1, 10));
}

TEST_CASE("what is assumed, tried otherwise, gives what planning it so gives") {
  SmallHouse house;
  house.walls =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 20", inside: 14", known by: assumed}, kind known by: assumed})";
  house.label = "{soil depth: 60\"}";
  house.work =
      "{id: s, preventive: yes, do: treat soil, walls: all}, {id: v, preventive: yes, do: drill and treat voids, "
      "walls: all}";
  const PlannedHouse p(house);
  const auto others = otherwise(*p.run.basis, p.treatment(), p.estimate());
  REQUIRE(others.size() == 3);
  const auto planned = [&](const std::string& from, const std::string& to) {
    SmallHouse other = house;
    other.walls = edited(house.walls, from, to);
    return PlannedHouse(other);
  };
  const std::string depths = "outside: 20\", inside: 14\"";
  CHECK(others[0].step == Length::inches(6));
  CHECK(others[0].gallons ==
        planned(depths, "outside: 26\", inside: 20\"").treatment().gallons - p.treatment().gallons);
  CHECK(others[1].gallons == planned(depths, "outside: 14\", inside: 8\"").treatment().gallons - p.treatment().gallons);
  const PlannedHouse solid = planned("hollow block", "poured");
  CHECK(others[2].what == Otherwise::What::void_solid);
  CHECK(others[2].holes == -p.treatment().holes);
  CHECK(others[2].gallons == solid.treatment().gallons - p.treatment().gallons);
  CHECK(others[2].amount == solid.estimate().total - p.estimate().total);
}
