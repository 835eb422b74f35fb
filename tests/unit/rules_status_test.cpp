// Status decides what a datum may stop: when nothing of the law was read, no rule that rests on it is an error any
// more, while duties, drawings and what the company or a label says stay errors.
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "rules/worked.h"
#include "support/case_harness.h"

namespace soundsill::testing {
namespace {

std::string unread(std::string text) {
  for (const auto& [old, now] : {std::pair{"status: published", "status: memory"}, std::pair{", insist: yes", ""},
                                 std::pair{"\n  insist: yes", ""}})
    for (std::size_t at = 0; (at = text.find(old, at)) != std::string::npos;)
      text.replace(at, std::string_view(old).size(), now);
  return text;
}

/// A worked case whose law nobody has read; nothing when it changes the law's data or the company itself.
std::optional<CaseTexts> texts_of(const WorkedCase& one) {
  CaseTexts texts{file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")};
  if (!one.form.empty()) texts.form_yaml = file_text("forms/" + one.form + ".yaml");
  for (const WorkedChange& change : one.changes) {
    if (change.file != "base.yaml" && !change.file.empty()) return std::nullopt;
    texts.case_yaml = edited(std::move(texts.case_yaml), change.old, change.now);
  }
  texts.form_yaml = unread(std::move(texts.form_yaml));
  texts.general_yaml = unread(std::move(texts.general_yaml));
  texts.trade_yaml = unread(std::move(texts.trade_yaml));
  return texts;
}

}  // namespace

TEST_CASE("what nobody has read stops no paper") {
  // Every rule whose fault rests on a datum of form or trade alone.
  const std::set<std::string> rules = {"danger-near",        "voids-undrilled",   "too-wide",       "odd-depth",
                                       "past-unanswered",    "evidence-cleared",  "left-untreated", "weak-basis",
                                       "too-cool",           "no-official-sheet", "wrong-sheet",    "wrong-phase",
                                       "treatment-unneeded", "interest-unsaid",   "no-advice",      "report-late"};
  int spoke = 0;
  for (const std::string& code : rules)
    for (const WorkedCase& one : read_worked(file_text("tests/rules/" + code + ".txt"))) {
      if (!one.run.empty() || !one.paper.empty()) continue;
      auto texts = texts_of(one);
      if (!texts) continue;
      CaseRun run(std::move(*texts));
      run.check_rules();
      for (const Diagnostic& d : run.faults.all()) {
        INFO(code << ": " << one.name << ": " << d.what);
        if (!rules.contains(std::string(info(d.rule).code))) continue;
        CHECK(severity(d) == Severity::warning);
        ++spoke;
      }
    }
  CHECK(spoke > 30);
}

}  // namespace soundsill::testing
