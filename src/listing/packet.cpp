// Serves listing/data.h. The data inside a packet. What may be told at all stands in the tables below; all else of a
// case stays out.
#include <functional>
#include <nlohmann/json.hpp>

#include "listing/data.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;

using document::Topic;

/// A copy and what it states.
struct Printed {
  const Copy& copy;
  document::Record record;

  explicit Printed(const Copy& c) : copy(c), record(stated_in(c.paper)) {}
  [[nodiscard]] bool states(Topic topic, const std::string& of = {}) const { return record.states(topic, of); }
  [[nodiscard]] bool has(std::string_view section) const {
    return std::any_of(copy.paper.sections.begin(), copy.paper.sections.end(),
                       [&](const document::Section& s) { return s.name == section; });
  }

  // A value that this copy does not state is null, and null is left out. `of` says what it is stated of: see
  // topics.def.
  [[nodiscard]] Json text(Topic topic, const std::string& words, const std::string& of = {}) const {
    return record.states(topic, of, words) ? Json(words) : Json();
  }
  [[nodiscard]] Json date(Topic topic, const std::optional<Date>& day, const std::string& of = {}) const {
    return day && record.states(topic, of, copy.words.shown(*day)) ? Json(print(*day)) : Json();
  }
  [[nodiscard]] Json time(Topic topic, const std::optional<TimeOfDay>& t, const std::string& of) const {
    return t && record.states(topic, of, copy.words.shown(*t)) ? Json(print(*t)) : Json();
  }
  [[nodiscard]] Json money(Topic topic, Money m, const std::string& of) const {
    return record.states(topic, of, print(m)) ? Json(m.cents) : Json();
  }
  [[nodiscard]] Json texts(Topic topic, const std::vector<std::string>& list, const std::string& of) const {
    Json out = Json::array();
    for (const std::string& one : list)
      if (record.states(topic, of, one)) out.push_back(one);
    return out.empty() ? Json() : out;
  }
  /// A list that is printed as one text.
  [[nodiscard]] Json list(Topic topic, const std::vector<std::string>& all, const std::string& of) const {
    return record.states(topic, of) ? Json(all) : Json();
  }
};

/// A row of a table: a name, what it means, how it looks, and where it comes from.
template <class T>
struct Row {
  const char* name;
  const char* doc;
  Json schema;
  std::function<Json(const Printed&, const T&)> value;
};
template <class T>
using Table = std::vector<Row<T>>;

template <class T>
Json told(const Table<T>& table, const Printed& p, const T& from) {
  Json out = Json::object();
  for (const Row<T>& row : table)
    if (Json value = row.value(p, from); !value.is_null()) out[row.name] = std::move(value);
  return out;
}

template <class T, class List>
Json told_each(const Table<T>& table, const Printed& p, const List& list) {
  Json out = Json::array();
  for (const auto& one : list)
    if (Json value = told<T>(table, p, one); !value.empty()) out.push_back(std::move(value));
  return out.empty() ? Json() : out;
}

template <class T>
Json schema_of(const Table<T>& table) {
  Json properties = Json::object();
  for (const Row<T>& row : table) {
    properties[row.name] = row.schema;
    properties[row.name]["description"] = row.doc;
  }
  return {{"type", "object"}, {"additionalProperties", false}, {"properties", std::move(properties)}};
}

const Json a_text = {{"type", "string"}}, a_whole = {{"type", "integer"}}, a_yes_no = {{"type", "boolean"}};
const Json a_date = {{"type", "string"}, {"format", "date"}, {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};
const Json a_time = {{"type", "string"}, {"pattern", "^[0-9]{1,2}:[0-9]{2}$"}};
const Json a_figure = {{"type", "string"}, {"pattern", "^-?[0-9][0-9,]*(\\.[0-9]+)?$"}};  // exact: no binary fraction
Json list_of(Json items) { return {{"type", "array"}, {"items", std::move(items)}}; }
template <class E>
Json a_choice() {
  Json words = Json::array();
  for (const std::string_view word : yaml::Words<E>::words) words.push_back(std::string(word));
  return {{"enum", std::move(words)}};
}
template <class E>
Json choice(const std::optional<E>& one) {
  return one ? Json(std::string(yaml::word(*one))) : Json();
}
Json a_name(const std::string& name) { return name.empty() ? Json() : Json(name); }
/// The words of trade.yaml: names of the data, the same in every language.
const Json a_data_word = {{"type", "string"}, {"description", "a name of the trade's data"}};

using P = Printed;

const Table<resolved::Address>& address_table() {
  using resolved::Address;
  static const Table<Address> rows{
      {"street", "number and street", a_text, [](const P&, const Address& a) { return a_name(a.street); }},
      {"city", "the city", a_text, [](const P&, const Address& a) { return a_name(a.city); }},
      {"state", "two letters", a_text, [](const P&, const Address& a) { return a_name(a.state); }},
      {"zip", "the zip code", a_text, [](const P&, const Address& a) { return a_name(a.zip); }},
  };
  return rows;
}

std::string day_of(const resolved::Visit& v) { return v.date ? print(*v.date) : std::string(); }

const Table<resolved::Visit>& visit_table() {
  using resolved::Visit;
  static const Table<Visit> rows{
      {"date", "the day", a_date, [](const P& p, const Visit& v) { return p.date(Topic::visit, v.date); }},
      {"from", "when it began", a_time,
       [](const P& p, const Visit& v) { return p.time(Topic::visit_from, v.from, day_of(v)); }},
      {"to", "when it ended", a_time,
       [](const P& p, const Visit& v) { return p.time(Topic::visit_to, v.to, day_of(v)); }},
      {"weather", "the weather", a_text,
       [](const P& p, const Visit& v) { return p.text(Topic::weather, v.weather, day_of(v)); }},
      {"tools", "what was used to look", list_of(a_text),
       [](const P& p, const Visit& v) { return p.list(Topic::tools, v.tools, day_of(v)); }},
  };
  return rows;
}

struct AreaOf {
  const resolved::Structure& structure;
  const SurveyedArea& area;
};

const Table<AreaOf>& area_table() {
  static const Table<AreaOf> rows{
      {"name", "what people call it", a_text,
       [](const P& p, const AreaOf& a) { return p.text(Topic::area, a.area.name, a.structure.name); }},
      {"seen", "whether it was seen", a_choice<Seen>(), [](const P&, const AreaOf& a) { return choice(a.area.seen); }},
      {"because", "why it was not", a_text,
       [](const P& p, const AreaOf& a) {
         const bool stated = p.states(Topic::why_unseen, a.structure.name + "/" + a.area.name);
         return stated ? a_name(a.area.because) : Json();
       }},
  };
  return rows;
}

const Table<resolved::Structure>& structure_table() {
  using resolved::Structure;
  static const Table<Structure> rows{
      {"name", "what people call the building", a_text,
       [](const P& p, const Structure& s) { return p.text(Topic::structure, s.name); }},
      {"inspected", "whether it was looked at", a_yes_no,
       [](const P&, const Structure& s) { return Json(s.inspected); }},
      {"because", "why it was not", a_text,
       [](const P& p, const Structure& s) { return p.text(Topic::why_not_inspected, s.because, s.name); }},
      {"areas", "where we looked, and where not", list_of(schema_of(area_table())),
       [](const P& p, const Structure& s) {
         std::vector<AreaOf> areas;
         for (const SurveyedArea& a : s.details->areas) areas.push_back({s, a});
         return told_each(area_table(), p, areas);
       }},
  };
  return rows;
}

const Table<resolved::Reading>& moisture_table() {
  using resolved::Reading;
  static const Table<Reading> rows{
      {"where", "where the pins stood", a_text, [](const P&, const Reading& r) { return Json(r.where); }},
      {"percent", "moisture of the wood", a_figure,
       [](const P&, const Reading& r) { return Json(shortest(r.percent->value, 1)); }},
  };
  return rows;
}

std::string number_of(const resolved::Finding& f) { return f.no ? std::to_string(*f.no) : std::string(); }

Json readings(const P& p, const resolved::Finding& f) {
  if (!p.states(Topic::moisture, number_of(f))) return {};
  std::vector<resolved::Reading> whole;  // others are not printed
  std::copy_if(f.moisture.begin(), f.moisture.end(), std::back_inserter(whole),
               [](const resolved::Reading& r) { return !r.where.empty() && r.percent; });
  return told_each(moisture_table(), p, whole);
}

const Table<resolved::Finding>& finding_table() {
  using resolved::Finding;
  static const Table<Finding> rows{
      {"no", "its number on every page", a_whole,
       [](const P&, const Finding& f) { return f.no ? Json(*f.no) : Json(); }},
      {"kind", "evidence, damage or a condition", a_choice<FindingKind>(),
       [](const P&, const Finding& f) { return choice(f.kind); }},
      {"structure", "the building it is in", a_text,
       [](const P& p, const Finding& f) { return p.text(Topic::structure, f.in); }},
      {"where", "its place in words", a_text,
       [](const P& p, const Finding& f) { return p.states(Topic::place, number_of(f)) ? a_name(f.where) : Json(); }},
      {"organism", "which organism", a_data_word, [](const P&, const Finding& f) { return a_name(f.organism_name); }},
      {"condition", "which condition", a_data_word,
       [](const P&, const Finding& f) { return a_name(f.condition_name); }},
      {"state", "active, past or not determined", a_choice<State>(),
       [](const P&, const Finding& f) { return choice(f.state); }},
      {"live_seen", "whether the organism itself was seen alive", a_yes_no,
       [](const P&, const Finding& f) { return f.live_seen_at ? Json(f.live_seen) : Json(); }},
      {"signs", "what was seen", list_of(a_text),
       [](const P& p, const Finding& f) { return p.list(Topic::signs, f.signs, number_of(f)); }},
      {"basis", "what the call rests on", list_of(a_text),
       [](const P& p, const Finding& f) { return p.list(Topic::basis, f.basis, number_of(f)); }},
      {"moisture", "readings of a moisture meter", list_of(schema_of(moisture_table())), readings},
      {"wood", "the kind of wood", a_text,
       [](const P& p, const Finding& f) { return p.text(Topic::wood, f.wood, number_of(f)); }},
      {"photos", "what each photo shows", list_of(a_text),
       [](const P& p, const Finding& f) {
         std::vector<std::string> shown;
         for (const resolved::Photo& photo : f.photos) shown.push_back(photo.shows);
         return p.texts(Topic::photo, shown, number_of(f));
       }},
  };
  return rows;
}

/// One option with what it takes and costs.
struct Choice {
  const Copy& copy;
  const Treatment& treatment;
  const Estimate& estimate;
};
/// A part of an option.
template <class T>
struct In {
  const Choice& option;
  const T& it;
  [[nodiscard]] const std::string& id() const { return option.treatment.id; }
};
template <class T>
Json told_each_in(const Table<In<T>>& table, const Printed& p, const Choice& option, const std::vector<T>& list) {
  std::vector<In<T>> all;
  for (const T& one : list) all.push_back({option, one});
  return told_each(table, p, all);
}

const Table<In<PricedLine>>& line_table() {
  using Line = In<PricedLine>;
  static const Table<Line> rows{
      {"work", "what is done", a_data_word, [](const P&, const Line& l) { return a_name(l.it.line->does); }},
      {"structure", "where, with more than one building", a_text,
       [](const P& p, const Line& l) { return p.text(Topic::structure, l.it.line->in); }},
      {"run", "the run whose measure is priced", a_whole,
       [](const P&, const Line& l) { return l.it.run ? Json(l.option.treatment.runs[*l.it.run].number) : Json(); }},
      {"answers", "the findings it answers; none when it is preventive", list_of(a_whole),
       [](const P&, const Line& l) { return Json(l.it.line->answer_numbers); }},
      {"measure", "as priced", a_figure,
       [](const P&, const Line& l) { return Json(shortest(l.it.measure, decimals(l.it.per))); }},
      {"unit", "of the measure", a_choice<Per>(),
       [](const P&, const Line& l) { return Json(std::string(yaml::word(l.it.per))); }},
      {"rate_cents", "price of a unit", a_whole,
       [](const P& p, const Line& l) { return p.money(Topic::rate, l.it.rate, l.id()); }},
      {"amount_cents", "measure times rate", a_whole,
       [](const P& p, const Line& l) { return p.money(Topic::amount, l.it.amount, l.id()); }},
  };
  return rows;
}

const Table<In<soundsill::Run>>& run_table() {
  using Run = In<soundsill::Run>;
  static const Table<Run> rows{
      {"number", "of the run", a_whole, [](const P&, const Run& r) { return Json(r.it.number); }},
      {"structure", "where", a_text, [](const P& p, const Run& r) { return p.text(Topic::structure, r.it.structure); }},
      {"working", "how the gallons were reached, in the words of this copy", a_text,
       [](const P& p, const Run& r) { return p.text(Topic::working, p.copy.words.shown(r.it.working), r.id()); }},
      {"depth_assumed", "whether its depth was assumed", a_yes_no,
       [](const P&, const Run& r) {
         return r.it.footing_known_by ? Json(*r.it.footing_known_by == KnownBy::assumed) : Json();
       }},
      {"holes", "how many are drilled", a_whole,
       [](const P&, const Run& r) { return r.it.holes ? Json(r.it.holes) : Json(); }},
      {"gallons", "of finished mix", a_figure,
       [](const P& p, const Run& r) { return p.text(Topic::gallons, decimal(r.it.gallons, 1), r.id()); }},
  };
  return rows;
}

const Table<In<Mix>>& mix_table() {
  using One = In<Mix>;
  static const Table<One> rows{
      {"product", "its name", a_text,
       [](const P& p, const One& m) { return p.text(Topic::product, m.it.product->name.value_or(""), m.id()); }},
      {"active_ingredient", "its ISO common name", a_text,
       [](const P& p, const One& m) {
         return p.text(Topic::ingredient, m.it.product->active_ingredient.value_or(""), m.id());
       }},
      {"gallons", "of finished mix", a_figure,
       [](const P& p, const One& m) { return p.text(Topic::mixed_gallons, decimal(m.it.gallons, 1), m.id()); }},
      {"fl_oz", "of concentrate", a_figure,
       [](const P& p, const One& m) { return p.text(Topic::mixed_fl_oz, decimal(m.it.fl_oz, 1), m.id()); }},
  };
  return rows;
}

const Table<In<AdjustedLine>>& adjustment_table() {
  using One = In<AdjustedLine>;
  static const Table<One> rows{
      {"for", "what makes the work dearer or cheaper", a_choice<AdjustmentKind>(),
       [](const P&, const One& a) { return Json(std::string(yaml::word(a.it.of->kind))); }},
      {"because", "the reason", a_text,
       [](const P& p, const One& a) { return p.text(Topic::adjusted_because, a.it.of->because, a.id()); }},
      {"amount_cents", "what it adds", a_whole,
       [](const P& p, const One& a) {
         const Money without_sign{std::abs(a.it.amount.cents)};
         return p.money(Topic::adjusted, without_sign, a.id()).is_null() ? Json() : Json(a.it.amount.cents);
       }},
  };
  return rows;
}

const Table<In<TaxLine>>& tax_table() {
  using One = In<TaxLine>;
  static const Table<One> rows{
      {"percent", "of the base", a_figure,
       [](const P& p, const One& t) { return p.text(Topic::tax_percent, shortest(t.it.percent.value, 4), t.id()); }},
      {"base_cents", "what is taxed", a_whole,
       [](const P& p, const One& t) { return p.money(Topic::tax_base, t.it.base, t.id()); }},
      {"amount_cents", "the tax", a_whole,
       [](const P& p, const One& t) { return p.money(Topic::tax, t.it.amount, t.id()); }},
  };
  return rows;
}

const Table<OtherLine>& other_table() {
  static const Table<OtherLine> rows{
      {"work", "what is done", a_data_word, [](const P&, const OtherLine& o) { return a_name(o.line->does); }},
      {"by", "who does it", a_choice<By>(),
       [](const P&, const OtherLine& o) { return Json(std::string(yaml::word(o.line->who))); }},
      {"firm", "by name", a_text,
       [](const P& p, const OtherLine& o) { return p.text(Topic::firm, o.line->firm, o.line->id); }},
      {"answers", "the findings it answers", list_of(a_whole),
       [](const P&, const OtherLine& o) { return Json(o.line->answer_numbers); }},
      {"proof", "what settles it", a_text,
       [](const P& p, const OtherLine& o) { return p.text(Topic::proof, o.line->proof, o.line->id); }},
      {"before", "the day by which it is to be done", a_date,
       [](const P& p, const OtherLine& o) { return p.date(Topic::before, o.line->before, o.line->id); }},
      {"because", "why nothing is done", a_text,
       [](const P& p, const OtherLine& o) { return p.text(Topic::why_nothing, o.line->because, o.line->id); }},
  };
  return rows;
}

const Table<In<WarrantyFacts>>& warranty_table() {
  using One = In<WarrantyFacts>;
  const auto list = [](const P& p, Topic topic, const ListOf<std::string>& of, const One& w) {
    return of ? p.texts(topic, *of, w.id()) : Json();
  };
  static const Table<One> rows{
      {"kind", "what it covers", a_choice<WarrantyKind>(),
       [](const P&, const One& w) { return w.it.kind ? Json(std::string(yaml::word(*w.it.kind))) : Json(); }},
      {"months", "from the day of treatment", a_whole,
       [](const P&, const One& w) { return w.it.months ? Json(*w.it.months) : Json(); }},
      {"renewal_cents", "for each further period", a_whole,
       [](const P& p, const One& w) { return w.it.renewal ? p.money(Topic::renewal, *w.it.renewal, w.id()) : Json(); }},
      {"comes_back_when", "when the company comes back", list_of(a_text),
       [list](const P& p, const One& w) { return list(p, Topic::comes_back_when, w.it.conditions, w); }},
      {"ends_when", "what ends it early", list_of(a_text),
       [list](const P& p, const One& w) { return list(p, Topic::ends_when, w.it.voided_by, w); }},
      {"transfer", "to whom it passes", a_text,
       [](const P& p, const One& w) { return p.text(Topic::transfer, w.it.transfer.value_or(""), w.id()); }},
  };
  return rows;
}

const Table<Choice>& option_table() {
  static const Table<Choice> rows{
      {"name", "its name", a_text,
       [](const P& p, const Choice& c) {
         return c.treatment.of ? p.text(Topic::option, c.treatment.of->name, c.treatment.id) : Json();
       }},
      {"lines", "measure times rate, line by line", list_of(schema_of(line_table())),
       [](const P& p, const Choice& c) { return told_each_in(line_table(), p, c, c.estimate.lines); }},
      {"adjustments", "between the lines and the total", list_of(schema_of(adjustment_table())),
       [](const P& p, const Choice& c) { return told_each_in(adjustment_table(), p, c, c.estimate.adjustments); }},
      {"to_minimum_cents", "up to the minimum charge", a_whole,
       [](const P& p, const Choice& c) {
         return c.estimate.to_minimum ? p.money(Topic::to_minimum, *c.estimate.to_minimum, c.treatment.id) : Json();
       }},
      {"taxes", "sales tax", list_of(schema_of(tax_table())),
       [](const P& p, const Choice& c) { return told_each_in(tax_table(), p, c, c.estimate.taxes); }},
      {"total_cents", "the total", a_whole,
       [](const P& p, const Choice& c) {
         return c.estimate.lines.empty() ? Json() : p.money(Topic::total, c.estimate.total, c.treatment.id);
       }},
      {"holds_until", "the last day of the price", a_date,
       [](const P& p, const Choice& c) { return p.date(Topic::holds_until, c.estimate.holds_until, c.treatment.id); }},
      {"others", "work that is not ours", list_of(schema_of(other_table())),
       [](const P& p, const Choice& c) { return told_each(other_table(), p, c.estimate.others); }},
      {"runs", "what is treated, run by run", list_of(schema_of(run_table())),
       [](const P& p, const Choice& c) {
         return c.estimate.lines.empty() ? Json() : told_each_in(run_table(), p, c, c.treatment.runs);
       }},
      {"mixes", "what is mixed", list_of(schema_of(mix_table())),
       [](const P& p, const Choice& c) {
         return c.estimate.lines.empty() ? Json() : told_each_in(mix_table(), p, c, c.treatment.mixes);
       }},
      {"warranty", "what is promised", schema_of(warranty_table()),
       [](const P& p, const Choice& c) {
         const WarrantyFacts* w = c.treatment.of ? c.treatment.of->warranty : nullptr;
         return w && !c.estimate.lines.empty() ? told(warranty_table(), p, In<WarrantyFacts>{c, *w}) : Json();
       }},
  };
  return rows;
}

Json person(const P& p, Topic topic, resolved::Person resolved::People::*who) {
  return p.text(topic, (p.copy.basis.resolved.people.*who).name);
}
const resolved::CaseFacts& facts_of(const Copy& c) { return c.basis.resolved.facts; }

const Table<Copy>& packet_table() {
  using resolved::People;
  static const Table<Copy> rows{
      {"format", "of this data", {{"const", 1}}, [](const P&, const Copy&) { return Json(1); }},
      {"title", "of the paper", a_text,
       [](const P& p, const Copy& c) {
         return p.text(Topic::title, p.copy.words.name(c.basis.form.title.value_or("")));
       }},
      {"language", "of the paper; texts that people typed stay as typed", a_text,
       [](const P&, const Copy& c) { return Json(c.paper.language); }},
      {"draft", "whether it says so on every page", a_yes_no,
       [](const P&, const Copy& c) { return Json(!c.paper.draft.empty()); }},
      {"case", "its number", a_text,
       [](const P& p, const Copy& c) { return p.text(Topic::case_number, facts_of(c).number); }},
      {"revision", "of the paper", a_whole, [](const P&, const Copy& c) { return Json(facts_of(c).revision); }},
      {"purpose", "what the paper is for", a_choice<Purpose>(),
       [](const P&, const Copy& c) { return choice(facts_of(c).purpose); }},
      {"loan", "the kind of loan", a_choice<Loan>(),
       [](const P&, const Copy& c) {
         return facts_of(c).loan_said ? Json(std::string(yaml::word(facts_of(c).loan))) : Json();
       }},
      {"closing", "the day of closing", a_date,
       [](const P& p, const Copy& c) { return p.date(Topic::closing, facts_of(c).closing); }},
      {"address", "where the house stands", schema_of(address_table()),
       [](const P& p, const Copy& c) {
         return p.states(Topic::address) ? told(address_table(), p, c.basis.resolved.address) : Json();
       }},
      {"company", "who wrote it", a_text,
       [](const P& p, const Copy& c) { return p.text(Topic::company, c.basis.company.name.value_or("")); }},
      {"license", "the company's", a_text,
       [](const P& p, const Copy& c) {
         const auto& l = c.basis.company.license;
         return l && l->number ? p.text(Topic::license, l->number->text) : Json();
       }},
      {"inspector", "who looked", a_text,
       [](const P& p, const Copy&) { return person(p, Topic::inspector, &People::inspector); }},
      {"buyer", "who buys", a_text, [](const P& p, const Copy&) { return person(p, Topic::buyer, &People::buyer); }},
      {"seller", "who sells", a_text,
       [](const P& p, const Copy&) { return person(p, Topic::seller, &People::seller); }},
      {"owner", "who owns the house", a_text,
       [](const P& p, const Copy&) { return person(p, Topic::owner, &People::owner); }},
      {"agent", "the real-estate agent", a_text,
       [](const P& p, const Copy&) { return person(p, Topic::agent, &People::agent); }},
      {"lender", "the lender", a_text,
       [](const P& p, const Copy&) { return person(p, Topic::lender, &People::lender); }},
      {"rules", "whose rules and limits hold", a_text,
       [](const P& p, const Copy& c) {
         return p.text(Topic::rules, p.copy.words.name(c.basis.form.name.value_or("")));
       }},
      {"edition", "of the data of these rules", a_text,
       [](const P& p, const Copy& c) { return p.text(Topic::edition, c.basis.form.edition.value_or("")); }},
      {"visits", "when the house was looked at", list_of(schema_of(visit_table())),
       [](const P& p, const Copy& c) { return told_each(visit_table(), p, c.basis.resolved.visits); }},
      {"structures", "the buildings and where we looked", list_of(schema_of(structure_table())),
       [](const P& p, const Copy& c) {
         return p.has("areas") ? told_each(structure_table(), p, c.basis.resolved.structures) : Json();
       }},
      {"findings", "what was found; an empty list when nothing was", list_of(schema_of(finding_table())),
       [](const P& p, const Copy& c) {
         if (!p.has("cards")) return Json();
         std::vector<std::reference_wrapper<const resolved::Finding>> stated;
         for (const resolved::Finding& f : c.basis.resolved.findings)
           if (p.states(Topic::finding, number_of(f))) stated.emplace_back(f);
         const Json found = told_each(finding_table(), p, stated);
         return found.is_null() ? Json::array() : found;
       }},
      {"options", "the choices, with what each takes and costs", list_of(schema_of(option_table())),
       [](const P& p, const Copy& c) {
         if (!p.has("estimate")) return Json();
         std::vector<Choice> all;
         for (std::size_t i = 0; i < c.treatments.size() && i < c.estimates.size(); ++i)
           all.push_back({c, c.treatments[i], c.estimates[i]});
         return told_each(option_table(), p, all);
       }},
      {"signed_by", "who signed", a_text,
       [](const P& p, const Copy& c) {
         return c.basis.resolved.signature ? p.text(Topic::signed_by, c.basis.resolved.signature->name) : Json();
       }},
      {"signed_on", "when", a_date,
       [](const P& p, const Copy& c) {
         return c.basis.resolved.signature ? p.date(Topic::signed_on, c.basis.resolved.signature->on) : Json();
       }},
  };
  return rows;
}

}  // namespace

std::string packet_json(const Copy& copy) {
  const Printed printed(copy);
  return told(packet_table(), printed, copy).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string packet_schema() {
  Json out = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"$id", "urn:soundsill:packet:1"},
              {"title", "The data inside a packet of soundsill: only what that copy prints"}};
  out.update(schema_of(packet_table()));
  out["required"] = Json::array({"format", "language", "draft"});
  return out.dump(2) + "\n";
}

}  // namespace soundsill::listing
