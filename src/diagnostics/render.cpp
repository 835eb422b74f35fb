// Serves diagnostics/diagnostics.h.
#include <algorithm>

#include "diagnostics/diagnostics.h"
#include "source/utf8.h"

namespace soundsill {
namespace {

/// Control characters, and the marks that turn the direction of a line.
bool drives_terminal(std::string_view letter) {
  const auto first = static_cast<unsigned char>(letter[0]);
  if (letter.size() == 1) return (first < 0x20 && first != '\n') || first == 0x7F;
  if (letter.size() == 2) return first == 0xC2 && static_cast<unsigned char>(letter[1]) < 0xA0;
  return (letter >= "\u202A" && letter <= "\u202E") || (letter >= "\u2066" && letter <= "\u2069");
}

std::string one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

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

/// The bytes of at most `count` letters at the end of a text; they begin with a whole letter.
std::string_view last_letters(std::string_view text, std::size_t count) {
  std::size_t begin = text.size();
  for (; begin > 0 && count > 0; --count) do
      --begin;
    while (begin > 0 && (static_cast<unsigned char>(text[begin]) & 0xC0U) == 0x80U);
  return text.substr(begin);
}

std::string_view first_letters(std::string_view text, std::size_t count) {
  std::size_t end = 0;
  for (; end < text.size() && count > 0; --count) do
      ++end;
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U);
  return text.substr(0, end);
}

/// Text as a terminal may show it, tabs as one space. Of a line without end only what may be seen is looked at.
std::string shown(std::string_view text) {
  std::string out(text);
  std::replace(out.begin(), out.end(), '\t', ' ');
  return safe_for_terminal(out);
}

constexpr std::size_t widest = 200;              // columns of a line; what is cut off shows as an ellipsis
constexpr std::size_t letter_bytes_at_most = 4;  // of UTF-8

// The line as written, and carets that count letters. Of a long line the part with what is marked.
std::string excerpt(const Span& at) {
  const auto from = at.source->position(at.begin);
  const std::string_view line = at.source->line(from.line);
  const std::size_t begin = std::min<std::size_t>(at.begin - at.source->line_begin(from.line), line.size());
  const std::size_t end = std::clamp<std::size_t>(at.end - at.source->line_begin(from.line), begin, line.size());
  constexpr std::size_t enough = letter_bytes_at_most * (widest + 1);
  const std::size_t skipped = begin - std::min(begin, enough);
  const std::string before = shown(line.substr(skipped, begin - skipped)), after = shown(line.substr(begin, enough));
  const std::size_t marked =
      std::max<std::size_t>(1, letters(shown(line.substr(begin, std::min(end - begin, enough)))));
  std::size_t left = letters(before), right = letters(after);
  if (left + right > widest) {
    constexpr std::size_t room = widest - 2;
    const std::size_t half = (room - std::min(marked, room)) / 2;
    left = std::min(left, std::max(half, room - std::min(right, room)));
    right = std::min(right, room - left);
  }
  const std::string_view seen_before = last_letters(before, left), seen_after = first_letters(after, right);
  const bool cut_before = seen_before.size() < before.size() || skipped > 0;
  const bool cut_after = seen_after.size() < after.size() || line.size() - begin > enough;
  const std::string number = std::to_string(from.line);
  std::string out = " " + number + " | " + (cut_before ? "\u2026" : "");
  out.append(seen_before).append(seen_after).append(cut_after ? "\u2026\n" : "\n");
  out += " " + std::string(number.size(), ' ') + " | " + std::string(left + (cut_before ? 1 : 0), ' ');
  return out.append(std::clamp<std::size_t>(marked, 1, std::max<std::size_t>(right, 1)), '^') += '\n';
}

}  // namespace

namespace {

/// Every letter goes through `as`; a byte that is none has `none` in its place.
template <class As>
std::string letter_by_letter(std::string_view text, std::string_view none, As as) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const utf8::Letter read = utf8::letter_at(text, 0);
    out += read.valid ? as(text.substr(0, read.bytes)) : none;
    text.remove_prefix(read.bytes);
  }
  return out;
}

}  // namespace

std::string safe_for_terminal(std::string_view text) {
  return letter_by_letter(text, "?", [](std::string_view letter) { return drives_terminal(letter) ? "?" : letter; });
}

std::string safe_line(std::string_view text) {
  return letter_by_letter(
      text, "?", [](std::string_view letter) { return drives_terminal(letter) || letter == "\n" ? "?" : letter; });
}

std::string whole_letters(std::string_view text) {
  return letter_by_letter(text, "\uFFFD", [](std::string_view letter) { return letter; });
}

std::string render(const Diagnostic& d, const RenderStyle& style) {
  const RuleInfo& rule = info(d.rule);
  const bool error = severity(d) == Severity::error;
  std::string word = error ? "error" : "warning";
  if (style.color) word = std::string(error ? "\033[1;31m" : "\033[1;33m") + word + "\033[0m";
  std::string out = safe_line(place(d.at)) + ": " + word + ": " + safe_for_terminal(one_line(d.what));
  out += " [" + std::string(rule.code) + "]\n";
  if (d.at) out += excerpt(d.at);
  if (!d.why.empty()) out += indented("why: ", safe_for_terminal(d.why));
  if (!d.fix.empty()) out += indented("fix: ", safe_for_terminal(d.fix));
  for (const Note& n : d.see)
    out += "  see: " + safe_line(place(n.at)) + ": " + safe_for_terminal(one_line(n.words)) + "\n";
  return out;
}

}  // namespace soundsill
