// What a state, a method and an organism are, as data: every number with its citation and how far it was verified.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "jurisdiction/datum.h"
#include "jurisdiction/holidays.h"

namespace soundsill {

/// The numbers of a state, from limits.def.
struct Limits : Placed {
#define LIMIT(member, type, stricter, need, key, doc) Field<Datum<type>> member;
#include "jurisdiction/limits.def"
#undef LIMIT
  static const yaml::Block& block();

  /// Which of two values rules where two forms meet: a state's and a loan's.
  enum class Stricter { greater, less, first };
  enum class Need { needed, optional };
  /// Calls f(member, stricter, need, key) for every limit.
  template <class F>
  static void each(F f) {
    using enum Stricter;
    using enum Need;
#define LIMIT(member, type, stricter, need, key, doc) f(&Limits::member, stricter, need, key);
#include "jurisdiction/limits.def"
#undef LIMIT
  }
};

struct OfficialSheetRule : Placed {
  Field<std::string> name;  ///< a regulatory fact; the sheet itself is never drawn
  ListOf<std::string> needed_for;
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};

struct LicenseRule : Placed {
  Field<std::string> inspect_phase;  ///< letter a license must carry to inspect
  Field<bool> person_license;        ///< the inspector's own number is asked too
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};

/// A rule of the catalogue that this state switches on, with the text it stands on.
struct RuleUse : Placed {
  Field<std::string> rule;
  ListOf<std::string> needed_for;  ///< purposes for which the state asks it; all when not said
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};

/// What a call of `active` has to rest on: one of these signs, and moisture where it is asked. That moisture is read
/// at all is a duty of its own, whatever number is behind it.
struct ActiveTest : Placed {
  ListOf<std::string> organisms, any_of;
  Field<Datum<Percent>> moisture_above, moisture_from;  ///< a reading beyond, or at least this
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};
/// A word that no sentence of a paper may hold.
struct LooseWord : Placed {
  Field<std::string> word, because, instead;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
/// The sheet that a lender takes where the state prescribes none. A regulatory fact; the sheet is never drawn.
struct LenderSheet : Placed {
  Field<std::string> name;
  Field<Date> edition, since;  ///< the only edition taken, and from when on
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};
/// What rules are about: what a report says, how a house is treated at least, what an agreement holds, what is kept.
enum class Matter { report, minimum, agreement, record, limits };
/// A part of the state's rules that nobody of us has read. What rests on it is never said to be met or final.
struct Unread : Placed {
  Field<Matter> matter;
  Field<std::string> what;
  static const yaml::Block& block();
};
/// What a state says of treating less than the whole.
enum class Partial { allowed, waiver, forbidden };

/// Papers that a company keeps, and from when the years count.
enum class KeptPaper { report, agreement, waiver, record };
enum class KeptFrom { issue, expiration, treatment };
struct Keep : Placed {
  Field<KeptPaper> paper;
  Field<int> years;
  Field<KeptFrom> from;
  Field<bool> warranty_life;  ///< or as long as the warranty lives, if that is longer
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

/// What an agreement has to hold.
enum class AgreementItem {
  inspection,
  location,
  owner,
  company,
  license,
  signature,
  diagram,
  water_sources,
  visible_evidence,
  active_or_inactive,
  damaged_timbers,
  treated_and_not,
  bait_devices,
  moisture_readings,
  period,
  organism,
  reinspection,
  retreatment,
  price,
  covered_part,
  basis,
  warranty_kind,
  formosan,
  damage_left,
  preventive,
  owner_signature,
  cancellation,
  control_measure,
  structures,
  kinds_of_termites,
  control_or_prevention,
  renewal,
  bond,
  bait_statement,
  perimeter,
  conducive,
  construction,
  product_label,
  notice_to_owner
};
struct ItemRule : Placed {
  Field<AgreementItem> item;
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};
struct AgreementRule : Placed {
  Field<Datum<int>> within_days;     ///< from the beginning of treatment
  Field<Datum<bool>> with_report;    ///< a treatment made with the report has agreement and warranty attached to it
  Field<Datum<bool>> fungus_notice;  ///< a fungicide follows a written notice with the readings
  Field<Datum<Length>> letters;      ///< least height of the letters that state the kind of warranty on page 1
  /// What the state prescribes word for word: at the top of page 1, one for each kind of warranty, and with bait.
  Field<Datum<std::string>> retreatment_statement, repair_statement, bait_statement;
  Field<Datum<bool>> addendum;          ///< what was done otherwise is told in a written addendum
  Field<Datum<bool>> statements_boxed;  ///< in a heavy line
  Field<Datum<bool>> statement_first;   ///< the statement of the warranty is what page 1 begins with
  ListOf<ItemRule> items;
  static const yaml::Block& block();
};
/// A notice that is put up where the next inspector finds it.
enum class NoticeOf { treatment, inspection };
/// What a state wants to read on it besides company, day and place.
enum class NoticeItem { phone, applicator, product, warning, spot };
struct NoticeItemRule : Placed {
  Field<NoticeItem> item;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
struct NoticeRule : Placed {
  Field<NoticeOf> of;  ///< a treatment when not said
  ListOf<NoticeItemRule> holds;
  Field<Datum<Length>> wide, high;
  Field<Datum<int>> years;  ///< for which it lasts
  Field<Datum<std::string>> where;
  static const yaml::Block& block();
};
/// The right to cancel a sale that was not made at the company's own place.
struct CancellationRule : Placed {
  Field<Datum<int>> business_days;
  Field<Datum<int>> senior_days, senior_age;      ///< business days of a customer of that age or older
  Field<Datum<Money>> home_from, elsewhere_from;  ///< least price of a sale at the buyer's home, or at another place
  static const yaml::Block& block();
};
/// What becomes of a report: by when it is delivered, counted from the inspection.
struct ReportRule : Placed {
  Field<Datum<int>> deliver_within;
  Field<Datum<bool>> control_number;  ///< the state gives each report a number, which stands on page 1
  static const yaml::Block& block();
};
enum class FiledFrom { inspection, treatment };
/// A paper that the company files with an office within so many days.
struct Filing : Placed {
  Field<std::string> paper;  ///< the name by which a case says that it was filed
  Field<std::string> with;   ///< whose office
  Field<FiledFrom> from;
  Field<Datum<int>> within;  ///< days
  static const yaml::Block& block();
};
/// Treatment free of charge when live termites are found within so many days.
enum class CountedFrom { inspection, issue };
struct FreeTreatment : Placed {
  Field<int> days;
  Field<CountedFrom> from;
  Field<bool> at_most;  ///< yes, when a longer promise is forbidden
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;
  static const yaml::Block& block();
};
/// How long after treatment active beetles oblige the company, and how soon it comes.
struct BeetleRule : Placed {
  Field<Datum<int>> months, days;
  static const yaml::Block& block();
};
struct InvoiceRule : Placed {
  Field<Datum<bool>> names_veteran;
  Field<Datum<Date>> veteran_pays_from;  ///< before that day the veteran may not pay the inspection
  static const yaml::Block& block();
};

struct Form : Placed {
  Field<int> format;
  Field<std::string> id, name, edition;
  Field<std::string> state;  ///< two letters; none in a form for everywhere and in a loan's
  Field<std::string> title;  ///< of the packet; nowhere called a report where the state's own sheet is that
  Field<OfficialSheetRule> official_sheet;
  Field<LicenseRule> license;
  Field<Limits> limits;  ///< of each the strictest: what is planned and told by
  Limits told;           ///< of each the strictest that a paper may print: none from memory
  Limits firm;           ///< of each the strictest that may stop a paper
  Field<Datum<Partial>> partial;
  Field<Datum<bool>> estimate_apart;  ///< the estimate may not stand in the packet with the findings
  Field<CancellationRule> cancellation;
  Field<ReportRule> report;
  ListOf<Filing> filings;
  ListOf<Keep> keep;
  Field<AgreementRule> agreement;
  ListOf<NoticeRule> notices;
  Field<FreeTreatment> free_treatment;
  Field<BeetleRule> beetles;
  Field<InvoiceRule> invoice;
  Field<Datum<std::string>> poison_center, locate_line;  ///< telephone numbers for the crew
  ListOf<RuleUse> rules;
  ListOf<ActiveTest> active_tests;
  ListOf<LooseWord> loose_words;
  Field<LenderSheet> lender_sheet;
  ListOf<Unread> unread;
  static const yaml::Block& block();

  /// Whether the state switches a rule of the catalogue on; its citation, or nullptr.
  [[nodiscard]] const RuleUse* uses(std::string_view rule_code) const;
  /// The notice of one kind that is put up, or nullptr.
  [[nodiscard]] const NoticeRule* notice_of(NoticeOf what) const;
  /// Whether all that was to be read of a matter was read.
  [[nodiscard]] bool has_read(Matter matter) const;
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
  Field<bool> clears_evidence;        ///< takes tubes, debris or galleries away
  ListOf<Per> per;                    ///< measures it may be priced by; the first is shown when unpriced
  Field<std::string> phase;           ///< license phase it needs
  Field<bool> names_firm;             ///< whoever does it in our place is named
  Field<std::string> needs_label;     ///< what the product's label must allow by its own words
  Field<bool> bare_wood;              ///< soaks into bare wood only
  Field<int> least_core, least_hold;  ///< of heat: degrees Fahrenheit in the core of the wood, and minutes
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
  [[nodiscard]] bool is_against(std::string_view organism) const;
  [[nodiscard]] bool does_correct(std::string_view condition) const;
};

enum class WoodKind { softwood, hardwood };
enum class OrganismGroup { termites, beetles, ants, bees, fungi };
struct Wood : Placed {
  Field<std::string> name;
  Field<WoodKind> kind;
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
struct Organism : Placed {
  Field<std::string> name, plural;
  Field<OrganismGroup> group;
  Field<bool> in_soil;               ///< reaches the house through the soil; old evidence alone calls for treatment
  ListOf<WoodKind> hosts;            ///< wood it attacks; any when not said
  Field<Inches> hole_from, hole_to;  ///< across its exit holes
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};
struct Condition : Placed {
  Field<std::string> name;
  Field<bool> invites;  ///< no, when it invites nothing: it keeps the inspector out, or is no matter
  Field<bool> wet;      ///< it is about moisture
  Field<bool> contact;  ///< wood stands in soil
  Field<bool> low;      ///< soil lies too near to wood
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
  ListOf<Wood> woods;
  ListOf<Band> bands;
  ListOf<Holiday> holidays;
  static const yaml::Block& block();

  [[nodiscard]] const Method* method(std::string_view name) const;
  [[nodiscard]] const Organism* organism(std::string_view name) const;
  [[nodiscard]] const Condition* condition(std::string_view name) const;
  [[nodiscard]] bool in_group(const Field<std::string>& organism, OrganismGroup group) const;
};

/// What a fault rests on whose number is a limit, when `broken(value)` says whether a value of it is broken: on what
/// was read, as soon as one value that may stop a paper is.
template <class T, class Broken>
[[nodiscard]] Rests rests_on(const Form& form, Field<Datum<T>> Limits::*which, Broken broken) {
  const auto& firm = form.firm.*which;
  return firm && firm->value && broken(*firm->value) ? Rests::read : Rests::unread;
}

[[nodiscard]] std::optional<Form> read_form(const Source& source, Faults& faults);
/// Methods, organisms and conditions.
[[nodiscard]] std::optional<Trade> read_trade(const Source& source, Faults& faults);
/// Takes every limit that `form` does not set, or that could not be read, from `base`, and its words besides. Reports
/// what neither has, and says whether every limit that planning rests on is there.
[[nodiscard]] bool fill_from(Form& form, const Form& base, Faults& faults);
/// Lays a loan's form over a state's: of two limits the stricter rules, rules are added. A stricter limit that nobody
/// has read takes none away that may stop a paper: both are kept.
void tighten(Form& form, const Form& overlay);

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<Matter> {
  static constexpr auto words = std::to_array<std::string_view>({"report", "minimum", "agreement", "record", "limits"});
};
template <>
struct Words<FiledFrom> {
  static constexpr auto words = std::to_array<std::string_view>({"inspection", "treatment"});
};
template <>
struct Words<WoodKind> {
  static constexpr auto words = std::to_array<std::string_view>({"softwood", "hardwood"});
};
template <>
struct Words<OrganismGroup> {
  static constexpr auto words = std::to_array<std::string_view>({"termites", "beetles", "ants", "bees", "fungi"});
};
template <>
struct Words<Partial> {
  static constexpr auto words = std::to_array<std::string_view>({"allowed", "waiver", "forbidden"});
};
template <>
struct Words<KeptPaper> {
  static constexpr auto words = std::to_array<std::string_view>({"report", "agreement", "waiver", "record"});
};
template <>
struct Words<KeptFrom> {
  static constexpr auto words = std::to_array<std::string_view>({"issue", "expiration", "treatment"});
};
template <>
struct Words<NoticeOf> {
  static constexpr auto words = std::to_array<std::string_view>({"treatment", "inspection"});
};
template <>
struct Words<NoticeItem> {
  static constexpr auto words =
      std::to_array<std::string_view>({"phone", "applicator", "product", "not to be removed", "spot treatment"});
};
template <>
struct Words<CountedFrom> {
  static constexpr auto words = std::to_array<std::string_view>({"inspection", "issue"});
};
template <>
struct Words<AgreementItem> {
  static constexpr auto words = std::to_array<std::string_view>({"inspection",
                                                                 "location",
                                                                 "owner",
                                                                 "company",
                                                                 "license",
                                                                 "signature",
                                                                 "diagram",
                                                                 "water sources",
                                                                 "visible evidence",
                                                                 "active or inactive",
                                                                 "damaged timbers",
                                                                 "treated and not treated",
                                                                 "bait devices",
                                                                 "moisture readings",
                                                                 "period",
                                                                 "organism",
                                                                 "reinspection",
                                                                 "retreatment",
                                                                 "price",
                                                                 "covered part",
                                                                 "basis",
                                                                 "warranty kind",
                                                                 "Formosan coverage",
                                                                 "damage left",
                                                                 "preventive statement",
                                                                 "owner signature",
                                                                 "cancellation",
                                                                 "control measure",
                                                                 "structures",
                                                                 "kinds of termites",
                                                                 "control or prevention",
                                                                 "renewal",
                                                                 "bond",
                                                                 "bait statement",
                                                                 "perimeter",
                                                                 "conducive conditions",
                                                                 "construction",
                                                                 "product label",
                                                                 "notice to owner"});
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
