// Serves site/draft.h. Piers: numbered through the groups, and whether they can stand where they are said to.
#include <algorithm>
#include <cmath>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

constexpr std::size_t most_piers = 2'000;

class Piers {
 public:
  Piers(Draft& draft, Faults& faults) : draft_(draft), piers_(draft.made.piers), faults_(faults) {}

  void place() {
    if (draft_.facts->piers.unread()) draft_.made.complete = false;
    const std::vector<PierGroup>& groups = items(draft_.facts->piers);
    std::size_t parsed_faults = 0;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      if (spoilt(groups[g].at, faults_)) ++parsed_faults;
      place(groups[g], g);
    }
    // A fault in the list that lies in no group of it: a group was dropped.
    if (parsed_faults == 0 && spoilt(draft_.facts->piers.at, faults_)) draft_.made.complete = false;
    check_within(groups);
    check_apart(groups);
  }

 private:
  void misplaced(const Span& at, std::string what, std::string why, std::string fix) {
    faults_.add(Rule::pier_misplaced, at, std::move(what), std::move(why), std::move(fix));
  }

  void place(const PierGroup& group, std::size_t g) {
    const bool grid = given(group.from) || given(group.every) || given(group.count);
    const bool points = given(group.at_points);
    const bool unread = group.from.unread() || group.every.unread() || group.count.unread() || !group.size ||
                        group.at_points.unread() || (points && spoilt(group.at_points.at, faults_));
    if (unread) {
      draft_.made.complete = false;
      return;
    }
    if (grid == points) return report_unplaced(group, grid);
    if (points) {
      const auto& at = *group.at_points;
      if (!too_many(group, at.size()))
        for (const Point& p : at) add(p, group, g);
    } else if (whole_grid(group)) {
      place_grid(group, g);
    }
  }

  void report_unplaced(const PierGroup& group, bool both) {
    draft_.made.complete = false;
    misplaced(both ? group.at_points.key : group.at,
              both ? "piers are given both as a grid and one by one" : "a group of piers has no place on the plan",
              "piers that nobody can find on the drawing are not treated",
              both ? "make two groups of them, one with `from`, `every`, `count`, one with `at`"
                   : "give a grid (`from`, `every`, `count`), or each pier's middle under `at`");
  }

  // One pier needs no distance to the next.
  bool whole_grid(const PierGroup& group) {
    const bool single = group.count && group.count->across == 1 && group.count->down == 1;
    const char* missing = !group.from ? "from" : !group.count ? "count" : !group.every && !single ? "every" : nullptr;
    if (!missing) return true;
    draft_.made.complete = false;
    const Span there = group.from ? group.from.key : group.count ? group.count.key : group.every.key;
    misplaced(there, "a grid of piers lacks `" + std::string(missing) + "`",
              "where the piers stand and how many there are cannot be told",
              "give all of `from`, `every` and `count`, or each pier's middle under `at`");
    return false;
  }

  bool too_many(const PierGroup& group, std::size_t more) {
    if (piers_.size() + more <= most_piers) return false;
    draft_.made.complete = false;
    faults_.add(Rule::too_large, group.count ? group.count.at : group.at, "a structure has more than 2,000 piers",
                "no crawl space holds so many; gallons and price would be nonsense", "write the counts as seen");
    return true;
  }

  void place_grid(const PierGroup& group, std::size_t g) {
    const int across = group.count->across, down = group.count->down;
    if (across < 1 || down < 1 || too_many(group, static_cast<std::size_t>(across) * static_cast<std::size_t>(down)))
      return;
    const Size every = group.every.value_or({});
    for (int row = 0; row < down; ++row)
      for (int column = 0; column < across; ++column)
        add({group.from->x + every.width * column, group.from->y + every.depth * row}, group, g);
  }

  void add(const Point& middle, const PierGroup& group, std::size_t g) {
    piers_.push_back({static_cast<int>(piers_.size()) + 1, middle, group.size->width, group.size->depth, g});
  }

  static Span place_of(const PierGroup& group) {
    return group.at_points ? group.at_points.at : group.from ? group.from.at : group.at;
  }

  // One message a group: a wrong first point or distance misplaces many at once.
  void check_within(const std::vector<PierGroup>& groups) {
    const bool known = draft_.made.drawn() && std::all_of(draft_.parts.begin(), draft_.parts.end(),
                                                          [](const PartDraft& p) { return !p.rooms.empty(); });
    if (!known) return;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      std::vector<int> out;
      for (const Pier& p : piers_)
        if (p.group == g && !inside(p)) out.push_back(p.number);
      if (out.empty()) continue;
      const Pier& first = *draft_.made.pier(out.front());
      misplaced(place_of(groups[g]),
                numbered("pier", out) + (out.size() == 1 ? ", at " + print(first.middle) + ", does" : " do") +
                    " not stand within the inside of the walls",
                out.size() == 1 ? "a pier in a wall or outside is not found by the crew, and its soil is not treated"
                                : "pier " + std::to_string(first.number) + " would stand at " + print(first.middle) +
                                      ", where the crew does not find it",
                "compare the first pier's middle, the distances and the size with the sketch");
    }
  }

  [[nodiscard]] bool inside(const Pier& pier) const {
    const Ring r = rectangle(vec(pier.middle), pier.width, pier.depth);
    for (const PartDraft& part : draft_.parts)
      for (const Ring& room : part.rooms)
        if (covers(room, r)) return true;
    return false;
  }

  void check_apart(const std::vector<PierGroup>& groups) {
    std::vector<Ring> rings;
    for (const Pier& p : piers_) rings.push_back(rectangle(vec(p.middle), p.width, p.depth));
    std::vector<bool> told(groups.size());
    for (std::size_t j = 1; j < piers_.size(); ++j)
      for (std::size_t i = 0; i < j && !told[piers_[j].group]; ++i) {
        if (!overlap(rings[i], rings[j])) continue;
        told[piers_[j].group] = true;
        misplaced(place_of(groups[piers_[j].group]),
                  "pier " + std::to_string(piers_[j].number) + " stands partly where pier " +
                      std::to_string(piers_[i].number) + " stands",
                  "the soil between them would be counted twice",
                  "compare places, distances and size with the sketch; a pier is listed once");
      }
  }

  Draft& draft_;
  std::vector<Pier>& piers_;
  Faults& faults_;
};

}  // namespace

void place_piers(Draft& draft, Faults& faults) { Piers(draft, faults).place(); }

}  // namespace soundsill::plan
