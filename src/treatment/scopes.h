// What of the work lines an option takes: all, the outside and what lies near evidence, that alone, or bait.
#pragma once

#include "treatment/treatment.h"

namespace soundsill {

/// Cuts the lines of every partial option to its scope and keeps them in the case; typed lines stay as they are. Called
/// once, before anything points into the case's lines.
///
/// outside and local: soil outside along all that a line names, and inside what lies near the findings it answers.
/// evidence only: soil, slabs and voids near the findings alone.
/// bait: one line of stations in place of all lines that treat soil, slabs and voids, answering what they answered.
void cut_to_scope(Case& c, const Trade& trade);

/// What of a structure a treatment leaves alone that a full one would take.
struct LeftOut {
  std::string structure;
  std::vector<Stretch> outside, inside, paved;
  std::vector<Stretch> below;  ///< along the inside of slabs and basements
  std::vector<int> piers;
  std::vector<std::string> named;  ///< chimneys, partitions, outer walls of porches, posts
  Length feet;                     ///< of soil and paving left alone
  [[nodiscard]] bool nothing() const {
    return outside.empty() && inside.empty() && paved.empty() && below.empty() && piers.empty() && named.empty();
  }
};
/// Only of structures where soil is treated, drilled or baited; of others nothing is left out.
[[nodiscard]] std::vector<LeftOut> left_out(const Basis& basis, const Treatment& treatment);
/// Feet and piers that all structures leave out, a pier as its perimeter: 0 for a full treatment.
[[nodiscard]] Length feet_left(const Basis& basis, const Treatment& treatment);

}  // namespace soundsill
