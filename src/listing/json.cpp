// Serves listing/listing.h.
#include <nlohmann/json.hpp>

#include "listing/listing.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;

// Exact figures are text, so that no reader turns them into binary fractions.
std::string feet(Length l) { return shortest(l.in_feet(), 4); }

Json of(const std::vector<Stretch>& all) {
  Json out = Json::array();
  for (const Stretch& s : all) out.push_back({{"wall", s.wall}, {"from_ft", feet(s.a)}, {"to_ft", feet(s.b)}});
  return out;
}

Json of(const SurveyedStructure& s) {
  Json walls = Json::array(), parts = Json::array(), partitions = Json::array(), slabs = Json::array();
  for (const Wall& w : s.walls)
    walls.push_back({{"wall", w.number},
                     {"outside_ft", feet(w.length)},
                     {"inside_ft", feet(w.inside_length)},
                     {"outer", of(w.outer)},
                     {"paved", of(w.paved)}});
  for (const SurveyedPart& p : s.parts) {
    Json cells = Json::array();
    for (const Cell& c : p.cells)
      cells.push_back({{"area_sqft", shortest(c.area_sqft, 2)}, {"round_ft", feet(c.perimeter)}});
    parts.push_back({{"name", p.name},
                     {"foundation", yaml::word(p.foundation)},
                     {"area_sqft", shortest(p.area_sqft, 2)},
                     {"inside_sqft", shortest(p.inside_sqft, 2)},
                     {"closing_error_ft", feet(p.closing_error)},
                     {"cells", cells}});
  }
  for (const SurveyedPartition& p : s.partitions)
    partitions.push_back({{"name", p.name}, {"clear_ft", feet(p.clear)}, {"faces_ft", feet(p.faces)}});
  for (const SurveyedSlab& one : s.slabs)
    slabs.push_back({{"name", one.name},
                     {"area_sqft", shortest(one.area_sqft, 2)},
                     {"adjoins", of(one.adjoins)},
                     {"free_edges_ft", feet(one.free_edges)}});
  return {{"name", s.name},
          {"outside_ft", feet(s.outside)},
          {"inside_ft", feet(s.inside)},
          {"piers", s.piers.size()},
          {"walls", walls},
          {"parts", parts},
          {"partitions", partitions},
          {"slabs", slabs}};
}

Json of(const Run& r) {
  return {{"run", r.number},
          {"line", r.work},
          {"structure", r.structure},
          {"backfill", r.backfill},
          {"length_ft", feet(r.length)},
          {"area_sqft", shortest(r.sq_ft, 2)},
          {"volume_cuft", shortest(r.cu_ft, 2)},
          {"count", r.count},
          {"depth_ft", feet(r.depth)},
          {"depth_to_ft", feet(r.depth_to.value_or(r.depth))},
          {"required_depth_ft", feet(r.required_depth)},
          {"holes", r.holes},
          {"gallons", decimal(r.gallons, 1)},
          {"computed_gallons", decimal(r.computed_gallons, 1)},
          {"trench_gallons", decimal(r.trench_gallons, 1)},
          {"rod_gallons", decimal(r.rod_gallons, 1)},
          {"rod_holes", r.rod_holes},
          {"pump_seconds", shortest(r.pump_seconds, 1)},
          {"minutes", shortest(r.minutes, 1)},
          {"working", r.working.in_english()},
          {"sources", r.sources},
          {"stretches", of(r.stretches)},
          {"gaps", of(r.gaps)},
          {"piers", r.piers},
          {"names", r.names}};
}

Json of(const Mix& m) {
  Json loads = Json::array(), packages = Json::array();
  for (const Load& l : m.loads) loads.push_back({{"gallons", decimal(l.gallons, 1)}, {"fl_oz", shortest(l.exact, 2)}});
  for (const auto& [size, count] : m.packages) packages.push_back({{"fl_oz", shortest(size, 2)}, {"count", count}});
  return {{"product", m.product->name.value_or("")},
          {"strength", m.strength},
          {"gallons", decimal(m.gallons, 1)},
          {"fl_oz", decimal(m.fl_oz, 1)},
          {"loads", loads},
          {"packages", packages},
          {"packages_used", shortest(m.packages_used, 3)}};
}

Json of(const Otherwise& o) {
  return {{"structure", o.structure},
          {"numbers", o.numbers},
          {"name", o.name},
          {"step_ft", feet(o.step)},
          {"gallons", decimal(o.gallons, 1)},
          {"holes", o.holes},
          {"amount_cents", o.amount.cents}};
}

Json of(const Treatment& t, const std::vector<Otherwise>& others) {
  Json runs = Json::array(), mixes = Json::array(), assumed = Json::array();
  for (const Run& r : t.runs) runs.push_back(of(r));
  for (const Mix& m : t.mixes) mixes.push_back(of(m));
  for (const Otherwise& o : others) assumed.push_back(of(o));
  return {{"option", t.id},
          {"gallons", decimal(t.gallons, 1)},
          {"holes", t.holes},
          {"runs", runs},
          {"mixes", mixes},
          {"timed", t.timed},
          {"minutes", shortest(t.minutes, 1)},
          {"crew_hours", shortest(t.crew_hours, 2)},
          {"otherwise", assumed}};
}

Json place(const Span& at) {
  if (!at) return {{"file", ""}, {"line", 0}, {"column", 0}};
  const auto p = at.source->position(at.begin);
  return {{"file", at.source->name()}, {"line", p.line}, {"column", p.column}};
}

std::string dump(const Json& json) {
  // Text of a person's file may hold anything; it never stops the output.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string measures_json(const Measures& m) {
  Json structures = Json::array(), options = Json::array();
  for (const SurveyedStructure& s : m.basis.survey.structures) structures.push_back(of(s));
  for (std::size_t i = 0; i < m.treatments.size(); ++i)
    options.push_back(of(m.treatments[i], i < m.estimates.size() ? otherwise(m.basis, m.treatments[i], m.estimates[i])
                                                                 : std::vector<Otherwise>{}));
  return dump({{"version", 2}, {"structures", structures}, {"options", options}});
}

namespace {

Json money(Money m) { return m.cents; }

Json of(const Treatment& t, const Estimate& e) {
  Json lines = Json::array(), adjustments = Json::array(), taxes = Json::array(), others = Json::array();
  for (const PricedLine& l : e.lines)
    lines.push_back({{"line", l.line->id},
                     {"method", *l.method->name},
                     {"run", l.run ? Json(t.runs[*l.run].number) : Json()},
                     {"measure", decimal(l.measure, decimals(l.per))},
                     {"unit", yaml::word(l.per)},
                     {"rate_cents", money(l.rate)},
                     {"amount_cents", money(l.amount)}});
  for (const AdjustedLine& a : e.adjustments)
    adjustments.push_back({{"for", yaml::word(a.of->kind)},
                           {"because", a.of->because},
                           {"percent", a.of->percent ? Json(shortest(a.of->percent->value, 4)) : Json()},
                           {"base_cents", money(a.base)},
                           {"amount_cents", money(a.amount)}});
  for (const TaxLine& tax : e.taxes)
    taxes.push_back({{"percent", shortest(tax.percent.value, 4)},
                     {"base_cents", money(tax.base)},
                     {"amount_cents", money(tax.amount)}});
  for (const OtherLine& o : e.others) others.push_back({{"line", o.line->id}, {"by", yaml::word(o.line->who)}});
  return {{"option", t.id},
          {"way", yaml::word(e.way)},
          {"lines", lines},
          {"lines_cents", money(e.lines_total)},
          {"adjustments", adjustments},
          {"to_minimum_cents", e.to_minimum ? money(*e.to_minimum) : Json(0)},
          {"taxes", taxes},
          {"total_cents", money(e.total)},
          {"others", others},
          {"gallons", decimal(t.gallons, 1)},
          {"holes", t.holes},
          {"crew_hours", t.timed ? Json(shortest(t.crew_hours, 2)) : Json()}};
}

}  // namespace

std::string estimate_json(const Measures& m) {
  Json options = Json::array();
  for (std::size_t i = 0; i < m.treatments.size() && i < m.estimates.size(); ++i)
    options.push_back(of(m.treatments[i], m.estimates[i]));
  return dump({{"version", 1}, {"options", options}});
}

std::string faults_json(const Faults& faults) {
  Json all = Json::array();
  for (const Diagnostic& d : faults.all()) {
    const RuleInfo& rule = info(d.rule);
    Json one = place(d.at);
    one["severity"] = severity(d) == Severity::error ? "error" : "warning";
    one["rule"] = std::string(rule.code);
    one["what"] = d.what;
    one["why"] = d.why;
    one["fix"] = d.fix;
    one["see"] = Json::array();
    for (const Note& n : d.see) {
      Json note = place(n.at);
      note["words"] = n.words;
      one["see"].push_back(note);
    }
    all.push_back(one);
  }
  return dump({{"version", 1}, {"faults", all}, {"errors", faults.errors()}, {"warnings", faults.warnings()}});
}

}  // namespace soundsill::listing
