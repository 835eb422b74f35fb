#include "estimate/otherwise.h"

#include <algorithm>
#include <functional>

namespace soundsill {
namespace {

bool assumed(const std::optional<KnownBy>& known_by) { return known_by && *known_by == KnownBy::assumed; }

/// Nothing that is tried moves a line on the plan, so a copy of the survey is changed, and nothing is measured again.
using Change = std::function<void(SurveyedStructure&)>;

struct Trial {
  Otherwise what;
  std::size_t structure = 0;
  Change change;
};

/// Moves a depth; it stays below the soil.
void move(std::optional<Length>& depth, Length step) {
  if (depth) depth = std::max(*depth + step, Length::inches(1));
}
void move(Length& depth, Length step) { depth = std::max(depth + step, Length::inches(1)); }

/// Moves both ends of a footing; one that is level afterwards does not slope.
void move(std::optional<Length>& from, std::optional<Length>& to, Length step) {
  move(from, step);
  move(to, step);
  if (to == from) to.reset();
}

struct Trials {
  const Basis& basis;
  std::vector<Trial> all{};
  std::size_t at = 0;
  const SurveyedStructure* s = nullptr;

  void put(Otherwise what, Change change) {
    what.structure = s->name;
    all.push_back({std::move(what), at, std::move(change)});
  }

  [[nodiscard]] Length step() const { return value_of(basis.resolved.limits.assumed_step); }

  /// Both ways: `move_it(structure, step)`.
  template <class Move>
  void depth(Otherwise what, Move move_it) {
    for (const Length by : {step(), -step()}) {
      what.step = by;
      put(what, [=](SurveyedStructure& other) { move_it(other, by); });
    }
  }

  void walls() {
    for (std::size_t i = 0; i < s->wall_blocks.size(); ++i) {
      const SurveyedWallBlock& block = s->wall_blocks[i];
      Otherwise what;
      what.numbers = block.numbers;
      if (block.footing_assumed)
        depth(what, [i](SurveyedStructure& other, Length by) {
          for (Wall& wall : other.walls) {
            if (wall.outside_block == i) move(wall.footing_outside, wall.footing_outside_to, by);
            if (wall.inside_block == i) move(wall.footing_inside, wall.footing_inside_to, by);
          }
        });
      if (block.void_assumed) {
        what.what = Otherwise::What::void_solid;
        put(what, [i](SurveyedStructure& other) {
          for (Wall& wall : other.walls)
            if (wall.kind_block == i) wall.kind = WallKind::poured;
        });
      }
    }
  }

  template <class T>
  void things(Otherwise::What kind, std::vector<T> SurveyedStructure::*list) {
    const std::vector<T>& all_of = s->*list;
    int number = 1;
    for (std::size_t i = 0; i < all_of.size(); ++i) {
      Otherwise what;
      what.what = kind;
      if constexpr (requires { all_of[i].name; })
        what.name = all_of[i].name;
      else
        for (const int last = number + all_of[i].count; number < last; ++number) what.numbers.push_back(number);
      const std::optional<Length> footing = all_of[i].footing;
      if (footing && assumed(all_of[i].known_by))
        depth(what, [=](SurveyedStructure& other, Length by) { move((other.*list)[i].footing, by); });
    }
  }

  void slabs() {
    for (std::size_t i = 0; i < s->slabs.size(); ++i) {
      if (!s->slabs[i].fill || *s->slabs[i].fill != Fill::not_known) continue;
      Otherwise what;
      what.what = Otherwise::What::slab_empty;
      what.name = s->slabs[i].name;
      put(what, [i](SurveyedStructure& other) { other.slabs[i].fill = Fill::none; });
    }
  }

  void collect() {
    const auto& structures = basis.survey.structures;
    for (at = 0; at < structures.size(); ++at) {
      s = &structures[at];
      walls();
      things(Otherwise::What::piers, &SurveyedStructure::pier_groups);
      things(Otherwise::What::chimney, &SurveyedStructure::chimneys);
      things(Otherwise::What::partition, &SurveyedStructure::partitions);
      things(Otherwise::What::pilaster, &SurveyedStructure::pilasters);
      things(Otherwise::What::porch, &SurveyedStructure::slabs);
      slabs();
    }
  }
};

}  // namespace

std::vector<Otherwise> otherwise(const Basis& basis, const Treatment& treatment, const Estimate& estimate) {
  std::vector<Otherwise> out;
  if (treatment.runs.empty() || !treatment.of) return out;
  Trials trials{basis};
  trials.collect();
  for (Trial& trial : trials.all) {
    Survey survey = basis.survey;
    trial.change(survey.structures[trial.structure]);
    Faults ignored;  // what is wrong with a trial is not wrong with the case
    const Basis again{basis.c, basis.form, basis.trade, basis.company, survey, basis.resolved};
    const Treatment other = plan(again, *treatment.of, ignored);
    trial.what.gallons = other.gallons - treatment.gallons;
    trial.what.holes = other.holes - treatment.holes;
    trial.what.amount = price(again, other, ignored).total - estimate.total;
    out.push_back(trial.what);
  }
  return out;
}

}  // namespace soundsill
