// A loan's form laid over a state's: of two limits the stricter counts.
#include <catch2/catch.hpp>

#include "jurisdiction/own_limits.h"
#include "yaml/tree.h"

using namespace soundsill;

namespace {

Form form_of(const std::string& limits, const std::string& more = "") {
  Sources sources;
  Faults faults;
  const auto form = read_form(
      sources.add("form.yaml", "format: 1\nform: x\nname: X\nedition: \"1\"\ntitle: T\nlimits:\n" + limits + more),
      faults);
  REQUIRE(form);
  REQUIRE(faults.errors() == 0);
  return *form;
}

std::string limit(const std::string& key, const std::string& value) {
  return "  " + key + ": {value: " + value + ", cite: invented, status: memory}\n";
}

}  // namespace

TEST_CASE("distances from wells and least depths take the greater of two values") {
  for (const auto& [mine, theirs] : {std::pair{"5'", "25'"}, std::pair{"25'", "5'"}}) {
    Form form = form_of(limit("keep from well", mine) + limit("soil depth", mine));
    tighten(form, form_of(limit("keep from well", theirs) + limit("soil depth", theirs)));
    CHECK(*form.limits->well_none->value == Length::feet(25));
    CHECK(*form.limits->soil_depth->value == Length::feet(25));
  }
}

TEST_CASE("spacings, ages and moistures take the less of two values") {
  for (const auto& [mine, theirs] : {std::pair{"10'", "20'"}, std::pair{"20'", "10'"}}) {
    Form form = form_of(limit("station spacing", mine));
    tighten(form, form_of(limit("station spacing", theirs)));
    CHECK(*form.limits->station_spacing->value == Length::feet(10));
  }
  Form form = form_of(limit("wood moisture", "20 %") + limit("report age", "90"));
  tighten(form, form_of(limit("wood moisture", "18 %") + limit("report age", "30")));
  CHECK(form.limits->wood_moisture->value->value == Ratio(18));
  CHECK(*form.limits->report_age->value == 30);
}

TEST_CASE("rates stay the state's, and what a state does not set comes from the loan") {
  Form form = form_of(limit("soil rate", "4"));
  tighten(form, form_of(limit("soil rate", "5") + limit("keep from well", "25'")));
  CHECK(*form.limits->soil_rate->value == Ratio(4));
  CHECK(*form.limits->well_none->value == Length::feet(25));
}

TEST_CASE("a stricter number that nobody has read takes none away that may stop a paper") {
  const auto well = [](const char* value, const char* status) {
    return std::string("  keep from well: {value: ") + value + ", cite: invented, status: " + status + "}\n";
  };
  const auto near = [](Length read) { return Length::feet(11) < read; };
  Form form = form_of(well("12'", "published"));
  CHECK(rests_on(form, &Limits::well_none, near) == Rests::read);
  tighten(form, form_of(well("25'", "memory")));
  CHECK(*form.limits->well_none->value == Length::feet(25));
  CHECK(*form.firm.well_none->value == Length::feet(12));
  CHECK(*form.told.well_none->value == Length::feet(12));
  CHECK(rests_on(form, &Limits::well_none, near) == Rests::read);
  for (const char* status : {"secondary", "derived", "memory", "common practice"}) {
    Form unread = form_of(well("25'", status));
    CHECK(rests_on(unread, &Limits::well_none, near) == Rests::unread);
    CHECK(severity(Rule::danger_near, rests_on(unread, &Limits::well_none, near)) == Severity::warning);
  }
  const Form insisted = form_of(well("25'", "memory, insist: yes"));
  CHECK(rests_on(insisted, &Limits::well_none, near) == Rests::read);
}

TEST_CASE("what a company asks of itself may stop a paper; what is less strict changes nothing") {
  Sources sources;
  Faults faults;
  const auto own = [&](const std::string& name, const std::string& value) {
    const auto tree = yaml::read(sources.add(name, "keep from well: {value: " + value + ", cite: invented}\n"), faults);
    yaml::Reader reader(faults);
    std::optional<OwnLimits> made(std::in_place);
    REQUIRE(yaml::Reading<OwnLimits>::fill(reader, *tree, *made));
    return made;
  };
  Form form = form_of(limit("keep from well", "25'"));
  tighten(form, *own("a", "15'"));
  CHECK(*form.limits->well_none->value == Length::feet(25));
  CHECK(*form.firm.well_none->value == Length::feet(15));
  CHECK(*form.firm.well_none->status == Status::company);
  tighten(form, *own("b", "30'"));
  CHECK(*form.limits->well_none->value == Length::feet(30));
  CHECK(*form.firm.well_none->value == Length::feet(30));
  CHECK(faults.errors() == 0);
}

TEST_CASE("rules and what was not read are added") {
  Form form = form_of(limit("soil rate", "4"), "unread: [{of: record, what: a}]\n");
  tighten(
      form,
      form_of(limit("soil rate", "4"),
              "unread: [{of: minimum, what: b}]\nrules: [{rule: left-untreated, cite: invented, status: memory}]\n"));
  CHECK(form.unread->size() == 2);
  CHECK_FALSE(form.has_read(Matter::minimum));
  CHECK(form.has_read(Matter::agreement));
  CHECK(form.uses("left-untreated") != nullptr);
}
