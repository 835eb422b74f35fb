#include <geos_c.h>

#include <cmath>

#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

std::vector<Point> moved(std::vector<Point> corners, int how, Length by = {}) {
  for (Point& p : corners) {
    if (how == 1) p = {p.x + by, p.y - by};
    if (how == 2) p = {-p.y, p.x};
    if (how == 3) p = {-p.x, p.y};
  }
  if (how == 4) std::reverse(corners.begin(), corners.end());
  return corners;
}

// The inside by another way: the plan is cut into cells at every corner and every inner line, and the edges between
// cells that are wall and cells that are not are counted.
Length inside_by_cells(const std::vector<Point>& corners, const std::vector<Length>& thick) {
  const std::size_t n = corners.size();
  struct Band {
    std::int64_t west, north, east, south;
  };
  std::vector<Band> bands;
  std::vector<std::int64_t> xs, ys;
  const auto reflex = [&](std::size_t i) {  // at corner i of a clockwise walk
    const Point a = corners[(i + n - 1) % n], b = corners[i], c = corners[(i + 1) % n];
    return (b.x - a.x).sixteenths * (c.y - b.y).sixteenths - (b.y - a.y).sixteenths * (c.x - b.x).sixteenths < 0;
  };
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = corners[i], b = corners[(i + 1) % n];
    const auto sign = [](Length l) { return l.sixteenths > 0 ? 1 : l.sixteenths < 0 ? -1 : 0; };
    const int dx = sign(b.x - a.x), dy = sign(b.y - a.y);
    const std::int64_t t = thick[i].sixteenths;
    const std::int64_t back = reflex(i) ? thick[(i + n - 1) % n].sixteenths : 0,
                       on = reflex((i + 1) % n) ? thick[(i + 1) % n].sixteenths : 0;
    const std::int64_t ax = a.x.sixteenths - dx * back, ay = a.y.sixteenths - dy * back;
    const std::int64_t bx = b.x.sixteenths + dx * on - dy * t, by = b.y.sixteenths + dy * on + dx * t;
    bands.push_back({std::min(ax, bx), std::min(ay, by), std::max(ax, bx), std::max(ay, by)});
    xs.insert(xs.end(), {bands.back().west, bands.back().east, a.x.sixteenths});
    ys.insert(ys.end(), {bands.back().north, bands.back().south, a.y.sixteenths});
  }
  for (auto* v : {&xs, &ys}) {
    std::sort(v->begin(), v->end());
    v->erase(std::unique(v->begin(), v->end()), v->end());
  }
  const auto within = [&](double x, double y) {
    bool in = false;
    for (std::size_t i = 0; i < n; ++i) {
      const Point a = corners[i], b = corners[(i + 1) % n];
      const auto ay = static_cast<double>(a.y.sixteenths), by = static_cast<double>(b.y.sixteenths);
      if ((ay > y) != (by > y) && x < static_cast<double>(a.x.sixteenths)) in = !in;
    }
    if (!in) return false;
    for (const Band& b : bands)
      if (x > static_cast<double>(b.west) && x < static_cast<double>(b.east) && y > static_cast<double>(b.north) &&
          y < static_cast<double>(b.south))
        return false;
    return true;
  };
  const std::size_t columns = xs.size() - 1, rows = ys.size() - 1;
  std::vector<std::vector<bool>> room(columns + 2, std::vector<bool>(rows + 2));
  for (std::size_t i = 0; i < columns; ++i)
    for (std::size_t j = 0; j < rows; ++j)
      room[i + 1][j + 1] =
          within(static_cast<double>(xs[i] + xs[i + 1]) / 2, static_cast<double>(ys[j] + ys[j + 1]) / 2);
  Length sum;
  for (std::size_t i = 0; i < columns; ++i)
    for (std::size_t j = 0; j < rows; ++j) {
      if (!room[i + 1][j + 1]) continue;
      const std::int64_t w = xs[i + 1] - xs[i], h = ys[j + 1] - ys[j];
      sum += Length{(room[i][j + 1] ? 0 : h) + (room[i + 2][j + 1] ? 0 : h) + (room[i + 1][j] ? 0 : w) +
                    (room[i + 1][j + 2] ? 0 : w)};
    }
  return sum;
}

// The inside by a negative buffer of GEOS with mitred corners.
double inside_by_buffer(const std::vector<Point>& corners, double thick) {
  GEOSContextHandle_t h = GEOS_init_r();
  const auto n = static_cast<unsigned>(corners.size());
  GEOSCoordSequence* seq = GEOSCoordSeq_create_r(h, n + 1, 2);
  for (unsigned i = 0; i <= n; ++i)
    GEOSCoordSeq_setXY_r(h, seq, i, static_cast<double>(corners[i % n].x.sixteenths),
                         static_cast<double>(corners[i % n].y.sixteenths));
  GEOSGeometry* polygon = GEOSGeom_createPolygon_r(h, GEOSGeom_createLinearRing_r(h, seq), nullptr, 0);
  GEOSGeometry* inside = GEOSBufferWithStyle_r(h, polygon, -thick, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 100);
  double length = 0;
  GEOSLength_r(h, inside, &length);
  GEOSGeom_destroy_r(h, inside);
  GEOSGeom_destroy_r(h, polygon);
  GEOS_finish_r(h);
  return length;
}

Length sum_of_walls(const SurveyedStructure& s) {
  Length sum;
  for (const Wall& w : s.walls) sum += w.inside_length;
  return sum;
}

}  // namespace

TEST_CASE("the inside of a rectangle is eight thicknesses shorter") {
  // Derived: 30 x 40 ft with 8 in walls is 140 ft outside and 134.67 ft inside.
  const auto plan = crawl("E 40', S 30', W 40', N 30'");
  CHECK(plan->whats() == "");
  CHECK(plan->house().outside == ft(140));
  CHECK(plan->house().inside == ft(134, 8));
  CHECK(plan->house().parts[0].inside_corners ==
        std::vector<Point>{{ft(0, 8), ft(0, 8)}, {ft(39, 4), ft(0, 8)}, {ft(39, 4), ft(29, 4)}, {ft(0, 8), ft(29, 4)}});
  CHECK(plan->house().wall(1)->inside_length == ft(38, 8));
  CHECK(plan->house().wall(1)->inside_from == Point{ft(0, 8), ft(0, 8)});
  CHECK(plan->house().wall(1)->inside_to == Point{ft(39, 4), ft(0, 8)});
}

TEST_CASE("the inside of an L and a U is eight thicknesses shorter too") {
  CHECK(crawl("E 40', S 16', E 12', S 12', W 52', N 28'")->house().inside == ft(160) - ft(0, 64));
  const auto u = crawl("E 40', S 30', W 10', N 12', W 20', S 12', W 10', N 30'");
  CHECK(u->house().inside == ft(164) - ft(0, 64));
  CHECK(u->house().wall(5)->inside_length == ft(21, 4));  // runs past both corners of the court
}

TEST_CASE("each wall takes its own thickness") {
  const auto plan = plan_of(
      "parts: [{name: main, foundation: basement, outline: [E 40', S 30', W 40', N 30']}]\n"
      "walls: [{walls: 2, thick: 12\"}, {walls: all, thick: 8\"}]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().inside == (ft(40) - ft(0, 20) + ft(30) - ft(0, 16)) * 2);
}

TEST_CASE("a step between two thicknesses of one line of wall counts with the thicker") {
  const auto plan = plan_of(
      "parts: [{name: main, foundation: basement, outline: [E 20', E 20', S 30', W 40', N 30']}]\n"
      "walls: [{walls: all, thick: 8\"}, {walls: 2, thick: 12\"}]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().wall(1)->inside_length == ft(19, 4));
  CHECK(plan->house().wall(2)->inside_length == ft(19, 4) + ft(0, 4));
  CHECK(plan->house().inside == ft(134, 8));
  CHECK(plan->house().parts[0].inside_corners.size() == 6);
}

TEST_CASE("a slab without thickness is as long inside as outside, and piers have no inside") {
  const auto slab =
      plan_of("parts: [{name: main, foundation: monolithic slab, outline: [E 40', S 30', W 40', N 30']}]");
  CHECK(slab->whats() == "");
  CHECK(slab->house().inside == ft(140));
  CHECK(slab->house().wall(3)->inside_length == ft(40));
  const auto piers = plan_of("parts: [{name: main, foundation: piers, outline: [E 40', S 30', W 40', N 30']}]");
  CHECK(piers->whats() == "");
  CHECK(piers->house().inside == Length{});
  CHECK(piers->house().parts[0].inside_corners.empty());
}

TEST_CASE("where thick walls meet in a narrow neck, two rooms are left") {
  const auto plan = crawl("E 10', S 5', E 6', N 5', E 10', S 11', W 10', N 5', W 6', S 5', W 10', N 11'", "8\"");
  CHECK(plan->whats() == "");
  REQUIRE(plan->house().parts[0].further_rooms.size() == 1);
  CHECK(plan->house().inside == (ft(8, 8) + ft(9, 8)) * 4);
}

TEST_CASE("shift, turn, mirror and walking back change no total") {
  std::mt19937 random(7);
  for (int i = 0; i < 60; ++i) {
    const bool slant = i % 2 == 1;
    const auto corners = slant ? slanted(random) : stepped(random);
    const auto first = plan_of(structure_of(corners, ft(0, 8)));
    REQUIRE(first->whats() == "");
    const Length slack{slant ? static_cast<std::int64_t>(corners.size()) : 0};
    for (int how = 1; how <= 4; ++how) {
      const auto other = plan_of(structure_of(moved(corners, how, ft(3, 5, 7)), ft(0, 8)));
      CHECK(other->house().outside == first->house().outside);
      CHECK(other->house().parts[0].area_sqft == first->house().parts[0].area_sqft);
      const Length apart = other->house().inside - first->house().inside;
      CHECK((apart <= slack && -apart <= slack));
      CHECK(sum_of_walls(other->house()) == other->house().inside);
    }
  }
}

TEST_CASE("a turn by any angle changes lengths by at most a sixteenth a corner") {
  std::mt19937 random(8);
  for (int i = 0; i < 300; ++i) {
    const auto corners = i % 2 == 1 ? slanted(random) : stepped(random);
    const auto first = plan_of(structure_of(corners, ft(0, 8)));
    REQUIRE(first->whats() == "");
    const double angle = std::uniform_real_distribution<double>(0, 6.2831853)(random);
    std::vector<Point> turned;
    for (const Point& p : corners) {
      const auto x = static_cast<double>(p.x.sixteenths), y = static_cast<double>(p.y.sixteenths);
      turned.push_back({Length{std::llround(x * std::cos(angle) - y * std::sin(angle))},
                        Length{std::llround(x * std::sin(angle) + y * std::cos(angle))}});
    }
    const auto other = plan_of(structure_of(turned, ft(0, 8)));
    CAPTURE(i, angle);
    REQUIRE(other->whats() == "");
    const auto slack = static_cast<std::int64_t>(corners.size());
    CHECK(std::abs((other->house().outside - first->house().outside).sixteenths) <= slack);
    CHECK(std::abs((other->house().inside - first->house().inside).sixteenths) <= slack);
  }
}

TEST_CASE("the inside of any rectilinear plan agrees with a count of cells") {
  std::mt19937 random(11);
  for (int i = 0; i < 1000; ++i) {
    const auto corners = stepped(random);
    Structure s = structure_of(corners, ft(0, 8));
    std::vector<Length> thick(corners.size(), ft(0, 8));
    std::vector<WallFacts> facts = *s.walls;
    for (std::size_t w = 0; w < corners.size(); ++w)
      if (std::uniform_int_distribution<int>(0, 1)(random) == 1) {
        thick[w] = Length{std::uniform_int_distribution<int>(64, 256)(random)};
        facts.push_back(thick_of(thick[w], {static_cast<int>(w) + 1}));
      }
    s.walls.set(facts);
    const auto plan = plan_of(s);
    CAPTURE(i);
    REQUIRE(plan->whats() == "");
    CHECK(plan->house().inside == inside_by_cells(corners, thick));
    CHECK(sum_of_walls(plan->house()) == plan->house().inside);
  }
}

TEST_CASE("the inside of any plan agrees with a negative buffer within a sixteenth a corner") {
  std::mt19937 random(13);
  for (int i = 0; i < 1000; ++i) {
    const auto corners = i % 4 == 0 ? stepped(random) : slanted(random);
    const int thick = std::uniform_int_distribution<int>(64, 256)(random);
    const auto plan = plan_of(structure_of(corners, Length{thick}));
    CAPTURE(i, thick);
    REQUIRE(plan->whats() == "");
    const double other = inside_by_buffer(corners, thick);
    CHECK(std::abs(static_cast<double>(plan->house().inside.sixteenths) - other) <=
          static_cast<double>(corners.size()));
  }
}

TEST_CASE("splitting a wall changes no total") {
  std::mt19937 random(17);
  for (int i = 0; i < 60; ++i) {
    auto corners = stepped(random);
    const auto whole = plan_of(structure_of(corners, ft(0, 8)));
    const std::size_t w = std::uniform_int_distribution<std::size_t>(0, corners.size() - 1)(random);
    const Point a = corners[w], b = corners[(w + 1) % corners.size()];
    const Point middle{Length{(a.x.sixteenths + b.x.sixteenths * 2) / 3},
                       Length{(a.y.sixteenths + b.y.sixteenths * 2) / 3}};
    corners.insert(corners.begin() + static_cast<std::ptrdiff_t>(w) + 1, middle);
    const auto split = plan_of(structure_of(corners, ft(0, 8)));
    REQUIRE(split->house().walls.size() == whole->house().walls.size() + 1);
    CHECK(split->house().outside == whole->house().outside);
    CHECK(split->house().inside == whole->house().inside);
    CHECK(split->house().walls[w].inside_length + split->house().walls[w + 1].inside_length ==
          whole->house().walls[w].inside_length);
    CHECK(split->house().parts[0].inside_corners == whole->house().parts[0].inside_corners);
  }
}

TEST_CASE("walls thicker than the house leave nothing inside, and say so") {
  const auto plan = crawl("E 5', S 30', W 5', N 30'", "2'6\"");
  CHECK(plan->whats() == "walls 2'6\" thick leave nothing inside `main` [bad-wall]\n");
  CHECK(plan->at(0) == "2'6\"");
}

TEST_CASE("taped totals count, what was drawn is kept") {
  const auto plan = crawl("E 40', S 30', W 40', N 30'", "8\"", "measured: {outside: 141', inside: 135'}\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().outside == ft(141));
  CHECK(plan->house().inside == ft(135));
  CHECK(plan->house().drawn_outside == ft(140));
  CHECK(plan->house().drawn_inside == ft(134, 8));
  const auto bid = crawl("E 40', S 30', W 40', N 30'", "8\"", "measured: {inside: as outside}\n");
  CHECK(bid->whats() == "");
  CHECK(bid->house().inside == ft(140));
  CHECK(bid->house().inside_as_outside);
}

TEST_CASE("an inside longer than the outside is a fault") {
  const auto plan = crawl("E 40', S 30', W 40', N 30'", "8\"", "measured: {inside: 140'1\"}\n");
  CHECK(plan->whats() == "the inside, 140'1\", is longer than the outside, 140' [inside-longer]\n");
  CHECK(plan->at(0) == "140'1\"");
  CHECK(crawl("E 40', S 30', W 40', N 30'", "8\"", "measured: {outside: 130'}\n")->faults.size() == 1);
  CHECK(crawl("E 40', S 30', W 40', N 30'", "8\"", "measured: {inside: 140'}\n")->faults.empty());
}
