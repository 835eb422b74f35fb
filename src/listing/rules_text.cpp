// Serves listing/catalogue.h.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "diagnostics/diagnostics.h"
#include "listing/catalogue.h"
#include "units/units.h"

namespace soundsill::listing {
namespace {

std::string_view word(Severity s) { return s == Severity::error ? "error" : "warning"; }

std::string_view word(RuleKind kind) {
  switch (kind) {
    case RuleKind::reading:
      return "while reading";
    case RuleKind::working:
      return "while working";
    case RuleKind::check:
      return "always";
    case RuleKind::asked:
      return "where a form asks";
  }
  return "";
}

/// "always", "on (cite)", "off": whether a rule speaks under a form.
std::string when(const RuleInfo& rule, const Form* form) {
  if (rule.kind != RuleKind::asked || !form) return std::string(word(rule.kind));
  const RuleUse* use = form->uses(rule.code);
  return use ? "on: " + use->cite.value_or("") : "off";
}

/// The papers that a fault of the rule stops.
std::vector<std::string_view> concerned(Rule rule) {
  std::vector<std::string_view> out;
  for (const Paper paper : all_papers)
    if (stops(rule, paper)) out.push_back(word(paper));
  return out;
}

/// "every paper", "every paper but the record", "estimate and agreement". As long as any error holds back every final
/// paper, this says what a fault is about, and not yet what may leave in spite of it.
std::string concerns(Rule rule) {
  const auto in = concerned(rule);
  if (in.size() == std::size(all_papers)) return "every paper";
  if (in.size() + 1 == std::size(all_papers))
    for (const Paper paper : all_papers)
      if (!stops(rule, paper)) return "every paper but the " + std::string(word(paper));
  std::string out;
  for (std::size_t i = 0; i < in.size(); ++i)
    out += (i == 0 ? "" : i + 1 == in.size() ? " and " : ", ") + std::string(in[i]);
  return out;
}

std::string indented(std::string_view text, std::string_view by) {
  std::string out(by);
  for (const char c : text) {
    out += c;
    if (c == '\n') out += by;
  }
  return out + "\n";
}

std::string file_word(const std::string& file) { return file == "base.yaml" ? "case.yaml" : file; }

/// A sound case beside the faulty one, and what is said of it.
std::string shown(const WorkedCase& worked) {
  std::string out = "\nFor example, " + worked.name + (worked.form.empty() ? "" : ", under " + worked.form) + ".\n";
  for (const WorkedChange& change : worked.changes) {
    out += "  Where a sound " + file_word(change.file) + " says\n" + indented(change.old, "    ");
    out += change.now.empty() ? std::string("  this one says nothing.\n")
                              : "  this one says\n" + indented(change.now, "    ");
  }
  for (const auto& [path, state] : worked.photos) out += "  The photo " + path + " is " + state + ".\n";
  if (!worked.today.empty()) out += "  It is judged as of " + worked.today + ".\n";
  if (!worked.run.empty()) out += "  It is run by: soundsill " + worked.run + "\n";
  std::string says = worked.says;
  while (says.ends_with('\n')) says.pop_back();
  return out + "\n  soundsill says\n" + indented(says, "    ");
}

}  // namespace

std::string rules_list(const Form* form, std::string_view format) {
  if (format == "json") {
    using Json = nlohmann::ordered_json;
    Json all = Json::array();
    for (const RuleInfo& rule : catalogue())
      all.push_back({{"rule", rule.code},
                     {"severity", word(rule.severity)},
                     {"section", rule.section},
                     {"when", when(rule, form)},
                     {"concerns", concerned(rule.rule)},
                     {"holds", rule.doc},
                     {"why", rule.why}});
    return Json({{"version", 1}, {"rules", all}}).dump(2) + "\n";
  }
  std::string out;
  for (const RuleInfo& rule : catalogue())
    out += fmt::format("{:<24}  {:<7}  {}\n{:<24}  {}; concerns {}\n", rule.code, word(rule.severity), rule.doc, "",
                       when(rule, form), concerns(rule.rule));
  return out;
}

std::string explained(const RuleInfo& rule, const std::vector<AskedBy>& asked_by, std::string_view cases) {
  std::string out = fmt::format("{}: {}, {}\n\n  {}\n  {}\n  It concerns: {}.\n", rule.code, word(rule.severity),
                                word(rule.kind), rule.doc, rule.why, concerns(rule.rule));
  if (rule.since)
    out += fmt::format("  It came on {}; in a case whose paper was issued before, it only warns.\n",
                       print(Date{*rule.since}));
  if (rule.kind == RuleKind::asked) {
    out += asked_by.empty() ? "\nNo form that is installed asks for it.\n" : "\nAsked for by:\n";
    for (const AskedBy& one : asked_by) out += fmt::format("  {:<12}  {}\n", one.form, one.cite);
  }
  bool fired = false;
  std::string silent;
  for (const WorkedCase& one : read_worked(cases)) {
    const bool fires = one.says.find(" [" + std::string(rule.code) + "]\n") != std::string::npos;
    if (fires && !fired) out += shown(one);
    if (!fires) silent += "  " + one.name + "\n";
    fired = fired || fires;
  }
  return silent.empty() ? out : out + "\nIt is silent about:\n" + silent;
}

}  // namespace soundsill::listing
