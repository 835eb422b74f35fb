// Facts of common practice, each a row of its own, through the public stages: reading, measuring, planning, pricing.
// None of them has a source; they are what a working estimator expects.
#include <catch2/catch.hpp>
#include <set>

#include "support/case_harness.h"
#include "support/published.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

/// A rectangle on a crawl space with the work given, and a company as given.
std::string house(const std::string& outline, const std::string& walls, const std::string& piers,
                  const std::string& work) {
  return R"(format: 1
form: us-general
case: {number: "1", revision: 1, purpose: owner's request}
people: {inspector: {name: A. Test}, owner: {name: B. Test}}
property:
  address: {street: 1 Alder Way, city: Wrenfield, state: NC, zip: "27000"}
  structures:
    - name: house
      soil: loam
      parts: [{name: main, foundation: crawl space, crawl height: 30", outline: [)" +
         outline + R"(]}]
      walls: [)" +
         walls + "]\n" + piers + R"(
visits: [{id: one, date: 2026-03-05}]
findings: []
work: [)" +
         work + R"(]
options: [{id: full, work: all, product: p, warranty: none}]
)";
}

std::string company(const std::string& label_depth = "0\"", const std::string& more = "") {
  return R"(format: 1
name: Test
address: Test
phone: "1"
license: {number: "1", phases: [W], holder: T, expires: 2027-01-01}
rates:
  - {do: treat soil, per: ft, price: $2.00}
  - {do: treat soil, per: each, price: $10.00}
  - {do: drill and treat voids, per: hole, price: $5.00}
  - {do: drill and treat slab, per: hole, price: $5.00}
products:
  - {id: p, name: P, active ingredient: exampline, fl oz per 100 gal: 27.5, packages: [{fl oz: 64}], label: {soil depth: )" +
         label_depth + R"(}}
warranties: []
tank: 150
price holds: 30
)" + more;
}

struct Planned {
  CaseRun run;
  explicit Planned(std::string case_yaml, std::string company_yaml = company(),
                   std::string form_yaml = file_text("forms/us-general.yaml"))
      : run({.case_yaml = std::move(case_yaml),
             .company_yaml = std::move(company_yaml),
             .form_yaml = std::move(form_yaml)}) {
    INFO(told(run.faults));
    REQUIRE(run.treatments.size() == 1);
  }
  const Treatment& treatment() const { return run.treatments.front(); }
};

const std::string shallow =
    R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 12", inside: 12", known by: dug}})";
const std::string rectangle = "E 76', S 30', W 76', N 30'";
const std::string as_outside = "bidding: {inside: as outside}\n";

}  // namespace

TEST_CASE("4 gal per 10 linear feet per foot of depth (common practice, no source)") {
  const Planned p(house("E 10', S 30', W 10', N 30'", shallow, "",
                        "{id: s, preventive: yes, do: treat soil, walls: 1, sides: outside}"));
  CHECK(p.treatment().gallons == Ratio(4));
}

TEST_CASE(
    "three times as much where the footing is 3 ft down and the label asks that depth (common practice, no source)") {
  const std::string deep =
      R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 3', inside: 3', known by: dug}})";
  const Planned p(house("E 10', S 30', W 10', N 30'", deep, "",
                        "{id: s, preventive: yes, do: treat soil, walls: 1, sides: outside}"),
                  company("3'"));
  CHECK(p.treatment().gallons == Ratio(12));
}

TEST_CASE("a 30-ft wall with a shallow footing takes 12 gal outside (common practice, no source)") {
  const Planned p(house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: 2, sides: outside}"));
  CHECK(p.treatment().gallons == Ratio(12));
}

TEST_CASE("a 30-ft wall with a shallow footing takes 24 gal on both sides (common practice, no source)") {
  const Planned p(house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: 2, sides: both}"),
                  company("0\"", as_outside));
  CHECK(p.treatment().gallons == Ratio(24));
}

TEST_CASE("both faces of 30 by 76 ft by its outside size are 424 ft (common practice, no source)") {
  const Planned p(house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: all}"),
                  company("0\"", as_outside));
  Length sum;
  for (const Run& r : p.treatment().runs) sum += r.length;
  CHECK(sum == Length::feet(424));
}

TEST_CASE("424 ft are bid as 430 ft with one visible allowance, and 172 gal (common practice, no source)") {
  const Planned p(house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: all}"),
                  company("0\"", "bidding: {inside: as outside, round up to: 10'}\n"));
  Length sum;
  int allowances = 0;
  for (const Run& r : p.treatment().runs) {
    sum += r.length;
    if (r.kind == RunKind::allowance) {
      ++allowances;
      CHECK(r.length == Length::feet(6));
    }
  }
  CHECK(allowances == 1);
  CHECK(sum == Length::feet(430));
  CHECK(p.treatment().gallons == Ratio(172));
}

TEST_CASE(
    "38 piers entered at 1.5 gal are 57 gal, with a warning that they compute to 81 (common practice, no source)") {
  const std::string piers = R"(
      piers:
        - {from: [4', 10'], every: [4', 10'], count: [17, 2], size: [16", 16"], kind: solid masonry, footing: 12", known by: dug, gal_each: 1.5}
        - {at: [[4', 25'], [8', 25'], [12', 25'], [16', 25']], size: [16", 16"], kind: solid masonry, footing: 12", known by: dug, gal_each: 1.5}
)";
  const Planned p(house(rectangle, shallow, piers, "{id: s, preventive: yes, do: treat soil, piers: all}"));
  REQUIRE(p.treatment().runs.size() == 1);
  CHECK(p.treatment().runs[0].count == 38);
  CHECK(p.treatment().gallons == Ratio(57));
  CHECK(p.treatment().runs[0].computed_gallons.rounded() == 81);
  int warnings = 0;
  for (const Diagnostic& d : p.run.faults.all())
    if (d.rule == Rule::too_little) {
      ++warnings;
      CHECK(d.what == "57.0 gal for 38 piers is less than the 81.1 gal computed");
    }
  CHECK(warnings == 1);
}

TEST_CASE("27.5 fl oz per 100 gal makes 67.4 fl oz for 245 gal (common practice, no source)") {
  // 612.5 ft of outside wall, 1 ft deep, are 245 gal.
  const Planned p(house("E 200', S 106'3\", W 200', N 106'3\"", shallow, "",
                        "{id: s, preventive: yes, do: treat soil, walls: all, sides: outside}"));
  REQUIRE(p.treatment().gallons == Ratio(245));
  REQUIRE(p.treatment().mixes.size() == 1);
  CHECK(decimal(p.treatment().mixes[0].fl_oz, 1) == "67.4");
}

TEST_CASE("at 1 gal in 11 s, 4 gal take 44 s and 12 gal 132 s (common practice, no source)") {
  const std::string crew =
      "crew: {people: 2, set-up minutes: 0, tips: [{at: trench, sec per gal: 11}, {at: rod, sec per gal: 11}], pace: "
      "[{for: trench outside, minutes: 0}, {for: rod hole, minutes: 0}]}\n";
  const auto seconds = [&](const std::string& feet) {
    const Planned p(house("E " + feet + ", S 30', W " + feet + ", N 30'", shallow, "",
                          "{id: s, preventive: yes, do: treat soil, walls: 1, sides: outside}"),
                    company("0\"", crew));
    return p.treatment().runs.at(0).pump_seconds;
  };
  CHECK(seconds("10'") == Ratio(44));
  CHECK(seconds("30'") == Ratio(132));
}

TEST_CASE(
    "piers bid at 1, 1.5 and 2.5 gal by size are less than is computed: both are shown, with a warning "
    "(common practice, no source)") {
  struct Bid {
    const char *size, *each, *computed;
  };
  for (const Bid& bid :
       {Bid{"[8\", 16\"]", "1", "1.6"}, Bid{"[16\", 16\"]", "1.5", "2.1"}, Bid{"[24\", 24\"]", "2.5", "3.2"}}) {
    const Planned p(house(rectangle, shallow,
                          "\n      piers: [{at: [[20', 15']], size: " + std::string(bid.size) +
                              ", kind: solid masonry, footing: 12\", known by: dug, gal_each: " + bid.each + "}]\n",
                          "{id: s, preventive: yes, do: treat soil, piers: all}"));
    const Run& run = p.treatment().runs.at(0);
    CHECK(decimal(run.computed_gallons, 1) == bid.computed);
    CHECK(run.gallons == *read_number(bid.each));
    int warnings = 0;
    for (const Diagnostic& d : p.run.faults.all())
      if (d.rule == Rule::too_little) {
        ++warnings;
        CHECK(d.what.find(bid.computed) != std::string::npos);
      }
    CHECK(warnings == 1);
  }
}

TEST_CASE("245 gal are 2 loads of a 150-gal tank (common practice, no source)") {
  const Planned p(house("E 200', S 106'3\", W 200', N 106'3\"", shallow, "",
                        "{id: s, preventive: yes, do: treat soil, walls: all, sides: outside}"));
  REQUIRE(p.treatment().mixes.size() == 1);
  const auto& loads = p.treatment().mixes[0].loads;
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].gallons == Ratio(150));
  CHECK(loads[1].gallons == Ratio(95));
}

TEST_CASE(
    "two people take 4.5 to 5 hours for a full crawl-space treatment of about 420 ft, at the example company's "
    "rates (common practice, no source)") {
  std::string text = house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: all}");
  text = edited(text, "product: p", "product: example-fipronil");
  const CaseRun run({.case_yaml = text,
                     .company_yaml = file_text("examples/company.yaml"),
                     .form_yaml = file_text("forms/us-general.yaml")});
  INFO(told(run.faults));
  REQUIRE(run.treatments.size() == 1);
  const Treatment& t = run.treatments[0];
  Length feet;
  for (const Run& r : t.runs) feet += r.length;
  CHECK(feet > Length::feet(410));
  CHECK(feet < Length::feet(430));
  CHECK(t.timed);
  CHECK(*run.company->crew->people == 2);
  INFO(shortest(t.crew_hours, 2));
  CHECK(t.crew_hours >= Ratio(45, 10));
  CHECK(t.crew_hours <= Ratio(5));
}

TEST_CASE("voids are drilled within 4 ft of evidence, or as far as the form says (common practice, no source)") {
  const std::string hollow =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 12", inside: 12", known by: dug}})";
  std::string text = house("E 40', S 30', W 40', N 30'", hollow, "",
                           "{id: s, answers: [1], do: treat soil, walls: all}, "
                           "{id: v, answers: [1], do: drill and treat voids, near: [1]}");
  text = edited(text, "findings: []",
                "findings: [{no: 1, kind: evidence, in: house, at: wall 1 at 20', where: sill, organism: subterranean "
                "termites, state: active, live seen: yes, basis: [live workers]}]");
  const std::string form = file_text("forms/us-general.yaml");
  const auto drilled = [&](const std::string& form_yaml) {
    const Planned p(text, company(), form_yaml);
    INFO(told(p.run.faults));
    std::vector<Run> runs;
    for (const Run& r : p.treatment().runs)
      if (r.work == "v") runs.push_back(r);
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].kind == RunKind::void_walls);
    CHECK(runs[0].length == runs[0].stretches.at(0).length());
    return runs[0].stretches;
  };
  CHECK(drilled(form) == std::vector{Stretch{1, Length::feet(16), Length::feet(24)}});
  CHECK(drilled(edited(form, "void reach: {value: 4'", "void reach: {value: 3'")) ==
        std::vector{Stretch{1, Length::feet(17), Length::feet(23)}});
}

TEST_CASE("both forms hold 4 ft from evidence as common practice (common practice, no source)") {
  for (const char* path : {"forms/us-general.yaml", "forms/us-nc.yaml"}) {
    Sources sources;
    Faults faults;
    const auto form = read_form(sources.add(path, file_text(path)), faults);
    REQUIRE(form);
    CHECK(*form->limits->void_reach->value == Length::feet(4));
    CHECK(*form->limits->void_reach->status == Status::common_practice);
  }
}

TEST_CASE("gallons are reckoned for no less depth than the form's volume floor: rows C31a and C31b") {
  std::set<std::string> found;
  for (const PublishedRow& row : published_rows("tests/published/arithmetic-derived.csv")) {
    if (!row.topic.starts_with("volume floor")) continue;
    found.insert(row.id);
    const auto feet = [&](const std::string& name) { return read_length(row.inputs.at(name)).value(); };
    const std::string along = print(feet("length_ft")), depth = print(feet("depth_ft"));
    // The label asks for more than the footing allows, so the footing alone decides the depth.
    const Planned p(house("E " + along + ", S 30', W " + along + ", N 30'",
                          "{walls: all, kind: solid masonry, thick: 8\", footing: {outside: " + depth +
                              ", inside: " + depth + ", known by: dug}}",
                          "", "{id: s, preventive: yes, do: treat soil, walls: 1, sides: outside}"),
                    company("4'"),
                    edited(edited(file_text("forms/us-general.yaml"), "volume floor: {value: 1'",
                                  "volume floor: {value: " + print(feet("floor_ft"))),
                           "soil rate: {value: 4,",
                           "soil rate: {value: " + shortest(leading_number(row.inputs.at("rate")), 4) + ","));
    INFO(row.id << ": " << row.topic << ", source: " << row.source);
    REQUIRE(p.treatment().runs.size() == 1);
    CHECK(p.treatment().runs[0].length == feet("length_ft"));
    CHECK(p.treatment().runs[0].depth == feet("depth_ft"));
    CHECK(p.treatment().gallons == row.expected);
  }
  CHECK(found == std::set<std::string>{"C31a", "C31b"});
}

TEST_CASE("a whole crawl-space job from its drawing: rows C29a to C29f (arithmetic on published rates)") {
  // Outside 30 x 40 ft, 8 in walls, ten 16 x 16 in piers, 18 in deep outside and 12 in inside; runs of
  // 02 NCAC 34 .0505(b), rates of Purdue PPP-144; the void rate is secondary.
  const std::string walls =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 18", inside: 12", known by: dug}})";
  const std::string piers = R"(
      piers: [{from: [5', 10'], every: [6', 10'], count: [5, 2], size: [16", 16"], kind: hollow block, footing: 12", known by: dug}]
)";
  const Planned p(house("E 40', S 30', W 40', N 30'", walls, piers,
                        "{id: s, preventive: yes, do: treat soil, walls: all, piers: all}, "
                        "{id: v, preventive: yes, do: drill and treat voids, walls: all}"),
                  company("4'"));
  INFO(told(p.run.faults));
  std::map<RunKind, Run> runs;
  for (const Run& r : p.treatment().runs) runs[r.kind] = r;
  CHECK(runs[RunKind::soil_outside].length == Length::feet(140));
  CHECK(runs[RunKind::soil_outside].exact_gallons == Ratio(84));           // C29b
  CHECK(print(runs[RunKind::soil_inside].length) == "134'8\"");            // C29a: 134.67 ft
  CHECK(decimal(runs[RunKind::soil_inside].exact_gallons, 2) == "53.87");  // C29c
  CHECK(decimal(runs[RunKind::soil_piers].exact_gallons, 2) == "21.33");   // C29d
  CHECK(runs[RunKind::void_walls].exact_gallons == Ratio(28));             // C29e
  CHECK(p.treatment().gallons == Ratio(1872, 10));                         // C29f
}

TEST_CASE("printed measure x printed rate is the printed amount, and the lines sum to the total") {
  const std::string walls =
      R"({walls: all, kind: hollow block, thick: 7 5/8", footing: {outside: 18", inside: 12", known by: dug}})";
  const Planned p(house("E 40'7\", S 16'3\", E 12'1\", S 12'5\", W 52'8\", N 28'8\"", walls, "",
                        "{id: s, preventive: yes, do: treat soil, walls: all}, {id: v, preventive: yes, do: drill and "
                        "treat voids, walls: 3}"));
  const Estimate& e = p.run.estimates.front();
  REQUIRE(e.lines.size() == 3);
  Money sum;
  for (const PricedLine& line : e.lines) {
    const auto printed = read_number(decimal(line.measure, decimals(line.per)));
    REQUIRE(printed);
    CHECK(*printed == line.measure);
    CHECK(Ratio(line.amount.cents) == Ratio((*printed * Ratio(line.rate.cents)).rounded()));
    sum += line.amount;
  }
  CHECK(sum == e.total);
}

TEST_CASE("splitting a wall changes no total and no hole count") {
  const std::string work =
      "{id: s, preventive: yes, do: treat soil, walls: all}, {id: v, preventive: yes, do: drill and treat voids, "
      "walls: all}";
  const std::string walls =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 18", inside: 12", known by: dug}})";
  const Planned whole(house("E 40', S 30', W 40', N 30'", walls, "", work));
  const Planned split(house("E 13'5\", E 26'7\", S 30', W 40', N 30'", walls, "", work));
  CHECK(whole.treatment().gallons == split.treatment().gallons);
  CHECK(whole.treatment().holes == split.treatment().holes);
  CHECK(whole.run.estimates.front().total == split.run.estimates.front().total);
}

TEST_CASE("where a porch adjoins, trench becomes drill length, never both") {
  const std::string walls =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 12", inside: 12", known by: dug}})";
  const std::string porch = R"(
      slabs: [{name: porch, fill: earth, along: "wall 1 10' to 22'", deep: 6'}]
)";
  const Planned p(house("E 40', S 30', W 40', N 30'", walls, porch,
                        "{id: s, preventive: yes, do: treat soil, walls: all, sides: outside}, "
                        "{id: d, preventive: yes, do: drill and treat slab, at: [slab porch]}"));
  REQUIRE(p.treatment().runs.size() == 2);
  CHECK(p.treatment().runs[0].length == Length::feet(128));
  CHECK(p.treatment().runs[1].length == Length::feet(12));
  CHECK(p.treatment().runs[1].holes == 13);  // open run at most 12 in apart: 12 / 1 + 1
}

TEST_CASE("a slab house is drilled along its inside and trenched along its outside") {
  std::string text = house("E 40', S 30', W 40', N 30'", shallow, "",
                           "{id: s, preventive: yes, do: treat soil, walls: all}, {id: d, preventive: yes, do: drill "
                           "and treat slab, walls: all}");
  text = edited(text, "foundation: crawl space, crawl height: 30\"", "foundation: monolithic slab");
  const Planned p(text);
  INFO(told(p.run.faults));
  REQUIRE(p.treatment().runs.size() == 2);
  CHECK(p.treatment().runs[0].kind == RunKind::soil_outside);
  CHECK(p.treatment().runs[0].length == Length::feet(140));
  CHECK(p.treatment().runs[1].kind == RunKind::slab);
  CHECK(print(p.treatment().runs[1].length) == "134'8\"");  // outside less 8 x the thickness
  CHECK(p.treatment().runs[1].holes == 135);                // a closed loop, at most 12 in apart
}

TEST_CASE("an estimate below the minimum charge is filled up in a line of its own") {
  const Planned p(house(rectangle, shallow, "", "{id: s, preventive: yes, do: treat soil, walls: 2, sides: outside}"),
                  company("0\"", "minimum charge: $250.00\n"));
  const Estimate& e = p.run.estimates.front();
  CHECK(e.total == Money{25000});
  REQUIRE(e.to_minimum);
  CHECK(*e.to_minimum == Money{25000 - 6000});
}
