// A small invented house, plain enough that one line of work can be looked at by itself.
#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "support/case_harness.h"

namespace soundsill::testing {

/// Every part can be exchanged; what is left as it stands makes a rectangle of 40 by 30 ft on a crawl space.
struct SmallHouse {
  std::string outline = "E 40', S 30', W 40', N 30'";
  std::string foundation = "crawl space, crawl height: 30\"";
  std::string walls =
      R"({walls: all, kind: solid masonry, thick: 8", footing: {outside: 12", inside: 12", known by: dug}})";
  std::string more = "";  ///< keys of the structure, a line each, with six spaces
  std::string soil = "loam";
  std::string findings = "";
  std::string work = "";
  std::string form = file_text("forms/us-general.yaml");
  std::string label = "{soil depth: 0\"}";
  std::string product = "fl oz per 100 gal: 64";
  std::string scope = "";    ///< of the option
  std::string company = "";  ///< keys of the company, a line each

  [[nodiscard]] std::string case_yaml() const {
    return R"(format: 1
form: us-general
case: {number: "1", revision: 1, purpose: owner's request}
people: {inspector: {name: A. Test}, owner: {name: B. Test}}
property:
  address: {street: 1 Alder Way, city: Wrenfield, state: NC, zip: "27000"}
  structures:
    - name: house
      soil: )" +
           soil + "\n      parts: [{name: main, foundation: " + foundation + ", outline: [" + outline +
           "]}]\n      walls: [" + walls + "]\n" + more + R"(visits: [{id: one, date: 2026-03-05}]
findings: [)" +
           findings + "]\nwork: [" + work + "]\noptions: [{id: full, work: all, product: p, warranty: none" +
           (scope.empty() ? std::string() : ", scope: " + scope + ", because: it is asked for") + "}]\n";
  }

  [[nodiscard]] std::string company_yaml() const {
    return R"(format: 1
name: Test
address: Test
phone: "1"
license: {number: "1", phases: [W, F], holder: T, expires: 2027-01-01}
rates:
  - {do: treat soil, per: ft, price: $2.00}
  - {do: treat soil, per: each, price: $10.00}
  - {do: treat soil by backfill, per: ft, price: $9.00}
  - {do: drill and treat voids, per: hole, price: $5.00}
  - {do: drill and treat slab, per: hole, price: $5.00}
  - {do: treat soil below slab, per: sq ft, price: $1.00}
  - {do: treat bath trap, per: each, price: $80.00}
  - {do: set bait stations, per: station, price: $40.00}
  - {do: fumigate, per: 1000 cu ft, price: $200.00}
  - {do: spray wood, per: cu ft, price: $20.00}
  - {do: treat wood with borate, per: sq ft, price: $1.25}
  - {do: lay vapor retarder, per: sq ft, price: $0.50}
  - {do: dig soil lower, per: cu ft, price: $4.00}
  - {do: treat crawl space overall, per: sq ft, price: $0.80}
products:
  - {id: p, name: P, active ingredient: exampline, )" +
           product + ", packages: [{fl oz: 64, cost: $80.00}], label: " + label + R"(}
warranties: []
tank: 150
price holds: 30
)" + company;
  }
};

/// The house planned and priced, with whatever was wrong.
struct PlannedHouse {
  CaseRun run;
  explicit PlannedHouse(const SmallHouse& house)
      : run({.case_yaml = house.case_yaml(), .company_yaml = house.company_yaml(), .form_yaml = house.form}) {
    INFO(told(run.faults));
    REQUIRE(run.treatments.size() == 1);
  }
  [[nodiscard]] const Treatment& treatment() const { return run.treatments.front(); }
  [[nodiscard]] const Estimate& estimate() const { return run.estimates.front(); }
  [[nodiscard]] const SurveyedStructure& survey() const { return run.survey.structures.front(); }
  [[nodiscard]] std::vector<Run> of(RunKind kind) const {
    std::vector<Run> out;
    for (const Run& r : treatment().runs)
      if (r.kind == kind) out.push_back(r);
    return out;
  }
  [[nodiscard]] const Run& only(RunKind kind) const {
    INFO(told(run.faults));
    const Run* found = nullptr;
    int count = 0;
    for (const Run& r : treatment().runs)
      if (r.kind == kind) found = &r, ++count;
    REQUIRE(count == 1);
    return *found;
  }
  [[nodiscard]] int told_of(Rule rule) const {
    int count = 0;
    for (const Diagnostic& d : run.faults.all())
      if (d.rule == rule) ++count;
    return count;
  }
};

}  // namespace soundsill::testing
