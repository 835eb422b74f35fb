// Days after the treatment: how long a warranty runs, what comes due, what is kept, what is promised. Rows of published
// rules bear their id and source; forms of states that are not shipped are written here as small as can be.
#include <catch2/catch.hpp>

#include "service/service.h"
#include "support/case_harness.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

Date day(std::string_view text) { return *read_date(text); }

std::string replaced(std::string text, const std::string& old, const std::string& now) {
  for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + now.size()))
    text.replace(at, old.size(), now);
  return text;
}

/// The base case accepted and treated on a day, with more keys at its end.
CaseTexts treated(const std::string& on, const std::string& more = {}, const std::string& form = {},
                  const std::string& months = "12") {
  CaseTexts texts{file_text("tests/rules/base.yaml"), file_text("tests/rules/company.yaml")};
  texts.case_yaml += "accepted: {option: full, by: Cora Dean, on: 2026-03-06}\napplied:\n  - {on: " + on +
                     ", crew: [Dee Ray], weather: dry, runs: [{run: 1, gal: 96.0}]}\n" + more;
  texts.company_yaml =
      edited(texts.company_yaml, "{id: repair-1, kind: retreatment and repair, months: 12,",
             "{id: repair-1, kind: retreatment and repair, reinspect every: 12, months: " + months + ",");
  if (!form.empty()) texts.form_yaml = replaced(file_text("forms/us-general.yaml"), "us-general", "us-nc") + form;
  return texts;
}

struct Told {
  CaseRun run;
  explicit Told(CaseTexts texts) : run(std::move(texts)) {
    INFO(told(run.faults));
    REQUIRE(run.basis);
    REQUIRE(run.treatments.size() == 1);
  }
  [[nodiscard]] const Treatment& t() const { return run.treatments.front(); }
  [[nodiscard]] std::optional<Term> term() const { return term_of(*run.basis, t()); }
  [[nodiscard]] std::vector<Keeping> kept(std::string_view today) const {
    return keeping(*run.basis, run.treatments, day(today));
  }
};

const Keeping& of(const std::vector<Keeping>& all, KeptPaper paper) {
  for (const Keeping& k : all)
    if (*k.rule->paper == paper) return k;
  throw std::runtime_error("that paper is not kept");
}

}  // namespace

TEST_CASE("months end where a month has no such day, and do not creep") {
  CHECK(plus_months(day("2024-01-31"), 1) == day("2024-02-29"));
  CHECK(plus_months(day("2023-01-31"), 1) == day("2023-02-28"));
  CHECK(plus_months(day("2024-02-29"), 12) == day("2025-02-28"));
  CHECK(plus_months(day("2024-02-29"), 48) == day("2028-02-29"));
  CHECK(plus_months(day("2026-10-31"), 1) == day("2026-11-30"));
  CHECK(plus_months(day("2099-12-31"), 2) == day("2100-02-28"));  // 2100 is no leap year
  // Renewed each month from January 31, the warranty ends on March 31, not on the 28th.
  const Told t(treated("2027-01-31", "warranty: [{event: renewed, on: 2027-02-20, paid: $150.00}]\n", {}, "1"));
  REQUIRE(t.term());
  CHECK(t.term()->until == day("2027-03-31"));
}

TEST_CASE("a warranty begins with the first day of treatment, and renewals are added to it") {
  const Told plain(treated("2026-03-10"));
  REQUIRE(plain.term());
  CHECK(plain.term()->from == day("2026-03-10"));
  CHECK(plain.term()->until == day("2027-03-10"));
  CHECK(plain.term()->holder == "Ben Carr");
  const Told renewed(treated("2026-03-10",
                             "warranty:\n  - {event: renewed, on: 2027-03-01, paid: $150.00}\n"
                             "  - {event: transferred, on: 2027-05-02, to: Fay Lund}\n"));
  CHECK(renewed.term()->until == day("2028-03-10"));
  CHECK(renewed.term()->holder == "Fay Lund");
  const Told again(treated(
      "2026-03-10", "  - {on: 2026-09-01, retreatment: yes, because: a new tube, crew: [Dee Ray], weather: dry}\n"));
  CHECK(again.term()->from == day("2026-03-10"));
  CHECK(treated_on(again.run.resolved) == day("2026-03-10"));
}

TEST_CASE("what comes due in a window, both ends included") {
  const Told t(treated("2026-03-10"));
  const auto due = [&](std::string_view from, std::string_view to) {
    return due_between(*t.run.basis, t.t(), day(from), day(to));
  };
  REQUIRE(due("2027-03-10", "2027-03-10").size() == 2);
  CHECK(due("2027-03-10", "2027-03-10")[0].what == Due::What::renewal);
  CHECK(due("2027-03-10", "2027-03-10")[0].fee == Money{150'00});
  CHECK(due("2027-03-10", "2027-03-10")[1].what == Due::What::reinspection);
  CHECK(due("2027-03-10", "2027-03-10")[1].looked == day("2026-03-05"));
  CHECK(due("2027-03-11", "2028-01-01").empty());
  CHECK(due("2026-03-10", "2027-03-09").empty());
  const Told missed(treated("2026-03-10", "warranty: [{event: missed, on: 2027-03-10}]\n"));
  CHECK(due_between(*missed.run.basis, missed.t(), day("2026-01-01"), day("2030-01-01")).empty());
  const Told looked(treated("2026-03-10", "warranty: [{event: inspected, on: 2027-02-20}]\n"));
  CHECK(due_between(*looked.run.basis, looked.t(), day("2027-03-10"), day("2027-03-10")).size() == 1);
}

TEST_CASE("a look counts for the end of a period that it lies nearest to") {
  const auto looks = [](const std::string& events) {
    const Told t(treated("2026-03-10", "warranty:\n  - {event: renewed, on: 2027-03-01, paid: $150.00}\n" + events));
    std::vector<Date> out;
    for (const Due& due : due_between(*t.run.basis, t.t(), day("2026-01-01"), day("2030-01-01")))
      if (due.what == Due::What::reinspection) out.push_back(due.on);
    return out;
  };
  CHECK(looks("") == std::vector{day("2027-03-10"), day("2028-03-10")});  // all of the window
  // Three looks in the first half year skip no period.
  CHECK(looks("  - {event: inspected, on: 2026-04-01}\n  - {event: inspected, on: 2026-05-01}\n"
              "  - {event: inspected, on: 2026-06-01}\n") == std::vector{day("2027-03-10"), day("2028-03-10")});
  CHECK(looks("  - {event: inspected, on: 2027-02-20}\n") == std::vector{day("2028-03-10")});
  CHECK(looks("  - {event: inspected, on: 2027-04-01}\n") == std::vector{day("2028-03-10")});
}

TEST_CASE("the holder of a day, and the day on which a missed renewal ended the warranty") {
  const Told t(treated("2026-03-10",
                       "warranty:\n  - {event: transferred, on: 2026-12-01, to: Gil Ott}\n"
                       "  - {event: transferred, on: 2026-05-02, to: Fay Lund}\n"));
  CHECK(t.term()->holder == "Gil Ott");
  const Told missed(treated("2026-03-10", "warranty: [{event: missed, on: 2027-06-10}]\n"));
  CHECK(missed.term()->until == day("2027-03-10"));
}

TEST_CASE("a beetle retreatment is due so many days after the state's notice") {
  // NC-12a, NC-12b (02 NCAC 34 .0501(a)(1)(C), copy of 2016, read to the middle of (C)): 18 months, 30 days
  const Told t(treated("2026-03-10", "warranty: [{event: notice, on: 2027-08-15}]\n"));
  CHECK(beetles_until(*t.run.form, day("2026-03-10")) == day("2027-09-10"));
  CHECK(beetles_due(*t.run.form, day("2027-08-15")) == day("2027-09-14"));
  const auto due = due_between(*t.run.basis, t.t(), day("2027-09-14"), day("2027-09-14"));
  REQUIRE(due.size() == 1);
  CHECK(due.front().what == Due::What::notice);
  const Told settled(treated("2026-03-10", "warranty: [{event: notice, on: 2027-08-15, settled: 2027-08-30}]\n"));
  CHECK(due_between(*settled.run.basis, settled.t(), day("2027-09-14"), day("2027-09-14")).empty());
}

TEST_CASE("papers are kept as long as the state asks, and longer while something is open") {
  // NC-07 (02 NCAC 34 .0604(a), undated text): the agreement expires 2027-03-05, kept until 2029-03-05
  const Told nc(treated("2026-03-05", "agreement: {on: 2026-03-05, by: Dan Eads}\n"));
  CHECK(of(nc.kept("2026-04-01"), KeptPaper::agreement).until == day("2029-03-05"));
  CHECK(of(nc.kept("2026-04-01"), KeptPaper::report).until == day("2028-03-05"));
  CHECK_FALSE(of(nc.kept("2029-03-05"), KeptPaper::agreement).passed);
  CHECK(of(nc.kept("2029-03-06"), KeptPaper::agreement).passed);
  CHECK(of(nc.kept("2029-03-06"), KeptPaper::agreement).holds.empty());
  CHECK(of(nc.kept("2027-03-05"), KeptPaper::report).holds.size() == 1);
  CHECK(of(nc.kept("2027-03-06"), KeptPaper::report).holds.empty());
  const Told claim(
      treated("2026-03-05",
              "warranty: [{event: claim, on: 2026-12-01}, {event: complaint, on: 2026-12-02, settled: 2027-01-01}]\n"));
  const auto held = of(claim.kept("2029-03-06"), KeptPaper::report);
  CHECK(held.passed);
  REQUIRE(held.holds.size() == 1);
  CHECK(held.holds.front() == "the claim of 2026-12-01 is open");
}

TEST_CASE("five years, or the life of the warranty if that is longer") {
  const std::string sc =
      "keep: [{paper: report, years: 5, from: issue, or warranty life: yes, cite: \"S.C. Code Regs. 27-1085(B)(3), "
      "2024\", status: published}]\n";
  // SC-02a, SC-02b (S.C. Code Regs. 27-1085(B)(3), 2024): a warranty of 1 year, 5 years; of 7 years, 7 years
  const Told one(treated("2026-03-05", {}, sc));
  CHECK(of(one.kept("2026-04-01"), KeptPaper::report).until == day("2031-03-05"));
  const Told seven(treated("2026-03-05", {}, sc, "84"));
  CHECK(of(seven.kept("2026-04-01"), KeptPaper::report).until == day("2033-03-05"));
}

TEST_CASE("years of other states") {
  const auto kept = [](const std::string& years, const std::string& cite) {
    const Told t(treated(
        "2026-03-05", {},
        "keep: [{paper: report, years: " + years + ", from: issue, cite: \"" + cite + "\", status: published}]\n"));
    return of(t.kept("2026-04-01"), KeptPaper::report).until;
  };
  CHECK(kept("2", "Ga. Comp. R. & Regs. 620-6-.06") == day("2028-03-05"));    // GA-03a
  CHECK(kept("3", "F.S. 482.226 (reprint)") == day("2029-03-05"));            // FL-01a
  CHECK(kept("2", "4 TAC 7.176(e), eff. 16 Jan 2023") == day("2028-03-05"));  // TX-03a
  CHECK(kept("3", "A.R.S. 3-3633") == day("2029-03-05"));                     // AZ-01b
  CHECK(kept("2", "COMAR 15.05.01.14 (read in part)") == day("2028-03-05"));  // MD-01b
}

TEST_CASE("free treatment is counted from the inspection or from the paper, as the state says") {
  CaseTexts texts = treated("2026-03-10", {},
                            "free treatment: {days: 90, from: inspection, at most: yes, cite: \"LAC "
                            "7:XXV.121(A)(2),(B)\", status: published}\n");
  texts.case_yaml =
      edited(texts.case_yaml, "signed: {name: Ann Poole, on: 2026-03-05}", "signed: {name: Ann Poole, on: 2026-03-06}");
  const Told la(texts);
  CHECK(free_until(*la.run.form, la.run.resolved) ==
        day("2026-06-03"));  // LA-01a: inspected 2026-03-05, issued 2026-03-06
  texts.form_yaml = replaced(texts.form_yaml, "from: inspection, at most: yes", "from: issue");
  const Told al(texts);
  CHECK(free_until(*al.run.form, al.run.resolved) ==
        day("2026-06-04"));  // AL-01 (Ala. Admin. Code 80-10-9-.18): the same days
  const Told none(treated("2026-03-10"));
  CHECK_FALSE(free_until(*none.run.form, none.run.resolved));
}

TEST_CASE("the veteran pays from a day on, and only what the notice of value asks") {
  Sources sources;
  Faults faults;
  const auto form = read_form(sources.add("va", file_text("forms/loan-va.yaml")), faults);
  INFO(told(faults));
  REQUIRE(form);
  CHECK(veteran_may_pay(*form, day("2022-06-15"), true));        // US-04a (VA Circular 26-22-11, 15 Jun 2022, reprint)
  CHECK_FALSE(veteran_may_pay(*form, day("2022-06-14"), true));  // US-04b
  CHECK_FALSE(veteran_may_pay(*form, day("2026-01-01"), false));
  CaseTexts other = treated("2026-03-10");
  other.case_yaml = edited(other.case_yaml, "loan: VA", "loan: conventional");
  const Told none(std::move(other));
  CHECK(veteran_may_pay(*none.run.form, day("2000-01-01"), false));
}

TEST_CASE("what a run took is the sum of its days") {
  const Told t(
      treated("2026-03-10", "  - {on: 2026-03-12, crew: [Dee Ray], weather: dry, runs: [{run: 1, gal: 0.5}]}\n"));
  const auto runs = runs_done(*t.run.basis, t.t());
  REQUIRE(runs.size() == 4);
  CHECK(runs[0].gallons == Ratio(965, 10));
  CHECK(runs[0].days.size() == 2);
  CHECK(runs[0].least == Ratio(96));
  CHECK(runs[0].most == Ratio(1056, 10));  // the form's tenth, common practice, no source
  CHECK_FALSE(runs[1].done);
  CHECK(finished_on(t.run.resolved) == day("2026-03-12"));
}

TEST_CASE("as many points are drilled as there are holes, in every example") {
  for (const char* name : {"heron-lane", "mill-hollow", "cedar-bend", "brick-row", "spring-row", "stilt-court"}) {
    CaseRun run({file_text("examples/" + std::string(name) + "/case.yaml"), file_text("examples/company.yaml")});
    for (const Treatment& t : run.treatments)
      for (const Run& r : t.runs) {
        INFO(name << ", option " << t.id << ", run " << r.number);
        CHECK(r.hole_at.size() == static_cast<std::size_t>(r.holes));
      }
  }
}
