// Every working that is printed is reckoned again from its own words, and gives the printed figure.
#include <catch2/catch.hpp>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <regex>

#include "support/small_house.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

/// A reader of workings that knows nothing of the program: numbers, feet and inches, x, /, +, -, brackets and
/// "rounded up". All other words are units and are passed over.
class Reckoned {
 public:
  explicit Reckoned(std::string text) {
    if (const auto shared = text.find(", shared by"); shared != std::string::npos) text.resize(shared);
    text = std::regex_replace(text, std::regex("rounded up"), "^");
    static const std::regex token(
        R"re((\d+)'(?:(\d+)(?: (\d+)/(\d+))?"|(\d+)/(\d+)")?|(\d+)(?: (\d+)/(\d+))?"|(\d+)/(\d+)"|(\d+(?:\.\d+)?)|([x/+()^-])(?![a-z])|[a-z]+)re");
    for (std::sregex_iterator at(text.begin(), text.end(), token), end; at != end; ++at) take(*at);
  }
  [[nodiscard]] double value() {
    at_ = 0;
    const double sum = add();
    if (at_ != tokens_.size()) throw std::runtime_error("not read to its end");
    return sum;
  }

 private:
  struct Token {
    char sign = 0;  ///< 0: a number
    double number = 0;
  };

  void take(const std::smatch& m) {
    const auto n = [&](std::size_t i) { return m[i].matched ? std::stod(m[i].str()) : 0.0; };
    const auto part = [&](std::size_t i) { return m[i].matched ? n(i) / n(i + 1) : 0.0; };
    if (m[1].matched)
      tokens_.push_back({0, n(1) + (n(2) + part(3) + part(5)) / 12});
    else if (m[7].matched)
      tokens_.push_back({0, (n(7) + part(8)) / 12});
    else if (m[10].matched)
      tokens_.push_back({0, part(10) / 12});
    else if (m[12].matched)
      tokens_.push_back({0, n(12)});
    else if (m[13].matched)
      tokens_.push_back({m[13].str()[0], 0});
  }
  [[nodiscard]] char sign() const { return at_ < tokens_.size() ? tokens_[at_].sign : '.'; }
  double add() {
    double sum = multiply();
    while (sign() == '+' || sign() == '-') {
      const char s = tokens_[at_++].sign;
      sum += s == '+' ? multiply() : -multiply();
    }
    return sum;
  }
  double multiply() {
    double product = one();
    for (;;) {
      if (sign() == '^') {
        product = std::ceil(product - 1e-9);
        ++at_;
        continue;
      }
      if (sign() != 'x' && sign() != '/') return product;
      const char s = tokens_[at_++].sign;
      if (s == '/' && sign() != 0 && sign() != '(') continue;  // "/ cu ft": for one of it
      const double by = one();
      product = s == 'x' ? product * by : product / by;
    }
  }
  double one() {
    if (sign() == '(') {
      ++at_;
      const double inner = add();
      if (sign() != ')') throw std::runtime_error("a bracket is open");
      ++at_;
      return inner;
    }
    if (sign() != 0) throw std::runtime_error("no number");
    return tokens_[at_++].number;
  }

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
};

double figure_of(const Run& run) {
  switch (run.kind) {
    case RunKind::stations:
      return run.count;
    case RunKind::crawl_cover:
      return run.sq_ft.approx();
    case RunKind::air_volume:
    case RunKind::soil_removal:
      return run.cu_ft.approx();
    default:
      return run.gallons.approx();
  }
}

/// Half of the last digit that is printed.
double slack_of(const Run& run) {
  return run.kind == RunKind::air_volume ? 0.5 : run.kind == RunKind::stations ? 0.0 : 0.05;
}

int check_workings(const CaseRun& run) {
  int checked = 0;
  for (const Treatment& t : run.treatments)
    for (const Run& r : t.runs) {
      INFO(t.id << ", run " << r.number << ": " << r.working.in_english());
      CHECK(std::abs(Reckoned(r.working.in_english()).value() - figure_of(r)) <= slack_of(r) + 1e-9);
      CHECK_FALSE(r.sources.empty());
      ++checked;
      if (!r.timed || r.minutes == Ratio(0)) continue;
      INFO(r.time_working);
      CHECK(std::abs(Reckoned(r.time_working).value() - r.minutes.approx()) <= 0.06);
    }
  return checked;
}

}  // namespace

TEST_CASE("the reader of workings reads them as people do") {
  CHECK(Reckoned("136' x 1'6\" deep x 4 gal / 10 ft").value() == Approx(81.6));
  CHECK(Reckoned("12'0 1/2\" x 6\" wide x 1' deep x 1 gal / cu ft").value() == Approx(12.0417 / 2).epsilon(1e-4));
  CHECK(Reckoned("92' / 20' rounded up + 8' / 20' rounded up").value() == 6);
  CHECK(Reckoned("1108.4 sq ft x 12' / (12' - 1')").value() == Approx(1209.16).epsilon(1e-4));
  CHECK(Reckoned("4 x 0.5 gal").value() == 2);
  CHECK(Reckoned("300 sq ft x 2 coats / 200 sq ft a gal").value() == 3);
  CHECK(Reckoned("9/16\" x 16").value() == Approx(0.75));
}

TEST_CASE("every printed working of every example gives the printed figure") {
  int checked = 0;
  const std::string company = file_text("examples/company.yaml");
  for (const auto& entry : std::filesystem::directory_iterator(std::string(SOUNDSILL_ROOT) + "/examples")) {
    const std::string name = entry.path().filename().string();
    if (!std::filesystem::exists(entry.path() / "case.yaml")) continue;
    const std::string text = file_text("examples/" + name + "/case.yaml");
    const auto form = text.find("form: us-");
    REQUIRE(form != std::string::npos);
    const std::string id = text.substr(form + 6, text.find_first_of(" \n", form + 6) - form - 6);
    const CaseRun run({.case_yaml = text, .company_yaml = company, .form_yaml = file_text("forms/" + id + ".yaml")});
    INFO(name << "\n" << told(run.faults));
    CHECK(run.faults.errors() == 0);
    checked += check_workings(run);
  }
  CHECK(checked >= 40);
}

TEST_CASE("workings of every kind of run give their figures") {
  SmallHouse house;
  house.walls =
      R"({walls: all, kind: hollow block, thick: 8", footing: {outside: 12", outside to: 31", inside: 14 1/2", known by: dug}})";
  house.foundation = "crawl space, crawl height: 30\", wall height: 9'6\", roof height: 7'";
  house.more =
      R"(      piers: [{at: [[8', 8'], [16', 8']], size: [16", 8"], kind: hollow block, footing: 12", known by: dug, gal_each: 1.5}, {at: [[30', 20']], size: [12", 12"], kind: poured, footing: 20", known by: dug}]
      chimneys: [{name: stack, at: [30', 10'], size: [4', 2'8"], kind: solid masonry, footing: 2', known by: dug}]
      partitions: [{name: spine, from: [20', 0'], to: [20', 25'], kind: hollow block, thick: 8", footing: 12", known by: dug}]
      pilasters: [{name: ribs, kind: step buttress, at: [wall 1 at 10'], side: outside, wide: 16", deep: 7", footing: 12", known by: dug}]
      slabs: [{name: porch, fill: earth, along: "wall 3 10' to 22'", deep: 6'3", footing: 18", known by: dug}]
      marks: [{kind: bath trap, name: bath, at: [10', 10'], size: [2'2", 18"]}]
      wood: [{name: deck, posts: 3, gal_each: 0.75}]
)";
  house.label = "{soil depth: 24\", sq ft per gal: 175, allows: [{what: overall crawl space, cite: invented label}]}";
  house.company = "retarder sheet: 12'\n";
  house.work =
      "{id: a, preventive: yes, do: treat soil, walls: [1, 3, 4], piers: all, at: [wood deck, partition spine]}, "
      "{id: b, preventive: yes, do: treat soil by backfill, walls: [2]}, "
      "{id: c, preventive: yes, do: drill and treat voids, walls: all, piers: all}, "
      "{id: d, preventive: yes, do: drill and treat slab, at: [slab porch]}, "
      "{id: e, preventive: yes, do: treat soil below slab, at: [slab porch]}, "
      "{id: f, preventive: yes, do: treat bath trap}, {id: g, preventive: yes, do: set bait stations}, "
      "{id: h, preventive: yes, do: treat wood with borate, sq ft: 333.3, coats: 3}, "
      "{id: i, preventive: yes, do: spray wood, lumber: [{size: 2x8, length: 61'}]}, "
      "{id: j, preventive: yes, do: fumigate}, {id: k, preventive: yes, do: treat crawl space overall}, "
      "{id: l, preventive: yes, do: lay vapor retarder}, {id: m, preventive: yes, do: dig soil lower, sq ft: 47.5, "
      "depth: 7\"}";
  const PlannedHouse p(house);
  INFO(told(p.run.faults));
  CHECK(p.run.faults.errors() == 0);
  CHECK(check_workings(p.run) >= 20);
}
