#include "yaml/read_report.h"

#include <algorithm>

#include "source/utf8.h"

namespace soundsill::yaml {
namespace {

/// At most `most` letters of the first line of a text.
std::string cut(std::string_view text, std::size_t most) {
  const std::size_t line_end = text.find_first_of("\r\n");
  std::size_t end = 0, count = 0;
  while (end < std::min(line_end, text.size())) {
    const std::size_t next = utf8::end_of_letter(text, end);
    if (++count > most) break;
    end = next;
  }
  std::string out(text.substr(0, end));
  while (out.ends_with(' ')) out.pop_back();
  return end < text.size() ? out + "..." : out;
}

}  // namespace

void Report::add(Diagnostic d) {
  if (full()) return;
  ++count_;
  const Span at = d.at;
  faults_.add(std::move(d));
  if (full())
    faults_.add(Rule::too_large, at, "the file has more than " + std::to_string(kMost) + " faults; reading stops here",
                "faults further down would not be seen", "mend the faults above, then check again");
}

void Report::add(Rule rule, std::size_t begin, std::size_t end, std::string what, std::string why, std::string fix) {
  add({rule, span(begin, end), std::move(what), std::move(why), std::move(fix), {}});
}

void Report::add(Rule rule, std::size_t begin, std::size_t end, std::string what, std::string why, std::string fix,
                 Note see) {
  add({rule, span(begin, end), std::move(what), std::move(why), std::move(fix), {std::move(see)}});
}

Span Report::span(std::size_t begin, std::size_t end) const {
  const std::size_t size = source_.text().size();  // a fault at the very end has nothing behind it
  return {&source_, static_cast<std::uint32_t>(std::min(begin, size)), static_cast<std::uint32_t>(std::min(end, size))};
}

std::string cited(std::string_view text) { return "`" + cut(text, 36) + "`"; }

std::string in_quotes(std::string_view text) {
  const std::string shown = cut(text, 200);
  if (shown.find_first_of("\"\\") == std::string::npos) return "\"" + shown + "\"";
  std::string out = "'";
  for (const char c : shown) {
    out += c;
    if (c == '\'') out += c;
  }
  return out += '\'';
}

}  // namespace soundsill::yaml
