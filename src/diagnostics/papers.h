// The papers of a case, and sets of them: what the catalogue says a fault stops.
#pragma once

#include <cstdint>
#include <string_view>

namespace soundsill {

/// A paper that can leave the house. A packet is findings and estimate in one.
enum class Paper : std::uint8_t {
#define PAPER(name, word) name,
#include "diagnostics/papers.def"
};
inline constexpr Paper all_papers[] = {
#define PAPER(name, word) Paper::name,
#include "diagnostics/papers.def"
};
/// "work order", as people call it.
[[nodiscard]] constexpr std::string_view word(Paper paper) {
  constexpr std::string_view words[] = {
#define PAPER(name, word) word,
#include "diagnostics/papers.def"
  };
  return words[static_cast<std::size_t>(paper)];
}

class PaperSet {
 public:
  constexpr PaperSet() = default;
  constexpr PaperSet(Paper one) : bits_(1u << static_cast<unsigned>(one)) {}  // NOLINT: a paper is a set of one
  [[nodiscard]] constexpr bool has(Paper one) const { return (bits_ & PaperSet(one).bits_) != 0; }
  [[nodiscard]] constexpr bool empty() const { return bits_ == 0; }
  [[nodiscard]] friend constexpr PaperSet operator|(PaperSet a, PaperSet b) { return PaperSet(a.bits_ | b.bits_); }
  /// What is in the one and not in the other.
  [[nodiscard]] friend constexpr PaperSet operator-(PaperSet a, PaperSet b) { return PaperSet(a.bits_ & ~b.bits_); }
  friend constexpr bool operator==(PaperSet, PaperSet) = default;

 private:
  explicit constexpr PaperSet(unsigned bits) : bits_(bits) {}
  unsigned bits_ = 0;
};
[[nodiscard]] constexpr PaperSet operator|(Paper a, Paper b) { return PaperSet(a) | PaperSet(b); }

/// The words of the catalogue's column: papers by name, and the sets that most rules need.
namespace stops_words {

using enum Paper;

/// What cannot even be read stops everything.
inline constexpr PaperSet every =
    findings | estimate | work_order | agreement | record | invoice | certificate | lender | letter;
/// What happened is always written down, with whatever does not agree marked; all else claims that the case is sound.
inline constexpr PaperSet every_claim = every - record;
/// Signed by the inspector, or attached to what she signed.
inline constexpr PaperSet report = findings | estimate | lender;
/// What makes statements on insects, or on what was looked at for them.
inline constexpr PaperSet statements = findings | agreement | certificate | lender;
/// What tells work by the findings that it answers.
inline constexpr PaperSet on_findings = findings | estimate | work_order | agreement | certificate | lender;
/// What shows feet of the house.
inline constexpr PaperSet on_measures = on_findings | invoice;
/// What shows the figures of the plan: runs, gallons, holes, and what is billed by them.
inline constexpr PaperSet on_plan = on_measures - findings;
/// What offers, orders or vouches for work. What was found stays true whatever is done about it.
inline constexpr PaperSet on_work = on_findings - findings;
/// What is made once the work was accepted.
inline constexpr PaperSet after_estimate = every - (findings | estimate);
/// What would bind somebody to work that may not be done yet.
inline constexpr PaperSet sold = estimate | work_order | agreement;
inline constexpr PaperSet on_price = estimate | agreement | invoice;
inline constexpr PaperSet on_warranty = estimate | agreement | certificate | lender | letter;
/// What vouches for a treatment that was made.
inline constexpr PaperSet vouching = certificate | lender;

}  // namespace stops_words
}  // namespace soundsill
