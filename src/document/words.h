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

#include "units/units.h"
#include "units/working.h"
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
  /// March 5, 2026; 9:10 am; 30 ft 6 1/2 in; in the way of the language.
  [[nodiscard]] std::string shown(const Date& date) const;
  [[nodiscard]] std::string shown(TimeOfDay time) const;
  [[nodiscard]] std::string shown(Length length) const;
  /// The working of a figure ("44' x 6\" deep x 4 gal / 10 ft") in the words of the language.
  [[nodiscard]] std::string shown(const Working& working) const;
  /// The phrase for a word of the data (a method, an organism, a danger ...): from `names:`, else the word itself.
  [[nodiscard]] std::string name(std::string_view word) const;

  [[nodiscard]] bool has_name(std::string_view word) const { return names_.find(word) != names_.end(); }

  friend std::optional<Words> read_words(const Source& source, Faults& faults, const Words* english);

 private:
  struct Sentence {
    std::string one, other;
  };
  std::vector<Sentence> sentences_;
  std::map<std::string, std::string, std::less<>> names_;
};

/// Reads a words file. Each sentence must be there, and use just the names that its row in words.def offers. With
/// `english`, the file is a translation: it has every phrase of the English file too, and none of its texts is the
/// English one unless the list `same as English` in the same file says so.
[[nodiscard]] std::optional<Words> read_words(const Source& source, Faults& faults, const Words* english = nullptr);

/// The first letter in capitals, for the beginning of a sentence, and back. Letters of Western Europe; others stay.
[[nodiscard]] std::string capitalized(std::string text);
[[nodiscard]] std::string uncapitalized(std::string text);
/// The nth word of a list of words with blanks between them ("first second third"); beyond its end the number itself.
[[nodiscard]] std::string nth_word(std::string_view list, int n);
/// "a", "a and b", "a, b and c" with the word for "and" of the language (names: and).
[[nodiscard]] std::string in_words(const Words& words, const std::vector<std::string>& list);

}  // namespace soundsill::document
