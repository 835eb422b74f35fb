#include "site_sampling.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

using Stretches = std::vector<Stretch>;
const char* const rectangle = "E 40', S 28', W 40', N 28'";
// The inner corner is where walls 2 and 3 meet, at [40', 16'].
const char* const ell = "E 40', S 16', E 12', S 12', W 52', N 28'";

std::string slab(const std::string& name, const std::string& along, const std::string& deep = "6'") {
  return "{name: " + name + ", fill: earth, along: \"" + along + "\", deep: " + deep + ", footing: 1', known by: dug}";
}
std::unique_ptr<Plan> with(const std::string& slabs, const std::string& outline = rectangle) {
  return crawl(outline, "8\"", "slabs: [" + slabs + "]\n");
}
std::string pilaster(const std::string& at, const std::string& side = "outside", const std::string& wide = "16\"",
                     const std::string& deep = "8\"") {
  return "pilasters: [{name: p, kind: pilaster, at: [" + at + "], side: " + side + ", wide: " + wide +
         ", deep: " + deep + ", footing: 1', known by: dug}]\n";
}

Length sum(const Stretches& stretches) {
  Length out;
  for (const Stretch& s : stretches) out += s.length();
  return out;
}
Length all_paved(const SurveyedStructure& s) {
  Length out;
  for (const Wall& w : s.walls) out += sum(w.paved);
  return out;
}
Length all_free(const SurveyedStructure& s) {
  Length out;
  for (const SurveyedSlab& slab : s.slabs) out += slab.free_edges;
  return out;
}
double length(const std::pair<Point, Point>& edge) {
  const Spot a = spot_of(edge.first), b = spot_of(edge.second);
  return std::hypot(b.x - a.x, b.y - a.y);
}
bool near(Length a, double b, double slack) { return std::abs(static_cast<double>(a.sixteenths) - b) <= slack; }

// Corners whatever the first and the way round.
std::vector<std::pair<std::int64_t, std::int64_t>> sorted(const std::vector<Point>& shape) {
  std::vector<std::pair<std::int64_t, std::int64_t>> out;
  for (const Point& p : shape) out.emplace_back(p.x.sixteenths, p.y.sixteenths);
  std::sort(out.begin(), out.end());
  return out;
}

int pick(std::mt19937& random, int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); }

Slab slab_of(int wall, Length from, Length to, Length deep) {
  Slab s;
  Place along;
  along.kind = Place::Kind::wall;
  along.number = wall;
  along.from = from;
  along.to = to;
  s.name.set("porch");
  s.fill.set(Fill::earth);
  s.along.set(along);
  s.deep.set(deep);
  return s;
}

std::vector<Slab> random_slabs(std::mt19937& random, const std::vector<Point>& corners) {
  std::vector<Slab> out;
  for (int i = pick(random, 1, 3); i > 0; --i) {
    const int wall = pick(random, 1, static_cast<int>(corners.size()));
    const Point a = corners[static_cast<std::size_t>(wall) - 1];
    const Point b = corners[static_cast<std::size_t>(wall) % corners.size()];
    const Length whole{std::abs((b.x - a.x).sixteenths) + std::abs((b.y - a.y).sixteenths)};
    const auto end = [&] { return Length{pick(random, 0, static_cast<int>(whole.sixteenths))}; };
    Length from = pick(random, 0, 2) == 0 ? Length{} : end(), to = pick(random, 0, 2) == 0 ? whole : end();
    if (to < from) std::swap(from, to);
    if (from == to) from = Length{}, to = whole;
    out.push_back(slab_of(wall, from, to, Length{pick(random, 300, 1500)}));
  }
  return out;
}

// Whether two slabs lie over one another.
bool lap(const SurveyedStructure& s) {
  for (std::size_t i = 0; i < s.slabs.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      for (const auto& one : s.slabs[i].shapes)
        for (const auto& two : s.slabs[j].shapes)
          for (const Spot p : along_edges(one, 30))
            if (holds(two, p)) return true;
  return false;
}

}  // namespace

TEST_CASE("a porch before a wall stands free on three sides") {
  const auto plan = with(slab("porch", "wall 1 10' to 22'"));
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.slabs.size() == 1);
  CHECK(s.slabs[0].adjoins == Stretches{{1, ft(10), ft(22)}});
  CHECK(s.slabs[0].free_edges == ft(12 + 6 + 6));
  CHECK(s.slabs[0].area_sqft == Ratio(72));
  CHECK(s.slabs[0].edges.size() == 3);
  REQUIRE(s.slabs[0].shapes.size() == 1);
  CHECK(sorted(s.slabs[0].shapes[0]) == sorted({at(10, -6), at(22, -6), at(22, 0), at(10, 0)}));
  CHECK(s.wall(1)->paved == s.slabs[0].adjoins);
  CHECK(s.wall(1)->outer == Stretches{{1, ft(0), ft(40)}});
  CHECK(s.wall(2)->paved.empty());
  CHECK(s.drawn_outside == ft(136));
}

TEST_CASE("a porch before every wall of a house walked either way lies outside of it") {
  const auto [outline, back] =
      GENERATE(table<const char*, bool>({{rectangle, false}, {"S 28', E 40', N 28', W 40'", true}}));
  for (int wall = 1; wall <= 4; ++wall) {
    const auto plan = with(slab("porch", "wall " + std::to_string(wall) + " 10' to 22'"), outline);
    const SurveyedStructure& s = plan->house();
    CAPTURE(wall, back);
    CHECK(s.parts[0].clockwise != back);
    CHECK(s.slabs.at(0).free_edges == ft(24));
    CHECK(s.slabs[0].area_sqft == Ratio(72));
    CHECK(s.slabs[0].adjoins == Stretches{{wall, ft(10), ft(22)}});
    const std::vector<Point>& shape = s.slabs[0].shapes.at(0);
    const Spot one = spot_of(shape.at(0)), other = spot_of(shape.at(2));
    CHECK_FALSE(holds(s.parts[0].corners, {(one.x + other.x) / 2, (one.y + other.y) / 2}));
    for (const auto& edge : s.slabs[0].edges) {
      const Spot a = spot_of(edge.first), b = spot_of(edge.second);
      CHECK(to_shape({(a.x + b.x) / 2, (a.y + b.y) / 2}, s.parts[0].corners) >= 3 * 192);
    }
  }
}

TEST_CASE("a porch in an inner corner lies against both walls") {
  const auto plan = with(slab("porch", "wall 3 0' to 8'"), ell);
  CHECK(plan->whats() == "");
  const SurveyedSlab& porch = plan->house().slabs.at(0);
  CHECK(porch.adjoins == Stretches{{2, ft(10), ft(16)}, {3, ft(0), ft(8)}});
  CHECK(porch.free_edges == ft(8 + 6));
  CHECK(porch.area_sqft == Ratio(48));
  CHECK(plan->house().wall(2)->paved == Stretches{{2, ft(10), ft(16)}});
  CHECK(plan->house().wall(3)->paved == Stretches{{3, ft(0), ft(8)}});
  // The same porch, said of the other wall.
  const auto other = with(slab("porch", "wall 2 10' to 16'", "8'"), ell);
  CHECK(other->house().slabs.at(0).adjoins == porch.adjoins);
  CHECK(other->house().slabs[0].free_edges == porch.free_edges);
  // Deeper than the other wall is long, it stands free beyond that wall's end.
  const auto deep = with(slab("porch", "wall 2 10' to 16'", "15'"), ell);
  CHECK(deep->house().slabs.at(0).adjoins == Stretches{{2, ft(10), ft(16)}, {3, ft(0), ft(12)}});
  CHECK(deep->house().slabs[0].free_edges == ft(15 + 6 + 3));
}

TEST_CASE("a porch in a court lies against three walls") {
  const auto plan = with(slab("porch", "wall 5", "12'"), "E 40', S 30', W 10', N 12', W 20', S 12', W 10', N 30'");
  CHECK(plan->house().slabs.at(0).adjoins == Stretches{{4, ft(0), ft(12)}, {5, ft(0), ft(20)}, {6, ft(0), ft(12)}});
  CHECK(plan->house().slabs[0].free_edges == ft(20));
  CHECK(plan->house().slabs[0].edges.size() == 1);
}

TEST_CASE("where two slabs meet, neither stands free") {
  const auto plan = with(slab("porch", "wall 1 10' to 22'") + ", " + slab("stoop", "wall 1 22' to 30'", "4'"));
  const SurveyedStructure& s = plan->house();
  CHECK(s.slabs.at(0).free_edges == ft(12 + 6 + 2));
  CHECK(s.slabs.at(1).free_edges == ft(8 + 4));
  CHECK(s.wall(1)->paved == Stretches{{1, ft(10), ft(30)}});
  CHECK(s.slabs[1].adjoins == Stretches{{1, ft(22), ft(30)}});
}

TEST_CASE("slabs that lie over one another are a fault, and only the outline of both stands free") {
  // Round an inner corner they lap in the corner.
  const auto lapped = with(slab("one", "wall 2 0' to 16'") + ", " + slab("two", "wall 3 0' to 12'"), ell);
  CHECK(lapped->house().slabs.at(0).free_edges == ft(6 + 10));
  CHECK(lapped->house().slabs.at(1).free_edges == ft(6 + 6));
  // Two that lap and end in one line have that line once.
  const auto flush = with(slab("one", "wall 1 10' to 22'") + ", " + slab("two", "wall 1 20' to 30'"));
  CHECK(all_free(flush->house()) == ft(20 + 12));
  CHECK(flush->house().wall(1)->paved == Stretches{{1, ft(10), ft(30)}});
  const auto corner = with(slab("one", "wall 2 0' to 16'", "12'") + ", " + slab("two", "wall 3 0' to 12'"), ell);
  CHECK(all_free(corner->house()) == ft(12 + 16));
  for (const auto* plan : {&lapped, &flush, &corner}) {
    REQUIRE((*plan)->faults.size() == 1);
    CHECK((*plan)->faults[0].rule == Rule::outline_crosses);
  }
}

TEST_CASE("a slab along all of a wall ends at the outer corners") {
  const auto plan = with(slab("walk", "wall 2", "4'"));
  CHECK(plan->whats() == "");
  CHECK(plan->house().slabs.at(0).adjoins == Stretches{{2, ft(0), ft(28)}});
  CHECK(plan->house().slabs[0].free_edges == ft(28 + 8));
  CHECK(plan->house().wall(1)->paved.empty());
  CHECK(plan->house().wall(3)->paved.empty());
}

TEST_CASE("a slab along all walls goes round the outer corners") {
  const auto [outline, back] =
      GENERATE(table<const char*, bool>({{rectangle, false}, {"S 28', E 40', N 28', W 40'", true}}));
  const auto plan = with(slab("apron", "all walls", "3'"), outline);
  CAPTURE(back);
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(s.slabs.at(0).adjoins.size() == 4);
  CHECK(sum(s.slabs[0].adjoins) == ft(136));
  CHECK(all_paved(s) == ft(136));
  CHECK(s.slabs[0].area_sqft == Ratio(46 * 34 - 40 * 28));
  CHECK(s.slabs[0].free_edges == ft(46 + 34) * 2);
}

TEST_CASE("a slab along all walls ends at itself in an inner corner") {
  const auto plan = with(slab("apron", "all walls", "3'"), ell);
  CHECK(plan->whats() == "");
  CHECK(plan->house().slabs.at(0).free_edges == ft(58 + 34) * 2);  // as long as the rectangle round it
  CHECK(all_paved(plan->house()) == ft(160));
}

TEST_CASE("a slab before a diagonal wall is as long as it was typed") {
  // Wall 2 runs down a slope of 3, 4, 5, 25 ft long.
  const auto plan = with(slab("porch", "wall 2 5' to 15'", "5'"), "[20', 0], [35', 20'], [0, 20'], [0, 0]");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.wall(2)->length == ft(25));
  CHECK(s.slabs.at(0).adjoins == Stretches{{2, ft(5), ft(15)}});
  CHECK(s.slabs[0].free_edges == ft(10 + 5 + 5));
  CHECK(s.slabs[0].area_sqft == Ratio(50));
  CHECK(sorted(s.slabs[0].shapes.at(0)) == sorted({at(23, 4), at(29, 12), at(33, 9), at(27, 1)}));
}

TEST_CASE("`adjoins: slab` paves the whole wall, and a slab typed beside it adds nothing") {
  const auto plan = plan_of(
      "parts: [{name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}]\n"
      "walls: [{walls: all, thick: 8\"}, {walls: 3, adjoins: slab}]\n"
      "slabs: [" +
      slab("porch", "wall 3 10' to 22'") + "]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().wall(3)->paved == Stretches{{3, ft(0), ft(40)}});
  CHECK(plan->house().wall(3)->outer == Stretches{{3, ft(0), ft(40)}});
  CHECK(plan->house().wall(1)->paved.empty());
  CHECK(plan->house().drawn_outside == ft(136));
}

TEST_CASE("a wall beside the neighbor's house has no outside, and the last word counts") {
  const auto plan = plan_of(
      "parts: [{name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}]\n"
      "walls: [{walls: all, thick: 8\", adjoins: slab}, {walls: [1, 2], adjoins: neighbor}, {walls: 4, adjoins: "
      "soil}]\n"
      "slabs: [" +
      slab("porch", "wall 2 10' to 22'") + "]\n");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(s.wall(2)->outer.empty());
  CHECK(s.wall(2)->paved.empty());
  CHECK(s.wall(2)->beside_neighbor);
  CHECK(s.wall(2)->own == Stretches{{2, ft(0), ft(28)}});
  CHECK(s.wall(2)->inside_length == ft(26, 8));
  CHECK(s.slabs.at(0).adjoins.empty());
  CHECK(s.wall(3)->paved == Stretches{{3, ft(0), ft(40)}});
  CHECK(s.wall(4)->paved.empty());
  CHECK_FALSE(s.wall(4)->beside_slab);
  CHECK(s.drawn_outside == ft(40 + 28));
  CHECK(s.outside == ft(40 + 28));
  CHECK(s.inside == ft(136) - ft(0, 64));
  const auto row = plan_of(
      "parts: [{name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}]\n"
      "walls: [{walls: all, thick: 8\", adjoins: neighbor}, {walls: [1, 3], adjoins: soil}]\n");
  CHECK(row->house().drawn_outside == ft(80));
  CHECK_FALSE(row->house().wall(1)->beside_neighbor);
}

TEST_CASE("pavement keeps to what is outside wall, and reaches a second part's wall") {
  const std::string parts =
      "parts:\n"
      "  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n"
      "  - {name: addition, foundation: crawl space, start: [40', 8'], outline: [E 12', S 16', W 12', N 16']}\n";
  const auto plan = plan_of(parts + "walls: [{walls: all, thick: 8\"}, {walls: 2, adjoins: slab}]\nslabs: [" +
                            slab("porch", "wall 2 0' to 8'", "5'") + "]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().wall(2)->paved == Stretches{{2, ft(0), ft(8)}, {2, ft(24), ft(28)}});
  CHECK(plan->house().slabs.at(0).adjoins == Stretches{{2, ft(0), ft(8)}, {5, ft(0), ft(5)}});
  CHECK(plan->house().slabs[0].free_edges == ft(8 + 5));
  CHECK(plan->house().wall(5)->paved == Stretches{{5, ft(0), ft(5)}});
}

TEST_CASE("slabs that name no stretch of a wall are faults and have no shape") {
  const auto plan = with(slab("a", "wall 7") + ", " + slab("b", "pier 1") + ", " + slab("c", "wall 1 at 6'"));
  CHECK(plan->faults.size() == 3);
  for (const Diagnostic& d : plan->faults) CHECK(d.rule == Rule::bad_wall);
  REQUIRE(plan->house().slabs.size() == 3);
  for (const SurveyedSlab& s : plan->house().slabs) {
    CHECK(s.free_edges == Length{});
    CHECK(s.adjoins.empty());
    CHECK(s.area_sqft == Ratio(0));
  }
  CHECK(all_paved(plan->house()) == Length{});
  const auto beyond = with(slab("porch", "wall 2 20' to 32'"));
  CHECK(beyond->faults.size() == 1);
  CHECK(beyond->house().slabs.at(0).adjoins == Stretches{{2, ft(20), ft(28)}});
}

TEST_CASE("pilasters stand out from their wall, each with two sides") {
  const auto out = crawl(rectangle, "8\"", pilaster("wall 2 at 6', wall 2 at 12', wall 3 at 20'"));
  CHECK(out->whats() == "");
  const SurveyedPilaster& outside = out->house().pilasters.at(0);
  CHECK(outside.sides == ft(4));  // 3 x 2 x 8"
  REQUIRE(outside.shapes.size() == 3);
  CHECK(sorted(outside.shapes[0]) ==
        sorted({{ft(40), ft(5, 4)}, {ft(40, 8), ft(5, 4)}, {ft(40, 8), ft(6, 8)}, {ft(40), ft(6, 8)}}));
  CHECK(sorted(outside.shapes[2]) ==
        sorted({{ft(19, 4), ft(28)}, {ft(20, 8), ft(28)}, {ft(20, 8), ft(28, 8)}, {ft(19, 4), ft(28, 8)}}));
  CHECK(out->house().inside == ft(136) - ft(0, 64));

  const auto in = crawl("S 28', E 40', N 28', W 40'", "8\"", pilaster("wall 1 at 6'", "inside"));
  CHECK(in->whats() == "");
  CHECK(in->house().pilasters.at(0).sides == ft(0, 16));
  // Through the wall's thickness, and as deep again.
  CHECK(sorted(in->house().pilasters[0].shapes.at(0)) ==
        sorted({{ft(0), ft(5, 4)}, {ft(0, 16), ft(5, 4)}, {ft(0, 16), ft(6, 8)}, {ft(0), ft(6, 8)}}));
}

TEST_CASE("a pilaster may stand at the very end of its wall, and not a sixteenth beyond") {
  CHECK(crawl(rectangle, "8\"", pilaster("wall 2 at 8\", wall 2 at 27'4\""))->whats() == "");
  for (const std::string at : {"wall 2 at 7 15/16\"", "wall 2 at 27'4 1/16\"", "wall 2 at 30'"}) {
    const auto plan = crawl(rectangle, "8\"", pilaster("wall 2 at 14', " + at));
    CAPTURE(at);
    REQUIRE(plan->faults.size() == 1);
    CHECK(plan->whats() == "at " + at.substr(10) + " one of `p` reaches beyond wall 2 [partition-misplaced]\n");
    CHECK(plan->at(0) == at);
    CHECK(plan->house().pilasters.at(0).sides == ft(0, 16));  // of the other
  }
}

TEST_CASE("pilasters that stand nowhere are faults, one each") {
  const auto fault = [](const std::string& lines, const std::string& says) {
    const auto plan = crawl(rectangle, "8\"", lines);
    CHECK(plan->whats() == says + " [partition-misplaced]\n");
    CHECK(plan->house().pilasters.at(0).shapes.empty());
    CHECK(plan->house().pilasters[0].sides == Length{});
  };
  fault(pilaster("wall 2 at 6', wall 3 at 6'", "both"),
        "a pilaster stands outside or inside of its wall, not on both sides");
  fault(pilaster("wall 2 at 6', wall 3 at 6'", "inside", "0"), "a pilaster has no width or depth");
  fault(pilaster("wall 2 at 6', wall 3 at 6'", "inside", "1'", "0"), "a pilaster has no width or depth");
  fault(pilaster("wall 2"), "this place of `p` is not a point along a wall");
  fault(pilaster("wall 2 6' to 9'"), "this place of `p` is not a point along a wall");
  fault(pilaster("wall 9 at 6'"), "this place of `p` is not a point along a wall");
  fault(pilaster("[12', 8']"), "this place of `p` is not a point along a wall");
}

TEST_CASE("slabs and pilasters that are touched are near") {
  const auto plan = crawl(rectangle, "8\"",
                          "slabs: [" + slab("porch", "wall 1 10' to 22'") + ", " +
                              slab("walk", "wall 3 0' to 10'", "3'") + "]\n" + pilaster("wall 2 at 6', wall 4 at 14'"));
  const SurveyedStructure& s = plan->house();
  using List = std::vector<std::size_t>;
  CHECK(within(s, spot(at(16, -3)), Length{}).slabs == List{0});
  CHECK(within(s, spot(at(16, -10)), ft(4)).slabs == List{0});
  CHECK(within(s, spot(at(16, -10)), ft(4) - Length{1}).slabs.empty());
  CHECK(within(s, spot(at(16, -10)), ft(60)).slabs == List{0, 1});
  CHECK(within(s, place("wall 1 0' to 10'"), Length{}).slabs == List{0});
  CHECK(within(s, place("slab walk"), Length{}).slabs == List{1});
  // The second of the group, from 13'4" to 14'8" along wall 4 and 8" out: 8 ft west of it.
  CHECK(within(s, spot({-ft(8, 8), ft(14)}), ft(8)).pilasters == List{0});
  CHECK(within(s, spot({-ft(8, 8), ft(14)}), ft(8) - Length{1}).pilasters.empty());
  CHECK(within(s, place("pilaster p"), Length{}).pilasters == List{0});
  CHECK(within(s, place("pilaster p"), Length{}).stretches ==
        Stretches{{2, ft(5, 4), ft(6, 8)}, {4, ft(13, 4), ft(14, 8)}});
}

TEST_CASE("free edges and pavement of any porch agree with points along its edges") {
  std::mt19937 random(61);
  int sound = 0;
  for (int i = 0; i < 200; ++i) {
    const bool slant = i % 2 == 1;
    const auto corners = slant ? slanted(random) : stepped(random);
    Structure facts = structure_of(corners, ft(0, 8));
    if (slant)
      facts.slabs.set(
          {slab_of(pick(random, 1, static_cast<int>(corners.size())), ft(1), ft(4), Length{pick(random, 300, 1500)})});
    else
      facts.slabs.set(random_slabs(random, corners));
    const auto plan = plan_of(facts);
    const SurveyedStructure& s = plan->house();
    CAPTURE(i);
    if (!plan->faults.empty()) {
      CHECK(plan->faults[0].rule == Rule::outline_crosses);
      CHECK(lap(s));
      continue;
    }
    ++sound;
    constexpr int step = 4;
    for (const SurveyedSlab& one : s.slabs) {
      // A point of an edge is free when it lies in the open: farther from house and other slabs than rounding reaches.
      double free = 0, edges = 0;
      const std::vector<Point>& shape = one.shapes.at(0);
      for (std::size_t k = 1; k < 4; ++k) {
        const Spot a = spot_of(shape[k]), b = spot_of(shape[(k + 1) % 4]);
        const auto count = std::ceil(std::hypot(b.x - a.x, b.y - a.y) / step);
        for (double n = 0.5; n < count; ++n) {
          const Spot p{a.x + (b.x - a.x) * n / count, a.y + (b.y - a.y) * n / count};
          bool open = to_shape(p, corners) > 0.01;
          for (const SurveyedSlab& other : s.slabs)
            open = open && (&other == &one || to_shape(p, other.shapes.at(0)) > 0.01);
          if (open) free += std::hypot(b.x - a.x, b.y - a.y) / count;
        }
      }
      for (const auto& edge : one.edges) edges += length(edge);
      // Of its own wall it takes what was typed, to the sixteenth, on a diagonal too.
      Stretches own;
      for (const Stretch& x : one.adjoins)
        if (x.wall == one.facts->along->number) own.push_back(x);
      CHECK(own == Stretches{{one.facts->along->number, *one.facts->along->from, *one.facts->along->to}});
      CHECK(near(one.free_edges, free, 6 * step));
      CHECK(near(one.free_edges, edges, 6));
      for (const auto& edge : one.edges)
        for (const Spot p : {spot_of(edge.first), spot_of(edge.second)}) {
          double least = 1e300;
          for (const Spot q : along_edges(shape, 1e6)) least = std::min(least, std::hypot(p.x - q.x, p.y - q.y));
          CHECK((least < 1 || to_shape(p, shape) < 1.5));
        }
    }
    // Paved is where a slab touches the wall.
    for (const Wall& wall : s.walls) {
      int wrong = 0;
      for (std::int64_t k = 5; k < wall.length.sixteenths; k += 11) {
        const Spot p = spot_of(along(wall, Length{k}));
        double least = 1e300;
        for (const SurveyedSlab& one : s.slabs) least = std::min(least, to_shapes(p, one.shapes));
        const bool paved = std::any_of(wall.paved.begin(), wall.paved.end(),
                                       [&](const Stretch& x) { return x.a <= Length{k} && Length{k} <= x.b; });
        if (paved ? least > 2 : !slant && least == 0) ++wrong;
      }
      CHECK(wrong == 0);
      for (const Stretch& x : wall.paved) CHECK((Length{} <= x.a && x.a < x.b && x.b <= wall.length));
    }
  }
  CHECK(sound >= 150);
}

TEST_CASE("shift, quarter turn and mirror change no slab and no pilaster") {
  std::mt19937 random(67);
  for (int i = 0; i < 80; ++i) {
    const auto corners = stepped(random);
    Structure facts = structure_of(corners, ft(0, 8));
    facts.slabs.set(random_slabs(random, corners));
    Pilaster p;
    Place place = *facts.slabs->front().along;
    place.from = place.to = Length{(place.from->sixteenths + place.to->sixteenths) / 2};
    p.name.set("p");
    p.places.set({place});
    p.side.set(i % 2 == 0 ? Sides::outside : Sides::inside);
    p.wide.set(ft(0, 1));
    p.deep.set(ft(0, 8));
    p.footing.set(ft(1));
    facts.pilasters.set({p});
    const auto first = plan_of(facts);
    for (int how = 1; how <= 3; ++how) {
      facts.parts.set({part_of(moved(corners, how))});
      const auto second = plan_of(facts);
      const SurveyedStructure &a = first->house(), &b = second->house();
      CAPTURE(i, how);
      CHECK(first->faults.size() == second->faults.size());
      REQUIRE(b.slabs.size() == a.slabs.size());
      for (std::size_t k = 0; k < a.slabs.size(); ++k) {
        CHECK(a.slabs[k].free_edges == b.slabs[k].free_edges);
        CHECK(a.slabs[k].area_sqft == b.slabs[k].area_sqft);
        CHECK(a.slabs[k].adjoins == b.slabs[k].adjoins);
        CHECK(sorted(moved(a.slabs[k].shapes.at(0), how)) == sorted(b.slabs[k].shapes.at(0)));
      }
      for (std::size_t w = 0; w < a.walls.size(); ++w) CHECK(a.walls[w].paved == b.walls[w].paved);
      REQUIRE(a.pilasters.at(0).shapes.size() == b.pilasters.at(0).shapes.size());
      if (!a.pilasters[0].shapes.empty())
        CHECK(sorted(moved(a.pilasters[0].shapes[0], how)) == sorted(b.pilasters[0].shapes[0]));
    }
  }
}

TEST_CASE("splitting a wall in two changes nothing that is paved, nor what stands free") {
  std::mt19937 random(71);
  for (int i = 0; i < 120; ++i) {
    auto corners = stepped(random);
    Structure facts = structure_of(corners, ft(0, 8));
    const auto slabs = random_slabs(random, corners);
    facts.slabs.set(slabs);
    const auto whole = plan_of(facts);
    const int split = slabs.front().along->number;
    const std::size_t w = static_cast<std::size_t>(split) - 1;
    const Point a = corners[w], b = corners[(w + 1) % corners.size()];
    const Point middle{Length{(a.x.sixteenths + b.x.sixteenths * 2) / 3},
                       Length{(a.y.sixteenths + b.y.sixteenths * 2) / 3}};
    const Length cut{std::abs((middle.x - a.x).sixteenths) + std::abs((middle.y - a.y).sixteenths)};
    corners.insert(corners.begin() + split, middle);
    // A slab before both halves is typed as two.
    std::vector<Slab> typed;
    for (const Slab& s : slabs) {
      const int n = s.along->number;
      const Length from = *s.along->from, to = *s.along->to;
      if (n != split) {
        typed.push_back(slab_of(n + (n > split ? 1 : 0), from, to, *s.deep));
        continue;
      }
      if (from < cut) typed.push_back(slab_of(n, from, std::min(to, cut), *s.deep));
      if (to > cut) typed.push_back(slab_of(n + 1, std::max(from, cut) - cut, to - cut, *s.deep));
    }
    Structure halves = structure_of(corners, ft(0, 8));
    halves.slabs.set(typed);
    const auto two = plan_of(halves);
    CAPTURE(i);
    CHECK(two->faults.size() == whole->faults.size());
    CHECK(all_paved(two->house()) == all_paved(whole->house()));
    CHECK(all_free(two->house()) == all_free(whole->house()));
    const SurveyedStructure& s = two->house();
    Length adjoins, before;
    for (const SurveyedSlab& one : s.slabs) adjoins += sum(one.adjoins);
    for (const SurveyedSlab& one : whole->house().slabs) before += sum(one.adjoins);
    CHECK(adjoins == before);
  }
}
