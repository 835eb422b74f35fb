#include "company/company.h"

#include <algorithm>

namespace soundsill {

using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto sometimes = yaml::Need::sometimes;
constexpr auto never = yaml::Need::never;

const Block& License::block() {
  static const Key rows[] = {
      key<&License::number>("number", always, "the company's license number, in quotes; it stands on every paper"),
      key<&License::phases>("phases", always, "what the license covers, letter by letter"),
      key<&License::holder>("holder", always, "under whose license the work is done"),
      key<&License::expires>("expires", always, "the last day on which it is valid"),
  };
  static const Block made{"the `license` block", rows};
  return made;
}

const Block& Inspector::block() {
  static const Key rows[] = {
      key<&Inspector::name>("name", always, "the full name"),
      key<&Inspector::license>("license", never, "the person's own license or card number, in quotes"),
  };
  static const Block made{"an inspector", rows};
  return made;
}

const Block& Rate::block() {
  static const Key rows[] = {
      key<&Rate::does>("do", always, "the method that is priced"),
      key<&Rate::per>("per", always, "the measure: ft, hole, gal, each or job"),
      key<&Rate::price>("price", always, "dollars for one of it"),
  };
  static const Block made{"a rate", rows};
  return made;
}

const Block& Package::block() {
  static const Key rows[] = {
      key<&Package::fl_oz>("fl oz", always, "fluid ounces of concentrate in it"),
      key<&Package::cost>("cost", never, "what it costs the company; never printed for a buyer"),
  };
  static const Block made{"a package", rows};
  return made;
}

const Block& Label::block() {
  static const Key rows[] = {
      key<&Label::soil_depth>("soil depth", always,
                              "the least depth the label asks where the footing is deeper; 0\" for none"),
  };
  static const Block made{"a `label` block", rows};
  return made;
}

const Block& Product::block() {
  static const Key rows[] = {
      key<&Product::id>("id", always, "the name by which an option takes it"),
      key<&Product::name>("name", always, "as printed"),
      key<&Product::active_ingredient>("active ingredient", always, "its common name"),
      key<&Product::registration>("registration", never, "its registration number, in quotes"),
      key<&Product::lb_per_gal>("lb per gal", sometimes, "pounds of active ingredient in a gallon",
                                "unless `fl oz per 100 gal`"),
      key<&Product::finished>("finished percent", sometimes, "active ingredient in the finished mix",
                              "with `lb per gal`"),
      key<&Product::fl_oz_per_100_gal>("fl oz per 100 gal", sometimes, "the label's own mixing rate",
                                       "unless `lb per gal`"),
      key<&Product::packages>("packages", always, "sizes it is sold in"),
      key<&Product::label>("label", always, "what the label asks; a product without it cannot be planned"),
  };
  static const Block made{"a product", rows};
  return made;
}

const Block& WarrantyFacts::block() {
  static const Key rows[] = {
      key<&WarrantyFacts::id>("id", always, "the name by which an option takes it"),
      key<&WarrantyFacts::kind>("kind", always, "retreatment, or retreatment and repair"),
      key<&WarrantyFacts::months>("months", always, "how long it lasts"),
      key<&WarrantyFacts::renewal>("renewal", sometimes, "the fee for another period", "when it can be renewed"),
      key<&WarrantyFacts::conditions>("conditions", always, "when the company comes back"),
      key<&WarrantyFacts::voided_by>("voided by", always, "what ends it early"),
  };
  static const Block made{"a warranty", rows};
  return made;
}

const Block& Bidding::block() {
  static const Key rows[] = {
      key<&Bidding::inside>("inside", never,
                            "`computed`, or `as outside` when the inside is bid as long as the outside"),
      key<&Bidding::round_up_to>("round up to", never, "the bid length is rounded up to a multiple of this"),
  };
  static const Block made{"the `bidding` block", rows};
  return made;
}

const Block& Company::block() {
  static const Key rows[] = {
      key<&Company::format>("format", always, "1, the format of this file"),
      key<&Company::name>("name", always, "the company, as printed"),
      key<&Company::address>("address", always, "street, city, state and zip in one line"),
      key<&Company::phone>("phone", always, "whom the reader calls"),
      key<&Company::email>("email", never, "where the reader writes"),
      key<&Company::license>("license", always, "without a license no paper may leave"),
      key<&Company::inspectors>("inspectors", never, "who inspects for the company"),
      key<&Company::rates>("rates", always, "what each measure costs"),
      key<&Company::minimum_charge>("minimum charge", never, "no estimate is below this"),
      key<&Company::products>("products", always, "termiticides and what their labels ask"),
      key<&Company::warranties>("warranties", always, "what the company promises"),
      key<&Company::tank_gal>("tank", always, "gallons in the tank of one load"),
      key<&Company::price_holds_days>("price holds", always, "days for which a price holds"),
      key<&Company::bidding>("bidding", never, "how a company bids that measures by hand"),
  };
  static const Block made{"a company", rows};
  return made;
}

bool License::covers(std::string_view phase) const {
  return phases && std::find(phases->begin(), phases->end(), phase) != phases->end();
}

namespace {
template <class T>
const T* with_id(const ListOf<T>& list, std::string_view id) {
  if (list)
    for (const T& item : *list)
      if (item.id && *item.id == id) return &item;
  return nullptr;
}
}  // namespace

const Product* Company::product(std::string_view id) const { return with_id(products, id); }
const WarrantyFacts* Company::warranty(std::string_view id) const { return with_id(warranties, id); }

const Rate* Company::rate(std::string_view method, Per per) const {
  if (rates)
    for (const Rate& r : *rates)
      if (r.does && r.per && r.price && *r.does == method && *r.per == per) return &r;
  return nullptr;
}
const Rate* Company::rate(std::string_view method) const {
  if (rates)
    for (const Rate& r : *rates)
      if (r.does && r.per && r.price && *r.does == method) return &r;
  return nullptr;
}

std::optional<Company> read_company(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  yaml::Reader reader(faults);
  return yaml::Reading<Company>::read(reader, *tree);
}

}  // namespace soundsill
