// Texts put together in one allocation.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace soundsill {

/// The parts one after the other. For sums that begin with a temporary string: GCC 12's optimizer takes its move for a
/// write out of bounds (its bugs 105329 and 105651), and warnings are errors in preset dev.
[[nodiscard]] inline std::string concat(std::initializer_list<std::string_view> parts) {
  std::size_t size = 0;
  for (const std::string_view part : parts) size += part.size();
  std::string all;
  all.reserve(size);
  for (const std::string_view part : parts) all += part;
  return all;
}

}  // namespace soundsill
