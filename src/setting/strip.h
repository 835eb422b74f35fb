// A strip is a piece of a page that never splits: marks relative to its own top left corner, and what belongs to them.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "pages/pages.h"

namespace soundsill::page {

/// A band of photos in a strip that may be lower by as much as `give`.
struct Elastic {
  Milli top = 0, bottom = 0, give = 0;
};

struct Strip {
  Milli height = 0;
  Milli before = 0, after = 0;  ///< white to its neighbors; the larger of two counts
  bool keep = false;            ///< stands on the page of the next strip
  std::vector<Mark> marks;
  std::vector<std::pair<std::string, Milli>> places;  ///< destinations and how far from the top
  std::vector<std::pair<NodeId, Box>> figures;        ///< nodes that want to know where they stand
  std::shared_ptr<const Strip> head;                  ///< repeated above this strip when it begins a column
  std::vector<Elastic> elastic;                       ///< from top to bottom
  Milli give = 0;                                     ///< by how much `lower` can make it lower
  std::function<Strip(Milli)> lower;                  ///< the same strip, lower by so much
};
using Strips = std::vector<Strip>;

/// Adds `part` to `whole`, moved by dx and dy.
void merge(Strip& whole, const Strip& part, Milli dx, Milli dy);
/// One under the other, as one strip. The outer white becomes that of the whole.
[[nodiscard]] Strip stacked(const Strips& strips);
/// Height of all strips one under the other, without the outer white.
[[nodiscard]] Milli height_of(const Strips& strips);
void append(Strips& to, Strips more);
/// Moves all marks to the right.
void indent(Strips& strips, Milli dx);
/// The strip with its photos smaller, lower by `by`, which is at most what its elastic bands give.
[[nodiscard]] Strip squeezed(Strip strip, Milli by);
/// Cuts a strip that is taller than `room` between its lines of text. Tints and frames go on in each piece.
[[nodiscard]] Strips cut_to(const Strip& strip, Milli room);
/// The same marks as decoration: said already elsewhere.
[[nodiscard]] Strip as_artifact(Strip strip);

}  // namespace soundsill::page
