#include "form/form.h"

#include <algorithm>

namespace soundsill {

using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto sometimes = yaml::Need::sometimes;
constexpr auto never = yaml::Need::never;

template <class T>
const Block& Datum<T>::block() {
  static const Key rows[] = {
      key<&Datum<T>::value>("value", always, "the number"),
      key<&Datum<T>::cite>("cite", always, "where it is written"),
      key<&Datum<T>::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a datum", rows};
  return made;
}
template struct Datum<Length>;
template struct Datum<Ratio>;
template struct Datum<Percent>;
template struct Datum<int>;
template struct Datum<bool>;
template struct Datum<std::string>;
template struct Datum<Partial>;

const Block& Limits::block() {
  static const Key rows[] = {
      key<&Limits::soil_depth>("soil depth", never, "least depth of soil treated where the footing is deeper"),
      key<&Limits::volume_floor>("volume floor", never, "gallons are never reckoned for less depth than this"),
      key<&Limits::trench_depth>("trench depth", never, "depth of the trench itself"),
      key<&Limits::rod_spacing>("rod spacing", never, "greatest distance between rod holes"),
      key<&Limits::soil_rate>("soil rate", never, "gallons per 10 ft per foot of depth"),
      key<&Limits::slab_rate>("slab rate", never, "gallons per 10 ft through holes in a slab"),
      key<&Limits::void_rate>("void rate", never, "gallons per 10 ft of hollow wall"),
      key<&Limits::under_slab_rate>("under slab rate", never, "gallons per 10 sq ft of soil under a slab"),
      key<&Limits::under_slab_rate_gravel>("under slab rate over gravel", never, "the same where gravel lies under it"),
      key<&Limits::trap_rate>("bath trap rate", never, "gallons per square foot of a bath trap"),
      key<&Limits::backfill_rate>("backfill rate", never, "gallons per cubic foot of soil treated aside"),
      key<&Limits::overall_rate>("overall rate", never, "gallons per 10 sq ft of crawl space"),
      key<&Limits::wood_rate>("wood rate", never, "pints per cubic foot of wood, sprayed on"),
      key<&Limits::trench_width>("trench width", never, "width of the trench, and of the soil that is treated"),
      key<&Limits::assumed_step>("assumed step", never, "by how much an assumed depth is tried otherwise"),
      key<&Limits::slab_hole_from_wall>("slab hole from wall", never, "how far from the wall a slab is drilled"),
      key<&Limits::station_spacing>("station spacing", never, "greatest distance between bait stations"),
      key<&Limits::retarder_lap>("retarder lap", never, "how far the sheets of a vapor retarder lie over each other"),
      key<&Limits::slab_hole_spacing>("slab hole spacing", never, "greatest distance between holes in a slab"),
      key<&Limits::void_hole_spacing>("void hole spacing", never, "greatest distance between holes in a hollow wall"),
      key<&Limits::void_reach>("void reach", never, "voids are drilled within this distance of evidence"),
      key<&Limits::well_none>("keep from well", never, "nothing is treated within this distance of a well"),
      key<&Limits::well_backfill>("backfill near well", never, "only by the backfill method within this distance"),
      key<&Limits::wood_moisture>("wood moisture", never, "moisture above which wood is to be dried"),
      key<&Limits::report_age>("report age", never, "days from the paper to closing"),
  };
  static const Block made{"the `limits` block", rows};
  return made;
}

const Block& OfficialSheetRule::block() {
  static const Key rows[] = {
      key<&OfficialSheetRule::name>("name", always, "what the state calls its sheet"),
      key<&OfficialSheetRule::needed_for>("needed for", always, "purposes that need it"),
      key<&OfficialSheetRule::cite>("cite", always, "where it is written"),
      key<&OfficialSheetRule::status>("status", always, "how far it was verified"),
  };
  static const Block made{"an `official sheet` rule", rows};
  return made;
}

const Block& LicenseRule::block() {
  static const Key rows[] = {
      key<&LicenseRule::inspect_phase>("inspect phase", never, "letter of the phase an inspection needs"),
      key<&LicenseRule::person_license>("person license", never, "yes, when the inspector's own number is asked"),
      key<&LicenseRule::cite>("cite", always, "where it is written"),
      key<&LicenseRule::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a `license` rule", rows};
  return made;
}

const Block& RuleUse::block() {
  static const Key rows[] = {
      key<&RuleUse::rule>("rule", always, "a rule of the catalogue"),
      key<&RuleUse::cite>("cite", always, "where it is written"),
      key<&RuleUse::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a rule in use", rows};
  return made;
}

const Block& Form::block() {
  static const Key rows[] = {
      key<&Form::format>("format", always, "1"),
      key<&Form::id>("form", always, "the name by which a case names it"),
      key<&Form::name>("name", always, "the state, in words"),
      key<&Form::edition>("edition", always, "when this data was put together"),
      key<&Form::title>("title", always, "what the packet is called on paper"),
      key<&Form::official_sheet>("official sheet", never, "the sheet that the state prescribes"),
      key<&Form::license>("license", never, "what a license must show"),
      key<&Form::limits>("limits", always, "numbers with their sources"),
      key<&Form::partial>("partial treatment", never, "allowed, with a waiver, or forbidden"),
      key<&Form::estimate_apart>("estimate apart", never, "yes, when findings and estimate may not be one paper"),
      key<&Form::cancellation>("cancellation", never, "what the buyer is told of cancelling"),
      key<&Form::rules>("rules", never, "rules that this state switches on"),
      key<&Form::unread>("unread", never, "parts of the state's rules that were not read"),
  };
  static const Block made{"a form", rows};
  return made;
}

const Block& Method::block() {
  static const Key rows[] = {
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
      key<&Method::cite>("cite", always, "where it is written"),
      key<&Method::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a method", rows};
  return made;
}

const Block& Organism::block() {
  static const Key rows[] = {
      key<&Organism::name>("name", always, "as typed after `organism:`"),
      key<&Organism::plural>("plural", always, "in a sentence"),
      key<&Organism::group>("group", always, "termites, beetles, ants, bees or fungi"),
      key<&Organism::in_soil>("in soil", never, "yes, when it reaches the house through the soil"),
      key<&Organism::cite>("cite", always, "where it is written"),
      key<&Organism::status>("status", always, "how far it was verified"),
  };
  static const Block made{"an organism", rows};
  return made;
}

const Block& Condition::block() {
  static const Key rows[] = {
      key<&Condition::name>("name", always, "as typed after `condition:`"),
      key<&Condition::invites>("invites", never, "no, when it only keeps the inspector out"),
      key<&Condition::cite>("cite", always, "where it is written"),
      key<&Condition::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a condition", rows};
  return made;
}

const Block& Band::block() {
  static const Key rows[] = {
      key<&Band::what>("what", always, "the work"),
      key<&Band::of>("for", never, "the methods it compares"),
      key<&Band::per>("per", always, "the measure"),
      key<&Band::low>("low", always, "dollars"),
      key<&Band::high>("high", always, "dollars"),
      key<&Band::cite>("cite", always, "where it is written"),
      key<&Band::status>("status", always, "how far it was verified"),
  };
  static const Block made{"a band", rows};
  return made;
}

const Block& Trade::block() {
  static const Key rows[] = {
      key<&Trade::format>("format", always, "1"),
      key<&Trade::methods>("methods", always, "what can be done"),
      key<&Trade::organisms>("organisms", always, "what can be found"),
      key<&Trade::conditions>("conditions", always, "what invites organisms"),
      key<&Trade::bands>("bands", never, "what such work costs elsewhere"),
  };
  static const Block made{"the trade's words", rows};
  return made;
}

const RuleUse* Form::uses(std::string_view rule_code) const {
  if (rules)
    for (const RuleUse& use : *rules)
      if (use.rule && *use.rule == rule_code) return &use;
  return nullptr;
}

namespace {

bool holds(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}
template <class T>
const T* named(const ListOf<T>& list, std::string_view name) {
  if (list)
    for (const T& item : *list)
      if (item.name && *item.name == name) return &item;
  return nullptr;
}
template <class T>
const T& value_of(const Datum<T>& datum) {
  return *datum.value;
}
const Ratio& value_of(const Datum<Percent>& datum) { return datum.value->value; }

template <class T>
std::optional<T> read_whole(const Source& source, Faults& faults) {
  const auto tree = yaml::read(source, faults);
  if (!tree) return std::nullopt;
  yaml::Reader reader(faults);
  return yaml::Reading<T>::read(reader, *tree);
}

}  // namespace

bool Method::is_against(std::string_view organism) const { return holds(against, organism); }
bool Method::does_correct(std::string_view condition) const { return holds(corrects, condition); }
const Method* Trade::method(std::string_view name) const { return named(methods, name); }
const Organism* Trade::organism(std::string_view name) const { return named(organisms, name); }
const Condition* Trade::condition(std::string_view name) const { return named(conditions, name); }

std::optional<Form> read_form(const Source& source, Faults& faults) { return read_whole<Form>(source, faults); }
std::optional<Trade> read_trade(const Source& source, Faults& faults) { return read_whole<Trade>(source, faults); }

void fill_from(Form& form, const Form& base) {
  const auto fill = [](auto& mine, const auto& theirs) {
    if (!mine) mine = theirs;
  };
  fill(form.partial, base.partial);
  fill(form.estimate_apart, base.estimate_apart);
  fill(form.cancellation, base.cancellation);
  if (!form.limits || !base.limits) return;
  Limits limits = *form.limits;
  Limits::each([&](auto member, Limits::Stricter) {
    if (!(limits.*member)) limits.*member = (*base.limits).*member;
  });
  form.limits.set(std::move(limits));
}

void tighten(Form& form, const Form& overlay) {
  if (form.limits && overlay.limits) {
    Limits limits = *form.limits;
    Limits::each([&](auto member, Limits::Stricter stricter) {
      auto& mine = limits.*member;
      const auto& theirs = (*overlay.limits).*member;
      if (!theirs || !theirs->value) return;
      const bool known = mine && mine->value;
      if (!known || (stricter == Limits::Stricter::greater && value_of(*theirs) > value_of(*mine)) ||
          (stricter == Limits::Stricter::less && value_of(*theirs) < value_of(*mine)))
        mine = theirs;
    });
    form.limits.set(std::move(limits));
  }
  const auto append = [](auto& mine, const auto& theirs) {
    if (!theirs) return;
    auto all = mine ? *mine : *theirs;
    if (mine) all.insert(all.end(), theirs->begin(), theirs->end());
    mine.set(std::move(all));
  };
  append(form.rules, overlay.rules);
  append(form.unread, overlay.unread);
}

}  // namespace soundsill
