#include <nlohmann/json.hpp>

#include "listing/listing.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;

// Exact figures are text, so that no reader turns them into binary fractions.
std::string feet(Length l) { return shortest(l.in_feet(), 4); }

Json of(const SurveyedStructure& s) {
  Json walls = Json::array();
  for (const Wall& w : s.walls)
    walls.push_back({{"wall", w.number}, {"outside_ft", feet(w.length)}, {"inside_ft", feet(w.inside_length)}});
  return {{"name", s.name},
          {"outside_ft", feet(s.outside)},
          {"inside_ft", feet(s.inside)},
          {"piers", s.piers.size()},
          {"walls", walls}};
}

Json of(const Run& r) {
  Json stretches = Json::array();
  for (const Stretch& s : r.stretches)
    stretches.push_back({{"wall", s.wall}, {"from_ft", feet(s.a)}, {"to_ft", feet(s.b)}});
  return {{"run", r.number},
          {"line", r.work},
          {"structure", r.structure},
          {"length_ft", feet(r.length)},
          {"depth_ft", feet(r.depth)},
          {"required_depth_ft", feet(r.required_depth)},
          {"holes", r.holes},
          {"gallons", decimal(r.gallons, 1)},
          {"computed_gallons", decimal(r.computed_gallons, 1)},
          {"working", r.working},
          {"sources", r.sources},
          {"stretches", stretches},
          {"piers", r.piers},
          {"names", r.names}};
}

Json of(const Treatment& t) {
  Json runs = Json::array();
  for (const Run& r : t.runs) runs.push_back(of(r));
  Json out = {{"option", t.id}, {"gallons", decimal(t.gallons, 1)}, {"holes", t.holes}, {"runs", runs}};
  if (!t.mix) return out;
  Json loads = Json::array();
  for (const Load& l : t.mix->loads)
    loads.push_back({{"gallons", decimal(l.gallons, 1)}, {"fl_oz", shortest(l.exact, 2)}});
  Json packages = Json::array();
  for (const auto& [size, count] : t.mix->packages)
    packages.push_back({{"fl_oz", shortest(size, 2)}, {"count", count}});
  out["mix"] = {{"product", t.mix->product->name.value_or("")},
                {"fl_oz", decimal(t.mix->fl_oz, 1)},
                {"loads", loads},
                {"packages", packages}};
  return out;
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

std::string measures_json(const Basis& basis, const std::vector<Treatment>& treatments) {
  Json structures = Json::array(), options = Json::array();
  for (const SurveyedStructure& s : basis.survey.structures) structures.push_back(of(s));
  for (const Treatment& t : treatments) options.push_back(of(t));
  return dump({{"version", 1}, {"structures", structures}, {"options", options}});
}

std::string faults_json(const Faults& faults) {
  Json all = Json::array();
  for (const Diagnostic& d : faults.all()) {
    const RuleInfo& rule = info(d.rule);
    Json one = place(d.at);
    one["severity"] = rule.severity == Severity::error ? "error" : "warning";
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
