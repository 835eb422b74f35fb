// Runs the cases of tests/rules/*.txt: each changes a few letters of base.yaml and says what is told then, to the
// letter.
//
//   # words for the reader, and where a published row comes from
//   CASE the name says the behavior
//   IN company.yaml           what follows changes this file (company.yaml, form.yaml, trade.yaml; base.yaml when not
//   said)
//   - text that stands in the file exactly once
//   + text that takes its place (none: it is taken out); an empty line parts two changes
//   FORM us-sc                the case stands under this form
//   PHOTO path missing|broken|WIDTHxHEIGHT
//   TODAY 2026-03-01
//   SAYS                      and then every fault; nothing when the papers are sound
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <sstream>

#include "support/case_harness.h"

namespace soundsill::testing {
namespace {

struct RuleCase {
  std::string name;
  CaseTexts texts;
  std::string says;
};

CaseTexts base() { return {file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")}; }

PhotoState photo_state(const std::string& words) {
  if (words == "missing") return {"there is no such file", {}, {}};
  photo::Header header;
  header.width = header.height = 1200;
  if (words == "broken") return {{}, "it ends before its last line of pixels", header};
  const auto x = words.find('x');
  header.width = std::stoi(words.substr(0, x));
  header.height = std::stoi(words.substr(x + 1));
  return {{}, {}, header};
}

class Reader {
 public:
  explicit Reader(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) take(line);
    finish();
  }
  std::vector<RuleCase> cases;

 private:
  void take(const std::string& line) {
    const auto after = [&](std::string_view word) { return line.substr(std::min(line.size(), word.size())); };
    if (line.starts_with("CASE ")) {
      finish();
      cases.push_back({after("CASE "), base(), {}});
      file_ = &cases.back().texts.case_yaml;
      says_ = false;
    } else if (says_) {
      if (!line.starts_with("# ")) cases.back().says += line + "\n";
    } else if (line.starts_with("+ ")) {
      new_ += (new_.empty() ? "" : "\n") + after("+ ");
      has_new_ = true;
    } else if (line.starts_with("- ")) {
      if (has_new_) change();
      old_ += (old_.empty() ? "" : "\n") + after("- ");
    } else {
      change();
      if (!line.empty() && line[0] != '#') direct(line, after);
    }
  }

  template <class After>
  void direct(const std::string& line, After after) {
    CaseTexts& texts = cases.back().texts;
    if (line.starts_with("IN ")) {
      const std::string name = after("IN ");
      file_ = name == "company.yaml"   ? &texts.company_yaml
              : name == "form.yaml"    ? &texts.form_yaml
              : name == "trade.yaml"   ? &texts.trade_yaml
              : name == "general.yaml" ? &texts.general_yaml
                                       : &texts.case_yaml;
    } else if (line.starts_with("FORM ")) {
      texts.form_yaml = file_text("forms/" + after("FORM ") + ".yaml");
    } else if (line.starts_with("PHOTO ")) {
      const auto space = line.rfind(' ');
      texts.photos[line.substr(6, space - 6)] = photo_state(line.substr(space + 1));
    } else if (line.starts_with("TODAY ")) {
      texts.today = read_date(after("TODAY "));
    } else if (line == "SAYS") {
      says_ = true;
    } else {
      throw std::runtime_error("not understood: " + line);
    }
  }

  void change() {
    if (!old_.empty()) *file_ = edited(std::move(*file_), old_, new_);
    old_.clear();
    new_.clear();
    has_new_ = false;
  }

  void finish() {
    if (cases.empty()) return;
    std::string& says = cases.back().says;
    while (says.ends_with("\n\n") || says == "\n") says.pop_back();
  }

  std::string* file_ = nullptr;
  std::string old_, new_;
  bool has_new_ = false, says_ = false;
};

std::string told_of(const RuleCase& one) {
  CaseRun run(one.texts);
  run.check_rules();
  return told(run.faults);
}

bool speaks(const std::string& says, std::string_view code) {
  return says.find(" [" + std::string(code) + "]\n") != std::string::npos;
}

std::filesystem::path folder() { return std::string(SOUNDSILL_ROOT) + "/tests/rules"; }

/// The file with what is told now in place of what it expected: to be looked at, and taken over by hand.
void write_actual(const std::string& name, const std::vector<RuleCase>& cases) {
  std::istringstream lines(file_text("tests/rules/" + name));
  std::ofstream out(folder() / (name + ".actual"), std::ios::binary);
  bool says = false;
  std::size_t next = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("CASE ") || (says && line.starts_with("# "))) {
      if (says) out << "\n";
      says = false;
    }
    if (!says) out << line << "\n";
    if (line != "SAYS") continue;
    says = true;
    out << told_of(cases.at(next++));
  }
}

}  // namespace

TEST_CASE("the base case has no fault") {
  CaseRun run(base());
  run.check_rules();
  CHECK(told(run.faults) == "");
}

TEST_CASE("what each rule says, and when it is silent") {
  for (const auto& entry : std::filesystem::directory_iterator(folder())) {
    if (entry.path().extension() != ".txt") continue;
    const std::string name = entry.path().filename().string();
    INFO(name);
    const Reader read(file_text("tests/rules/" + name));
    bool good = true;
    for (const RuleCase& one : read.cases) {
      INFO(name << ": " << one.name);
      const std::string now = told_of(one);
      good = good && now == one.says;
      CHECK(now == one.says);
    }
    if (!good) write_actual(name, read.cases);
  }
}

TEST_CASE("every rule of the catalogue that is checked here has a case that fires it and one that does not") {
  for (const RuleInfo& rule : catalogue()) {
    if (rule.kind == RuleKind::reading || rule.kind == RuleKind::working) continue;
    INFO(rule.code);
    const std::string name = std::string(rule.code) + ".txt";
    const bool there = std::filesystem::exists(folder() / name);
    CHECK(there);
    if (!there) continue;
    bool fires = false, silent = false;
    for (const RuleCase& one : Reader(file_text("tests/rules/" + name)).cases)
      (speaks(one.says, rule.code) ? fires : silent) = true;
    CHECK(fires);
    CHECK(silent);
  }
}

TEST_CASE("what a rule says fits its line and never advises there") {
  std::set<std::string> advice = {"please", "should", "must ", "invalid", "illegal"};
  for (const auto& entry : std::filesystem::directory_iterator(folder())) {
    if (entry.path().extension() != ".txt") continue;
    for (const RuleCase& one : Reader(file_text("tests/rules/" + entry.path().filename().string())).cases) {
      CaseRun run(one.texts);
      run.check_rules();
      for (const Diagnostic& d : run.faults.all()) {
        INFO(d.what);
        CHECK(letters(d.what) <= 90);
        CHECK_FALSE(d.what.ends_with("."));
        CHECK_FALSE(d.why.empty());
        CHECK_FALSE(d.fix.empty());
        CHECK(d.at);
        for (const std::string& word : advice) CHECK(d.what.find(word) == std::string::npos);
      }
    }
  }
}

}  // namespace soundsill::testing
