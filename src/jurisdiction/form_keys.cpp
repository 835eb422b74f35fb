// Serves jurisdiction/form.h. The key tables of forms and of the trade's words.
#include "jurisdiction/form.h"

namespace soundsill {

using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto never = yaml::Need::never;

template <class T>
const Block& Datum<T>::block() {
  static constexpr Key rows[] = {
      key<&Datum<T>::value>("value", always, "the number"),
      key<&Datum<T>::cite>("cite", always, "where it is written"),
      key<&Datum<T>::status>("status", always, "how far it was verified"),
      key<&Datum<T>::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a datum", rows};
  return made;
}
template struct Datum<Length>;
template struct Datum<Ratio>;
template struct Datum<Percent>;
template struct Datum<int>;
template struct Datum<Date>;
template struct Datum<bool>;
template struct Datum<std::string>;
template struct Datum<Money>;
template struct Datum<Partial>;

const Block& Limits::block() {
  static constexpr Key rows[] = {
#define LIMIT(member, type, stricter, need, name, doc) key<&Limits::member>(name, never, doc),
#include "jurisdiction/limits.def"
#undef LIMIT
  };
  static constexpr Block made{"the `limits` block", rows};
  return made;
}

const Block& OfficialSheetRule::block() {
  static constexpr Key rows[] = {
      key<&OfficialSheetRule::name>("name", always, "what the state calls its sheet"),
      key<&OfficialSheetRule::needed_for>("needed for", always, "purposes that need it"),
      key<&OfficialSheetRule::cite>("cite", always, "where it is written"),
      key<&OfficialSheetRule::status>("status", always, "how far it was verified"),
      key<&OfficialSheetRule::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"an `official sheet` rule", rows};
  return made;
}

const Block& LicenseRule::block() {
  static constexpr Key rows[] = {
      key<&LicenseRule::inspect_phase>("inspect phase", never, "letter of the phase an inspection needs"),
      key<&LicenseRule::person_license>("person license", never, "yes, when the inspector's own number is asked"),
      key<&LicenseRule::cite>("cite", always, "where it is written"),
      key<&LicenseRule::status>("status", always, "how far it was verified"),
      key<&LicenseRule::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a `license` rule", rows};
  return made;
}

const Block& RuleUse::block() {
  static constexpr Key rows[] = {
      key<&RuleUse::rule>("rule", always, "a rule of the catalogue"),
      key<&RuleUse::needed_for>("for", never, "purposes for which the state asks it; all when not said"),
      key<&RuleUse::cite>("cite", always, "where it is written"),
      key<&RuleUse::status>("status", always, "how far it was verified"),
      key<&RuleUse::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a rule in use", rows};
  return made;
}

const Block& ActiveTest::block() {
  static constexpr Key rows[] = {
      key<&ActiveTest::organisms>("organisms", always, "whom it is about"),
      key<&ActiveTest::any_of>(
          "any of", always,
          "signs, one of which has to be named: an item of the basis is it, or begins with it and a comma"),
      key<&ActiveTest::moisture_above>("moisture above", never, "a reading beyond this is asked too"),
      key<&ActiveTest::moisture_from>("moisture from", never, "a reading of at least this is asked too"),
      key<&ActiveTest::cite>("cite", always, "where it is written"),
      key<&ActiveTest::status>("status", always, "how far it was verified"),
      key<&ActiveTest::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a test for `active`", rows};
  return made;
}

const Block& LooseWord::block() {
  static constexpr Key rows[] = {
      key<&LooseWord::word>("word", always, "a word, or several, as they would stand in a sentence"),
      key<&LooseWord::because>("because", always, "how it would be read"),
      key<&LooseWord::instead>("instead", always, "what to write"),
      key<&LooseWord::cite>("cite", always, "where it is written"),
      key<&LooseWord::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a loose word", rows};
  return made;
}

const Block& LenderSheet::block() {
  static constexpr Key rows[] = {
      key<&LenderSheet::name>("name", always, "what the sheet is called"),
      key<&LenderSheet::edition>("edition", always, "the day of the only edition that is taken"),
      key<&LenderSheet::since>("since", always, "from when on no other is taken"),
      key<&LenderSheet::cite>("cite", always, "where it is written"),
      key<&LenderSheet::status>("status", always, "how far it was verified"),
      key<&LenderSheet::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a `lender sheet`", rows};
  return made;
}

const Block& Unread::block() {
  static constexpr Key rows[] = {
      key<&Unread::matter>("of", always, "what it is about: report, minimum, agreement, record or limits"),
      key<&Unread::what>("what", always, "the part that was not read"),
  };
  static constexpr Block made{"an unread part", rows};
  return made;
}

const Block& Keep::block() {
  static constexpr Key rows[] = {
      key<&Keep::paper>("paper", always, "report, agreement, waiver or record"),
      key<&Keep::years>("years", always, "how many"),
      key<&Keep::from>("from", always, "issue, expiration or treatment"),
      key<&Keep::warranty_life>("or warranty life", never, "yes, when it is kept as long as the warranty lives"),
      key<&Keep::cite>("cite", always, "where it is written"),
      key<&Keep::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a paper to keep", rows};
  return made;
}

const Block& ItemRule::block() {
  static constexpr Key rows[] = {
      key<&ItemRule::item>("item", always, "what the agreement has to hold"),
      key<&ItemRule::cite>("cite", always, "where it is written"),
      key<&ItemRule::status>("status", always, "how far it was verified"),
      key<&ItemRule::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"an item of an agreement", rows};
  return made;
}

const Block& AgreementRule::block() {
  static constexpr Key rows[] = {
      key<&AgreementRule::within_days>("within days", never, "days from the beginning of treatment to the agreement"),
      key<&AgreementRule::with_report>("goes with report", never, "yes, when it is attached to the report"),
      key<&AgreementRule::fungus_notice>("fungicide notice", never, "yes, when a fungicide follows a written notice"),
      key<&AgreementRule::letters>("warranty letters", never,
                                   "least height of letters that state the kind of warranty"),
      key<&AgreementRule::retreatment_statement>("retreatment statement", never,
                                                 "what stands at the top of page 1 with a warranty of retreatment"),
      key<&AgreementRule::repair_statement>("repair statement", never,
                                            "what stands there with one of retreatment and repair"),
      key<&AgreementRule::bait_statement>("bait statement", never, "what an agreement on bait says word for word"),
      key<&AgreementRule::addendum>("addendum", never, "yes, when what was done otherwise is told in writing"),
      key<&AgreementRule::statements_boxed>("statements boxed", never, "yes, when they stand in a box of heavy line"),
      key<&AgreementRule::statement_first>("statement first", never,
                                           "yes, when page 1 begins with the one on the warranty"),
      key<&AgreementRule::items>("items", never, "what it has to hold"),
  };
  static constexpr Block made{"an `agreement` rule", rows};
  return made;
}

const Block& NoticeItemRule::block() {
  static constexpr Key rows[] = {
      key<&NoticeItemRule::item>("item", always, "what the notice has to hold"),
      key<&NoticeItemRule::cite>("cite", always, "where it is written"),
      key<&NoticeItemRule::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"an item of a notice", rows};
  return made;
}

const Block& CancellationRule::block() {
  static constexpr Key rows[] = {
      key<&CancellationRule::business_days>("business days", never, "within which a sale can be canceled"),
      key<&CancellationRule::senior_days>("senior business days", never, "the same for a customer of `senior age`"),
      key<&CancellationRule::senior_age>("senior age", never, "years of age from which that counts"),
      key<&CancellationRule::home_from>("home from", never, "least price of a sale at the buyer's home"),
      key<&CancellationRule::elsewhere_from>("elsewhere from", never,
                                             "least price of a sale at a place that is neither home nor office"),
  };
  static constexpr Block made{"a `cancellation` rule", rows};
  return made;
}

const Block& ReportRule::block() {
  static constexpr Key rows[] = {
      key<&ReportRule::deliver_within>("deliver within", never, "days from the inspection to its delivery"),
      key<&ReportRule::control_number>("control number", never, "yes, when the state gives each report a number"),
  };
  static constexpr Block made{"a `report` rule", rows};
  return made;
}

const Block& Filing::block() {
  static constexpr Key rows[] = {
      key<&Filing::paper>("paper", always, "the name by which a case says that it was filed"),
      key<&Filing::with>("with", always, "whose office"),
      key<&Filing::from>("from", always, "inspection or treatment"),
      key<&Filing::within>("within", always, "days"),
  };
  static constexpr Block made{"a filing", rows};
  return made;
}

const Block& NoticeRule::block() {
  static constexpr Key rows[] = {
      key<&NoticeRule::of>("of", never, "treatment or inspection; a treatment when not said"),
      key<&NoticeRule::holds>("holds", never, "what the state wants to read on it"),
      key<&NoticeRule::wide>("wide", never, "least width"),
      key<&NoticeRule::high>("high", never, "least height"),
      key<&NoticeRule::years>("years", never, "for which it lasts"),
      key<&NoticeRule::where>("where", never, "where it is put up"),
  };
  static constexpr Block made{"a `posted notice` rule", rows};
  return made;
}

const Block& FreeTreatment::block() {
  static constexpr Key rows[] = {
      key<&FreeTreatment::days>("days", always, "for which it is promised"),
      key<&FreeTreatment::from>("from", always, "inspection or issue"),
      key<&FreeTreatment::at_most>("at most", never, "yes, when a longer promise is forbidden"),
      key<&FreeTreatment::cite>("cite", always, "where it is written"),
      key<&FreeTreatment::status>("status", always, "how far it was verified"),
      key<&FreeTreatment::insist>("insist", never, "yes, when it stops a paper though nobody has read it"),
  };
  static constexpr Block made{"a `free treatment` rule", rows};
  return made;
}

const Block& BeetleRule::block() {
  static constexpr Key rows[] = {
      key<&BeetleRule::months>("months", always, "after treatment"),
      key<&BeetleRule::days>("days", always, "after the written notice"),
  };
  static constexpr Block made{"a `beetle retreatment` rule", rows};
  return made;
}

const Block& InvoiceRule::block() {
  static constexpr Key rows[] = {
      key<&InvoiceRule::names_veteran>("names veteran", never, "yes, when the invoice names veteran and property"),
      key<&InvoiceRule::veteran_pays_from>("veteran pays from", never, "the first day on which the veteran may pay"),
  };
  static constexpr Block made{"an `invoice` rule", rows};
  return made;
}

const Block& Form::block() {
  static constexpr Key rows[] = {
      key<&Form::format>("format", always, "1"),
      key<&Form::id>("form", always, "the name by which a case names it"),
      key<&Form::name>("name", always, "the state, in words"),
      key<&Form::state>("state", never, "its two letters"),
      key<&Form::edition>("edition", always, "when this data was put together"),
      key<&Form::title>("title", always, "what the packet is called on paper"),
      key<&Form::official_sheet>("official sheet", never, "the sheet that the state prescribes"),
      key<&Form::license>("license", never, "what a license must show"),
      key<&Form::limits>("limits", always, "numbers with their sources"),
      key<&Form::partial>("partial treatment", never, "allowed, with a waiver, or forbidden"),
      key<&Form::estimate_apart>("estimate apart", never, "yes, when findings and estimate may not be one paper"),
      key<&Form::cancellation>("cancellation", never, "what the buyer is told of cancelling"),
      key<&Form::report>("report", never, "by when a report is delivered"),
      key<&Form::filings>("filings", never, "papers that the company files, and within how many days"),
      key<&Form::keep>("keep", never, "papers that are kept, and how long"),
      key<&Form::agreement>("agreement", never, "what an agreement has to hold, and by when it is signed"),
      key<&Form::notices>("posted notice", never, "the notice that is put up after inspection or treatment"),
      key<&Form::free_treatment>("free treatment", never, "days within which treatment is free of charge"),
      key<&Form::beetles>("beetle retreatment", never, "how long active beetles oblige the company"),
      key<&Form::invoice>("invoice", never, "what an invoice names"),
      key<&Form::poison_center>("poison center", never, "telephone number for first aid"),
      key<&Form::locate_line>("locate line", never, "telephone number for the marking of lines"),
      key<&Form::rules>("rules", never, "rules that this state switches on"),
      key<&Form::active_tests>("active tests", never, "what a call of active has to rest on"),
      key<&Form::loose_words>("loose words", never, "words that no sentence of a paper may hold"),
      key<&Form::lender_sheet>("lender sheet", never, "the sheet a lender takes where the state prescribes none"),
      key<&Form::unread>("unread", never, "parts of the state's rules that were not read"),
  };
  static constexpr Block made{"a form", rows};
  return made;
}

const Block& Method::block() {
  static constexpr Key rows[] = {
      key<&Method::name>("name", always, "as typed after `do:`"),
      key<&Method::takes>("takes", always, "what of the house it is done on"),
      key<&Method::uses_product>("uses product", never, "yes, when it applies the option's product"),
      key<&Method::against>("against", never, "organisms it works against"),
      key<&Method::corrects>("corrects", never, "conditions it puts right"),
      key<&Method::mends_damage>("mends damage", never, "yes, when it deals with damaged wood"),
      key<&Method::clears_evidence>("clears evidence", never, "yes, when it takes tubes or debris away"),
      key<&Method::per>("per", never, "measures by which it may be priced"),
      key<&Method::phase>("phase", never, "license phase it needs"),
      key<&Method::names_firm>("names firm", never, "yes, when whoever does it in our place is named"),
      key<&Method::needs_label>("needs label", never, "what the product's label must allow by its own words"),
      key<&Method::bare_wood>("bare wood", never, "yes, when it soaks into bare wood only"),
      key<&Method::least_core>("least core", never, "degrees Fahrenheit in the core of the wood"),
      key<&Method::least_hold>("least hold", never, "minutes for which that heat is held"),
      key<&Method::cite>("cite", always, "where it is written"),
      key<&Method::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a method", rows};
  return made;
}

const Block& Organism::block() {
  static constexpr Key rows[] = {
      key<&Organism::name>("name", always, "as typed after `organism:`"),
      key<&Organism::plural>("plural", always, "in a sentence"),
      key<&Organism::group>("group", always, "termites, beetles, ants, bees or fungi"),
      key<&Organism::in_soil>("in soil", never, "yes, when it reaches the house through the soil"),
      key<&Organism::hosts>("hosts", never, "the wood it attacks: softwood, hardwood"),
      key<&Organism::hole_from>("hole from", never, "inches across its smallest exit holes"),
      key<&Organism::hole_to>("hole to", never, "inches across its largest exit holes"),
      key<&Organism::cite>("cite", always, "where it is written"),
      key<&Organism::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"an organism", rows};
  return made;
}

const Block& Condition::block() {
  static constexpr Key rows[] = {
      key<&Condition::name>("name", always, "as typed after `condition:`"),
      key<&Condition::invites>("invites", never, "no, when it invites nothing"),
      key<&Condition::wet>("wet", never, "yes, when it is about moisture"),
      key<&Condition::contact>("contact", never, "yes, when wood stands in soil"),
      key<&Condition::low>("low", never, "yes, when soil lies too near to wood"),
      key<&Condition::cite>("cite", always, "where it is written"),
      key<&Condition::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a condition", rows};
  return made;
}

const Block& Wood::block() {
  static constexpr Key rows[] = {
      key<&Wood::name>("name", always, "as people write it"),
      key<&Wood::kind>("kind", always, "softwood or hardwood"),
      key<&Wood::cite>("cite", always, "where it is written"),
      key<&Wood::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a wood", rows};
  return made;
}

const Block& Band::block() {
  static constexpr Key rows[] = {
      key<&Band::what>("what", always, "the work"),
      key<&Band::of>("for", never, "the methods it compares"),
      key<&Band::per>("per", always, "the measure"),
      key<&Band::low>("low", always, "dollars"),
      key<&Band::high>("high", always, "dollars"),
      key<&Band::cite>("cite", always, "where it is written"),
      key<&Band::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a band", rows};
  return made;
}

const Block& Trade::block() {
  static constexpr Key rows[] = {
      key<&Trade::format>("format", always, "1"),
      key<&Trade::methods>("methods", always, "what can be done"),
      key<&Trade::organisms>("organisms", always, "what can be found"),
      key<&Trade::conditions>("conditions", always, "what invites organisms"),
      key<&Trade::woods>("woods", never, "softwoods and hardwoods by name"),
      key<&Trade::bands>("bands", never, "what such work costs elsewhere"),
      key<&Trade::holidays>("holidays", never, "federal holidays, which are no business days"),
  };
  static constexpr Block made{"the trade's words", rows};
  return made;
}

}  // namespace soundsill
