// The words of an enum, as people type and read them.
#pragma once

#include <array>
#include <string_view>

namespace soundsill::yaml {

/// Enums whose words stand in a table: specialise with `static constexpr std::array<std::string_view, N> words`.
template <class E>
struct Words;
template <class E>
concept HasWords = requires {
  Words<E>::words;
};

/// Whether the enum gives this value a name: compilers write a value without one as a number, "(E)7".
template <auto value>
[[nodiscard]] constexpr bool is_enumerator() {
  const std::string_view text = __PRETTY_FUNCTION__;
  return text[text.find("value = ") + 8] != '(';
}
/// As many words as values. That they stand in the same order is for the eye, and for the examples, which use them.
template <HasWords E>
[[nodiscard]] constexpr bool has_a_word_each() {
  constexpr std::size_t count = Words<E>::words.size();
  return is_enumerator<static_cast<E>(count - 1)>() && !is_enumerator<static_cast<E>(count)>();
}

template <HasWords E>
[[nodiscard]] constexpr std::string_view word(E e) {
  static_assert(has_a_word_each<E>(), "an enum and its words differ in number");
  return Words<E>::words[static_cast<std::size_t>(e)];
}

}  // namespace soundsill::yaml
