// What the work takes: runs, depths, gallons, holes and mix, one Treatment for each option. No prices.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casefile/case.h"
#include "company/company.h"
#include "form/form.h"
#include "site/survey.h"

namespace soundsill {

/// Everything a plan is made from. The form's limits are filled (fill_from) before.
struct Basis {
  const Case& c;
  const Form& form;
  const Trade& trade;
  const Company& company;
  const Survey& survey;
};

enum class RunKind {
  soil_outside,
  soil_inside,
  soil_piers,
  soil_chimneys,
  soil_posts,
  allowance,
  void_walls,
  void_piers,
  slab
};

/// One run of work of one method at one depth. Gallons are rounded once, to a tenth, and only then summed; `working`
/// shows how, `sources` where each figure comes from.
struct Run {
  int number = 0;  ///< counts through the option
  std::string work;
  std::string structure;
  RunKind kind = RunKind::soil_outside;
  std::vector<Stretch> stretches;
  std::vector<int> piers;
  std::vector<std::string> names;  ///< of chimneys, posts or slabs
  int count = 0;                   ///< piers, chimneys or posts
  Length length;
  Length depth;  ///< to which the soil is treated; zero for voids
  Length required_depth;
  Length reckoned_depth;  ///< depth, but never less than the volume floor
  std::optional<KnownBy> footing_known_by;
  Ratio rate;              ///< gallons per 10 ft, per foot of depth for soil
  Ratio exact_gallons;     ///< as computed, before rounding
  Ratio computed_gallons;  ///< as computed, to a tenth
  Ratio gallons;           ///< as planned, to a tenth: the computed ones, or what was entered by hand
  std::optional<Ratio> entered_each;
  int holes = 0;
  Length spacing;
  std::string working;
  std::vector<std::string> sources;
};

/// A work line of an option with what it comes to.
struct Task {
  const Work* work = nullptr;
  const Method* method = nullptr;
  std::vector<std::size_t> runs;  ///< indices into Treatment::runs
  int count = 1;                  ///< of counted work
};

struct Load {
  Ratio gallons;
  Ratio fl_oz;  ///< to a tenth for measuring: see `exact`
  Ratio exact;
};
struct Mix {
  const Product* product = nullptr;
  Ratio fl_oz_per_100_gal;  ///< exact
  Ratio exact_fl_oz;        ///< for the job
  Ratio fl_oz;              ///< for the job, to a tenth
  std::vector<Load> loads;
  std::vector<std::pair<Ratio, int>> packages;  ///< size in fl oz, how many to bring
  std::string working;
};

struct Treatment {
  const OptionFacts* option = nullptr;
  std::string id;
  std::vector<Task> tasks;
  std::vector<Run> runs;
  Ratio gallons;
  int holes = 0;
  std::optional<Mix> mix;
};

/// Required depth: the top of the footing, or the greater of the state's and the label's minimum, whichever is less.
[[nodiscard]] Length required_depth(Length footing_top, Length state_minimum, Length label_minimum);
/// Gallons for soil: length x depth x rate per 10 ft per foot.
[[nodiscard]] Ratio soil_gallons(Length length, Length depth, const Ratio& rate_per_10_ft);
/// Gallons for voids and slabs: length x rate per 10 ft.
[[nodiscard]] Ratio linear_gallons(Length length, const Ratio& rate_per_10_ft);
/// Gallons for an area: square feet x rate per 10 sq ft.
[[nodiscard]] Ratio area_gallons(const Ratio& sqft, const Ratio& rate_per_10_sqft);
/// Holes of a closed loop: ceil(L / s); of an open run: max(2, floor(L / s) + 1).
[[nodiscard]] int holes_of(Length length, Length spacing, bool closed);
/// Fluid ounces of concentrate for 100 gallons: 100 x 8.34 x (percent / 100) / (lb per gal) x 128.
[[nodiscard]] Ratio fl_oz_per_100_gal(const Percent& finished, const Ratio& lb_per_gal);
/// The product's mixing rate: the label's own when given, else by the formula; nothing when neither is.
[[nodiscard]] std::optional<Ratio> mixing_rate(const Product& product);

/// The work lines that an option takes, in the order of the case; `all` takes every line.
[[nodiscard]] std::vector<const Work*> lines_of(const Case& c, const OptionFacts& option);

/// Plans one option. What cannot be planned is reported at the key that is missing.
[[nodiscard]] Treatment plan(const Basis& basis, const OptionFacts& option, Faults& faults);
/// Plans every option; without options but with work, one that takes all of it.
[[nodiscard]] std::vector<Treatment> plan_all(const Basis& basis, Faults& faults);

/// Mixes the concentrate for these gallons in loads of the tank.
[[nodiscard]] Mix mix_for(const Product& product, const Ratio& rate, const Ratio& gallons, const Ratio& tank_gal);

}  // namespace soundsill
