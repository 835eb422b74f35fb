#include "site_plan.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

std::unique_ptr<Plan> with_areas(const std::string& areas) {
  return crawl(
      "E 52', S 28', W 52', N 28'", "8\"",
      "piers: [{from: [8', 9'], every: [8', 7'], count: [4, 2], size: [16\", 16\"], kind: poured, footing: 1', "
      "known by: dug}]\nareas:\n" +
          areas);
}

}  // namespace

TEST_CASE("all is seen when no area says otherwise") {
  const auto plan =
      with_areas("  - {name: crawl space, seen: yes, region: [[0, 0], [52', 0], [52', 28'], [0, 28']]}\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().faces_all == ft(160) - ft(0, 64));
  CHECK(plan->house().faces_seen == plan->house().faces_all);
  CHECK(plan->house().piers_seen == 8);
  CHECK(plan->house().seen_counted);
}

TEST_CASE("wall faces and piers within a region are not seen, its edge included") {
  const auto plan =
      with_areas("  - {name: north, seen: partly, region: [[0, 0], [52', 0], [52', 9'], [0, 9']], because: ducts}\n");
  CHECK(plan->whats() == "");
  CHECK(plan->house().faces_all - plan->house().faces_seen == ft(50, 8) + ft(8, 4) * 2);
  CHECK(plan->house().piers_seen == 4);
  CHECK(plan->house().piers_not_seen == std::vector<int>{1, 2, 3, 4});
  // A region whose edge runs just along the inside face hides it.
  const auto along = with_areas(
      "  - {name: mid, seen: no, region: [[8\", 8\"], [20', 8\"], [20', 20'], [8\", 20']], because: ducts}\n");
  CHECK(along->house().faces_all - along->house().faces_seen == (ft(20) - ft(0, 8)) * 2);
}

TEST_CASE("regions that overlap hide once") {
  const auto plan = with_areas(
      "  - {name: one, seen: no, region: [[0, 0], [20', 0], [20', 5'], [0, 5']], because: ducts}\n"
      "  - {name: two, seen: no, region: [[10', 0], [30', 0], [30', 5'], [10', 5']], because: ducts}\n");
  CHECK(plan->house().faces_all - plan->house().faces_seen == ft(30) - ft(0, 8) + ft(4, 4));
  CHECK(plan->house().piers_seen == 8);
}

TEST_CASE("an area not seen without a region is not passed over as seen") {
  const auto plan = with_areas("  - {name: attic, seen: no, because: no ladder}\n");
  CHECK(plan->whats() == "");
  CHECK_FALSE(plan->house().seen_counted);
}

TEST_CASE("a region that crosses itself or has no corners is a fault") {
  const auto plan = with_areas(
      "  - {name: one, seen: no, region: [[0, 0], [20', 5'], [20', 0], [0, 5']], because: ducts}\n"
      "  - {name: two, seen: no, region: [[0, 0], [20', 5']], because: ducts}\n"
      "  - {name: three, seen: no, region: [[0, 0], [20', 5 ells], [8', 8']], because: ducts}\n");
  CHECK(plan->whats() ==
        "the region of `one` crosses or touches itself [outline-crosses]\n"
        "the region of `two` has fewer than three corners [outline-crosses]\n");
  CHECK_FALSE(plan->house().seen_counted);
}

TEST_CASE("a slanted region hides what lies under it") {
  // Its slanted edge from [0, 24'] to [24', 0] meets the inside faces 23'4" from the corner's outside lines.
  const auto plan = with_areas("  - {name: one, seen: no, region: [[0, 0], [24', 0], [0, 24']], because: ducts}\n");
  CHECK(plan->house().faces_all - plan->house().faces_seen == (ft(23, 4) - ft(0, 8)) * 2);
}
