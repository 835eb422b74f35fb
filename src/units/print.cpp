// Serves units/units.h.
#include <array>

#include "units/units.h"

namespace soundsill {
namespace {

std::uint64_t magnitude(std::int64_t n) {
  return n < 0 ? ~static_cast<std::uint64_t>(n) + 1 : static_cast<std::uint64_t>(n);
}

std::string two_digits(std::uint64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); }

std::string with_commas(std::uint64_t n) {
  std::string text = std::to_string(n);
  for (std::size_t at = text.size(); at > 3;) {
    at -= 3;
    text.insert(at, 1, ',');
  }
  return text;
}

/// "6", "6 1/2", "1/2"; after feet a fraction keeps its zero, so that 30'1/2" cannot be misread.
std::string inch_words(std::uint64_t sixteenths, bool after_feet) {
  const std::uint64_t whole = sixteenths / 16;
  std::uint64_t over = sixteenths % 16, under = 16;
  if (over == 0) return std::to_string(whole);
  while (over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  const std::string fraction = std::to_string(over) + "/" + std::to_string(under);
  return whole == 0 && !after_feet ? fraction : std::to_string(whole) + " " + fraction;
}

std::string length_words(Length length, std::string_view feet_mark, std::string_view between,
                         std::string_view inch_mark) {
  const std::uint64_t all = magnitude(length.sixteenths);
  const std::uint64_t feet = all / 192, rest = all % 192;
  std::string text = length.sixteenths < 0 ? "-" : "";
  if (feet != 0) (text += std::to_string(feet)) += feet_mark;
  if (feet != 0 && rest != 0) text += between;
  if (feet == 0 || rest != 0) (text += inch_words(rest, feet != 0)) += inch_mark;
  return text;
}

std::string year_words(const Date& date) {
  std::string year = std::to_string(static_cast<int>(date.day.year()));
  if (year.size() < 4) year.insert(0, 4 - year.size(), '0');
  return year;
}

constexpr std::array<std::string_view, 12> kMonths = {"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};

}  // namespace

std::string grouped(std::int64_t n) { return (n < 0 ? "-" : "") + with_commas(magnitude(n)); }

std::string print(const Inches& size) {
  const Ratio& r = size.value;
  if (r.den() == 1) return std::to_string(r.num()) + "\"";
  // A fraction of more digits than people write was typed as a decimal.
  if (r.num() > 999 || r.den() > 999) return shortest(r, 9) + "\"";
  return std::to_string(r.num()) + "/" + std::to_string(r.den()) + "\"";
}

LengthDigits digits(Length length) {
  const std::uint64_t all = magnitude(length.sixteenths);
  const std::uint64_t feet = all / 192, rest = all % 192;
  return {length.sixteenths < 0, feet != 0 ? std::to_string(feet) : std::string(),
          feet == 0 || rest != 0 ? inch_words(rest, feet != 0) : std::string()};
}

std::string print(Length length) { return length_words(length, "'", "", "\""); }
std::string print_long(Length length) { return length_words(length, " ft", " ", " in"); }

std::string print(Money amount) {
  const std::uint64_t cents = magnitude(amount.cents);
  return (amount.cents < 0 ? "-$" : "$") + with_commas(cents / 100) + "." + two_digits(cents % 100);
}

std::string print(const Date& date) {
  return year_words(date) + "-" + two_digits(static_cast<unsigned>(date.day.month())) + "-" +
         two_digits(static_cast<unsigned>(date.day.day()));
}

std::string print_long(const Date& date) {
  const unsigned month = static_cast<unsigned>(date.day.month());
  const std::string name = month >= 1 && month <= 12 ? std::string(kMonths[month - 1]) : std::to_string(month);
  return name + " " + std::to_string(static_cast<unsigned>(date.day.day())) + ", " + year_words(date);
}

std::string print(TimeOfDay time) {
  return std::to_string(time.minutes / 60) + ":" + two_digits(static_cast<unsigned>(time.minutes % 60));
}

std::string print_long(TimeOfDay time) {
  const int hour = time.minutes / 60;
  const int shown = hour % 12 == 0 ? 12 : hour % 12;
  return std::to_string(shown) + ":" + two_digits(static_cast<unsigned>(time.minutes % 60)) +
         (hour < 12 ? " am" : " pm");
}

Money times(const Ratio& measure, Money rate) { return {(measure * Ratio(rate.cents)).rounded()}; }

int days_between(const Date& a, const Date& b) {
  return static_cast<int>((std::chrono::sys_days(b.day) - std::chrono::sys_days(a.day)).count());
}

Date plus_days(const Date& a, int days) { return {std::chrono::sys_days(a.day) + std::chrono::days(days)}; }
Date plus_months(const Date& a, int months) {
  const auto later = a.day + std::chrono::months(months);
  return {later.ok() ? later : std::chrono::year_month_day(later.year() / later.month() / std::chrono::last)};
}

}  // namespace soundsill
