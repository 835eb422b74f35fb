#include <algorithm>

#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

class Chance {
 public:
  explicit Chance(unsigned seed) : random_(seed) {}
  int pick(int a, int b) { return std::uniform_int_distribution<int>(a, b)(random_); }
  Length length() { return Length{pick(0, 3) == 0 ? pick(-1'920'000, 1'920'000) : pick(-40, 40) * 96}; }
  Point point() { return {length(), length()}; }

  Step step() {
    Step s;
    s.kind = pick(0, 2) == 0 ? Step::Kind::corner : Step::Kind::walk;
    s.corner = point();
    do {
      s.east = pick(-1, 1), s.south = pick(-1, 1);
    } while (s.east == 0 && s.south == 0);
    s.length = Length{pick(0, 5) == 0 ? pick(1, 1'920'000) : pick(1, 20) * 96};
    return s;
  }

  Place place() {
    Place p;
    p.kind = static_cast<Place::Kind>(pick(0, 9));
    p.point = point();
    p.number = pick(-1, 9);
    if (pick(0, 1) == 1) p.from = Length{pick(0, 4000)};
    if (pick(0, 1) == 1) p.to = Length{pick(0, 4000)};
    p.name = pick(0, 1) == 1 ? "a" : "";
    return p;
  }

  Part part() {
    Part part;
    if (pick(0, 3) > 0) part.name.set("a");
    if (pick(0, 5) > 0) part.foundation.set(static_cast<Foundation>(pick(0, 4)));
    if (pick(0, 1) == 1) part.start.set(point());
    std::vector<Step> steps;
    for (int i = pick(0, 12); i > 0; --i) steps.push_back(step());
    if (pick(0, 9) > 0) part.outline.set(steps);
    if (pick(0, 1) == 1) part = part_of({{}, {ft(pick(1, 40)), {}}, {ft(40), ft(pick(1, 30))}, {{}, ft(30)}});
    return part;
  }

  Structure structure() {
    Structure s;
    std::vector<Part> parts;
    for (int i = pick(0, 3); i > 0; --i) parts.push_back(part());
    s.parts.set(parts);
    s.walls.set(
        {thick_of(Length{pick(-1, 700)}), thick_of(Length{pick(1, 300)}, {pick(-2, 9), pick(1, 4)}), WallFacts{}});
    PierGroup group;
    if (pick(0, 1) == 1) group.from.set(point());
    if (pick(0, 1) == 1) group.every.set(Size{length(), length()});
    if (pick(0, 1) == 1) group.count.set(Count{pick(-1, 6), pick(0, 200)});
    if (pick(0, 1) == 1) group.at_points.set({point(), point()});
    if (pick(0, 4) > 0) group.size.set(Size{length(), length()});
    s.piers.set({group, PierGroup{}});
    Area area;
    area.name.set("a");
    area.seen.set(Seen::no);
    std::vector<Point> region;
    for (int i = pick(0, 6); i > 0; --i) region.push_back(point());
    area.region.set(region);
    s.areas.set({area, Area{}});
    Slab slab;
    slab.name.set("a");
    slab.along.set(place());
    slab.deep.set(length());
    s.slabs.set({slab, Slab{}});
    Chimney chimney;
    chimney.name.set("a");
    chimney.at_point.set(point());
    s.chimneys.set({chimney, Chimney{}});
    return s;
  }

 private:
  std::mt19937 random_;
};

}  // namespace

TEST_CASE("whatever is typed ends in a survey or in faults, and the survey holds together") {
  for (unsigned seed = 0; seed < 1500; ++seed) {
    Chance chance(seed);
    const auto plan = plan_of(chance.structure());
    const SurveyedStructure& s = plan->house();
    CAPTURE(seed);
    Length outer, inside;
    for (const Wall& w : s.walls) {
      outer += w.outer_length();
      inside += w.inside_length;
      REQUIRE(w.outer_length() <= w.length);
    }
    CHECK(outer == s.drawn_outside);
    CHECK(inside == s.drawn_inside);
    CHECK((s.faces_seen >= Length{} && s.faces_seen <= s.faces_all));
    CHECK(s.piers_seen + static_cast<int>(s.piers_not_seen.size()) == static_cast<int>(s.piers.size()));
    for (int i = 0; i < 5; ++i) {
      const Place place = chance.place();
      const Near near = within(s, place, Length{chance.pick(-5, 3000)});
      for (const Stretch& x : near.stretches)
        CHECK((s.wall(x.wall) && Length{} <= x.a && x.a < x.b && x.b <= s.wall(x.wall)->length));
      (void)locate(s, place);
      (void)missing(s, place);
      (void)distance_to_walls(s, place.point);
    }
  }
}

TEST_CASE("the largest plan allowed is measured in a moment") {
  // A comb of 99 teeth: 400 walls, and 2,000 piers in its back.
  std::string outline;
  for (int i = 0; i < 99; ++i) outline += "E 5', S 5', E 5', N 5', ";
  const auto plan =
      crawl(outline + "E 5', S 100', W 995', N 100'", "8\"",
            "piers: [{from: [8', 10'], every: [4', 7'], count: [200, 10], size: [16\", 16\"], kind: poured, "
            "footing: 1', known by: dug}]\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().walls.size() == 400);
  CHECK(plan->house().piers.size() == 2000);
  CHECK(plan->house().inside == plan->house().outside - ft(0, 64));
  Place all;
  all.kind = Place::Kind::all_walls;
  CHECK(within(plan->house(), all, ft(4)).stretches.size() == 400);
}
