// The words of an enum, as people type and read them.
#pragma once

#include <array>
#include <string_view>

namespace soundsill::yaml {

/// Enums whose words stand in a table: specialise with `static constexpr std::array<std::string_view, N> words`.
template <class E>
struct Words;
template <class E>
requires requires { Words<E>::words; }
[[nodiscard]] constexpr std::string_view word(E e) { return Words<E>::words[static_cast<std::size_t>(e)]; }

}  // namespace soundsill::yaml
