// What the work takes: runs, depths, gallons, holes, mix and minutes, one Treatment for each option. No prices.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "company/company.h"
#include "jurisdiction/form.h"
#include "resolved/resolved.h"
#include "site/survey.h"
#include "treatment/run_kinds.h"
#include "units/working.h"

namespace soundsill {

// Of the case file, for readers that include casefile/case.h.
struct Case;
struct OptionFacts;
struct Work;

/// Everything a plan is made from. The form's limits are filled (fill_from) before.
struct Basis {
  const Case& c;  ///< for rules about what is missing or could not be read; others read `resolved`
  const Form& form;
  const Trade& trade;
  const Company& company;
  const Survey& survey;
  const resolved::Resolved& resolved;
};

/// Where a hole is drilled: on the plan, and on which wall or pier or named thing.
struct Hole {
  Point at;
  int wall = 0, pier = 0;
  std::string name;
};

/// One run of work of one method at one depth. Gallons are rounded once, to a tenth, and only then summed; `working`
/// shows how, as an expression that gives the printed figure, and `sources` where each number comes from.
struct Run {
  int number = 0;  ///< counts through the option
  std::string work;
  std::string structure;
  RunKind kind = RunKind::soil_outside;
  bool within = false;    ///< worked on inside, in the crawl space
  bool backfill = false;  ///< soil is dug out, treated aside and put back
  std::vector<Stretch> stretches;
  std::vector<int> piers;
  std::vector<std::string> names;            ///< of chimneys, partitions, posts, slabs or marks
  std::vector<PartitionStretch> partitions;  ///< whose voids are drilled
  int count = 0;                             ///< of pieces: piers, chimneys, posts, openings, stations
  Length length;
  Ratio sq_ft, cu_ft;
  Length depth;                    ///< to which the soil is treated; zero for voids
  std::optional<Length> depth_to;  ///< the greatest, where the footing slopes: `depth` is the least
  Length required_depth;
  Length reckoned_depth;  ///< depth (the mean of a slope), but never less than the volume floor
  std::optional<KnownBy> footing_known_by;
  Ratio rate;              ///< as its kind says: gallons per 10 ft, per 10 sq ft, per cu ft
  Ratio exact_gallons;     ///< as computed, before rounding
  Ratio computed_gallons;  ///< as computed, to a tenth
  Ratio gallons;           ///< as planned, to a tenth: the computed ones, or what was entered by hand
  std::optional<Ratio> entered_each;
  const Product* product = nullptr;
  int strength = 1;  ///< times the product's finished percent
  int holes = 0;
  Length spacing;
  Length from_wall;  ///< of holes in a slab
  // of soil: what the trench takes, and what is rodded below it
  Ratio trench_gallons, rod_gallons;
  int rod_holes = 0;
  std::vector<Stretch> gaps;  ///< of stations: where paving leaves none
  std::vector<Point> points;  ///< of stations: where each stands along the wall
  std::vector<Hole> hole_at;  ///< of drilled work, one for each of `holes`
  Ratio pump_seconds;         ///< at the flow of its tips
  Ratio minutes;              ///< of one person, pumping included
  bool timed = false;         ///< every pace and flow it needs is known
  Working working;
  std::string time_working;
  std::vector<std::string> sources;
};

/// A work line of an option with what it comes to.
struct Task {
  const resolved::Line* line = nullptr;
  const Work* work = nullptr;  ///< line->typed, until its last reader has gone over to `line`
  const Method* method = nullptr;
  const Product* product = nullptr;
  std::vector<std::size_t> runs;  ///< indices into Treatment::runs
  int count = 1;                  ///< of counted work
  Ratio minutes;                  ///< of counted work and jobs, of one person
};

struct Load {
  Ratio gallons;
  Ratio water;  ///< gallons, to fill in besides the concentrate
  Ratio fl_oz;  ///< to a tenth for measuring: see `exact`
  Ratio exact;
};
struct Mix {
  const Product* product = nullptr;
  int strength = 1;
  Ratio gallons;
  Ratio fl_oz_per_100_gal;         ///< exact
  Ratio exact_fl_oz;               ///< for the job
  Ratio fl_oz;                     ///< for the job, to a tenth
  std::optional<Ratio> active_lb;  ///< in all of it, when the finished percent is known
  std::vector<Load> loads;
  std::vector<std::pair<Ratio, int>> packages;  ///< size in fl oz, how many to bring
  Ratio packages_used;                          ///< of the largest size, part of one included
  std::optional<Money> cost;                    ///< of what is used; the company's own business
  std::string working;
};

/// What of a structure a treatment leaves alone that a full one would take.
struct LeftOut {
  std::string structure;
  std::vector<Stretch> outside, inside, paved;
  std::vector<Stretch> below;  ///< along the inside of slabs and basements
  std::vector<int> piers;
  std::vector<std::string> named;  ///< chimneys, partitions, outer walls of porches, posts
  Length feet;                     ///< of soil and paving left alone, a pier as its perimeter
  [[nodiscard]] bool nothing() const {
    return outside.empty() && inside.empty() && paved.empty() && below.empty() && piers.empty() && named.empty();
  }
};

struct Treatment {
  const resolved::Option* of = nullptr;  ///< the option that it plans
  const OptionFacts* option = nullptr;   ///< of->typed, until its last reader has gone over to `of`
  std::string id;
  std::vector<Task> tasks;
  std::vector<Run> runs;
  Ratio gallons;
  int holes = 0;
  std::vector<Mix> mixes;  ///< one for each product and strength
  bool timed = false;      ///< the company told people, flow and pace, and nothing was missing
  Ratio minutes;           ///< of one person, set-up included
  Ratio crew_hours;        ///< minutes / people / 60
  /// Only of structures where soil is treated, drilled or baited; of others nothing is left out. Filled by plan_all.
  std::vector<LeftOut> left_out;
};

/// Required depth: the top of the footing, or the greater of the state's and the label's minimum, whichever is less.
[[nodiscard]] Length required_depth(Length footing_top, Length state_minimum, Length label_minimum);
/// Gallons for soil: length x depth x rate per 10 ft per foot.
[[nodiscard]] Ratio soil_gallons(Length length, Length depth, const Ratio& rate_per_10_ft);
/// Gallons for soil dug out and put back: length x width x depth x rate per cubic foot.
[[nodiscard]] Ratio backfill_gallons(Length length, Length width, Length depth, const Ratio& rate_per_cu_ft);
/// Gallons for voids and slabs: length x rate per 10 ft.
[[nodiscard]] Ratio linear_gallons(Length length, const Ratio& rate_per_10_ft);
/// Gallons for an area: square feet x rate per 10 sq ft.
[[nodiscard]] Ratio area_gallons(const Ratio& sqft, const Ratio& rate_per_10_sqft);
/// Mean over a stretch whose depth goes evenly from `a` to `b`, held within [least, most]; exact, in feet.
[[nodiscard]] Ratio mean_depth(Length a, Length b, Length least, Length most);
/// Holes of a closed loop: ceil(L / s); of an open run: max(2, floor(L / s) + 1).
[[nodiscard]] int holes_of(Length length, Length spacing, bool closed);
/// Bait stations no farther apart than `spacing`: of a closed loop ceil(L / s); of an open run one more, since there is
/// one at either end.
[[nodiscard]] int stations_of(Length length, Length spacing, bool closed);
/// Cubic feet of lumber by its nominal size.
[[nodiscard]] Ratio lumber_cu_ft(const LumberSize& size, Length length);
/// Cubic feet of air: area x (wall height + half the roof's height).
[[nodiscard]] Ratio air_cu_ft(const Ratio& sqft, Length walls, Length roof);
/// Fluid ounces of concentrate for 100 gallons: 100 x 8.34 x (percent / 100) / (lb per gal) x 128.
[[nodiscard]] Ratio fl_oz_per_100_gal(const Percent& finished, const Ratio& lb_per_gal);
/// Gallons of concentrate by volume alone: finished gallons x finished percent / concentrate percent. It takes both
/// liquids for as heavy as water; a strength in pounds is better.
[[nodiscard]] Ratio concentrate_by_volume(const Ratio& finished_gal, const Percent& finished,
                                          const Percent& concentrate);
/// Percent of the mix of a concentrate with water, by volume.
[[nodiscard]] Ratio percent_by_volume(const Ratio& concentrate, const Percent& strength, const Ratio& water);
/// Pounds of active ingredient in finished mix, a gallon of which weighs as much as water.
[[nodiscard]] Ratio active_lb(const Ratio& finished_gal, const Percent& finished);
/// The product's mixing rate: the label's own when given, else by pounds, else by volume; nothing when it has none.
[[nodiscard]] std::optional<Ratio> mixing_rate(const Product& product);

/// The strictest of what form and label ask; 0 when neither says anything.
[[nodiscard]] Length well_limit(const Limits& limits, const Product* product, Field<Datum<Length>> Limits::*by_form,
                                Field<Length> Label::*by_label);

/// Plans one option. What cannot be planned is reported at the key that is missing.
[[nodiscard]] Treatment plan(const Basis& basis, const resolved::Option& option, Faults& faults);
/// Plans every option, and finds what each leaves out.
[[nodiscard]] std::vector<Treatment> plan_all(const Basis& basis, Faults& faults);
/// What a treatment leaves alone, structure by structure, and how many feet that is: 0 for a full treatment.
[[nodiscard]] std::vector<LeftOut> left_by(const Survey& survey, const Treatment& treatment);
[[nodiscard]] Length feet_left(const std::vector<LeftOut>& left);

/// Mixes the concentrate for these gallons in loads of the tank.
[[nodiscard]] Mix mix_for(const Product& product, const Ratio& rate, const Ratio& gallons, const Ratio& tank_gal);

/// The treated soil of a run on the plan, as outlines: `width` wide beside walls and round what stands in it.
[[nodiscard]] std::vector<std::vector<Point>> soil_of(const SurveyedStructure& s, const Run& run, Length width);

}  // namespace soundsill
