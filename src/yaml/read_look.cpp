// Serves yaml/read_scanner.h.
#include <algorithm>

#include "yaml/read_scanner.h"

namespace soundsill::yaml {

std::size_t Look::skip_blanks(std::size_t i) const {
  while (blank(i)) ++i;
  return i;
}

std::size_t Look::line_end(std::size_t i) const {
  while (!eol(i)) ++i;
  return std::min(i, s.size());
}

std::size_t Look::next_line(std::size_t i) const {
  const std::size_t end = s.find('\n', i);
  return end == std::string_view::npos ? s.size() : end + 1;
}

std::size_t Look::trimmed(std::size_t begin, std::size_t end) const {
  while (end > begin && blank(end - 1)) --end;
  return end;
}

std::size_t Look::content_end(std::size_t i) const {
  const std::size_t begin = i;
  while (!eol(i) && !(s[i] == '#' && i > 0 && blank(i - 1))) ++i;
  return trimmed(begin, std::min(i, s.size()));
}

std::size_t Look::plain_end(std::size_t i, bool flow) const {
  const std::size_t begin = i;
  for (; !eol(i); ++i) {
    if (s[i] == ':' && (gap(i + 1) || (flow && flow_mark(i + 1)))) break;
    if (s[i] == '#' && i > begin && blank(i - 1)) break;
    if (flow && flow_mark(i)) break;
  }
  return trimmed(begin, i);
}

std::size_t Look::quote_end(std::size_t i) const {
  const char quote = s[i];
  for (++i; !eol(i); ++i) {
    if (quote == '"' && s[i] == '\\') {
      if (eol(i + 1)) break;
      ++i;
    } else if (s[i] == quote) {
      if (quote == '"' || !is(i + 1, '\'')) return i + 1;
      ++i;  // two single quotes stand for one
    }
  }
  return std::string_view::npos;
}

bool Look::lacks_space(const Piece& piece) const {
  const std::string_view text = s.substr(piece.begin, piece.end - piece.begin);
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon + 1 == text.size()) return false;
  if (text[colon + 1] == ' ' || text.substr(colon).starts_with("://")) return false;
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return letter(text[0]) && std::all_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(colon), [&](char c) {
           return letter(c) || (c >= '0' && c <= '9') || c == ' ' || c == '-' || c == '_';
         });
}

bool Look::begins_entry(std::size_t i) const {
  if (mark(i, '-')) return true;
  std::size_t end;
  if (is(i, '"') || is(i, '\'')) {
    end = quote_end(i);
    if (end == std::string_view::npos) return false;
  } else {
    end = plain_end(i, true);
  }
  return end > i && mark(skip_blanks(end), ':');
}

bool Look::block_header(std::size_t i) const {
  if (!is(i, '|') && !is(i, '>')) return false;
  ++i;
  for (int n = 0; n < 2; ++n)
    if (is(i, '+') || is(i, '-') || (digit(i) && !is(i, '0'))) ++i;
  const std::size_t rest = skip_blanks(i);
  return eol(rest) || (is(rest, '#') && rest > i);
}

bool Look::document_mark(std::size_t i) const {
  return (s.substr(i, 3) == "---" || s.substr(i, 3) == "...") && gap(i + 3);
}

}  // namespace soundsill::yaml
