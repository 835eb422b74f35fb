// Runs the worked cases of tests/rules/*.txt (src/rules/worked.h says how they are written): each changes a few letters
// of base.yaml and says what is told then, to the letter. Cases that RUN the program are held to the letter by
// tests/cli/told.py; here they have to show that they need it.
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <sstream>

#include "rules/worked.h"
#include "support/case_harness.h"

namespace soundsill::testing {
namespace {

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

std::string* file_of(CaseTexts& texts, const std::string& name) {
  return name == "company.yaml"   ? &texts.company_yaml
         : name == "form.yaml"    ? &texts.form_yaml
         : name == "trade.yaml"   ? &texts.trade_yaml
         : name == "general.yaml" ? &texts.general_yaml
                                  : &texts.case_yaml;
}

Wanted wanted(const std::string& paper) {
  constexpr std::string_view names[] = {"packet", "agreement", "work order", "record", "invoice", "certificate"};
  const auto found = std::find(std::begin(names), std::end(names), paper);
  if (found == std::end(names)) throw std::runtime_error("no paper is called " + paper);
  return static_cast<Wanted>(found - std::begin(names));
}

/// What only the program reads: it must change as the case says all the same.
void try_change(const WorkedChange& change) {
  const std::string in_templates = "templates/" + change.file;
  const bool there = std::filesystem::exists(std::string(SOUNDSILL_ROOT) + "/" + in_templates);
  (void)edited(file_text(there ? in_templates : "forms/" + change.file), change.old, change.now);
}

/// The form that the program would take by the case's own word.
void take_form(CaseTexts& texts) {
  const std::string key = "\nform: ";
  const auto at = texts.case_yaml.find(key) + key.size();
  const std::string path = "forms/" + texts.case_yaml.substr(at, texts.case_yaml.find('\n', at) - at) + ".yaml";
  if (std::filesystem::exists(std::string(SOUNDSILL_ROOT) + "/" + path)) texts.form_yaml = file_text(path);
}

/// As told.py does: \xE9 stands for that byte.
std::string with_bytes(std::string text) {
  for (auto at = text.find("\\x"); at != std::string::npos; at = text.find("\\x", at + 1))
    text.replace(at, 4, 1, static_cast<char>(std::stoi(text.substr(at + 2, 2), nullptr, 16)));
  return text;
}

CaseTexts texts_of(const WorkedCase& one) {
  CaseTexts texts = base();
  if (!one.form.empty()) texts.form_yaml = file_text("forms/" + one.form + ".yaml");
  for (const WorkedChange& change : one.changes) {
    if (file_of(texts, change.file) == &texts.case_yaml && change.file != "base.yaml") {
      try_change(change);
      continue;
    }
    std::string* file = file_of(texts, change.file);
    *file = edited(std::move(*file), change.old, change.now);
  }
  for (const auto& [path, state] : one.photos) texts.photos[path] = photo_state(state);
  if (!one.today.empty()) texts.today = read_date(one.today);
  if (!one.paper.empty()) texts.wanted = wanted(one.paper);
  texts.case_yaml = with_bytes(std::move(texts.case_yaml));
  if (!one.run.empty()) take_form(texts);
  return texts;
}

std::vector<WorkedCase> worked(const std::string& name) { return read_worked(file_text("tests/rules/" + name)); }

std::string told_of(const WorkedCase& one) {
  if (!one.run.empty()) return one.says;
  CaseRun run(texts_of(one));
  run.check_rules();
  return told(run.faults);
}

/// The first line of each fault.
std::set<std::string> faults_of(const std::string& told) {
  std::set<std::string> found;
  std::istringstream lines(told);
  for (std::string line; std::getline(lines, line);)
    if (line.ends_with("]") &&
        (line.find(": error: ") != std::string::npos || line.find(": warning: ") != std::string::npos))
      found.insert(line);
  return found;
}

bool speaks(const std::string& says, std::string_view code) {
  return says.find(" [" + std::string(code) + "]\n") != std::string::npos;
}

std::filesystem::path folder() { return std::string(SOUNDSILL_ROOT) + "/tests/rules"; }

/// The file with what is told now in place of what it expected: to be looked at, and taken over by hand.
void write_actual(const std::string& name, const std::vector<WorkedCase>& cases) {
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
    const auto all = worked(name);
    bool good = true;
    for (const WorkedCase& one : all) {
      INFO(name << ": " << one.name);
      if (!one.run.empty()) {
        CaseRun run(texts_of(one));
        run.check_rules();
        const auto here = faults_of(told(run.faults)), says = faults_of(one.says);
        INFO(told(run.faults));
        CHECK(std::includes(says.begin(), says.end(), here.begin(), here.end()));
        const bool fires = speaks(one.says, name.substr(0, name.size() - 4));
        CHECK((!fires || here != says));  // else it needs no RUN, and is held to the letter here
        continue;
      }
      const std::string now = told_of(one);
      good = good && now == one.says;
      CHECK(now == one.says);
    }
    if (!good) write_actual(name, all);
  }
}

TEST_CASE("every rule of the catalogue has a case that fires it and one that does not, a doc line and a reason") {
  for (const RuleInfo& rule : catalogue()) {
    INFO(rule.code);
    CHECK(rule.doc.ends_with("."));
    CHECK(rule.why.ends_with("."));
    // Words or a template that drop an item are faults themselves; what remains is tried on altered documents, in
    // document_owed_test.cpp.
    if (rule.rule == Rule::item_missing) continue;
    const std::string name = std::string(rule.code) + ".txt";
    const bool there = std::filesystem::exists(folder() / name);
    CHECK(there);
    if (!there) continue;
    bool fires = false, silent = false;
    for (const WorkedCase& one : worked(name)) (speaks(one.says, rule.code) ? fires : silent) = true;
    CHECK(fires);
    CHECK(silent);
  }
}

TEST_CASE("what a rule says fits its line and never advises there") {
  std::set<std::string> advice = {"please", "should", "must ", "invalid", "illegal"};
  for (const auto& entry : std::filesystem::directory_iterator(folder())) {
    if (entry.path().extension() != ".txt") continue;
    for (const WorkedCase& one : worked(entry.path().filename().string())) {
      if (!one.run.empty()) continue;
      CaseRun run(texts_of(one));
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
