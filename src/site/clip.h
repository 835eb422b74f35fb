// Which pieces of a segment lie within an outline.
#pragma once

#include <utility>
#include <vector>

#include "site/exact.h"

namespace soundsill::plan {

/// From where to where along a segment, as shares of its length from 0 to 1.
using Piece = std::pair<long double, long double>;

/// The pieces of the segment from a to b within the ring, in order, touching ones joined. Along an edge counts as
/// within.
[[nodiscard]] std::vector<Piece> clipped(Vec a, Vec b, const Ring& ring);
/// Sorted, with touching or overlapping pieces joined.
[[nodiscard]] std::vector<Piece> joined(std::vector<Piece> pieces);

}  // namespace soundsill::plan
