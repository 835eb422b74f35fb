#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

const std::string facts = "kind: hollow block, footing: 12\", known by: dug}";

std::unique_ptr<Plan> with_piers(const std::string& groups) {
  return crawl("E 40', S 28', W 40', N 28'", "8\"", "piers:\n" + groups);
}

}  // namespace

TEST_CASE("the length round a pier agrees with the nominal sizes") {
  // Derived from 02 NCAC 34 .0505(b)(1), current to 15 Oct 2024, "entire perimeter of piers": 8 x 16 in and 16 x 16 in.
  const auto plan = with_piers("  - {at: [[8', 8'], [12', 8']], size: [8\", 16\"], " + facts +
                               "\n  - {at: [[20', 8']], size: [16\", 16\"], " + facts);
  CHECK(plan->whats() == "");
  CHECK(plan->house().pier(1)->perimeter() == ft(4));
  CHECK(plan->house().pier(3)->perimeter() == ft(5, 4));
}

TEST_CASE("piers are numbered through the groups, each row across first") {
  const auto plan = with_piers("  - {from: [8', 8'], every: [8', 7'], count: [4, 2], size: [16\", 16\"], " + facts +
                               "\n  - {at: [[4', 4']], size: [16\", 16\"], " + facts +
                               "\n  - {from: [4', 24'], count: [1, 1], size: [8\", 16\"], " + facts);
  CHECK(plan->whats() == "");
  REQUIRE(plan->house().piers.size() == 10);
  CHECK(plan->house().pier(2)->middle == at(16, 8));
  CHECK(plan->house().pier(5)->middle == at(8, 15));
  CHECK(plan->house().pier(9)->middle == at(4, 4));
  CHECK(plan->house().pier(10)->group == 2);
  CHECK(plan->house().pier(11) == nullptr);
}

TEST_CASE("a pier that touches the wall stands inside, one that enters it does not") {
  CHECK(with_piers("  - {at: [[1'4\", 14']], size: [16\", 16\"], " + facts)->whats() == "");
  const auto plan = with_piers("  - {at: [[1'3 15/16\", 14']], size: [16\", 16\"], " + facts);
  CHECK(plan->whats() ==
        "pier 1, at [1'3 15/16\", 14'], does not stand within the inside of the walls [pier-misplaced]\n");
}

TEST_CASE("a wrong grid is told once") {
  const auto plan = with_piers("  - {from: [8', 8'], every: [12', 14'], count: [4, 2], size: [16\", 16\"], " + facts);
  CHECK(plan->whats() == "piers 4 and 8 do not stand within the inside of the walls [pier-misplaced]\n");
  CHECK(plan->at(0) == "[8', 8']");
}

TEST_CASE("piers stand apart; touching is apart") {
  CHECK(with_piers("  - {at: [[8', 8'], [9'4\", 8']], size: [16\", 16\"], " + facts)->whats() == "");
  const auto plan = with_piers("  - {from: [8', 8'], every: [1', 7'], count: [4, 2], size: [16\", 16\"], " + facts);
  CHECK(plan->whats() == "pier 2 stands partly where pier 1 stands [pier-misplaced]\n");
}

TEST_CASE("a group says where its piers stand, wholly and once") {
  CHECK(with_piers("  - {size: [16\", 16\"], " + facts)->whats() ==
        "a group of piers has no place on the plan [pier-misplaced]\n");
  CHECK(with_piers("  - {from: [8', 8'], count: [4, 2], size: [16\", 16\"], " + facts)->whats() ==
        "a grid of piers lacks `every` [pier-misplaced]\n");
  CHECK(with_piers("  - {every: [8', 8'], count: [4, 2], size: [16\", 16\"], " + facts)->whats() ==
        "a grid of piers lacks `from` [pier-misplaced]\n");
  CHECK(with_piers("  - {from: [8', 8'], size: [16\", 16\"], " + facts)->whats() ==
        "a grid of piers lacks `count` [pier-misplaced]\n");
  CHECK(with_piers("  - {from: [8', 8'], every: [8', 8'], count: [2, 2], at: [[4', 4']], size: [16\", 16\"], " + facts)
            ->whats() == "piers are given both as a grid and one by one [pier-misplaced]\n");
  const auto unread = with_piers("  - {at: [[8', 8 fathoms]], size: [16\", 16\"], " + facts);
  CHECK(unread->whats() == "");
  CHECK_FALSE(unread->house().complete);
}

TEST_CASE("more than 2,000 piers are refused") {
  CHECK(with_piers("  - {from: [1', 1'], every: [1\", 1\"], count: [50, 41], size: [1\", 1\"], " + facts)->whats() ==
        "a structure has more than 2,000 piers [too-large]\n");
}

TEST_CASE("a pier in the court of a U stands outside, even where it fills the court") {
  const auto plan = crawl("E 10', S 10', E 4', N 10', E 10', S 20', W 24', N 20'", "8\"",
                          "piers: [{at: [[12', 5']], size: [2', 2'], " + facts + "]\n");
  CHECK(plan->faults.size() == 1);
  const auto slab = plan_of(
      "parts: [{name: main, foundation: monolithic slab, outline: [E 10', S 10', E 4', N 10', E 10', S 20', W 24', N "
      "20']}]\n"
      "piers: [{at: [[12', 5']], size: [4', 10'], " +
      facts + "]\n");
  CHECK(slab->faults.size() == 1);
}

TEST_CASE("piers of a part without walls stand within its outline, and those of an open outline are not judged") {
  CHECK(plan_of("parts: [{name: main, foundation: piers, outline: [E 20', S 20', W 20', N 20']}]\n"
                "piers: [{at: [[8\", 8\"]], size: [16\", 16\"], " +
                facts + "]\n")
            ->whats() == "");
  CHECK(crawl("E 20', S 20', W 20', N 10'", "8\"", "piers: [{at: [[80', 8']], size: [16\", 16\"], " + facts + "]\n")
            ->faults.size() == 1);
}
