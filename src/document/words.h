// The sentences of the papers, read from templates/words.<language>.yaml. No sentence stands in C++.
#pragma once

#include <array>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "yaml/tree.h"

namespace soundsill::document {

enum class Word {
#define WORD(name, names) name,
#include "document/words.def"
#undef WORD
};

class Words {
 public:
  using Fill = std::pair<std::string_view, std::string>;
  /// The sentence with its names filled in. A fill `count` also picks the form: "1" takes `one`, all else `other`.
  [[nodiscard]] std::string say(Word word, std::initializer_list<Fill> fills = {}) const;
  /// The phrase for a word of the data (a method, an organism, a danger ...): from `names:`, else the word itself.
  [[nodiscard]] std::string name(std::string_view word) const;

  friend std::optional<Words> read_words(const Source& source, Faults& faults);

 private:
  struct Sentence {
    std::string one, other;
  };
  std::vector<Sentence> sentences_;
  std::map<std::string, std::string, std::less<>> names_;
};

/// Reads a words file. Each sentence must be there, and use just the names that its row in words.def offers.
[[nodiscard]] std::optional<Words> read_words(const Source& source, Faults& faults);

/// The first letter in capitals, for the beginning of a sentence. ASCII letters only; others stay.
[[nodiscard]] std::string capitalized(std::string text);
/// "a", "a and b", "a, b and c" with the word for "and" of the language (names: and).
[[nodiscard]] std::string in_words(const Words& words, const std::vector<std::string>& list);

}  // namespace soundsill::document
