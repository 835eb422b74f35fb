// Serves units/units.h.
#include <algorithm>

#include "units/units.h"

namespace soundsill {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool all_digits(std::string_view text) { return !text.empty() && std::all_of(text.begin(), text.end(), is_digit); }

/// At most 18 digits, so that it always fits.
std::int64_t whole(std::string_view digits) {
  std::int64_t n = 0;
  for (const char c : digits) n = n * 10 + (c - '0');
  return n;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

/// "1,250" -> "1250"; nothing when a comma stands where no thousands begin.
std::optional<std::string> without_commas(std::string_view text) {
  std::string digits;
  std::size_t group = 0;
  bool commas = false;
  for (const char c : text) {
    if (c == ',') {
      const bool fits = commas ? group == 3 : group >= 1 && group <= 3;
      if (!fits) return std::nullopt;
      commas = true;
      group = 0;
    } else {
      if (!is_digit(c)) return std::nullopt;
      digits += c;
      ++group;
    }
  }
  if (digits.empty() || (commas && group != 3)) return std::nullopt;
  return digits;
}

}  // namespace

std::optional<Ratio> read_number(std::string_view text) {
  const std::size_t dot = text.find('.');
  const std::string_view before = text.substr(0, dot);
  if (!all_digits(before) || before.size() > 9) return std::nullopt;
  if (dot == std::string_view::npos) return Ratio(whole(before));
  const std::string_view after = text.substr(dot + 1);
  if (!all_digits(after) || after.size() > 9) return std::nullopt;
  std::int64_t scale = 1;
  for (std::size_t i = 0; i < after.size(); ++i) scale *= 10;
  return Ratio(whole(before) * scale + whole(after), scale);
}

std::optional<Percent> read_percent(std::string_view text) {
  if (text.ends_with('%')) {
    text.remove_suffix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
  }
  const auto number = read_number(text);
  if (!number || *number > Ratio(100)) return std::nullopt;
  return Percent{*number};
}

std::optional<Inches> read_inches(std::string_view text) {
  for (const std::string_view mark : {"\"", " inches", " inch", " in", "in"})
    if (text.ends_with(mark)) {
      text.remove_suffix(mark.size());
      break;
    }
  const std::size_t stroke = text.find('/');
  if (stroke == std::string_view::npos) {
    const auto number = read_number(text);
    return number ? std::optional(Inches{*number}) : std::nullopt;
  }
  const std::string_view over = text.substr(0, stroke), under = text.substr(stroke + 1);
  if (!all_digits(over) || !all_digits(under) || over.size() > 3 || under.size() > 3 || whole(under) == 0)
    return std::nullopt;
  return Inches{Ratio(whole(over), whole(under))};
}

std::optional<Money> read_money(std::string_view text) {
  if (text.starts_with('$')) text.remove_prefix(1);
  const std::size_t dot = text.find('.');
  const auto dollars = without_commas(text.substr(0, dot));
  if (!dollars || dollars->size() > 12) return std::nullopt;
  std::int64_t cents = 0;
  if (dot != std::string_view::npos) {
    const std::string_view after = text.substr(dot + 1);
    if (!all_digits(after) || after.size() > 2) return std::nullopt;
    cents = whole(after) * (after.size() == 1 ? 10 : 1);
  }
  return Money{whole(*dollars) * 100 + cents};
}

std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const std::string_view year = text.substr(0, 4), month = text.substr(5, 2), day = text.substr(8, 2);
  if (!all_digits(year) || !all_digits(month) || !all_digits(day)) return std::nullopt;
  const Date date{std::chrono::year(static_cast<int>(whole(year))) /
                  std::chrono::month(static_cast<unsigned>(whole(month))) /
                  std::chrono::day(static_cast<unsigned>(whole(day)))};
  return date.day.ok() ? std::optional(date) : std::nullopt;
}

std::optional<TimeOfDay> read_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon > 2 || text.size() != colon + 3) return std::nullopt;
  const std::string_view hours = text.substr(0, colon), minutes = text.substr(colon + 1);
  if (!all_digits(hours) || !all_digits(minutes)) return std::nullopt;
  if (whole(hours) > 23 || whole(minutes) > 59) return std::nullopt;
  return TimeOfDay{static_cast<int>(whole(hours) * 60 + whole(minutes))};
}

std::optional<bool> read_yes_no(std::string_view text) {
  if (text.size() > 5) return std::nullopt;
  const std::string word = lower(text);
  if (word == "yes" || word == "true") return true;
  if (word == "no" || word == "false") return false;
  return std::nullopt;
}

}  // namespace soundsill
