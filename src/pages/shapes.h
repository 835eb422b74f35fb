// Small integer geometry and the marks made of it.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "pages/pages.h"

namespace soundsill::page {

[[nodiscard]] constexpr Milli milli(std::int64_t n) { return static_cast<Milli>(n); }
/// a x b / c, halves away from zero; c > 0.
[[nodiscard]] constexpr std::int64_t scaled(std::int64_t a, std::int64_t b, std::int64_t c) {
  const std::int64_t twice = a * b * 2;
  return (twice + (twice >= 0 ? c : -c)) / (2 * c);
}
/// Largest whole number whose square is at most n.
[[nodiscard]] std::int64_t whole_root(std::int64_t n);

[[nodiscard]] bool overlap(const Box& a, const Box& b);
[[nodiscard]] Box grown(const Box& box, Milli by);
[[nodiscard]] Box united(const Box& a, const Box& b);
[[nodiscard]] bool inside(const Box& inner, const Box& outer);
/// Does the stretch from a to b touch the box?
[[nodiscard]] bool touches(At a, At b, const Box& box);
/// Is the point inside the closed polygon (even-odd)?
[[nodiscard]] bool within(At p, const std::vector<At>& polygon);

[[nodiscard]] PathMark line_path(At a, At b, Milli width, Color color);
[[nodiscard]] PathMark filled_box(const Box& box, Color color);
[[nodiscard]] PathMark framed_box(const Box& box, Milli width, Color color);
[[nodiscard]] PathMark open_path(const std::vector<At>& points);
[[nodiscard]] PathMark closed_path(const std::vector<At>& points);
[[nodiscard]] PathMark circle_path(At middle, Milli radius);

void shift(Mark& mark, Milli dx, Milli dy);
/// Where a mark puts ink (text: from its ascender to its descender).
[[nodiscard]] Box bounds(const Mark& mark);
/// Width of the text without the spaces at its end.
[[nodiscard]] Milli ink_width(const TextMark& text);

}  // namespace soundsill::page
