#include <algorithm>

#include "diagnostics/diagnostics.h"

namespace soundsill {
namespace {

std::string place(const Span& at) {
  if (!at) return "soundsill";
  const auto p = at.source->position(at.begin);
  return at.source->name() + ":" + std::to_string(p.line) + ":" + std::to_string(p.column);
}

std::string indented(std::string_view label, const std::string& text) {
  std::string out = "  ";
  out += label;
  for (const char c : text) {
    out += c;
    if (c == '\n') out += std::string(2 + label.size(), ' ');
  }
  return out += '\n';
}

// The line as written, tabs as one space, and carets that count letters.
std::string excerpt(const Span& at) {
  const auto from = at.source->position(at.begin);
  std::string line(at.source->line(from.line));
  std::replace(line.begin(), line.end(), '\t', ' ');
  const std::size_t line_start = at.source->line_begin(from.line);
  const std::size_t stop = std::min<std::size_t>(at.end, line_start + at.source->line(from.line).size());
  std::size_t width = 1;
  if (stop > at.begin) width = std::max<std::size_t>(1, letters(at.source->text().substr(at.begin, stop - at.begin)));
  const std::string number = std::to_string(from.line);
  std::string out = " " + number + " | " + safe_for_terminal(line) + "\n";
  out += " " + std::string(number.size(), ' ') + " | " + std::string(from.column - 1, ' ') + std::string(width, '^');
  return out += '\n';
}

}  // namespace

std::string safe_for_terminal(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if ((u < 0x20 && c != '\n') || u == 0x7F)
      out += '?';
    else
      out += c;
  }
  // C1 controls come as C2 80..9F in UTF-8.
  for (std::size_t i = 0; i + 1 < out.size(); ++i) {
    const auto second = static_cast<unsigned char>(out[i + 1]);
    if (static_cast<unsigned char>(out[i]) == 0xC2 && second >= 0x80 && second < 0xA0) out.replace(i, 2, "?");
  }
  return out;
}

std::string render(const Diagnostic& d, const RenderStyle& style) {
  const RuleInfo& rule = info(d.rule);
  const bool error = rule.severity == Severity::error;
  std::string word = error ? "error" : "warning";
  if (style.color) word = std::string(error ? "\033[1;31m" : "\033[1;33m") + word + "\033[0m";
  std::string out = safe_for_terminal(place(d.at)) + ": " + word + ": " + safe_for_terminal(d.what);
  out += " [" + std::string(rule.code) + "]\n";
  if (d.at) out += excerpt(d.at);
  if (!d.why.empty()) out += indented("why: ", safe_for_terminal(d.why));
  if (!d.fix.empty()) out += indented("fix: ", safe_for_terminal(d.fix));
  for (const Note& n : d.see) out += "  see: " + safe_for_terminal(place(n.at) + ": " + n.words) + "\n";
  return out;
}

}  // namespace soundsill
