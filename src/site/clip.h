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
/// What of the way from a to b has the ring on its left side (as seen on the plan): pieces within the ring, and those
/// along its edges that it lies left of.
[[nodiscard]] std::vector<Piece> left_covered(Vec a, Vec b, const Ring& ring);
/// Pieces of `from` less others; what is left of a hair's breadth is dropped.
[[nodiscard]] std::vector<Piece> remaining(std::vector<Piece> from, const std::vector<Piece>& less);
/// Pieces along edges of the ring.
[[nodiscard]] std::vector<Piece> along_edges(Vec a, Vec b, const Ring& ring);
/// Sorted, with touching or overlapping pieces joined.
[[nodiscard]] std::vector<Piece> joined(std::vector<Piece> pieces);

}  // namespace soundsill::plan
