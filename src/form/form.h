// What a state, a method and an organism are, as data: every number with its citation and how far it was verified.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "yaml/keys.h"

namespace soundsill {

using yaml::Field;
using yaml::Placed;
template <class T>
using ListOf = yaml::Field<std::vector<T>>;

/// How far a datum was verified.
enum class Status { published, secondary, derived, memory, common_practice };

/// A number with where it comes from.
template <class T>
struct Datum : Placed {
  Field<T> value;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

/// The numbers of a state. What a form does not set is taken from `us-general`.
struct Limits : Placed {
  Field<Datum<Length>> soil_depth;    ///< least depth of soil treated where the footing is deeper
  Field<Datum<Length>> volume_floor;  ///< gallons are never reckoned for less depth than this
  Field<Datum<Length>> trench_depth;
  Field<Datum<Length>> rod_spacing;
  Field<Datum<Ratio>> soil_rate;               ///< gallons per 10 ft per foot of depth
  Field<Datum<Ratio>> slab_rate;               ///< gallons per 10 ft through holes
  Field<Datum<Ratio>> void_rate;               ///< gallons per 10 ft of hollow wall
  Field<Datum<Ratio>> under_slab_rate;         ///< gallons per 10 sq ft of soil under a slab
  Field<Datum<Ratio>> under_slab_rate_gravel;  ///< the same over gravel
  Field<Datum<Ratio>> trap_rate;               ///< gallons per sq ft of a bath trap
  Field<Datum<Ratio>> backfill_rate;           ///< gallons per cu ft of soil dug out, treated aside and put back
  Field<Datum<Ratio>> overall_rate;            ///< gallons per 10 sq ft of crawl space, where the label cites it
  Field<Datum<Ratio>> wood_rate;               ///< pints per cu ft of wood, sprayed on its surface
  Field<Datum<Length>> trench_width;
  Field<Datum<Length>> slab_hole_from_wall;
  Field<Datum<Length>> station_spacing;  ///< of bait, where the label is silent
  Field<Datum<Length>> retarder_lap;     ///< of the sheets of a vapor retarder
  Field<Datum<Length>> assumed_step;     ///< by how much an assumed depth is tried otherwise
  Field<Datum<Length>> slab_hole_spacing;
  Field<Datum<Length>> void_hole_spacing;
  Field<Datum<Length>> void_reach;      ///< voids are drilled within this of evidence
  Field<Datum<Length>> well_none;       ///< nothing is treated within this of a well
  Field<Datum<Length>> well_backfill;   ///< only by the backfill method within this
  Field<Datum<Percent>> wood_moisture;  ///< above this wood moisture is to be put right
  Field<Datum<int>> report_age;         ///< days from the visit to closing
  static const yaml::Block& block();

  /// Which of two values rules where two forms meet: a state's and a loan's.
  enum class Stricter { greater, less, first };
  /// Calls f(member, stricter) for every limit.
  template <class F>
  static void each(F f) {
    using enum Stricter;
    f(&Limits::soil_depth, greater), f(&Limits::volume_floor, greater), f(&Limits::trench_depth, first);
    f(&Limits::trench_width, first), f(&Limits::rod_spacing, less), f(&Limits::soil_rate, first);
    f(&Limits::slab_rate, first), f(&Limits::void_rate, first), f(&Limits::under_slab_rate, first);
    f(&Limits::under_slab_rate_gravel, first), f(&Limits::trap_rate, first), f(&Limits::backfill_rate, first);
    f(&Limits::overall_rate, first), f(&Limits::wood_rate, first), f(&Limits::slab_hole_spacing, less);
    f(&Limits::void_hole_spacing, less), f(&Limits::void_reach, greater), f(&Limits::well_none, greater);
    f(&Limits::well_backfill, greater), f(&Limits::wood_moisture, less), f(&Limits::report_age, less);
    f(&Limits::station_spacing, less), f(&Limits::retarder_lap, greater), f(&Limits::assumed_step, first),
        f(&Limits::slab_hole_from_wall, first);
  }
};

struct OfficialSheetRule : Placed {
  Field<std::string> name;  ///< a regulatory fact; the sheet itself is never drawn
  ListOf<std::string> needed_for;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

struct LicenseRule : Placed {
  Field<std::string> inspect_phase;  ///< letter a license must carry to inspect
  Field<bool> person_license;        ///< the inspector's own number is asked too
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

/// A rule of the catalogue that this state switches on, with the text it stands on.
struct RuleUse : Placed {
  Field<std::string> rule;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

/// What a state says of treating less than the whole.
enum class Partial { allowed, waiver, forbidden };

struct Form : Placed {
  Field<int> format;
  Field<std::string> id, name, edition;
  Field<std::string> title;  ///< of the packet; nowhere called a report where the state's own sheet is that
  Field<OfficialSheetRule> official_sheet;
  Field<LicenseRule> license;
  Field<Limits> limits;
  Field<Datum<Partial>> partial;
  Field<Datum<bool>> estimate_apart;       ///< the estimate may not stand in the packet with the findings
  Field<Datum<std::string>> cancellation;  ///< what the buyer is told of cancelling, in our words
  ListOf<RuleUse> rules;
  ListOf<std::string> unread;  ///< parts of the state's rules that nobody of us has read
  static const yaml::Block& block();

  /// Whether the state switches a rule of the catalogue on; its citation, or nullptr.
  [[nodiscard]] const RuleUse* uses(std::string_view rule_code) const;
};

/// What of the house a method is done on; it decides how a run is measured.
enum class Takes {
  soil,          ///< soil along walls and round what stands in it
  backfill,      ///< the same soil, dug out, treated aside and put back
  voids,         ///< hollow walls and piers, through holes
  slab,          ///< soil below slabs along walls, at joints and round pipes, through holes
  under_slab,    ///< soil below a slab as a whole, by area
  bath_traps,    ///< the soil in the openings below bath tubs
  stations,      ///< stations in the soil round the outside
  wood_surface,  ///< bare wood, by area
  wood_volume,   ///< wood, by its volume
  air_volume,    ///< the air within the structure
  crawl_area,    ///< the soil of crawl spaces as a whole, by area: liquid
  crawl_cover,   ///< the same, covered by sheets
  soil_removal,  ///< soil taken out, by volume
  count,         ///< things that are counted
  once,          ///< one job
  nothing,       ///< no work of ours: `none`
};
/// Unit of a priced measure.
enum class Per { ft, hole, gal, each, job, sq_ft, thousand_cu_ft, station, cu_ft };

struct Method : Placed {
  Field<std::string> name;  ///< as typed after `do:`
  Field<Takes> takes;
  Field<bool> uses_product;      ///< applies the option's product
  ListOf<std::string> against;   ///< organisms it works against
  ListOf<std::string> corrects;  ///< conditions it puts right
  Field<bool> mends_damage;
  Field<bool> clears_evidence;     ///< takes tubes, debris or galleries away
  ListOf<Per> per;                 ///< measures it may be priced by; the first is shown when unpriced
  Field<std::string> phase;        ///< license phase it needs
  Field<bool> names_firm;          ///< whoever does it in our place is named
  Field<std::string> needs_label;  ///< what the product's label must allow by its own words
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
  [[nodiscard]] bool is_against(std::string_view organism) const;
  [[nodiscard]] bool does_correct(std::string_view condition) const;
};

struct Organism : Placed {
  Field<std::string> name, plural, group;
  Field<bool> in_soil;  ///< reaches the house through the soil; old evidence alone calls for treatment
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
struct Condition : Placed {
  Field<std::string> name;
  Field<bool> invites;  ///< no, when it invites nothing but keeps the inspector out
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
/// What such work costs elsewhere: for the owner's eyes, never for a rule.
struct Band : Placed {
  Field<std::string> what;
  ListOf<std::string> of;  ///< methods it compares; all when not said
  Field<Per> per;
  Field<Money> low, high;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
struct Trade : Placed {
  Field<int> format;
  ListOf<Method> methods;
  ListOf<Organism> organisms;
  ListOf<Condition> conditions;
  ListOf<Band> bands;
  static const yaml::Block& block();

  [[nodiscard]] const Method* method(std::string_view name) const;
  [[nodiscard]] const Organism* organism(std::string_view name) const;
  [[nodiscard]] const Condition* condition(std::string_view name) const;
};

[[nodiscard]] std::optional<Form> read_form(const Source& source, Faults& faults);
/// Methods, organisms and conditions.
[[nodiscard]] std::optional<Trade> read_trade(const Source& source, Faults& faults);
/// Takes every limit that `form` does not set from `base`.
void fill_from(Form& form, const Form& base);
/// Lays a loan's form over a state's: of two limits the stricter rules, rules are added.
void tighten(Form& form, const Form& overlay);

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<Status> {
  static constexpr auto words =
      std::to_array<std::string_view>({"published", "secondary", "derived", "memory", "common practice"});
};
template <>
struct Words<Partial> {
  static constexpr auto words = std::to_array<std::string_view>({"allowed", "waiver", "forbidden"});
};
template <>
struct Words<Takes> {
  static constexpr auto words = std::to_array<std::string_view>(
      {"soil", "backfill", "voids", "slab", "under slab", "bath traps", "stations", "wood surface", "wood volume",
       "air volume", "crawl area", "crawl cover", "soil removal", "count", "once", "nothing"});
};
template <>
struct Words<Per> {
  static constexpr auto words =
      std::to_array<std::string_view>({"ft", "hole", "gal", "each", "job", "sq ft", "1000 cu ft", "station", "cu ft"});
};
}  // namespace soundsill::yaml
