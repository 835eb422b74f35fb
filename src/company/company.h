// The company's own facts: license, rates, products, warranties. One file serves all its cases.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "form/form.h"
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
  static const yaml::Block& block();
};

struct Package : Placed {
  Field<Ratio> fl_oz;
  Field<Money> cost;  ///< never printed for a buyer
  static const yaml::Block& block();
};
struct Label : Placed {
  Field<Length> soil_depth;  ///< least depth the label asks where the footing is deeper; 0" when it asks none
  static const yaml::Block& block();
};
struct Product : Placed {
  Field<std::string> id, name, active_ingredient;
  Field<Code> registration;
  Field<Ratio> lb_per_gal;         ///< active ingredient in a gallon of concentrate
  Field<Percent> finished;         ///< active ingredient in the finished mix, by weight
  Field<Ratio> fl_oz_per_100_gal;  ///< the label's own mixing rate; wins over the formula
  ListOf<Package> packages;
  Field<Label> label;
  static const yaml::Block& block();
};

enum class WarrantyKind { none, retreatment, retreatment_and_repair };
struct WarrantyFacts : Placed {
  Field<std::string> id;
  Field<WarrantyKind> kind;
  Field<int> months;
  Field<Money> renewal;
  ListOf<std::string> conditions, voided_by;
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
  static const yaml::Block& block();

  [[nodiscard]] const Product* product(std::string_view id) const;
  [[nodiscard]] const WarrantyFacts* warranty(std::string_view id) const;
  [[nodiscard]] const Rate* rate(std::string_view method, Per per) const;
  /// The measure by which the company prices a method, or nullptr.
  [[nodiscard]] const Rate* rate(std::string_view method) const;
};

[[nodiscard]] std::optional<Company> read_company(const Source& source, Faults& faults);

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<InsideBid> {
  static constexpr auto words = std::to_array<std::string_view>({"computed", "as outside"});
};
template <>
struct Words<WarrantyKind> {
  static constexpr auto words = std::to_array<std::string_view>({"none", "retreatment", "retreatment and repair"});
};
}  // namespace soundsill::yaml
