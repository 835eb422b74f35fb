// The arithmetic of the trade against figures that others published. The rows, with id and source, stand in
// tests/published; those in arithmetic-derived.csv are arithmetic on published rates and prove less.
#include <catch2/catch.hpp>

#include "casefile/case.h"
#include "support/published.h"
#include "treatment/treatment.h"

using namespace soundsill;
using soundsill::testing::leading_number;
using soundsill::testing::published_rows;
using soundsill::testing::PublishedRow;

namespace {

struct Inputs {
  const PublishedRow& row;
  Ratio number(const std::string& name) const { return leading_number(row.inputs.at(name)); }
  Length feet(const std::string& name) const { return read_length(row.inputs.at(name)).value(); }
  Length inches(const std::string& name) const { return read_length(row.inputs.at(name) + " in").value(); }
  Percent percent(const std::string& name) const { return {number(name)}; }
};

Ratio mixing(const Inputs& in) {
  return fl_oz_per_100_gal(in.percent("finished_percent"), in.number("active_lb_per_gal"));
}

/// A rectangle of the row's size as people draw it, read and measured: the length round its outside.
Ratio drawn_perimeter(const Inputs& in) {
  const std::string along = print(in.feet("length_ft")), across = print(in.feet("width_ft"));
  Sources sources;
  Faults faults;
  const auto c = read_case(sources.add("case.yaml", R"(format: 1
property:
  structures:
    - name: house
      parts: [{name: main, foundation: crawl space, outline: [E )" +
                                                        along + ", S " + across + ", W " + along + ", N " + across +
                                                        R"(]}]
      walls: [{walls: all, thick: 8"}]
)"),
                           faults);
  if (!c) throw std::runtime_error("the drawing cannot be read");
  const Survey survey = measure(*c, faults);
  for (const Diagnostic& d : faults.all()) {
    INFO(render(d));
    CHECK(d.rule != Rule::outline_open);
  }
  return survey.structures.at(0).outside.in_feet();
}

/// What the program says for a row; a topic that nobody computes here is a mistake of the file.
Ratio computed(const PublishedRow& row) {
  const Inputs in{row};
  const std::string& t = row.topic;
  if (row.id == "C30b") {
    const Length depth =
        required_depth(in.inches("footing_top_in"), in.inches("state_minimum_in"), in.inches("label_minimum_in"));
    return soil_gallons(in.feet("length_ft"), depth, in.number("rate"));
  }
  if (t.starts_with("vertical soil volume") || t.starts_with("outside wall") || t.starts_with("inside wall"))
    return soil_gallons(in.feet("length_ft"), in.feet("depth_ft"), in.number("rate"));
  if (t == "depth limit")
    return soil_gallons(in.feet("length_ft"), required_depth(in.feet("footing_ft"), {}, in.feet("limit_ft")),
                        in.number("rate"));
  if (t.starts_with("horizontal")) return area_gallons(in.number("area_sqft"), in.number("rate"));
  if (t == "hollow block void volume" || t == "voids") return linear_gallons(in.feet("length_ft"), in.number("rate"));
  if (t == "measure x rate = amount")
    return Ratio(times(in.number("length_ft"), {(in.number("rate") * Ratio(100)).rounded()}).cents, 100);
  if (t == "dilution, concentrate volume") return in.number("finished_gal") / Ratio(100) * mixing(in) / Ratio(128);
  if (t == "dilution, concentrate per 100 gal") return mixing(in);
  if (t == "concentrate for the job") {
    const Product product;
    return mix_for(product, mixing(in), in.number("finished_gal"), Ratio(1000)).exact_fl_oz;
  }
  if (t == "packages to buy") {
    Package package;
    package.fl_oz.set(in.number("package_floz"));
    Product product;
    product.packages.set({package});
    const Mix mix = mix_for(product, in.number("floz_per_100_gal"), in.number("finished_gal"), Ratio(1000));
    int all = 0;
    for (const auto& [size, count] : mix.packages) all += count;
    return Ratio(all);
  }
  if (t == "perimeter of a rectangle") return drawn_perimeter(in);
  if (t.starts_with("least treated depth") || t.starts_with("treated depth"))
    return required_depth(in.inches("footing_top_in"), in.inches("state_minimum_in"), in.inches("label_minimum_in"))
        .in_inches();
  if (t == "pier perimeter") return Pier{1, {}, in.inches("width_in"), in.inches("depth_in"), 0}.perimeter().in_feet();
  if (t.starts_with("pier soil volume"))
    return soil_gallons(Pier{1, {}, in.inches("width_in"), in.inches("depth_in"), 0}.perimeter(),
                        in.feet("treated_depth_ft"), in.number("rate"));
  if (t.starts_with("ten 16 x 16"))
    return soil_gallons(in.feet("perimeter_ft") * in.number("piers").rounded(), in.feet("depth_ft"), in.number("rate"));
  if (t == "dilution, volumetric shortcut")
    return concentrate_by_volume(in.number("finished_gal"), in.percent("finished_percent"),
                                 in.percent("concentrate_percent"));
  if (t == "dilution, volumetric strength")
    return percent_by_volume(in.number("concentrate_floz"), in.percent("concentrate_percent"), in.number("water_floz"));
  if (t == "dilution, metric")  // 100 g in a liter are 10 percent by weight and volume; a liter has 1,000 mL
    return concentrate_by_volume(in.number("finished_L"), in.percent("finished_percent_w_v"),
                                 {in.number("active_g_per_L") / Ratio(10)}) *
           Ratio(1000);
  if (t == "water to add") {
    const Ratio rate = in.number("concentrate_gal") * Ratio(128) / in.number("finished_gal") * Ratio(100);
    return mix_for(Product{}, rate, in.number("finished_gal"), Ratio(1000)).loads.at(0).water;
  }
  if (t == "fluid ounces to gallons")
    return Ratio(100) - mix_for(Product{}, in.number("floz"), Ratio(100), Ratio(1000)).loads.at(0).water;
  if (t == "unit conversion") {  // nothing but concentrate: no water is left to add
    const Mix mix = mix_for(Product{}, Ratio(12800), in.number("gal"), Ratio(1000));
    CHECK(mix.loads.at(0).water == Ratio(0));
    return mix.exact_fl_oz;
  }
  if (t == "finished spray holding a given weight")
    return in.number("active_lb") / active_lb(Ratio(1), in.percent("finished_percent"));
  if (t == "active ingredient on 10 ft") return active_lb(in.number("finished_gal"), in.percent("finished_percent"));
  throw std::runtime_error("no function computes `" + t + "`");
}

// These need a plan from a drawing: they are checked in estimate_practice_test.cpp and estimate_measures_test.cpp.
bool planned_from_a_drawing(const PublishedRow& row) {
  return row.topic == "inside perimeter" || row.topic == "whole crawl-space job" ||
         row.topic.starts_with("volume floor") || row.topic.starts_with("fumigation") || row.topic == "wood volume" ||
         row.topic == "beetle surface spray" || row.topic.starts_with("wood volume that") ||
         row.topic == "bait stations" || row.topic == "least pumping time" || row.topic.starts_with("interior spot");
}

void holds(const PublishedRow& row) {
  const Ratio got = computed(row);
  const Ratio off = got > row.expected ? got - row.expected : row.expected - got;
  INFO(row.id << ": " << row.topic << ", got " << decimal(got, 4) << ", source: " << row.source);
  CHECK(off <= row.tolerance);
}

void holds(const std::string& path, std::size_t least_rows) {
  std::size_t checked = 0;
  for (const PublishedRow& row : published_rows(path)) {
    if (planned_from_a_drawing(row)) continue;
    holds(row);
    ++checked;
  }
  CHECK(checked >= least_rows);
}

}  // namespace

TEST_CASE("arithmetic agrees with published figures") { holds("tests/published/arithmetic.csv", 18); }
TEST_CASE("arithmetic agrees with figures derived from published rates") {
  holds("tests/published/arithmetic-derived.csv", 18);
}

TEST_CASE("perimeters of rectangles are measured from their drawing: rows C4a, C9a, C9b and C9d") {
  const std::map<std::string, std::string> sources = {{"C4a", "a retailer's answer page, undated"},
                                                      {"C9a", "a trade page, undated"},
                                                      {"C9b", "a trade page, undated"},
                                                      {"C9d", "a consumer price page, undated"}};
  std::size_t found = 0;
  for (const PublishedRow& row : published_rows("tests/published/arithmetic.csv")) {
    const auto source = sources.find(row.id);
    if (source == sources.end()) continue;
    ++found;
    INFO(row.id);
    CHECK(row.topic == "perimeter of a rectangle");
    CHECK(row.source == source->second);
    holds(row);
  }
  CHECK(found == sources.size());
}

TEST_CASE("twice the length is twice the volume, to the last digit") {
  for (int n = 1; n < 500; n += 7) {
    const Length length{n * 37}, depth{n * 11};
    CHECK(soil_gallons(length * 2, depth, Ratio(4)) == soil_gallons(length, depth, Ratio(4)) * Ratio(2));
    CHECK(soil_gallons(length, depth * 2, Ratio(4)) == soil_gallons(length, depth, Ratio(4)) * Ratio(2));
  }
}

TEST_CASE("a run shorter than one hole spacing still gets two holes") {
  CHECK(holes_of(Length::inches(5), Length::inches(16), false) == 2);
  CHECK(holes_of(Length::inches(16), Length::inches(16), false) == 2);
  CHECK(holes_of(Length::inches(32), Length::inches(16), false) == 3);
  CHECK(holes_of(Length::inches(64), Length::inches(16), true) == 4);
  CHECK(holes_of(Length::inches(65), Length::inches(16), true) == 5);
  CHECK(holes_of(Length{}, Length::inches(16), true) == 0);
}

TEST_CASE("soil is never treated below its footing, nor less than state and label ask") {
  const Length footing = Length::inches(40);
  CHECK(required_depth(footing, Length::inches(30), Length::inches(48)) == footing);
  CHECK(required_depth(footing, Length::inches(30), Length::inches(36)) == Length::inches(36));
  CHECK(required_depth(footing, {}, {}) == Length{});
}

TEST_CASE("the loads of a tank add up to the job") {
  const Product product;
  const Mix mix = mix_for(product, Ratio(275, 10), Ratio(245), Ratio(150));
  REQUIRE(mix.loads.size() == 2);
  CHECK(mix.loads[0].gallons == Ratio(150));
  CHECK(mix.loads[1].gallons == Ratio(95));
  CHECK(mix.loads[0].exact + mix.loads[1].exact == mix.exact_fl_oz);
}
