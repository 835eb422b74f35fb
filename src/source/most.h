// How much the tool takes at all, whatever a form says. Beyond this speaks a slip, or somebody who means harm.
#pragma once

#include <cstddef>
#include <cstdint>

namespace soundsill::most {

inline constexpr std::size_t text_bytes = 4'000'000;  ///< of a case, a company, a form, words or a template
inline constexpr std::size_t text_values = 200'000;   ///< keys, values and items of one file
inline constexpr std::size_t nesting = 64;            ///< levels of lists and blocks
inline constexpr std::size_t value_bytes = 4'000;     ///< of one value
inline constexpr std::size_t findings = 2'000;        ///< of a case
inline constexpr std::size_t photos = 200;            ///< named in a case
inline constexpr std::size_t photo_bytes = 60'000'000;
inline constexpr std::int64_t photo_pixels = 100'000'000;
inline constexpr std::size_t paper_bytes = 200'000'000;  ///< of a file that stands where a paper is to go
inline constexpr std::size_t list_bytes = 100'000'000;   ///< of names of cases: over a million, from a file or a pipe
inline constexpr std::size_t merged_bytes = 2'000'000'000;  ///< of one list that `review --format json` wrote

}  // namespace soundsill::most
