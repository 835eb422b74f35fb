// Every method by its own measure, through the public stages. Where a figure comes from outside, the row of
// tests/published is named; what is worked out by hand stands beside the check.
#include <catch2/catch.hpp>

#include "support/published.h"
#include "support/small_house.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

PublishedRow row_of(const std::string& id) {
  for (const char* path : {"tests/published/arithmetic.csv", "tests/published/arithmetic-derived.csv"})
    for (PublishedRow& row : published_rows(path))
      if (row.id == id) return std::move(row);
  throw std::runtime_error("no row " + id);
}

std::string line(const std::string& method, const std::string& more) {
  return "{id: x, preventive: yes, do: " + method + more + "}";
}

const std::string crew = R"(crew:
  people: 2
  set-up minutes: 0
  tips: [{at: trench, sec per gal: 30}, {at: rod, sec per gal: 30}, {at: slab hole, sec per gal: 30}, {at: void hole, sec per gal: 30}, {at: wood, sec per gal: 30}]
  pace: [{for: trench outside, minutes: 0}, {for: trench inside, minutes: 0}, {for: rod hole, minutes: 0}, {for: slab hole, minutes: 1}, {for: void hole, minutes: 1}]
)";

}  // namespace

TEST_CASE("bait stations round 150 ft, at most 20 ft apart, are 8: row C35a") {
  const PublishedRow row = row_of("C35a");
  SmallHouse house;
  house.outline = "E 40', S 35', W 40', N 35'";  // 150 ft round
  house.work = line("set bait stations", "");
  const PlannedHouse p(house);
  CHECK(p.survey().outside == Length::feet(150));
  CHECK(Ratio(p.only(RunKind::stations).count) == row.expected);
  CHECK(p.only(RunKind::stations).points.size() == 8);
  CHECK(stations_of(Length::feet(150), Length::feet(20), true) == 8);
}

TEST_CASE("stations leave out what is paved, and a gap longer than the spacing is told") {
  SmallHouse house;
  house.work = line("set bait stations", "");
  house.more = "      slabs: [{name: drive, fill: soil, along: \"wall 1 10' to 22'\", deep: 10'}]\n";
  const PlannedHouse p(house);
  const Run& run = p.only(RunKind::stations);
  CHECK(run.length == Length::feet(140 - 12));
  CHECK(run.count == 8);  // one open chain of 128 ft: 6.4, rounded up, and one more: there is one at either end
  CHECK(run.gaps == std::vector{Stretch{1, Length::feet(10), Length::feet(22)}});
  CHECK(p.told_of(Rule::station_gap) == 0);
  house.more = "      slabs: [{name: drive, fill: soil, along: \"wall 1 10' to 31'\", deep: 10'}]\n";
  CHECK(PlannedHouse(house).told_of(Rule::station_gap) == 1);
  // exactly the spacing is no gap
  house.more = "      slabs: [{name: drive, fill: soil, along: \"wall 1 10' to 30'\", deep: 10'}]\n";
  CHECK(PlannedHouse(house).told_of(Rule::station_gap) == 0);
}

TEST_CASE("a label's own spacing of stations wins, and a line may only be closer") {
  SmallHouse house;
  house.work = line("set bait stations", "");
  house.label = "{soil depth: 0\", station spacing: 10'}";
  CHECK(PlannedHouse(house).only(RunKind::stations).count == 14);
  house.work = line("set bait stations", ", spacing: 7'");
  CHECK(PlannedHouse(house).only(RunKind::stations).count == 20);
  house.work = line("set bait stations", ", spacing: 12'");
  CHECK(PlannedHouse(house).told_of(Rule::too_wide) == 1);
}

TEST_CASE("fumigation fills length x width x height: rows C32a, C32c and C33") {
  for (const auto& [id, outline] :
       {std::pair{"C32a", "E 40', S 60', W 40', N 60'"}, std::pair{"C32c", "E 20', S 40', W 20', N 40'"}}) {
    const PublishedRow row = row_of(id);
    SmallHouse house;
    house.outline = outline;
    house.foundation = "monolithic slab, wall height: " + row.inputs.at("height_ft") + "'";
    house.work = line("fumigate", "");
    const PlannedHouse p(house);
    CHECK(p.only(RunKind::air_volume).cu_ft == row.expected);
    if (row.id != "C32c") continue;
    const PublishedRow price = row_of("C33");  // 8,000 cu ft at $200.00 a thousand
    CHECK(p.estimate().total == Money{(price.expected * Ratio(100)).rounded()});
  }
}

TEST_CASE("half of a roof and the crawl space belong to the air") {
  SmallHouse house;
  house.foundation = "crawl space, crawl height: 2', wall height: 9', roof height: 8'";
  house.work = line("fumigate", "");
  CHECK(PlannedHouse(house).only(RunKind::air_volume).cu_ft == Ratio(40 * 30 * (2 + 9 + 4)));
  house.foundation = "crawl space, crawl height: 2'";
  CHECK(PlannedHouse(house).told_of(Rule::no_measure) == 1);
}

TEST_CASE("1.5 pt treat a cubic foot of wood: rows C34a, C34b, W22a and W22b") {
  for (const char* id : {"C34a", "W22a", "W22b"}) {
    const PublishedRow row = row_of(id);
    std::string size = row.inputs.at("nominal");
    size = size.substr(0, size.find(' '));
    SmallHouse house;
    house.work = line("spray wood", ", lumber: [{size: " + size + ", length: " + row.inputs.at("length_ft") + "'}]");
    const PlannedHouse p(house);
    const Ratio volume = p.only(RunKind::wood_volume).cu_ft;
    INFO(id << ", source: " << row.source);
    CHECK((volume > row.expected ? volume - row.expected : row.expected - volume) <= row.tolerance);
    if (row.id == "C34a")  // a cubic foot takes what C34b says, 8 pt to the gallon
      CHECK(p.only(RunKind::wood_volume).exact_gallons * Ratio(8) == row_of("C34b").expected);
  }
}

TEST_CASE("at 2 gal a minute 10 ft, 1 ft deep, are pumped in 2 minutes: row C42") {
  const PublishedRow row = row_of("C42");
  SmallHouse house;
  house.work = line("treat soil", ", walls: [\"1 5' to 15'\"], sides: outside");
  house.company = crew;  // 30 s a gal is 2 gal a minute
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::soil_outside).pump_seconds / Ratio(60) == row.expected);
  CHECK(p.treatment().timed);
}

TEST_CASE("inside at evidence, 3 ft to each side are 6 ft and 2.4 gal: rows C43a and C43b") {
  SmallHouse house;
  house.findings =
      "{no: 1, kind: evidence, in: house, at: wall 2 at 15', where: sill, organism: subterranean termites, state: "
      "past, earlier treatment: {visible: no}}";
  house.work = "{id: x, answers: [1], do: treat soil, near: [1], sides: inside}";
  house.label = "{soil depth: 0\", spot each side: 3'}";
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::soil_inside).length.in_feet() == row_of("C43a").expected);
  CHECK(p.only(RunKind::soil_inside).gallons == row_of("C43b").expected);
  house.label = "{soil depth: 0\"}";  // without a label's word the form's distance holds: 4 ft to each side
  CHECK(PlannedHouse(house).only(RunKind::soil_inside).length == Length::feet(8));
}

TEST_CASE("backfill takes a gallon a cubic foot, a quarter more than the trench") {
  // treatment by 1 gal / cu ft of a trench 6 in wide: 5 gal per 10 ft per ft of depth (derived from the label's rate)
  SmallHouse house;
  house.work = line("treat soil by backfill", ", walls: [\"1 5' to 15'\"], sides: outside");
  const Run run = PlannedHouse(house).only(RunKind::soil_outside);
  CHECK(run.backfill);
  CHECK(run.gallons == Ratio(5));
  CHECK(run.rod_holes == 0);
}

TEST_CASE("soil under a whole slab goes by its area: 1 gal for 10 sq ft, 1.5 over gravel (rates of C7a and C7b)") {
  SmallHouse house;
  house.more =
      "      slabs: [{name: porch, fill: soil, along: \"wall 1 10' to 22'\", deep: 6'}, {name: patio, fill: gravel, "
      "along: \"wall 3 0' to 10'\", deep: 8'}]\n";
  house.work = line("treat soil below slab", ", at: [slab porch, slab patio]");
  const auto runs = PlannedHouse(house).of(RunKind::under_slab);
  REQUIRE(runs.size() == 2);
  CHECK(runs[0].gallons == Ratio(72, 10));
  CHECK(runs[1].gallons == Ratio(12));
}

TEST_CASE("a bath trap is treated by the area of its opening") {
  SmallHouse house;
  house.more = "      marks: [{kind: bath trap, name: bath, at: [10', 10'], size: [2', 18\"]}]\n";
  house.work = line("treat bath trap", "");
  const Run run = PlannedHouse(house).only(RunKind::bath_traps);
  CHECK(run.gallons == Ratio(3));
  CHECK(run.count == 1);
  house.more = "";
  CHECK(PlannedHouse(house).told_of(Rule::no_measure) == 1);
}

TEST_CASE("joints and pipes are drilled where a line names them") {
  SmallHouse house;
  house.foundation = "floating slab";
  house.more =
      "      marks: [{kind: expansion joint, name: door joint, at: [0', 10'], to: [20', 10']}, {kind: pipe, name: "
      "drain, at: [5', 5']}]\n";
  house.work = line("drill and treat slab", ", at: [mark door joint, mark drain]");
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::joints).length == Length::feet(20));
  CHECK(p.only(RunKind::joints).holes == 21);
  CHECK(p.only(RunKind::joints).gallons == Ratio(8));
  CHECK(p.only(RunKind::pipes).holes == 1);
  CHECK(p.only(RunKind::pipes).gallons == Ratio(4, 10));  // one hole has the share of one spacing
}

TEST_CASE("a label's own dose a hole wins over the rate: 0.5 gal at 12 in (permethrin 13.3 % label)") {
  SmallHouse house;
  house.foundation = "floating slab";
  house.work = line("drill and treat slab", ", walls: [\"1 5' to 15'\"]");
  CHECK(PlannedHouse(house).only(RunKind::slab).gallons == Ratio(4));
  house.label = "{soil depth: 0\", gal per slab hole: 0.5}";
  const Run run = PlannedHouse(house).only(RunKind::slab);
  CHECK(run.holes == 11);
  CHECK(run.gallons == Ratio(55, 10));
}

TEST_CASE("where paving lies along a wall its length is drilled and not trenched, never both") {
  SmallHouse house;
  house.walls =
      R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 12", inside: 12", known by: dug}}, {walls: 2, adjoins: slab})";
  house.work =
      "{id: x, preventive: yes, do: treat soil, walls: all, sides: outside}, {id: y, preventive: yes, do: drill and "
      "treat slab, walls: 2}";
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::soil_outside).length == Length::feet(110));
  CHECK(p.only(RunKind::slab).length == Length::feet(30));
}

TEST_CASE("a wall beside the neighbor's house has no soil outside") {
  SmallHouse house;
  house.walls =
      R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 12", inside: 12", known by: dug}}, {walls: 2, adjoins: neighbor})";
  house.work = line("treat soil", ", walls: all");
  const PlannedHouse p(house);
  CHECK(p.survey().outside == Length::feet(110));
  CHECK(p.only(RunKind::soil_outside).length == Length::feet(110));
  CHECK(p.only(RunKind::soil_inside).length == p.survey().inside);
}

TEST_CASE("an earth-filled porch has outer walls of its own, and says how deep they go") {
  SmallHouse house;
  house.more =
      "      slabs: [{name: porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6', footing: 18\", known by: "
      "dug}]\n";
  house.label = "{soil depth: 30\"}";
  house.work = line("treat soil", ", walls: all, sides: outside");
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::soil_outside).length == Length::feet(128));
  CHECK(p.only(RunKind::soil_porches).length == Length::feet(24));
  CHECK(p.only(RunKind::soil_porches).gallons == Ratio(144, 10));
  house.more = "      slabs: [{name: porch, fill: earth, along: \"wall 1 10' to 22'\", deep: 6'}]\n";
  CHECK(PlannedHouse(house).told_of(Rule::footing_unsaid) == 1);
}

TEST_CASE("both faces of a partition are soil, and the walls it meets lose its thickness") {
  SmallHouse house;
  house.more =
      "      partitions: [{name: spine, from: [20', 0'], to: [20', 30'], thick: 8\", footing: 12\", known by: dug}]\n";
  house.work = line("treat soil", ", walls: all, sides: inside");
  const PlannedHouse p(house);
  // 30 ft less two walls of 8 in, on two faces; the inside of 134'8" loses 8 in twice
  CHECK(p.only(RunKind::soil_partitions).length == Length::inches(2 * (360 - 16)));
  CHECK(p.only(RunKind::soil_inside).length == Length::inches(1680 - 64 - 16));
}

TEST_CASE("pilasters add their two sides") {
  SmallHouse house;
  house.more =
      "      pilasters: [{name: ribs, kind: pilaster, at: [wall 1 at 10', wall 1 at 20', wall 3 at 10'], side: inside, "
      "wide: 16\", deep: 8\", footing: 12\", known by: dug}]\n";
  house.work = line("treat soil", ", walls: all, sides: inside");
  CHECK(PlannedHouse(house).only(RunKind::soil_pilasters).length == Length::inches(3 * 16));
  house.work = line("treat soil", ", walls: [3], sides: inside");
  CHECK(PlannedHouse(house).only(RunKind::soil_pilasters).count == 1);
  house.work = line("treat soil", ", walls: all, sides: outside");
  CHECK(PlannedHouse(house).of(RunKind::soil_pilasters).empty());
}

TEST_CASE("a sloping footing is reckoned by its mean depth, held by the label and the floor") {
  SmallHouse house;
  house.walls =
      R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 12", outside to: 36", inside: 12", known by: dug}})";
  house.work = line("treat soil", ", walls: [1], sides: outside");
  house.label = "{soil depth: 10'}";
  Run run = PlannedHouse(house).only(RunKind::soil_outside);
  CHECK(run.depth == Length::feet(1));
  CHECK(run.depth_to == Length::feet(3));
  CHECK(run.reckoned_depth == Length::feet(2));
  CHECK(run.gallons == Ratio(32));  // 40 ft x 2 ft x 0.4
  // The label asks 2 ft: the slope from 1 to 2 ft over the first half, 2 ft over the second, 1.75 ft in the mean.
  house.label = "{soil depth: 2'}";
  run = PlannedHouse(house).only(RunKind::soil_outside);
  CHECK(run.reckoned_depth == Length::inches(21));
  CHECK(run.gallons == Ratio(28));
  // Two halves are as much as the whole, in one run.
  house.work = line("treat soil", ", walls: [\"1 0' to 20'\", \"1 20' to 40'\"], sides: outside");
  CHECK(PlannedHouse(house).only(RunKind::soil_outside).gallons == Ratio(28));
  house.work = line("treat soil", ", walls: [\"1 0' to 20'\"], sides: outside");
  CHECK(PlannedHouse(house).only(RunKind::soil_outside).reckoned_depth == Length::inches(18));
}

TEST_CASE("a trench holds its own share, and what lies deeper is rodded hole by hole") {
  SmallHouse house;
  house.walls = R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 30", inside: 12", known by: dug}})";
  house.label = "{soil depth: 30\"}";
  house.work = line("treat soil", ", walls: [\"1 5' to 15'\"], sides: outside");
  const Run run = PlannedHouse(house).only(RunKind::soil_outside);
  CHECK(run.gallons == Ratio(10));
  CHECK(run.trench_gallons == Ratio(2));  // 6 in of 30
  CHECK(run.rod_gallons == Ratio(8));
  CHECK(run.rod_holes == 11);  // 10 ft, at most 12 in apart
}

TEST_CASE("half the volume at double strength is for clay and for a label that says so: rows C25a and C25b") {
  SmallHouse house;
  house.soil = "clay";
  house.product = "lb per gal: 2, finished percent: 0.05";
  house.label = "{soil depth: 0\", allows: [{what: half volume in clay, cite: invented label}]}";
  house.work = line("treat soil", ", walls: [\"1 5' to 15'\"], sides: outside");
  const PlannedHouse whole(house);
  house.work = line("treat soil", ", walls: [\"1 5' to 15'\"], sides: outside, half volume: yes");
  const PlannedHouse half(house);
  CHECK(whole.treatment().gallons == Ratio(4));
  CHECK(half.treatment().gallons == Ratio(2));
  // The same pounds of active ingredient lie in 4 gal at 0.05 % and in 2 gal at 0.1 %.
  REQUIRE(half.treatment().mixes.size() == 1);
  CHECK(*whole.treatment().mixes[0].active_lb == row_of("C25a").expected);
  CHECK(*half.treatment().mixes[0].active_lb == row_of("C25b").expected);
  CHECK(half.treatment().mixes[0].exact_fl_oz == whole.treatment().mixes[0].exact_fl_oz);
  house.soil = "loam";
  CHECK(PlannedHouse(house).told_of(Rule::label_silent) == 1);
  house.soil = "clay";
  house.label = "{soil depth: 0\"}";
  CHECK(PlannedHouse(house).told_of(Rule::label_silent) == 1);
}

TEST_CASE("overall treatment of a crawl space is off unless the label is cited") {
  SmallHouse house;
  house.work = line("treat crawl space overall", "");
  CHECK(PlannedHouse(house).told_of(Rule::label_silent) == 1);
  house.label = "{soil depth: 0\", allows: [{what: overall crawl space, cite: invented label}]}";
  const PlannedHouse p(house);
  CHECK(p.told_of(Rule::label_silent) == 0);
  // 38'8" x 28'8" inside: 1108.4 sq ft
  CHECK(p.only(RunKind::crawl_soil).sq_ft == Ratio(11084, 10));
  CHECK(p.only(RunKind::crawl_soil).gallons == Ratio(1108, 10));
}

TEST_CASE("sheets of a vapor retarder lie over each other by what the form asks (24 CFR 3285.204: 12 in)") {
  SmallHouse house;
  house.work = line("lay vapor retarder", "");
  house.company = "retarder sheet: 12'\n";
  // 1108.4 sq ft x 12 / 11
  CHECK(PlannedHouse(house).only(RunKind::crawl_cover).sq_ft == Ratio(12092, 10));
  house.company = "";
  CHECK(PlannedHouse(house).told_of(Rule::no_measure) == 1);
}

TEST_CASE("borate goes by the square feet that the label's gallon coats, and by coats") {
  SmallHouse house;
  house.work = line("treat wood with borate", ", sq ft: 300, coats: 2");
  house.label = "{soil depth: 0\", sq ft per gal: 200}";
  const PlannedHouse p(house);
  CHECK(p.only(RunKind::wood_surface).gallons == Ratio(3));
  CHECK(p.estimate().total == Money{75000});  // 600 sq ft of coat
  house.label = "{soil depth: 0\"}";
  CHECK(PlannedHouse(house).told_of(Rule::no_measure) == 1);
}

TEST_CASE("soil taken out goes by its volume") {
  SmallHouse house;
  house.work = line("dig soil lower", ", sq ft: 90, depth: 8\"");
  CHECK(PlannedHouse(house).only(RunKind::soil_removal).cu_ft == Ratio(60));
}

TEST_CASE("products of an option's lines are mixed apart") {
  SmallHouse house;
  house.company = "";
  house.label = "{soil depth: 0\", sq ft per gal: 200}";
  house.work =
      "{id: x, preventive: yes, do: treat soil, walls: [\"1 5' to 15'\"], sides: outside}, {id: y, preventive: yes, "
      "do: treat wood with borate, sq ft: 400, product: q}";
  std::string company = house.company_yaml();
  company = edited(company, "warranties: []",
                   "  - {id: q, name: Q, active ingredient: borate, fl oz per 100 gal: 6400, packages: [{fl oz: 128, "
                   "cost: $50.00}], label: {soil depth: 0\", sq ft per gal: 200}}\nwarranties: []");
  const CaseRun run({.case_yaml = house.case_yaml(), .company_yaml = company, .form_yaml = house.form});
  INFO(told(run.faults));
  REQUIRE(run.treatments.size() == 1);
  const auto& mixes = run.treatments[0].mixes;
  REQUIRE(mixes.size() == 2);
  CHECK(mixes[0].gallons == Ratio(4));
  CHECK(mixes[1].gallons == Ratio(2));
  CHECK(mixes[1].exact_fl_oz == Ratio(128));
  CHECK(mixes[1].packages_used == Ratio(1));
  CHECK(mixes[1].cost == Money{5000});
  CHECK(mixes[1].loads.at(0).water == Ratio(1));
}
