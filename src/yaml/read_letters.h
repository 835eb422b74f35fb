// Letters in what people type that no reader of a paper would see as they were meant.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace soundsill::yaml {

/// What is the matter with a letter.
enum class Odd {
  unseen,   ///< takes no room and shows no ink: two texts that look alike are not alike
  nothing,  ///< lost on the way, private to one font, or no character at all
  leftward  ///< of a script that runs from right to left; the papers are set from left to right
};

struct OddLetter {
  std::uint32_t code = 0;
  Odd odd = Odd::unseen;
};

/// The first such letter of a text.
[[nodiscard]] std::optional<OddLetter> odd_letter(std::string_view text);
/// The text with every space of another width or kind (no-break, thin, ideographic) as a plain one: papers break their
/// lines themselves, and what was pasted from a page or a letter means a space and nothing more.
[[nodiscard]] std::string with_plain_spaces(std::string_view text);
/// The text without its unseen letters.
[[nodiscard]] std::string without_unseen(std::string_view text);
/// The text with "U+200B" in angle brackets for each odd letter, so that a person sees it.
[[nodiscard]] std::string with_odd_named(std::string_view text);
/// "U+200B"
[[nodiscard]] std::string name_of_letter(std::uint32_t code);

}  // namespace soundsill::yaml
