// Small pieces of the sentences in which faults of the drawing are told.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "units/units.h"

namespace soundsill::plan {

/// A name as typed, in backticks.
[[nodiscard]] std::string quoted(std::string_view name);
/// " of `main`"; empty when there is no name.
[[nodiscard]] std::string of(std::string_view name);
/// "wall 3", "walls 1 and 2", "walls 1, 2 and 5"; long lists end in "and 12 more".
[[nodiscard]] std::string numbered(std::string_view one, const std::vector<int>& numbers);
/// "there is no pier 12; the last is 8", "there is no pier 12; there are none"
[[nodiscard]] std::string no_such(std::string_view thing, int number, std::size_t last);
/// [12', 8']
[[nodiscard]] std::string print(const Point& point);

/// Whether reading reported a fault within this span: what stands there is not all that was typed, and what follows
/// from that is not worth another message.
[[nodiscard]] bool spoilt(const Span& span, const Faults& faults);

}  // namespace soundsill::plan
