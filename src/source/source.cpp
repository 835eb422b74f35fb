#include "source/source.h"

#include <algorithm>

#include "source/utf8.h"

namespace soundsill {

Source::Source(std::string name, std::string text, std::string_view tree)
    : name_(std::move(name)), text_(std::move(text)), tree_(tree) {
  starts_.push_back(text_.starts_with("\xEF\xBB\xBF") ? 3 : 0);  // a byte order mark is no letter of the first line
  for (std::size_t i = text_.find('\n'); i != std::string::npos; i = text_.find('\n', i + 1)) starts_.push_back(i + 1);
}

Source::Position Source::position(std::size_t offset) const {
  offset = std::clamp(offset, starts_.front(), text_.size());
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - starts_.begin());
  const std::size_t begin = starts_[line - 1];
  return {line, 1 + letters(std::string_view(text_).substr(begin, offset - begin))};
}

std::string_view Source::line(std::size_t number) const {
  if (number == 0 || number > starts_.size()) return {};
  const std::size_t begin = starts_[number - 1];
  const std::size_t end = number < starts_.size() ? starts_[number] - 1 : text_.size();
  std::string_view line = std::string_view(text_).substr(begin, end - begin);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return line;
}

std::size_t Source::line_begin(std::size_t number) const {
  return number == 0 || number > starts_.size() ? text_.size() : starts_[number - 1];
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return !utf8::goes_on(c); }));
}

}  // namespace soundsill
