// Serves yaml/read_scanner.h. Which list or block a line belongs to, by its margin.
#include "yaml/read_scanner.h"

namespace soundsill::yaml {

void BlockScanner::push(std::ptrdiff_t at, bool item, std::size_t begin) {
  columns_.push_back({at, item});
  s_.note_depth(columns_.size(), begin);
}

/// Leaves everything that stands further right; tells whether there was something.
bool BlockScanner::close_to(std::ptrdiff_t column) {
  bool closed = false;
  for (; !columns_.empty() && columns_.back().at > column; closed = true) columns_.pop_back();
  return closed;
}

void BlockScanner::place(std::size_t begin, bool item, bool first) {
  const std::ptrdiff_t at = column(begin);
  if (!first) {
    if (look_.is(begin - 1, '\t')) s_.note_tab(begin - 1);
    return push(at, item, begin);
  }
  const bool closed = close_to(at);
  // A list may stand at the margin of its key; the next key there ends it.
  const std::size_t size = columns_.size();
  if (!item && size >= 2 && columns_[size - 1].items && columns_[size - 1].at == at && columns_[size - 2].at == at)
    columns_.pop_back();
  if (columns_.empty()) return place_at_root(begin, item, closed);
  const Column around = columns_.back();
  if (around.at == at && around.items == item) return;
  const bool open = !closed && (last_ == Last::key || last_ == Last::dash);
  const bool list_of_key = around.at == at && item && last_ == Last::key;
  if (around.at == at ? !list_of_key : !open) {
    s_.distrust();
    const auto text = line_text(begin);
    if (s_.tabs() || s_.left_open != 0)
      ;  // no margin can be trusted, and the reason was told
    else if (around.at == at && item)
      words::item_among_keys(s_.report, text);
    else if (around.at == at)
      words::key_among_items(s_.report, text, columns_.size() == 1);
    else if (closed)
      words::no_such_margin(s_.report, text);
    else
      words::deeper(s_.report, text);
    if (around.at == at) columns_.pop_back();
  }
  push(at, item, begin);
}

void BlockScanner::place_at_root(std::size_t begin, bool item, bool closed) {
  if (last_ != Last::start && s_.report.count() == 0 && !s_.tabs()) {
    if (closed)
      words::left_of_first(s_.report, line_text(begin));
    else
      words::several_documents(s_.report, line_text(begin));
    s_.distrust();
  }
  push(column(begin), item, begin);
}

}  // namespace soundsill::yaml
