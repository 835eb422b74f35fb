// Serves listing/data.h. The data inside a packet. What may be told at all stands in the tables below; all else of a
// case stays out.
#include <functional>
#include <nlohmann/json.hpp>

#include "listing/data.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;

/// A copy and the words that stand on it.
struct Printed {
  const Copy& copy;
  std::string all;

  explicit Printed(const Copy& c) : copy(c) {
    for (const std::string& s : document::strings(c.paper)) all += s + "\n";
    for (const auto& [slot, words] : c.paper.running) all += words + "\n";
  }
  [[nodiscard]] bool says(const std::string& words) const {
    return !words.empty() &&
           (all.find(words) != std::string::npos || all.find(document::capitalized(words)) != std::string::npos);
  }
  [[nodiscard]] bool has(std::string_view section) const {
    return std::any_of(copy.paper.sections.begin(), copy.paper.sections.end(),
                       [&](const document::Section& s) { return s.name == section; });
  }

  // A value that this copy does not print is null, and null is left out.
  [[nodiscard]] Json text(const std::string& words) const { return says(words) ? Json(words) : Json(); }
  [[nodiscard]] Json text(const yaml::Field<std::string>& field) const { return field ? text(*field) : Json(); }
  [[nodiscard]] Json date(const std::optional<Date>& day) const {
    return day && says(copy.words.shown(*day)) ? Json(print(*day)) : Json();
  }
  [[nodiscard]] Json time(const std::optional<TimeOfDay>& t) const {
    return t && says(copy.words.shown(*t)) ? Json(print(*t)) : Json();
  }
  [[nodiscard]] Json money(Money m) const { return says(print(m)) ? Json(m.cents) : Json(); }
  [[nodiscard]] Json figure(const std::string& digits) const { return text(digits); }
  [[nodiscard]] Json texts(const std::vector<std::string>& list) const {
    Json out = Json::array();
    for (const std::string& one : list)
      if (says(one)) out.push_back(one);
    return out.empty() ? Json() : out;
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
      {"street", "number and street", a_text, [](const P& p, const Address& a) { return p.text(a.street); }},
      {"city", "the city", a_text, [](const P& p, const Address& a) { return p.text(a.city); }},
      {"state", "two letters", a_text, [](const P& p, const Address& a) { return p.text(a.state); }},
      {"zip", "the zip code", a_text, [](const P& p, const Address& a) { return p.text(a.zip); }},
  };
  return rows;
}

const Table<resolved::Visit>& visit_table() {
  using resolved::Visit;
  static const Table<Visit> rows{
      {"date", "the day", a_date, [](const P& p, const Visit& v) { return p.date(v.date); }},
      {"from", "when it began", a_time, [](const P& p, const Visit& v) { return p.time(v.from); }},
      {"to", "when it ended", a_time, [](const P& p, const Visit& v) { return p.time(v.to); }},
      {"weather", "the weather", a_text, [](const P& p, const Visit& v) { return p.text(v.weather); }},
      {"tools", "what was used to look", list_of(a_text), [](const P& p, const Visit& v) { return p.texts(v.tools); }},
  };
  return rows;
}

const Table<SurveyedArea>& area_table() {
  using Area = SurveyedArea;
  static const Table<Area> rows{
      {"name", "what people call it", a_text, [](const P& p, const Area& a) { return p.text(a.name); }},
      {"seen", "whether it was seen", a_choice<Seen>(), [](const P&, const Area& a) { return choice(a.seen); }},
      {"because", "why it was not", a_text, [](const P& p, const Area& a) { return p.text(a.because); }},
  };
  return rows;
}

const Table<resolved::Structure>& structure_table() {
  using resolved::Structure;
  static const Table<Structure> rows{
      {"name", "what people call the building", a_text, [](const P& p, const Structure& s) { return p.text(s.name); }},
      {"inspected", "whether it was looked at", a_yes_no,
       [](const P&, const Structure& s) { return Json(s.inspected); }},
      {"because", "why it was not", a_text, [](const P& p, const Structure& s) { return p.text(s.because); }},
      {"areas", "where we looked, and where not", list_of(schema_of(area_table())),
       [](const P& p, const Structure& s) { return told_each(area_table(), p, s.details->areas); }},
  };
  return rows;
}

const Table<resolved::Reading>& moisture_table() {
  using resolved::Reading;
  static const Table<Reading> rows{
      {"where", "where the pins stood", a_text, [](const P& p, const Reading& r) { return p.text(r.where); }},
      {"percent", "moisture of the wood", a_figure,
       [](const P& p, const Reading& r) { return r.percent ? p.figure(shortest(r.percent->value, 1)) : Json(); }},
  };
  return rows;
}

const Table<resolved::Finding>& finding_table() {
  using resolved::Finding;
  static const Table<Finding> rows{
      {"no", "its number on every page", a_whole,
       [](const P&, const Finding& f) { return f.no ? Json(*f.no) : Json(); }},
      {"kind", "evidence, damage or a condition", a_choice<FindingKind>(),
       [](const P&, const Finding& f) { return choice(f.kind); }},
      {"structure", "the building it is in", a_text, [](const P& p, const Finding& f) { return p.text(f.in); }},
      {"where", "its place in words", a_text, [](const P& p, const Finding& f) { return p.text(f.where); }},
      {"organism", "which organism", a_data_word, [](const P&, const Finding& f) { return a_name(f.organism_name); }},
      {"condition", "which condition", a_data_word,
       [](const P&, const Finding& f) { return a_name(f.condition_name); }},
      {"state", "active, past or not determined", a_choice<State>(),
       [](const P&, const Finding& f) { return choice(f.state); }},
      {"live_seen", "whether the organism itself was seen alive", a_yes_no,
       [](const P&, const Finding& f) { return f.live_seen_at ? Json(f.live_seen) : Json(); }},
      {"signs", "what was seen", list_of(a_text), [](const P& p, const Finding& f) { return p.texts(f.signs); }},
      {"basis", "what the call rests on", list_of(a_text),
       [](const P& p, const Finding& f) { return p.texts(f.basis); }},
      {"moisture", "readings of a moisture meter", list_of(schema_of(moisture_table())),
       [](const P& p, const Finding& f) { return told_each(moisture_table(), p, f.moisture); }},
      {"wood", "the kind of wood", a_text, [](const P& p, const Finding& f) { return p.text(f.wood); }},
      {"photos", "what each photo shows", list_of(a_text),
       [](const P& p, const Finding& f) {
         std::vector<std::string> shown;
         for (const resolved::Photo& photo : f.photos) shown.push_back(photo.shows);
         return p.texts(shown);
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
struct Line {
  const Choice& of;
  const PricedLine& line;
};

Json answered(const resolved::Line& w) {
  Json out = Json::array();
  for (const int n : w.answer_numbers) out.push_back(n);
  return out;
}

const Table<Line>& line_table() {
  static const Table<Line> rows{
      {"work", "what is done", a_data_word, [](const P&, const Line& l) { return a_name(l.line.line->does); }},
      {"structure", "where, with more than one building", a_text,
       [](const P& p, const Line& l) { return p.text(l.line.line->in); }},
      {"run", "the run whose measure is priced", a_whole,
       [](const P&, const Line& l) { return l.line.run ? Json(l.of.treatment.runs[*l.line.run].number) : Json(); }},
      {"answers", "the findings it answers; none when it is preventive", list_of(a_whole),
       [](const P&, const Line& l) { return answered(*l.line.line); }},
      {"measure", "as priced", a_figure,
       [](const P&, const Line& l) { return Json(shortest(l.line.measure, decimals(l.line.per))); }},
      {"unit", "of the measure", a_choice<Per>(),
       [](const P&, const Line& l) { return Json(std::string(yaml::word(l.line.per))); }},
      {"rate_cents", "price of a unit", a_whole, [](const P& p, const Line& l) { return p.money(l.line.rate); }},
      {"amount_cents", "measure times rate", a_whole, [](const P& p, const Line& l) { return p.money(l.line.amount); }},
  };
  return rows;
}

const Table<soundsill::Run>& run_table() {
  static const Table<soundsill::Run> rows{
      {"number", "of the run", a_whole, [](const P&, const soundsill::Run& r) { return Json(r.number); }},
      {"structure", "where", a_text, [](const P& p, const soundsill::Run& r) { return p.text(r.structure); }},
      {"working", "how the gallons were reached, in the words of this copy", a_text,
       [](const P& p, const soundsill::Run& r) { return p.text(p.copy.words.working(r.working)); }},
      {"depth_assumed", "whether its depth was assumed", a_yes_no,
       [](const P&, const soundsill::Run& r) {
         return r.footing_known_by ? Json(*r.footing_known_by == KnownBy::assumed) : Json();
       }},
      {"holes", "how many are drilled", a_whole,
       [](const P&, const soundsill::Run& r) { return r.holes ? Json(r.holes) : Json(); }},
      {"gallons", "of finished mix", a_figure,
       [](const P& p, const soundsill::Run& r) {
         return r.gallons > Ratio(0) ? p.figure(decimal(r.gallons, 1)) : Json();
       }},
  };
  return rows;
}

const Table<Mix>& mix_table() {
  static const Table<Mix> rows{
      {"product", "its name", a_text, [](const P& p, const Mix& m) { return p.text(m.product->name); }},
      {"active_ingredient", "its ISO common name", a_text,
       [](const P& p, const Mix& m) { return p.text(m.product->active_ingredient); }},
      {"gallons", "of finished mix", a_figure,
       [](const P& p, const Mix& m) { return p.figure(decimal(m.gallons, 1)); }},
      {"fl_oz", "of concentrate", a_figure, [](const P& p, const Mix& m) { return p.figure(decimal(m.fl_oz, 1)); }},
  };
  return rows;
}

const Table<AdjustedLine>& adjustment_table() {
  static const Table<AdjustedLine> rows{
      {"for", "what makes the work dearer or cheaper", a_choice<AdjustmentKind>(),
       [](const P&, const AdjustedLine& a) { return Json(std::string(yaml::word(a.of->kind))); }},
      {"because", "the reason", a_text, [](const P& p, const AdjustedLine& a) { return p.text(a.of->because); }},
      {"amount_cents", "what it adds", a_whole,
       [](const P& p, const AdjustedLine& a) {
         return p.money(Money{std::abs(a.amount.cents)}).is_null() ? Json() : Json(a.amount.cents);
       }},
  };
  return rows;
}

const Table<TaxLine>& tax_table() {
  static const Table<TaxLine> rows{
      {"percent", "of the base", a_figure,
       [](const P& p, const TaxLine& t) { return p.figure(shortest(t.percent.value, 4)); }},
      {"base_cents", "what is taxed", a_whole, [](const P& p, const TaxLine& t) { return p.money(t.base); }},
      {"amount_cents", "the tax", a_whole, [](const P& p, const TaxLine& t) { return p.money(t.amount); }},
  };
  return rows;
}

const Table<OtherLine>& other_table() {
  static const Table<OtherLine> rows{
      {"work", "what is done", a_data_word, [](const P&, const OtherLine& o) { return a_name(o.line->does); }},
      {"by", "who does it", a_choice<By>(),
       [](const P&, const OtherLine& o) { return Json(std::string(yaml::word(o.line->who))); }},
      {"firm", "by name", a_text, [](const P& p, const OtherLine& o) { return p.text(o.line->firm); }},
      {"answers", "the findings it answers", list_of(a_whole),
       [](const P&, const OtherLine& o) { return answered(*o.line); }},
      {"proof", "what settles it", a_text, [](const P& p, const OtherLine& o) { return p.text(o.line->proof); }},
      {"before", "the day by which it is to be done", a_date,
       [](const P& p, const OtherLine& o) { return p.date(o.line->before); }},
      {"because", "why nothing is done", a_text,
       [](const P& p, const OtherLine& o) { return p.text(o.line->because); }},
  };
  return rows;
}

const Table<WarrantyFacts>& warranty_table() {
  const auto list = [](const P& p, const ListOf<std::string>& of) { return of ? p.texts(*of) : Json(); };
  static const Table<WarrantyFacts> rows{
      {"kind", "what it covers", a_choice<WarrantyKind>(),
       [](const P&, const WarrantyFacts& w) { return w.kind ? Json(std::string(yaml::word(*w.kind))) : Json(); }},
      {"months", "from the day of treatment", a_whole,
       [](const P&, const WarrantyFacts& w) { return w.months ? Json(*w.months) : Json(); }},
      {"renewal_cents", "for each further period", a_whole,
       [](const P& p, const WarrantyFacts& w) { return w.renewal ? p.money(*w.renewal) : Json(); }},
      {"comes_back_when", "when the company comes back", list_of(a_text),
       [list](const P& p, const WarrantyFacts& w) { return list(p, w.conditions); }},
      {"ends_when", "what ends it early", list_of(a_text),
       [list](const P& p, const WarrantyFacts& w) { return list(p, w.voided_by); }},
      {"transfer", "to whom it passes", a_text, [](const P& p, const WarrantyFacts& w) { return p.text(w.transfer); }},
  };
  return rows;
}

const Table<Choice>& option_table() {
  static const Table<Choice> rows{
      {"name", "its name", a_text,
       [](const P& p, const Choice& c) { return c.treatment.of ? p.text(c.treatment.of->name) : Json(); }},
      {"lines", "measure times rate, line by line", list_of(schema_of(line_table())),
       [](const P& p, const Choice& c) {
         std::vector<Line> lines;
         for (const PricedLine& l : c.estimate.lines) lines.push_back({c, l});
         return told_each(line_table(), p, lines);
       }},
      {"adjustments", "between the lines and the total", list_of(schema_of(adjustment_table())),
       [](const P& p, const Choice& c) { return told_each(adjustment_table(), p, c.estimate.adjustments); }},
      {"to_minimum_cents", "up to the minimum charge", a_whole,
       [](const P& p, const Choice& c) { return c.estimate.to_minimum ? p.money(*c.estimate.to_minimum) : Json(); }},
      {"taxes", "sales tax", list_of(schema_of(tax_table())),
       [](const P& p, const Choice& c) { return told_each(tax_table(), p, c.estimate.taxes); }},
      {"total_cents", "the total", a_whole,
       [](const P& p, const Choice& c) { return c.estimate.lines.empty() ? Json() : p.money(c.estimate.total); }},
      {"holds_until", "the last day of the price", a_date,
       [](const P& p, const Choice& c) { return p.date(c.estimate.holds_until); }},
      {"others", "work that is not ours", list_of(schema_of(other_table())),
       [](const P& p, const Choice& c) { return told_each(other_table(), p, c.estimate.others); }},
      {"runs", "what is treated, run by run", list_of(schema_of(run_table())),
       [](const P& p, const Choice& c) {
         return c.estimate.lines.empty() ? Json() : told_each(run_table(), p, c.treatment.runs);
       }},
      {"mixes", "what is mixed", list_of(schema_of(mix_table())),
       [](const P& p, const Choice& c) {
         return c.estimate.lines.empty() ? Json() : told_each(mix_table(), p, c.treatment.mixes);
       }},
      {"warranty", "what is promised", schema_of(warranty_table()),
       [](const P& p, const Choice& c) {
         const WarrantyFacts* w = c.treatment.of ? c.treatment.of->warranty : nullptr;
         return w && !c.estimate.lines.empty() ? told(warranty_table(), p, *w) : Json();
       }},
  };
  return rows;
}

Json person(const P& p, resolved::Person resolved::People::*who) {
  return p.text((p.copy.basis.resolved.people.*who).name);
}
const resolved::CaseFacts& facts_of(const Copy& c) { return c.basis.resolved.facts; }

const Table<Copy>& packet_table() {
  using resolved::People;
  static const Table<Copy> rows{
      {"format", "of this data", {{"const", 1}}, [](const P&, const Copy&) { return Json(1); }},
      {"title", "of the paper", a_text,
       [](const P& p, const Copy& c) {
         return p.text(c.paper.sections.empty() ? "" : p.copy.words.name(c.basis.form.title.value_or("")));
       }},
      {"language", "of the paper; texts that people typed stay as typed", a_text,
       [](const P&, const Copy& c) { return Json(c.paper.language); }},
      {"draft", "whether it says so on every page", a_yes_no,
       [](const P&, const Copy& c) { return Json(!c.paper.draft.empty()); }},
      {"case", "its number", a_text, [](const P& p, const Copy& c) { return p.text(facts_of(c).number); }},
      {"revision", "of the paper", a_whole, [](const P&, const Copy& c) { return Json(facts_of(c).revision); }},
      {"purpose", "what the paper is for", a_choice<Purpose>(),
       [](const P&, const Copy& c) { return choice(facts_of(c).purpose); }},
      {"loan", "the kind of loan", a_choice<Loan>(),
       [](const P&, const Copy& c) {
         return facts_of(c).loan_said ? Json(std::string(yaml::word(facts_of(c).loan))) : Json();
       }},
      {"closing", "the day of closing", a_date, [](const P& p, const Copy& c) { return p.date(facts_of(c).closing); }},
      {"address", "where the house stands", schema_of(address_table()),
       [](const P& p, const Copy& c) {
         const resolved::Address& address = c.basis.resolved.address;
         return address.at ? told(address_table(), p, address) : Json();
       }},
      {"company", "who wrote it", a_text, [](const P& p, const Copy& c) { return p.text(c.basis.company.name); }},
      {"license", "the company's", a_text,
       [](const P& p, const Copy& c) {
         const auto& l = c.basis.company.license;
         return l && l->number ? p.text(l->number->text) : Json();
       }},
      {"inspector", "who looked", a_text, [](const P& p, const Copy&) { return person(p, &People::inspector); }},
      {"buyer", "who buys", a_text, [](const P& p, const Copy&) { return person(p, &People::buyer); }},
      {"seller", "who sells", a_text, [](const P& p, const Copy&) { return person(p, &People::seller); }},
      {"owner", "who owns the house", a_text, [](const P& p, const Copy&) { return person(p, &People::owner); }},
      {"agent", "the real-estate agent", a_text, [](const P& p, const Copy&) { return person(p, &People::agent); }},
      {"lender", "the lender", a_text, [](const P& p, const Copy&) { return person(p, &People::lender); }},
      {"rules", "whose rules and limits hold", a_text,
       [](const P& p, const Copy& c) { return p.text(p.copy.words.name(c.basis.form.name.value_or(""))); }},
      {"edition", "of the data of these rules", a_text,
       [](const P& p, const Copy& c) { return p.text(c.basis.form.edition); }},
      {"visits", "when the house was looked at", list_of(schema_of(visit_table())),
       [](const P& p, const Copy& c) { return told_each(visit_table(), p, c.basis.resolved.visits); }},
      {"structures", "the buildings and where we looked", list_of(schema_of(structure_table())),
       [](const P& p, const Copy& c) {
         return p.has("areas") ? told_each(structure_table(), p, c.basis.resolved.structures) : Json();
       }},
      {"findings", "what was found; an empty list when nothing was", list_of(schema_of(finding_table())),
       [](const P& p, const Copy& c) {
         if (!p.has("cards")) return Json();
         const Json found = told_each(finding_table(), p, c.basis.resolved.findings);
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
         return c.basis.resolved.signature ? p.text(c.basis.resolved.signature->name) : Json();
       }},
      {"signed_on", "when", a_date,
       [](const P& p, const Copy& c) {
         return c.basis.resolved.signature ? p.date(c.basis.resolved.signature->on) : Json();
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
