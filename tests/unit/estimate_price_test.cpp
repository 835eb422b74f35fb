// The price explains itself: measure x rate = amount for every line, lines sum, and the choices are real treatments.
#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "estimate/choice.h"
#include "estimate/cost.h"
#include "support/published.h"
#include "support/small_house.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

const std::string costs = R"(costs: {hour: $30.00, equipment: $40.00, travel: $20.00, overhead: 20 %, margin: 25 %}
crew:
  people: 2
  set-up minutes: 30
  tips: [{at: trench, sec per gal: 11}, {at: rod, sec per gal: 15}, {at: slab hole, sec per gal: 20}, {at: void hole, sec per gal: 30}, {at: wood, sec per gal: 60}]
  pace: [{for: trench outside, minutes: 0.7}, {for: trench inside, minutes: 1}, {for: rod hole, minutes: 0.2}, {for: slab hole, minutes: 6}, {for: void hole, minutes: 3}, {for: set bait stations, minutes: 9}, {for: treat bath trap, minutes: 20}]
)";

/// What holds for every estimate, whatever the house.
void holds_together(const Treatment& t, const Estimate& e) {
  INFO("option " << t.id);
  Money lines;
  for (const PricedLine& line : e.lines) {
    const Ratio printed = *read_number(decimal(line.measure, decimals(line.per)));
    CHECK(printed == line.measure);
    CHECK(times(printed, line.rate) == line.amount);
    CHECK(line.rate.cents > 0);
    lines += line.amount;
  }
  CHECK(e.lines_total == lines);
  Money total = lines;
  for (const AdjustedLine& a : e.adjustments) total += a.amount;
  if (e.to_minimum) total += *e.to_minimum;
  for (const TaxLine& tax : e.taxes) {
    CHECK(tax.amount == share_of(tax.base, tax.percent));
    total += tax.amount;
  }
  CHECK(e.total == total);
  Ratio gallons, mixed;
  int holes = 0;
  for (const Run& run : t.runs) gallons += run.gallons, holes += run.holes;
  for (const Mix& mix : t.mixes) mixed += mix.gallons;
  CHECK(gallons == t.gallons);
  CHECK(holes == t.holes);
  if (!t.mixes.empty()) CHECK(mixed == t.gallons);
}

std::string inches(int n) { return std::to_string(n) + "\""; }

SmallHouse random_house(std::mt19937& random) {
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
  SmallHouse house;
  const int w = pick(200, 900), h = pick(200, 600);
  house.outline = "E " + inches(w) + ", S " + inches(h) + ", W " + inches(w) + ", N " + inches(h);
  house.walls = R"({walls: all, kind: hollow block, thick: 8", footing: {outside: )" + inches(pick(4, 60)) +
                ", inside: " + inches(pick(4, 60)) + ", known by: dug}}";
  const int a = pick(0, w - 60);
  house.more = "      slabs: [{name: porch, fill: earth, along: wall 1 " + std::to_string(a) + " in to " +
               std::to_string(a + 48) + " in, deep: " + inches(pick(30, 120)) + ", footing: " + inches(pick(6, 40)) +
               ", known by: dug}]\n";
  house.label = "{soil depth: " + inches(pick(0, 48)) + "}";
  house.work =
      "{id: s, preventive: yes, do: treat soil, walls: all}, {id: v, preventive: yes, do: drill and treat voids, "
      "walls: [2]}, {id: d, preventive: yes, do: drill and treat slab, at: [slab porch]}, {id: b, preventive: yes, do: "
      "set bait stations}";
  house.company = costs + (pick(0, 1) ? "pricing: cost\n" : "pricing: measure\n") +
                  "tax: [{percent: " + std::to_string(pick(1, 20)) +
                  ", on: [drill and treat voids, set bait stations]}]\n" + "minimum charge: $" +
                  std::to_string(pick(100, 2000)) + ".00\n";
  return house;
}

}  // namespace

TEST_CASE("every line of 1,000 generated cases is measure x rate = amount, and the lines sum") {
  std::mt19937 random(20260510);
  int by_cost = 0, lines = 0;
  for (int i = 0; i < 1000; ++i) {
    SmallHouse house = random_house(random);
    std::string text = house.case_yaml() + "adjustments: [{for: hard soil, percent: " + std::to_string(i % 40) +
                       ", because: clay}, {for: discount, amount: $25.00, because: a neighbor}]\n";
    const CaseRun run({.case_yaml = text, .company_yaml = house.company_yaml(), .form_yaml = house.form});
    INFO("case " << i << "\n" << told(run.faults));
    REQUIRE(run.treatments.size() == 1);
    REQUIRE(run.faults.errors() == 0);
    holds_together(run.treatments[0], run.estimates[0]);
    by_cost += run.estimates[0].way == Way::cost;
    lines += static_cast<int>(run.estimates[0].lines.size());
  }
  CHECK(by_cost > 300);
  CHECK(lines > 5000);
}

TEST_CASE("every line of every example is measure x rate = amount, and its options share one survey") {
  int options = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(SOUNDSILL_ROOT) + "/examples")) {
    if (!std::filesystem::exists(entry.path() / "case.yaml")) continue;
    const std::string text = file_text("examples/" + entry.path().filename().string() + "/case.yaml");
    const auto form = text.find("form: us-");
    const std::string id = text.substr(form + 6, text.find_first_of(" \n", form + 6) - form - 6);
    const CaseRun run({.case_yaml = text,
                       .company_yaml = file_text("examples/company.yaml"),
                       .form_yaml = file_text("forms/" + id + ".yaml")});
    INFO(entry.path() << "\n" << told(run.faults));
    CHECK(run.faults.errors() == 0);
    for (std::size_t i = 0; i < run.treatments.size(); ++i) {
      holds_together(run.treatments[i], run.estimates[i]);
      for (const Run& r : run.treatments[i].runs)
        for (const Stretch& s : r.stretches) CHECK(s.b <= run.survey.find(r.structure)->wall(s.wall)->length);
      ++options;
    }
  }
  CHECK(options >= 14);
}

TEST_CASE("80 ft round a house at $8.00 and $15.00 a foot: rows C10a and C10b") {
  int found = 0;
  for (const PublishedRow& row : published_rows("tests/published/arithmetic.csv")) {
    if (row.id != "C10a" && row.id != "C10b") continue;
    ++found;
    SmallHouse house;
    house.outline = "E 20', S 20', W 20', N 20'";
    house.work = "{id: s, preventive: yes, do: treat soil, walls: all, sides: outside}";
    std::string company =
        edited(house.company_yaml(), "{do: treat soil, per: ft, price: $2.00}",
               "{do: treat soil, per: ft, price: $" + decimal(leading_number(row.inputs.at("rate")), 2) + "}");
    const CaseRun run({.case_yaml = house.case_yaml(), .company_yaml = company, .form_yaml = house.form});
    INFO(row.id << ", source: " << row.source);
    CHECK(run.estimates.at(0).total == Money{(row.expected * Ratio(100)).rounded()});
  }
  CHECK(found == 2);
}

TEST_CASE("about $1.65 a foot of treated face is the example company's price (common practice, no source)") {
  SmallHouse house;
  house.outline = "E 76', S 30', W 76', N 30'";
  house.work = "{id: s, preventive: yes, do: treat soil, walls: all}";
  const CaseRun run({.case_yaml = edited(house.case_yaml(), "product: p", "product: example-fipronil"),
                     .company_yaml = file_text("examples/company.yaml"),
                     .form_yaml = house.form});
  REQUIRE(run.estimates.size() == 1);
  Ratio feet;
  for (const PricedLine& line : run.estimates[0].lines) feet += line.measure;
  CHECK(run.estimates[0].total == times(feet, Money{165}));
}

TEST_CASE("by cost, product, hours, equipment, travel and overhead are carried with the margin asked") {
  SmallHouse house;
  house.work = "{id: s, preventive: yes, do: treat soil, walls: [1], sides: outside}";
  house.company = costs + "pricing: cost\n";
  house.label = "{soil depth: 30\"}";
  const PlannedHouse p(house);
  INFO(told(p.run.faults));
  REQUIRE(p.estimate().cost);
  const Cost& cost = *p.estimate().cost;
  // 16 gal at 64 fl oz / 100 gal are 10.24 fl oz of an $80.00 package of 64: $12.80
  CHECK(cost.product == Money{1280});
  // 40 ft x 0.7 + 41 rod holes x 0.2 + 8 gal x 11 s + 8 gal x 15 s + 2 x 30 min = 99.667 min at $30.00
  CHECK(cost.labor == Money{4983});
  CHECK(cost.equipment == Money{4000});
  CHECK(cost.travel == Money{2000});
  CHECK(cost.overhead == Money{2453});  // 20 % of 122.63
  CHECK(cost.sum() == Money{14716});
  CHECK(cost.price == Money{19621});  // / 0.75
  REQUIRE(p.estimate().lines.size() == 1);
  CHECK(p.estimate().lines[0].rate == Money{491});  // 196.21 / 40.0
  CHECK(p.estimate().total == Money{19640});
  CHECK(p.estimate().by_measure == Money{8000});
  house.company = "pricing: cost\n";
  CHECK(PlannedHouse(house).told_of(Rule::no_cost) == 1);
}

TEST_CASE("adjustments are reckoned on the lines, the minimum charge on what is left, tax on its lines") {
  SmallHouse house;
  house.work =
      "{id: s, preventive: yes, do: treat soil, walls: [1], sides: outside}, {id: v, preventive: yes, do: drill and "
      "treat voids, walls: [2]}";
  house.walls = edited(house.walls, "solid masonry", "hollow block");
  house.company = "minimum charge: $50.00\ntax: [{percent: 7.5, on: [drill and treat voids]}]\n";
  const std::string text =
      house.case_yaml() +
      "adjustments: [{for: low crawl space, percent: 10, because: it is low}, {for: discount, amount: $20.00, because: "
      "a neighbor, options: [full]}, {for: distance, amount: $99.00, because: far, options: []}]\n";
  const CaseRun run({.case_yaml = text, .company_yaml = house.company_yaml(), .form_yaml = house.form});
  const Estimate& e = run.estimates.at(0);
  CHECK(e.lines_total == Money{8000 + 23 * 500});  // 40 ft at $2.00; 30 ft of voids at most 16 in apart are 23 holes
  REQUIRE(e.adjustments.size() == 2);
  CHECK(e.adjustments[0].amount == Money{1950});
  CHECK(e.adjustments[1].amount == Money{-2000});
  CHECK_FALSE(e.to_minimum);
  REQUIRE(e.taxes.size() == 1);
  CHECK(e.taxes[0].amount == Money{863});  // 7.5 % of $115.00 is $8.625
  CHECK(e.total == Money{19500 + 1950 - 2000 + 863});
}

namespace {

const std::string block =
    R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 12", inside: 12", known by: dug}})";
const std::string evidence =
    "{no: 1, kind: evidence, in: house, at: wall 2 at 15', where: sill, organism: subterranean termites, state: "
    "active, live seen: yes, basis: [live workers]}";

SmallHouse scoped(const std::string& scope, const std::string& more = "") {
  SmallHouse house;
  house.walls = block;
  house.findings = evidence;
  house.more =
      "      piers: [{at: [[36', 15'], [10', 15']], size: [16\", 16\"], kind: hollow block, footing: 12\", known by: "
      "dug}]\n";
  house.work =
      "{id: s, answers: [1], do: treat soil, walls: all, piers: all}, {id: v, answers: [1], do: drill and treat voids, "
      "near: [1]}";
  house.label = "{soil depth: 0\", scopes: [outside and local, evidence only]" + more + "}";
  house.scope = scope;
  return house;
}

}  // namespace

TEST_CASE("a scope cuts the lines to real runs of its own") {
  const PlannedHouse full(scoped("full"));
  CHECK(full.only(RunKind::soil_outside).length == Length::feet(140));
  CHECK(full.only(RunKind::soil_piers).count == 2);
  CHECK(feet_left(full.treatment().left_out) == Length{});

  const PlannedHouse local(scoped("outside and local"));
  CHECK(local.only(RunKind::soil_outside).length == Length::feet(140));
  CHECK(local.only(RunKind::soil_inside).length == Length::feet(8));  // 4 ft to either side of the evidence
  CHECK(local.only(RunKind::soil_piers).piers == std::vector{1});
  CHECK(local.only(RunKind::void_walls).length == Length::feet(8));
  CHECK(feet_left(local.treatment().left_out) ==
        full.only(RunKind::soil_inside).length - Length::feet(8) + Length::inches(64));

  const PlannedHouse spots(scoped("evidence only"));
  CHECK(spots.only(RunKind::soil_outside).length == Length::feet(8));
  CHECK(spots.only(RunKind::soil_inside).length == Length::feet(8));

  const PlannedHouse bait(scoped("bait"));
  CHECK(bait.treatment().gallons == Ratio(0));
  CHECK(bait.only(RunKind::stations).count == 7);
  REQUIRE(bait.treatment().tasks.size() == 1);
  CHECK(items(bait.treatment().tasks[0].work->answers) == std::vector{1});
}

TEST_CASE("label and state decide which scope may be offered") {
  const PlannedHouse p(scoped("evidence only"));
  const Product* product = p.run.company->product("p");
  CHECK(scope_forbidden(*p.run.form, Scope::evidence_only, product).empty());
  SmallHouse other = scoped("evidence only");
  other.label = "{soil depth: 0\"}";
  const PlannedHouse silent(other);
  CHECK_FALSE(scope_forbidden(*silent.run.form, Scope::evidence_only, silent.run.company->product("p")).empty());
  SmallHouse strict = scoped("evidence only");
  strict.form = edited(strict.form, "partial treatment: {value: allowed", "partial treatment: {value: forbidden");
  const PlannedHouse forbidden(strict);
  CHECK_FALSE(scope_forbidden(*forbidden.run.form, Scope::evidence_only, product).empty());
}

TEST_CASE("under a ceiling, a complete treatment with a cheaper product comes before a partial one") {
  SmallHouse house = scoped("full");
  std::string text = edited(house.case_yaml(), "options: [{id: full,",
                            "options: [{id: local, work: all, product: p, warranty: none, scope: outside and local, "
                            "because: price}, {id: full,");
  std::string company = edited(house.company_yaml(), "warranties: []",
                               "  - {id: q, name: Q, active ingredient: example, fl oz per 100 gal: 64, packages: [{fl "
                               "oz: 64}], label: {soil depth: 0\"}}\nwarranties: []");
  company =
      edited(company, "  - {do: treat soil, per: ft, price: $2.00}\n",
             "  - {do: treat soil, per: ft, price: $2.00}\n  - {do: treat soil, per: ft, price: $1.50, product: q}\n");
  const CaseRun run({.case_yaml = text, .company_yaml = company, .form_yaml = house.form});
  INFO(told(run.faults));
  const auto all = choices(*run.basis);
  REQUIRE(all.size() == 3);  // q's label does not name the partial scope
  CHECK(all[0].treatment.id == "full");
  CHECK(all[0].option.product->id.value_or("") == "p");
  CHECK(all[1].option.product->id.value_or("") == "q");
  CHECK(all[2].treatment.id == "local");
  for (const Choice& c : all) CHECK(c.treatment.of == &c.option);
  CHECK(under(all, all[0].estimate.total) == &all[0]);
  CHECK(under(all, all[0].estimate.total - Money{1}) == &all[1]);
  CHECK(all[2].estimate.total < all[1].estimate.total);
  CHECK(under(all, all[1].estimate.total - Money{1}) == &all[2]);
  CHECK(under(all, Money{100}) == nullptr);
}
