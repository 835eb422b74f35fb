// How a figure was reached: an expression of quantities that papers and lists print, each in its own words.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/units.h"

namespace soundsill {

enum class WorkingWord {
#define WORKING_WORD(name, english) name,
#include "units/working_words.def"
#undef WORKING_WORD
};
inline constexpr auto working_words = std::to_array<std::string_view>({
#define WORKING_WORD(name, english) english,
#include "units/working_words.def"
#undef WORKING_WORD
});
[[nodiscard]] constexpr std::string_view english(WorkingWord word) {
  return working_words[static_cast<std::size_t>(word)];
}

class Working {
 public:
  /// A figure as printed, a sign or a word. `close`: no space before it.
  struct Piece {
    std::string figure;
    std::optional<WorkingWord> word;
    bool close = false;
  };

  Working() = default;
  explicit Working(std::string figure) : pieces_{{std::move(figure), {}}} {}
  explicit Working(Length length) : Working(print(length)) {}
  explicit Working(int count) : Working(std::to_string(count)) {}
  explicit Working(const Ratio& figure) : Working(shortest(figure, 2)) {}
  /// "/ cu ft": one of a unit.
  explicit Working(WorkingWord unit) : pieces_{{{}, unit}} {}

  /// A quantity gets its unit, and a unit what it is of: 4 gal; 8 pt a gal.
  [[nodiscard]] Working in(WorkingWord unit) &&;
  [[nodiscard]] Working bracketed() &&;
  /// ", shared by 12 holes at most 16" apart"
  [[nodiscard]] Working shared_by(int holes, Length apart) &&;
  friend Working operator*(Working a, const Working& b) { return std::move(a).joined("x", b); }
  friend Working operator/(Working a, const Working& b) { return std::move(a).joined("/", b); }
  friend Working operator+(Working a, const Working& b) { return std::move(a).joined("+", b); }
  friend Working operator-(Working a, const Working& b) { return std::move(a).joined("-", b); }

  [[nodiscard]] bool empty() const { return pieces_.empty(); }
  [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }
  /// With words in the language of `say`, which is asked for each.
  template <class Say>
  [[nodiscard]] std::string said(const Say& say) const {
    std::string out;
    for (const Piece& p : pieces_) {
      if (!out.empty() && !p.close) out += ' ';
      out += p.word ? std::string(say(*p.word)) : p.figure;
    }
    return out;
  }
  [[nodiscard]] std::string in_english() const { return said(english); }

 private:
  /// Nothing is the sum or product so far of nothing.
  [[nodiscard]] Working joined(std::string_view sign, const Working& other) &&;

  std::vector<Piece> pieces_;
};

}  // namespace soundsill
