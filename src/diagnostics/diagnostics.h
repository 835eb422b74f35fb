// Faults of the papers: what the tool has to say to a person, and where.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/papers.h"
#include "source/source.h"

namespace soundsill {

enum class Severity { error, warning };

/// Every fault the tool can name, from catalogue.def. The names are stable.
enum class Rule : std::uint16_t {
#define RULE(name, who, severity, stage, stops, holds, why) name,
#include "diagnostics/catalogue.def"
};

/// Who speaks: whoever reads a file, the stage that works a figure out, or a function in rules/, which may wait until a
/// form asks for it.
enum class RuleKind : std::uint8_t { reading, working, check, asked };

/// What has to be known before a rule can be judged, in the order in which it becomes known: the file is read, the case
/// and its house, findings, work and price stand, the work was accepted and done, a paper is laid out.
enum class Stage : std::uint8_t { file, facts, house, findings, work, price, after, paper };

struct RuleInfo {
  Rule rule;
  std::string_view code;     ///< hyphenated, as printed in brackets
  std::string_view section;  ///< of the catalogue: where the function of a rule stands, src/rules/SECTION.cpp
  Severity severity;
  std::string_view doc;  ///< one line: what holds when the rule is silent
  std::string_view why;  ///< one line: what goes wrong on paper when it is broken
  RuleKind kind;
  Stage stage;
  PaperSet stops;  ///< the papers that must not leave while it is broken; of a warning, under --strict
  std::optional<std::chrono::sys_days> since;  ///< the day it came, when cases had been made before (since.def)
};
[[nodiscard]] std::span<const RuleInfo> catalogue();
[[nodiscard]] const RuleInfo& info(Rule rule);
/// The rule of a code as printed in brackets, or nullptr.
[[nodiscard]] const RuleInfo* rule_of(std::string_view code);
/// Whether a fault of a rule stops a paper; of a warning, whether it does under --strict.
[[nodiscard]] bool stops(Rule rule, Paper paper);

/// A second place that made a fault one.
struct Note {
  Span at;
  std::string words;
};

/// What a fault rests on: a text that somebody read (law, label, the company's own word, the drawing), a datum that
/// nobody has read and nobody insists on, or a rule that came after the paper of the case was issued.
enum class Rests : std::uint8_t { read, unread, later };

/// One fault. `what` is complete by itself, lower case, without a full stop, and never advises; `why` names the
/// consequence on paper; `fix` says what to type and never explains.
struct Diagnostic {
  Rule rule{};
  Span at;
  std::string what;
  std::string why;
  std::string fix;
  std::vector<Note> see;
  Rests rests = Rests::read;
};
/// How grave a fault is: as its rule says, and what rests on an unread datum or a later rule only warns. Nothing else
/// decides it.
[[nodiscard]] Severity severity(const Diagnostic& d);
[[nodiscard]] Severity severity(Rule rule, Rests rests);

/// The faults of one run. Order of adding does not matter.
class Faults {
 public:
  void add(Diagnostic d);
  void add(Rule rule, Span at, std::string what, std::string why, std::string fix, Rests rests = Rests::read) {
    add({rule, at, std::move(what), std::move(why), std::move(fix), {}, rests});
  }
  /// The day on which the paper of the case was issued: what rules say from now on that came later only warns.
  void issued(std::chrono::sys_days day) { issued_ = day; }
  /// All faults from the `first` on rest on this: those of a rule that a form asked for.
  void rest(std::size_t first, Rests rests);
  [[nodiscard]] const std::vector<Diagnostic>& all() const { return all_; }
  [[nodiscard]] std::size_t errors() const;
  [[nodiscard]] std::size_t warnings() const;
  /// Whether there is no error of an earlier stage, so that what belongs to this one can be judged.
  [[nodiscard]] bool reached(Stage stage) const;
  /// By file (in the order read), then place; the same fault at the same place once.
  void sort();

 private:
  std::vector<Diagnostic> all_;
  std::optional<std::chrono::sys_days> issued_;
};

struct RenderStyle {
  bool color = false;
};
/// The block of lines for one fault, in the shape that editors understand: file:line:col: error: what [code].
[[nodiscard]] std::string render(const Diagnostic& d, const RenderStyle& style = {});

/// Turns control characters (except newline) into visible ones, so that a file cannot drive a terminal.
[[nodiscard]] std::string safe_for_terminal(std::string_view text);
/// The same for what has to stay on one line: a path, a name.
[[nodiscard]] std::string safe_line(std::string_view text);
/// Text for other programs: bytes that are no UTF-8 become the sign for an unknown letter.
[[nodiscard]] std::string whole_letters(std::string_view text);

/// The word of `known` that `word` was most likely meant to be; empty when none is near (1 + length / 3 edits).
[[nodiscard]] std::string nearest(std::string_view word, std::span<const std::string_view> known);

}  // namespace soundsill
