// Faults of one file while it is read, and the words for the user's own text in them.
#pragma once

#include <string>
#include <string_view>

#include "diagnostics/diagnostics.h"
#include "source/source.h"

namespace soundsill::yaml {

/// Adds faults by byte offsets. A file that is no YAML at all would give thousands: it stops after a hundred.
class Report {
 public:
  Report(const Source& source, Faults& faults) : source_(source), faults_(faults) {}

  void add(Rule rule, std::size_t begin, std::size_t end, std::string what, std::string why, std::string fix);
  void add(Rule rule, std::size_t begin, std::size_t end, std::string what, std::string why, std::string fix, Note see);
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] bool full() const { return count_ >= kMost; }
  [[nodiscard]] Span span(std::size_t begin, std::size_t end) const;
  [[nodiscard]] std::size_t line(std::size_t offset) const { return source_.position(offset).line; }

 private:
  static constexpr std::size_t kMost = 100;
  void add(Diagnostic d);

  const Source& source_;
  Faults& faults_;
  std::size_t count_ = 0;
};

/// The user's words in backticks, cut short so that the line stays readable.
[[nodiscard]] std::string cited(std::string_view text);
/// The text in quotes that YAML reads back as the same text, ready to paste; cut short only when very long.
[[nodiscard]] std::string in_quotes(std::string_view text);

}  // namespace soundsill::yaml
