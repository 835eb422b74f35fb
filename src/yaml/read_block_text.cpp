// Serves yaml/read_scanner.h. Text that takes lines of its own: below | and >, and below a quote that does not close.
#include <algorithm>

#include "yaml/read_scanner.h"

namespace soundsill::yaml {

// Text below a quote that does not close was meant as more of it.
void BlockScanner::swallow_deeper() {
  while (at_ < look_.s.size()) {
    std::size_t i = at_;
    while (look_.is(i, ' ')) ++i;
    const bool empty = look_.eol(look_.skip_blanks(i));
    if (!empty && static_cast<std::ptrdiff_t>(i - at_) <= margin()) return;
    s_.blank_out(at_, look_.line_end(at_));
    at_ = look_.next_line(at_);
  }
}

void BlockScanner::block_text(std::size_t i) {
  const std::ptrdiff_t least = std::max<std::ptrdiff_t>(margin() + 1, 1);
  std::ptrdiff_t indent = 0;
  for (std::size_t k = i + 1; k < i + 3; ++k)
    if (look_.digit(k)) indent = std::max<std::ptrdiff_t>(margin(), 0) + (look_.s[k] - '0');
  std::size_t end = look_.content_end(i);
  at_ = look_.next_line(i);
  while (at_ < look_.s.size()) {
    std::size_t k = at_;
    while (look_.is(k, ' ') && (indent == 0 || static_cast<std::ptrdiff_t>(k - at_) < indent)) ++k;
    const std::ptrdiff_t column = static_cast<std::ptrdiff_t>(k - at_);
    if (look_.eol(k)) {
      at_ = look_.next_line(k);
      continue;
    }
    const bool tab = look_.is(k, '\t') && (indent == 0 || column < indent);
    if (tab && look_.eol(look_.skip_blanks(k))) {  // an empty line
      s_.blank_out(k, look_.line_end(k));
      at_ = look_.next_line(k);
      continue;
    }
    if (tab) s_.note_tab(k);
    if (!tab && column < (indent == 0 ? least : indent)) break;
    if (indent == 0 && !tab) indent = column;
    end = look_.line_end(k);
    at_ = look_.next_line(k);
  }
  s_.out.pieces.push_back({.begin = static_cast<std::uint32_t>(i), .end = static_cast<std::uint32_t>(end)});
  last_ = Last::done;
}

}  // namespace soundsill::yaml
