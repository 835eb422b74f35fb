// The walk round one part of a structure.
#pragma once

#include <string>
#include <vector>

#include "casefile/case.h"
#include "site/exact.h"

namespace soundsill::plan {

struct WalkedWall {
  Vec from, to;
  Length length;  ///< as typed; of a wall between corners the distance, to the nearest sixteenth
  Span at;        ///< of its step; the outline's key for a closing wall that nobody typed
};

struct Walk {
  std::vector<WalkedWall> walls;
  bool read = false;   ///< every step could be read, so that the walls are numbered as typed
  bool sound = false;  ///< it closes and does not cross or touch itself: it has an inside
  Length closing_error;
  [[nodiscard]] Ring corners() const;
};

/// Walks the outline of a part whose first wall bears `first_number`, and reports when it does not close or crosses
/// itself. A walk that is not sound still gives its walls, so that they can be named.
[[nodiscard]] Walk walk(const Part& part, int first_number, Faults& faults);

/// Reports a ring of corners that crosses or touches itself or has no area; gives the two edges (counted from 0), the
/// later one first.
[[nodiscard]] bool crossing(const Ring& ring, std::size_t& later, std::size_t& earlier);

}  // namespace soundsill::plan
