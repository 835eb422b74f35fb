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
  static constexpr Key rows[] = {
      key<&License::number>("number", always, "the company's license number, in quotes; it stands on every paper"),
      key<&License::phases>("phases", always, "what the license covers, letter by letter"),
      key<&License::holder>("holder", always, "under whose license the work is done"),
      key<&License::expires>("expires", always, "the last day on which it is valid"),
  };
  static constexpr Block made{"the `license` block", rows};
  return made;
}

const Block& Inspector::block() {
  static constexpr Key rows[] = {
      key<&Inspector::name>("name", always, "the full name"),
      key<&Inspector::license>("license", never, "the person's own license or card number, in quotes"),
  };
  static constexpr Block made{"an inspector", rows};
  return made;
}

const Block& Rate::block() {
  static constexpr Key rows[] = {
      key<&Rate::does>("do", always, "the method that is priced"),
      key<&Rate::per>("per", always, "the measure: ft, hole, gal, each or job"),
      key<&Rate::price>("price", always, "dollars for one of it"),
      key<&Rate::product>("product", never, "with this product only; comes before a rate for any"),
  };
  static constexpr Block made{"a rate", rows};
  return made;
}

const Block& Package::block() {
  static constexpr Key rows[] = {
      key<&Package::fl_oz>("fl oz", always, "fluid ounces of concentrate in it"),
      key<&Package::cost>("cost", never, "what it costs the company; never printed for a buyer"),
  };
  static constexpr Block made{"a package", rows};
  return made;
}

const Block& LabelAllows::block() {
  static constexpr Key rows[] = {
      key<&LabelAllows::what>("what", always, "what is allowed, in the words of the method that asks for it"),
      key<&LabelAllows::cite>("cite", always, "where the label says so"),
  };
  static constexpr Block made{"an allowance of a label", rows};
  return made;
}

const Block& Label::block() {
  static constexpr Key rows[] = {
      key<&Label::soil_depth>("soil depth", always,
                              "the least depth the label asks where the footing is deeper; 0\" for none"),
      key<&Label::sites>("sites", never, "the methods it may be used for"),
      key<&Label::finished_from>("finished percent from", never, "the weakest mix the label allows"),
      key<&Label::finished_to>("finished percent to", never, "the strongest mix the label allows"),
      key<&Label::well_none>("keep from well", never, "nothing is treated within this distance of a well"),
      key<&Label::well_backfill>("backfill near well", never, "only the backfill method within this distance"),
      key<&Label::spot_each_side>("spot each side", never, "how far soil is treated to either side of evidence inside"),
      key<&Label::gal_per_slab_hole>("gal per slab hole", never, "the label's own dose for a hole in a slab"),
      key<&Label::sq_ft_per_gal>("sq ft per gal", never, "square feet of bare wood that a gallon coats once"),
      key<&Label::pt_per_cu_ft>("pt per cu ft", never, "pints for a cubic foot of wood"),
      key<&Label::station_spacing>("station spacing", never, "greatest distance between bait stations"),
      key<&Label::scopes>("scopes", never,
                          "partial treatments that the label allows: outside and local, evidence only, bait"),
      key<&Label::allows>("allows", never, "what this label allows and others do not"),
      key<&Label::applied_over>("applied over", never, "percent by which a run may take more than the rate"),
  };
  static constexpr Block made{"a `label` block", rows};
  return made;
}

const Block& Product::block() {
  static constexpr Key rows[] = {
      key<&Product::id>("id", always, "the name by which an option takes it"),
      key<&Product::name>("name", always, "as printed"),
      key<&Product::active_ingredient>("active ingredient", always, "its common name"),
      key<&Product::registration>("registration", never, "its registration number, in quotes"),
      key<&Product::lb_per_gal>("lb per gal", sometimes, "pounds of active ingredient in a gallon",
                                "unless `fl oz per 100 gal`"),
      key<&Product::concentrate>("concentrate percent", sometimes, "active ingredient in the concentrate, by weight",
                                 "unless `lb per gal` or `fl oz per 100 gal`"),
      key<&Product::finished>("finished percent", sometimes, "active ingredient in the finished mix",
                              "with `lb per gal`"),
      key<&Product::fl_oz_per_100_gal>("fl oz per 100 gal", sometimes, "the label's own mixing rate",
                                       "unless `lb per gal`"),
      key<&Product::packages>("packages", always, "sizes it is sold in"),
      key<&Product::label>("label", always, "what the label asks; a product without it cannot be planned"),
  };
  static constexpr Block made{"a product", rows};
  return made;
}

const Block& WarrantyFacts::block() {
  static constexpr Key rows[] = {
      key<&WarrantyFacts::id>("id", always, "the name by which an option takes it"),
      key<&WarrantyFacts::kind>("kind", always, "retreatment, or retreatment and repair"),
      key<&WarrantyFacts::months>("months", always, "how long it lasts"),
      key<&WarrantyFacts::renewal>("renewal", sometimes, "the fee for another period", "when it can be renewed"),
      key<&WarrantyFacts::transfer>("transfer", never, "how it passes to the next owner"),
      key<&WarrantyFacts::partial_because>("on partial because", never,
                                           "why repairs are promised on less than a full treatment"),
      key<&WarrantyFacts::conditions>("conditions", always, "when the company comes back"),
      key<&WarrantyFacts::voided_by>("voided by", always, "what ends it early"),
      key<&WarrantyFacts::reinspect_months>("reinspect every", never,
                                            "months from one reinspection to the next; none are made when not said"),
      key<&WarrantyFacts::formosan>("Formosan termites", never, "yes, when they are covered; no, when they are not"),
  };
  static constexpr Block made{"a warranty", rows};
  return made;
}

const Block& Bidding::block() {
  static constexpr Key rows[] = {
      key<&Bidding::inside>("inside", never,
                            "`computed`, or `as outside` when the inside is bid as long as the outside"),
      key<&Bidding::round_up_to>("round up to", never, "the bid length is rounded up to a multiple of this"),
  };
  static constexpr Block made{"the `bidding` block", rows};
  return made;
}

const Block& Tip::block() {
  static constexpr Key rows[] = {
      key<&Tip::at_what>("at", always, "where it is used"),
      key<&Tip::sec_per_gal>("sec per gal", always, "seconds for a gallon, as measured with water"),
  };
  static constexpr Block made{"a tip", rows};
  return made;
}

const Block& Pace::block() {
  static constexpr Key rows[] = {
      key<&Pace::does>("for", always, "a kind of work, or a method"),
      key<&Pace::soil>("soil", never, "in these soils"),
      key<&Pace::crawl_up_to>("crawl up to", never, "in crawl spaces no higher than this"),
      key<&Pace::minutes>("minutes", always, "of one person, for one foot, hole, piece or job"),
  };
  static constexpr Block made{"a pace", rows};
  return made;
}

const Block& Crew::block() {
  static constexpr Key rows[] = {
      key<&Crew::people>("people", always, "how many go out together"),
      key<&Crew::set_up_minutes>("set-up minutes", always, "of the whole crew, for each job"),
      key<&Crew::tips>("tips", always, "the flow of each tip"),
      key<&Crew::pace>("pace", always, "how long one person takes for each kind of work"),
  };
  static constexpr Block made{"the `crew` block", rows};
  return made;
}

const Block& Costs::block() {
  static constexpr Key rows[] = {
      key<&Costs::hour>("hour", always, "what an hour of one person costs"),
      key<&Costs::equipment>("equipment", always, "for a job"),
      key<&Costs::travel>("travel", always, "for a job"),
      key<&Costs::overhead>("overhead", always, "percent on all of these"),
      key<&Costs::margin>("margin", always, "percent of the price"),
  };
  static constexpr Block made{"the `costs` block", rows};
  return made;
}

const Block& Tax::block() {
  static constexpr Key rows[] = {
      key<&Tax::percent>("percent", always, "of the amounts it is on"),
      key<&Tax::on>("on", always, "the methods it is on"),
  };
  static constexpr Block made{"a tax", rows};
  return made;
}

const Block& Terms::block() {
  static constexpr Key rows[] = {
      key<&Terms::deposit>("deposit", never, "percent of the total that is due on acceptance"),
      key<&Terms::included>("included", never, "what the price includes"),
      key<&Terms::prepare>("prepare", never, "what the owner does before the crew comes"),
  };
  static constexpr Block made{"the `terms` block", rows};
  return made;
}

const Block& Company::block() {
  static constexpr Key rows[] = {
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
      key<&Company::crew>("crew", never, "people, flow and pace; without it no hours are told"),
      key<&Company::retarder_sheet>("retarder sheet", never, "width of the roll of a vapor retarder"),
      key<&Company::way>("pricing", never,
                         "`measure` or `cost`: how the printed price is reached; by measure when not said"),
      key<&Company::costs>("costs", sometimes, "what work costs the company; never printed for a buyer",
                           "with `pricing: cost`"),
      key<&Company::tax>("tax", never, "sales tax by method"),
      key<&Company::terms>("terms", never, "deposit, what is included, what the owner prepares"),
      key<&Company::bond>("bond", never, "what a bond covers of this work, in the words of the bond itself"),
      key<&Company::limits>("limits", never, "what the company asks of itself beyond state and loan, with its sources"),
      key<&Company::bidding>("bidding", never, "how a company bids that measures by hand"),
  };
  static constexpr Block made{"a company", rows};
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

const LabelAllows* Label::allowance(std::string_view what) const {
  if (allows)
    for (const LabelAllows& a : *allows)
      if (a.what && a.cite && *a.what == what) return &a;
  return nullptr;
}
const Product* Company::product(std::string_view id) const { return with_id(products, id); }
const WarrantyFacts* Company::warranty(std::string_view id) const { return with_id(warranties, id); }

const Rate* Company::rate(std::string_view method, Per per, const Product* product) const {
  const Rate* any = nullptr;
  if (rates)
    for (const Rate& r : *rates) {
      if (!r.does || !r.per || !r.price || *r.does != method || *r.per != per) continue;
      if (r.product && product && product->id && *r.product == *product->id) return &r;
      if (!r.product && !any) any = &r;
    }
  return any;
}

std::optional<Company> read_company(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  yaml::Reader reader(faults);
  std::optional<Company> made(std::in_place);
  if (!yaml::Reading<Company>::fill(reader, *tree, *made)) made.reset();
  return made;
}

}  // namespace soundsill
