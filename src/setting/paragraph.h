// Words to lines: breaking, shaping and measuring.
#pragma once

#include <vector>

#include "setting/workshop.h"

namespace soundsill::page {

/// One set line: marks relative to the left end of its baseline.
struct Line {
  std::vector<Mark> marks;
  Milli width = 0;  ///< without spaces at the end
  bool last = false;
};

/// How runs are set: looks from the style, meaning into `node` (links become nodes of their own below it).
struct Setting {
  const TextStyle* style = nullptr;
  Milli width = 0;
  NodeId node = artifact;
};

/// Breaks and shapes; never wider than `width`. Alignment is up to the caller. Empty runs give no lines.
[[nodiscard]] std::vector<Line> set_lines(Workshop& shop, const document::Runs& runs, const Setting& setting);
[[nodiscard]] std::vector<Line> set_lines(Workshop& shop, const std::string& words, const Setting& setting);

struct Measure {
  Milli whole = 0;    ///< all on one line
  Milli longest = 0;  ///< the longest piece that cannot be broken
};
[[nodiscard]] Measure measure(Workshop& shop, const document::Runs& runs, const TextStyle& style);
[[nodiscard]] Measure measure(Workshop& shop, const std::string& words, const TextStyle& style);

/// From the top of a line to its baseline: capitals stand in the middle.
[[nodiscard]] Milli baseline_in(Workshop& shop, const TextStyle& style);
/// Puts lines into a strip, one every leading, the first line's top at (x, y); aligned in `width`.
void put_lines(Workshop& shop, Strip& strip, const std::vector<Line>& lines, const TextStyle& style, At at, Milli width,
               Align align);
[[nodiscard]] Milli height_of_lines(const std::vector<Line>& lines, const TextStyle& style);

}  // namespace soundsill::page
