// Names that stand in a file, held against those that may stand there: unknown, written twice, missing, and which one
// was meant. Knows no file format; each reader puts the answer into its own words.
#pragma once

#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostics.h"

namespace soundsill {

/// "did you mean `x`?", or `otherwise` when no known word is near.
[[nodiscard]] std::string did_you_mean(std::string_view word, std::span<const std::string_view> known,
                                       std::string otherwise);

/// The names of one block or element, as they are met in the file.
class NameCheck {
 public:
  /// The words must outlive this.
  explicit NameCheck(std::vector<std::string_view> known) : known_(std::move(known)), met_(known_.size(), false) {}

  enum class Verdict { fine, unknown, twice };
  /// A name that stands in the file. One that is met again is `twice`, known or not.
  [[nodiscard]] Verdict meet(std::string_view name);
  /// Whether a known name was met.
  [[nodiscard]] bool met(std::string_view name) const;
  [[nodiscard]] const std::vector<std::string_view>& known() const { return known_; }

 private:
  std::vector<std::string_view> known_;
  std::vector<bool> met_;
  std::set<std::string, std::less<>> unknown_;
};

}  // namespace soundsill
