// The company's own facts: license, rates, products, warranties. One file serves all its cases.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "jurisdiction/own_limits.h"
#include "yaml/keys.h"

namespace soundsill {

using yaml::Code;

struct License : Placed {
  Field<Code> number;
  ListOf<std::string> phases;
  Field<std::string> holder;
  Field<Date> expires;
  static const yaml::Block& block();
  [[nodiscard]] bool covers(std::string_view phase) const;
};

struct Inspector : Placed {
  Field<std::string> name;
  Field<Code> license;
  static const yaml::Block& block();
};

/// The price of one method, by one measure.
struct Rate : Placed {
  Field<std::string> does;
  Field<Per> per;
  Field<Money> price;
  Field<std::string> product;  ///< with this product only; it comes before a rate for any
  static const yaml::Block& block();
};

struct Package : Placed {
  Field<Ratio> fl_oz;
  Field<Money> cost;  ///< never printed for a buyer
  static const yaml::Block& block();
};
/// Something that a label allows and others do not: half volume in clay, overall treatment of a crawl space.
struct LabelAllows : Placed {
  Field<std::string> what, cite;
  static const yaml::Block& block();
};
struct Label : Placed {
  Field<Length> soil_depth;   ///< least depth the label asks where the footing is deeper; 0" when it asks none
  ListOf<std::string> sites;  ///< methods it may be used for; any when not said
  Field<Percent> finished_from, finished_to;
  Field<Length> well_none, well_backfill;
  Field<Length> spot_each_side;    ///< inside, at evidence, to either side
  Field<Ratio> gal_per_slab_hole;  ///< the label's own dose, which wins over the rate
  Field<Ratio> sq_ft_per_gal;      ///< of wood, a coat
  Field<Ratio> pt_per_cu_ft;       ///< of wood
  Field<Length> station_spacing;
  ListOf<LabelAllows> allows;
  ListOf<std::string> scopes;   ///< partial treatments that it allows
  Field<Percent> applied_over;  ///< by how much the gallons of a run may exceed the rate; comes before the form's
  [[nodiscard]] const LabelAllows* allowance(std::string_view what) const;
  static const yaml::Block& block();
};
struct Product : Placed {
  Field<std::string> id, name, active_ingredient;
  Field<Code> registration;
  Field<Ratio> lb_per_gal;         ///< active ingredient in a gallon of concentrate
  Field<Percent> concentrate;      ///< active ingredient in the concentrate, by weight, when no pounds are told
  Field<Percent> finished;         ///< active ingredient in the finished mix, by weight
  Field<Ratio> fl_oz_per_100_gal;  ///< the label's own mixing rate; wins over the formula
  ListOf<Package> packages;
  Field<Label> label;
  static const yaml::Block& block();
};

/// How the printed price is reached.
enum class Way { measure, cost };
struct Costs : Placed {
  Field<Money> hour;               ///< of one person
  Field<Money> equipment, travel;  ///< of a job
  Field<Percent> overhead;         ///< on product, hours, equipment and travel
  Field<Percent> margin;           ///< of the price
  static const yaml::Block& block();
};
struct Tax : Placed {
  Field<Percent> percent;
  ListOf<std::string> on;  ///< methods
  static const yaml::Block& block();
};
struct Terms : Placed {
  Field<Percent> deposit;
  ListOf<std::string> included, prepare;
  static const yaml::Block& block();
};

enum class WarrantyKind { none, retreatment, retreatment_and_repair };
struct WarrantyFacts : Placed {
  Field<std::string> id;
  Field<WarrantyKind> kind;
  Field<int> months;
  Field<Money> renewal;
  Field<std::string> transfer;         ///< how it passes to the next owner
  Field<std::string> partial_because;  ///< why it is given on less than a full treatment
  ListOf<std::string> conditions, voided_by;
  Field<int> reinspect_months;  ///< from one reinspection to the next; none when not said
  Field<bool> formosan;         ///< whether Formosan termites are covered
  static const yaml::Block& block();
};

/// Whether the inside of the walls is bid as computed, or as long as the outside.
enum class InsideBid { computed, as_outside };
/// How a company bids that measures by hand.
struct Bidding : Placed {
  Field<InsideBid> inside;
  Field<Length> round_up_to;  ///< the bid length is rounded up to a multiple of this, as one visible allowance
  static const yaml::Block& block();
};

/// Where liquid leaves the hose; each has a flow of its own, measured by the company.
enum class TipAt { trench, rod, slab_hole, void_hole, wood };
struct Tip : Placed {
  Field<TipAt> at_what;
  Field<Ratio> sec_per_gal;
  static const yaml::Block& block();
};
/// How long one person takes for one of something, by soil and by the height of the crawl space where that matters.
/// Of several rows that fit, the one that says most counts.
struct Pace : Placed {
  Field<std::string> does;  ///< one of the kinds of work of treatment/time.cpp, or a method
  ListOf<std::string> soil;
  Field<Length> crawl_up_to;
  Field<Ratio> minutes;
  static const yaml::Block& block();
};
struct Crew : Placed {
  Field<int> people;
  Field<Ratio> set_up_minutes;  ///< of the whole crew, a job
  ListOf<Tip> tips;
  ListOf<Pace> pace;
  static const yaml::Block& block();
};

struct Company : Placed {
  Field<int> format;
  Field<std::string> name, address, phone, email;
  Field<License> license;
  ListOf<Inspector> inspectors;
  ListOf<Rate> rates;
  Field<Money> minimum_charge;
  ListOf<Product> products;
  ListOf<WarrantyFacts> warranties;
  Field<Ratio> tank_gal;
  Field<int> price_holds_days;
  Field<Bidding> bidding;
  Field<Crew> crew;
  Field<Way> way;
  Field<Costs> costs;
  ListOf<Tax> tax;
  Field<Terms> terms;
  Field<Length> retarder_sheet;  ///< width of the roll of a vapor retarder
  Field<OwnLimits> limits;       ///< what the company asks of itself beyond the state
  Field<std::string> bond;       ///< what a bond covers, in the words of the bond itself; none when not said
  static const yaml::Block& block();

  [[nodiscard]] const Product* product(std::string_view id) const;
  [[nodiscard]] const WarrantyFacts* warranty(std::string_view id) const;
  [[nodiscard]] const Rate* rate(std::string_view method, Per per, const Product* product) const;
};

[[nodiscard]] std::optional<Company> read_company(const Source& source, Faults& faults);

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<InsideBid> {
  static constexpr auto words = std::to_array<std::string_view>({"computed", "as outside"});
};
template <>
struct Words<Way> {
  static constexpr auto words = std::to_array<std::string_view>({"measure", "cost"});
};
template <>
struct Words<TipAt> {
  static constexpr auto words = std::to_array<std::string_view>({"trench", "rod", "slab hole", "void hole", "wood"});
};
template <>
struct Words<WarrantyKind> {
  static constexpr auto words = std::to_array<std::string_view>({"none", "retreatment", "retreatment and repair"});
};
}  // namespace soundsill::yaml
