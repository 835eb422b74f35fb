// What of a plan a work line covers, whether or not it could be planned. Not for other folders.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/look.h"

namespace soundsill::rules {

struct Cover {
  bool all_walls = false;
  std::vector<Stretch> walls;  ///< along the outside lines, joined
  std::vector<int> piers;      ///< ascending
  std::vector<std::size_t> chimneys, partitions;
  std::vector<Place> named;  ///< points, slabs, wood and areas among its places
  std::vector<int> near;     ///< findings
  bool known = true;         ///< all that it names could be read and found
  [[nodiscard]] bool empty() const;
  void add(const Cover& other);
};
[[nodiscard]] Cover cover_of(const Papers& papers, const Work& work, const SurveyedStructure& s);

/// Whether a line that covers this reaches a finding: its own wall or pier is covered, or what is covered lies within
/// the form's distance for voids.
[[nodiscard]] bool reaches(const Papers& papers, const Cover& cover, const SurveyedStructure& s,
                           const Finding& finding);

/// The distance within which voids are drilled; zero when the form gives none.
[[nodiscard]] Length void_reach(const Papers& papers);

/// The place of a finding on the plan, `near N` looked up; nothing when there is none, or it does not exist.
[[nodiscard]] std::optional<Place> place_of(const Papers& papers, const SurveyedStructure& s, const Finding& finding);

/// What of `from` is left when `away` is taken out, and what both have in common.
[[nodiscard]] std::vector<Stretch> left_of(const std::vector<Stretch>& from, const std::vector<Stretch>& away);
[[nodiscard]] std::vector<Stretch> shared_by(const std::vector<Stretch>& a, const std::vector<Stretch>& b);
[[nodiscard]] bool holds(const std::vector<int>& numbers, int n);
[[nodiscard]] Stretch whole(const Wall& wall);
/// Where slabs and porches adjoin, so that no trench can be dug.
[[nodiscard]] std::vector<Stretch> beside_slabs(const SurveyedStructure& s);

/// "walls 2 and 5 and wall 3 from 0' to 6'"
[[nodiscard]] std::string walls_said(const SurveyedStructure& s, const std::vector<Stretch>& stretches);

}  // namespace soundsill::rules
