// Serves units/units.h.
#include <array>
#include <tuple>
#include <utility>

#include "units/units.h"

namespace soundsill {
namespace {

/// What phones and word processors put in place of plain marks, and the plain form of each.
constexpr std::array<std::pair<std::string_view, std::string_view>, 22> kTypographic = {{
    {"\u2018", "'"},    {"\u2019", "'"},    {"\u2032", "'"},    {"\u02B9", "'"},    {"\u00B4", "'"},
    {"\u201C", "\""},   {"\u201D", "\""},   {"\u2033", "\""},   {"\u02BA", "\""},   {"\u00A0", " "},
    {"\u2009", " "},    {"\u202F", " "},    {"\u2010", "-"},    {"\u2011", "-"},    {"\u2044", "/"},
    {"\u00BD", " 1/2"}, {"\u00BC", " 1/4"}, {"\u00BE", " 3/4"}, {"\u215B", " 1/8"}, {"\u215C", " 3/8"},
    {"\u215D", " 5/8"}, {"\u215E", " 7/8"},
}};

std::string plain_marks(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    std::string_view from = text.substr(0, 1), to = from;
    for (const auto& [letter, plain] : kTypographic)
      if (text.starts_with(letter)) std::tie(from, to) = std::pair(letter, plain);
    // A half sign in front stands alone: no space before it.
    if (out.empty() && to.starts_with(' ') && to.size() > 1) to.remove_prefix(1);
    out += to;
    text.remove_prefix(from.size());
  }
  for (auto two = out.find("''"); two != std::string::npos; two = out.find("''", two + 1)) out.replace(two, 2, "\"");
  return out;
}

/// Takes one word after another off the front of a text.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  [[nodiscard]] bool done() const { return rest_.empty(); }
  bool take(std::string_view word) {
    if (rest_.size() < word.size()) return false;
    for (std::size_t i = 0; i < word.size(); ++i) {
      const char c = rest_[i];
      if ((c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c) != word[i]) return false;
    }
    rest_.remove_prefix(word.size());
    return true;
  }
  void spaces() {
    while (rest_.starts_with(' ')) rest_.remove_prefix(1);
  }
  /// A number as read_number takes it; nothing when none stands here.
  std::optional<Ratio> number() {
    const std::string_view digits = rest_.substr(0, rest_.find_first_not_of("0123456789."));
    const auto value = read_number(digits);
    if (value) rest_.remove_prefix(digits.size());
    return value;
  }

 private:
  std::string_view rest_;
};

template <std::size_t N>
bool take_one_of(Cursor& cursor, const std::array<std::string_view, N>& words) {
  Cursor ahead = cursor;
  ahead.spaces();
  for (const std::string_view word : words) {
    if (!ahead.take(word)) continue;
    cursor = ahead;
    return true;
  }
  return false;
}

// Longer words first: "ft" is also how "ft." begins.
constexpr std::array<std::string_view, 5> kFeet = {"'", "feet", "foot", "ft.", "ft"};
constexpr std::array<std::string_view, 5> kInches = {"\"", "inches", "inch", "in.", "in"};

/// A half to fifteen sixteenths, written 1/2, 3/4, 5/16 ...
std::optional<Ratio> fraction(Cursor& cursor) {
  Cursor ahead = cursor;
  const auto over = ahead.number();
  if (!over || !ahead.take("/")) return std::nullopt;
  const auto under = ahead.number();
  if (!under || over->den() != 1 || under->den() != 1 || over->num() < 1 || *over >= *under) return std::nullopt;
  if (*under != 2 && *under != 4 && *under != 8 && *under != 16) return std::nullopt;
  cursor = ahead;
  return *over / *under;
}

/// 6, 6.5, 6 1/2 or 1/2 with an inch mark, in sixteenths.
std::optional<Length> inches(Cursor& cursor) {
  Ratio sum;
  if (const auto alone = fraction(cursor)) {
    sum = *alone;
  } else {
    const auto number = cursor.number();
    if (!number) return std::nullopt;
    sum = *number;
    Cursor ahead = cursor;
    ahead.spaces();
    if (const auto more = fraction(ahead); more && number->den() == 1) {
      sum += *more;
      cursor = ahead;
    }
  }
  if (!take_one_of(cursor, kInches)) return std::nullopt;
  const Ratio sixteenths = sum * 16;
  if (sixteenths.den() != 1) return std::nullopt;
  return Length{sixteenths.num()};
}

/// To the nearest sixteenth. Nine digits on either side of the dot need 60 bits, and 192 times that fits 128.
Length decimal_feet(const Ratio& feet) {
  const __int128 twice = static_cast<__int128>(feet.num()) * 192 * 2;
  return {static_cast<std::int64_t>((twice + feet.den()) / (static_cast<__int128>(feet.den()) * 2))};
}

std::optional<Length> feet_and_inches(Cursor cursor) {
  const auto feet = cursor.number();
  if (!feet) return std::nullopt;
  if (cursor.done()) return decimal_feet(*feet);
  if (!take_one_of(cursor, kFeet)) return std::nullopt;
  if (cursor.done()) return decimal_feet(*feet);
  if (feet->den() != 1) return std::nullopt;
  if (!cursor.take("-")) cursor.spaces();
  const auto more = inches(cursor);
  if (!more || !cursor.done() || *more >= Length::feet(1)) return std::nullopt;
  return decimal_feet(*feet) + *more;
}

}  // namespace

std::optional<Length> read_length(std::string_view text) {
  if (text.size() > 60) return std::nullopt;  // the longest spelling of a length has half of that
  const std::string plain = plain_marks(text);
  Cursor cursor(plain);
  if (const auto alone = inches(cursor); alone && cursor.done()) return alone;
  return feet_and_inches(Cursor(plain));
}

std::optional<Length> read_coordinate(std::string_view text) {
  constexpr std::string_view kMinus = "\u2212";
  bool negative = false;
  if (text.starts_with('-')) {
    negative = true;
    text.remove_prefix(1);
  } else if (text.starts_with(kMinus)) {
    negative = true;
    text.remove_prefix(kMinus.size());
  }
  const auto length = read_length(text);
  return length && negative ? -*length : length;
}

}  // namespace soundsill
