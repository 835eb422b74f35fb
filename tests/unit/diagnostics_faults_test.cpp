#include <catch2/catch.hpp>
#include <set>

#include "diagnostics/diagnostics.h"
#include "diagnostics/names.h"

using namespace soundsill;

TEST_CASE("faults are sorted by file in the order read, then by place, and stand once") {
  const Source first("b.yaml", "one\ntwo\n"), second("a.yaml", "one\n");
  Faults faults;
  faults.add(Rule::bad_yaml, {&first, 4, 7}, "later", "", "");
  faults.add(Rule::bad_yaml, {&second, 0, 3}, "other file", "", "");
  faults.add(Rule::bad_yaml, {&first, 0, 3}, "earlier", "", "");
  faults.add(Rule::bad_yaml, {&first, 4, 7}, "later", "", "");
  faults.add(Rule::bad_date, {&first, 4, 7}, "later", "", "");
  faults.sort();
  std::vector<std::string> words;
  for (const Diagnostic& d : faults.all()) words.push_back(d.at.source->name() + " " + d.what);
  CHECK(words == std::vector<std::string>{"b.yaml earlier", "b.yaml later", "b.yaml later", "a.yaml other file"});
}

TEST_CASE("errors and warnings are counted apart") {
  Faults faults;
  faults.add(Rule::bad_yaml, {}, "x", "", "");
  faults.add(Rule::lapses, {}, "y", "", "");
  faults.add(Rule::photo_small, {}, "z", "", "");
  CHECK(faults.errors() == 1);
  CHECK(faults.warnings() == 2);
}

TEST_CASE("a rule that came later only warns in a case whose paper was issued before") {
  using namespace std::chrono_literals;
  const auto since = info(Rule::sale_unfit).since;
  REQUIRE(since == std::chrono::sys_days(2026y / 11 / 30));
  REQUIRE_FALSE(info(Rule::no_place).since);
  const auto told = [&](std::optional<std::chrono::sys_days> issued, Rule rule) {
    Faults faults;
    if (issued) faults.issued(*issued);
    faults.add(rule, {}, "what", "why", "fix");
    faults.rest(0, Rests::read);  // what a form says of its rule makes no error of it again
    return severity(faults.all().front());
  };
  CHECK(told(*since - std::chrono::days(1), Rule::sale_unfit) == Severity::warning);
  CHECK(told(*since, Rule::sale_unfit) == Severity::error);
  CHECK(told(std::nullopt, Rule::sale_unfit) == Severity::error);
  CHECK(told(*since - std::chrono::days(1), Rule::no_place) == Severity::error);
}

TEST_CASE("the catalogue has one code a rule, in lower case with hyphens, and one line of doc") {
  std::set<std::string_view> codes;
  for (const RuleInfo& rule : catalogue()) {
    INFO(rule.code);
    CHECK(codes.insert(rule.code).second);
    CHECK(rule.code.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string_view::npos);
    CHECK(rule.code.find_first_of("-") != 0);
    CHECK(rule.code.back() != '-');
    CHECK(rule.doc.ends_with('.'));
    CHECK(info(rule.rule).code == rule.code);
  }
  CHECK(info(Rule::unsigned_).code == "unsigned");
  CHECK(info(Rule::doubled_key).code == "doubled-key");
}

TEST_CASE("a misspelt word finds the word that was meant") {
  const std::string_view known[] = {"organism", "state", "kind", "where"};
  CHECK(nearest("organsim", known) == "organism");
  CHECK(nearest("stat", known) == "state");
  CHECK(nearest("knid", known) == "kind");
  CHECK(nearest("Where", known) == "where");
  CHECK(nearest("photos", known).empty());
  CHECK(nearest("state", known).empty());  // it is known
  CHECK(nearest("", known).empty());
  CHECK(nearest("zz", {}).empty());
}

TEST_CASE("names of a block are held against those that may stand in it") {
  using Verdict = NameCheck::Verdict;
  NameCheck check({"state", "kind"});
  CHECK(check.meet("state") == Verdict::fine);
  CHECK(check.meet("stat") == Verdict::unknown);
  CHECK(check.meet("state") == Verdict::twice);
  CHECK(check.meet("stat") == Verdict::twice);
  CHECK(check.met("state"));
  CHECK_FALSE(check.met("kind"));
  CHECK_FALSE(check.met("stat"));  // only what is known can be missing
  CHECK(did_you_mean("stat", check.known(), "write one of them") == "did you mean `state`?");
  CHECK(did_you_mean("photos", check.known(), "write one of them") == "write one of them");
}

TEST_CASE("the nearest word lies within one edit and a third of the length") {
  const std::string_view known[] = {"abcdef"};
  CHECK(nearest("abcxyf", known) == "abcdef");
  CHECK(nearest("abxyzf", known) == "abcdef");
  CHECK(nearest("awxyzf", known).empty());
}
