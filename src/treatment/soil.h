// Soil along walls and round what stands in it, of one work line. Not for others.
#pragma once

#include <tuple>

#include "treatment/planner.h"

namespace soundsill::planning {

/// How deep the soil is treated over one footing.
struct Depths {
  Length required, planned;
  int known_by = -1;
  bool slopes = false;  ///< then both depths are 0, and the group holds what it comes to
  [[nodiscard]] auto tie() const { return std::tie(slopes, required, planned, known_by); }
  bool operator<(const Depths& other) const { return tie() < other.tie(); }
};

struct Soil {
  Planner& p;
  Task& task;
  const SurveyedStructure& s;
  bool backfill = false;
  Length floor = p.limit(&Limits::volume_floor);
  int strength = 1;
  Length deepest{};                     ///< of the footings it meets
  Length asked{};                       ///< greatest depth required where less is planned
  bool asked_by_what_was_read = false;  ///< label, or a minimum that somebody read, asks for more than is planned too

  // soil.cpp
  void plan();
  /// What state and label ask where the footing is deeper.
  [[nodiscard]] Length minimum() const;
  /// The same by the label and by what somebody read of the state's rules: the least that may stop a paper.
  [[nodiscard]] Length minimum_read() const;
  /// Depth to which soil over a footing is treated at most: what is planned, or the minimum.
  [[nodiscard]] Length most() const { return task.line->depth ? *task.line->depth : minimum(); }
  [[nodiscard]] Depths depths(Length footing, const std::optional<KnownBy>& known_by);
  void fill(Run& run, const Depths& at) const;
  /// Rate, sources and the gallons of a run whose length and depth are known; `pieces` begins its working.
  void reckon(Run& run, Working pieces) const;
  void face(RunKind kind, const std::vector<Stretch>& chosen, bool whole_house);
  void check_depth() const;
  [[nodiscard]] Ratio rate() const;

  // soil_round.cpp
  void piers(const std::vector<int>& chosen);
  void chimneys(const std::vector<std::size_t>& chosen);
  void partitions();
  void pilasters(const std::vector<Stretch>& outside, const std::vector<Stretch>& inside);
  void porches();
  void posts();

 private:
  struct Group {
    std::vector<Stretch> stretches;
    Length length;
    Ratio area;  ///< of a slope: length x depth, in square feet
    Length least{}, greatest{};
  };
  using Groups = std::map<Depths, Group>;

  void slope(Group& group, const Wall& wall, const Stretch& stretch, Length length, Length from, Length to);
  void wall_run(RunKind kind, const Depths& at, Group group);
  void rod_share(Run& run) const;
  [[nodiscard]] bool bid_as_outside() const;
  void correct_to_taped(bool outside, Groups& groups) const;
  void footing_unsaid(Span at, const std::string& what) const;
  void entered(Run& run, const Ratio& each, Span at, std::string_view things) const;
  [[nodiscard]] Run pieces(RunKind kind, int count, Length each, const Depths& at) const;
};

}  // namespace soundsill::planning
