// What an assumed depth, void or slab would do to gallons and price if it were otherwise.
#pragma once

#include <string>
#include <vector>

#include "estimate/estimate.h"

namespace soundsill {

/// One thing that nobody dug or opened, and what another answer would change. Differences are signed.
struct Otherwise {
  enum class What { walls, piers, chimney, partition, pilaster, porch, void_solid, slab_empty };
  What what = What::walls;
  std::string structure;
  std::vector<int> numbers;  ///< of walls or piers
  std::string name;          ///< of a named thing
  Length step;               ///< of a depth: deeper when positive
  Ratio gallons;
  int holes = 0;
  Money amount;
  [[nodiscard]] bool changes() const { return gallons != Ratio(0) || holes != 0 || amount != Money{}; }
};

/// Plans and prices the case again with each assumed depth one step (form data) deeper and one shallower, each assumed
/// void taken for solid, and each slab of which nobody knows what lies under it taken for empty. Ordered as typed,
/// deeper first. Nothing is guessed: the figures are those that the papers would print.
[[nodiscard]] std::vector<Otherwise> otherwise(const Basis& basis, const Treatment& treatment,
                                               const Estimate& estimate);

}  // namespace soundsill
