// The kinds of runs, and what measuring, pricing, timing and papers need to know of each: one table for all of them.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "company/company.h"

namespace soundsill {

enum class RunKind : std::uint8_t {
#define RUN_KIND(name, traits, tip, size, listed, measures) name,
#include "treatment/run_kinds.def"
};

/// By what a crew reckons how much of a run there is: feet, holes, pieces, square feet (for each coat), cubic feet, or
/// thousands of them.
enum class RunSize : std::uint8_t { feet, holes, pieces, area, coats, volume, thousands };

namespace run_traits {
inline constexpr unsigned other = 0;
inline constexpr unsigned soil = 1;     ///< along something that stands in it
inline constexpr unsigned indoors = 2;  ///< worked on inside, in the crawl space
inline constexpr unsigned round = 4;    ///< all round pieces that stand in it, not along a face
inline constexpr unsigned drilled = 8;  ///< through holes of one diameter
inline constexpr unsigned digs = 16;    ///< goes into the soil in another way
}  // namespace run_traits

/// The measures that a run can be priced by, the likeliest first.
struct RunMeasures {
  std::array<Per, 4> list{};
  std::size_t count = 0;
  [[nodiscard]] constexpr const Per* begin() const { return list.data(); }
  [[nodiscard]] constexpr const Per* end() const { return list.data() + count; }
};

struct RunKindFacts {
  unsigned traits = run_traits::other;
  TipAt tip = TipAt::trench;
  RunSize size = RunSize::feet;
  std::string_view listed;  ///< as lists call it
  RunMeasures measures;
};

namespace run_kind_table {

template <class... P>
constexpr RunMeasures per(P... list) {
  return {{list...}, sizeof...(list)};
}

using namespace run_traits;
using enum Per;
inline constexpr RunKindFacts rows[] = {
#define RUN_KIND(name, traits, tip, size, listed, measures) {traits, TipAt::tip, RunSize::size, listed, measures},
#include "treatment/run_kinds.def"
};

}  // namespace run_kind_table

[[nodiscard]] constexpr const RunKindFacts& facts(RunKind kind) {
  return run_kind_table::rows[static_cast<std::size_t>(kind)];
}
[[nodiscard]] constexpr bool has(RunKind kind, unsigned traits) { return (facts(kind).traits & traits) != 0; }
/// Soil along something that stands in it.
[[nodiscard]] constexpr bool is_soil(RunKind kind) { return has(kind, run_traits::soil); }
/// Work through holes of one diameter.
[[nodiscard]] constexpr bool is_drilled(RunKind kind) { return has(kind, run_traits::drilled); }
/// Goes into the ground in whatever way: pipes and cables that lie there must be marked before.
[[nodiscard]] constexpr bool breaks_ground(RunKind kind) {
  return has(kind, run_traits::soil | run_traits::drilled | run_traits::digs);
}

}  // namespace soundsill
