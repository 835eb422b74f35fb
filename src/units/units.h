// Lengths, money, dates and times as people write them, held exactly.
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "units/ratio.h"

namespace soundsill {

/// A length in whole sixteenths of an inch.
struct Length {
  std::int64_t sixteenths = 0;

  static constexpr Length feet(std::int64_t n) { return {n * 192}; }
  static constexpr Length inches(std::int64_t n) { return {n * 16}; }
  [[nodiscard]] Ratio in_feet() const { return {sixteenths, 192}; }
  [[nodiscard]] Ratio in_inches() const { return {sixteenths, 16}; }

  friend auto operator<=>(const Length&, const Length&) = default;
  friend constexpr Length operator+(Length a, Length b) { return {a.sixteenths + b.sixteenths}; }
  friend constexpr Length operator-(Length a, Length b) { return {a.sixteenths - b.sixteenths}; }
  friend constexpr Length operator*(Length a, std::int64_t n) { return {a.sixteenths * n}; }
  friend constexpr Length operator-(Length a) { return {-a.sixteenths}; }
  Length& operator+=(Length b) { return *this = *this + b; }
  Length& operator-=(Length b) { return *this = *this - b; }
};

/// A point of a plan: x runs east, y runs south, from the first corner.
struct Point {
  Length x, y;
  friend bool operator==(const Point&, const Point&) = default;
};

/// A small size, exact: exit holes are told in thirty-seconds of an inch.
struct Inches {
  Ratio value;
};

/// An amount in whole cents.
struct Money {
  std::int64_t cents = 0;
  friend auto operator<=>(const Money&, const Money&) = default;
  friend constexpr Money operator+(Money a, Money b) { return {a.cents + b.cents}; }
  friend constexpr Money operator-(Money a, Money b) { return {a.cents - b.cents}; }
  Money& operator+=(Money b) { return *this = *this + b; }
};
/// measure x rate, rounded once to the cent, halves away from zero.
[[nodiscard]] Money times(const Ratio& measure, Money rate);

struct Date {
  std::chrono::year_month_day day{};
  friend auto operator<=>(const Date& a, const Date& b) { return a.day <=> b.day; }
  friend bool operator==(const Date& a, const Date& b) { return a.day == b.day; }
};
/// Days from `a` to `b`; negative when `b` is earlier.
[[nodiscard]] int days_between(const Date& a, const Date& b);
[[nodiscard]] Date plus_days(const Date& a, int days);
/// The same day of a later month; the month's last day where it has no such day: January 31 + 1 = February 28 or 29.
[[nodiscard]] Date plus_months(const Date& a, int months);

struct TimeOfDay {
  int minutes = 0;  ///< after midnight
  friend auto operator<=>(const TimeOfDay&, const TimeOfDay&) = default;
};

/// A percentage, exact: 0.06 % is 6/100.
struct Percent {
  Ratio value;
  friend bool operator==(const Percent&, const Percent&) = default;
};

// Reading. Each takes the whole text and gives nothing when it is not exactly one value of its kind.
// What is accepted and refused is listed in tests/unit/units_read_test.cpp.

/// Feet and inches: 30'6", 30' 6 1/2", 30 ft 6 in, 30 feet, 30.5 (feet), 6", 30'' (inches), typographic marks too.
/// Refuses 12 or more inches after feet, signs, exponents, thousands commas, and what is no whole number of 1/16 in
/// (decimal feet are rounded to the nearest 1/16 in).
[[nodiscard]] std::optional<Length> read_length(std::string_view text);
/// The same with an optional leading minus, for coordinates.
[[nodiscard]] std::string print(const Inches& size);  ///< 1/16"
/// `1/32"`, `3/8 in`, `0.5`: inches, as a fraction or a decimal.
[[nodiscard]] std::optional<Inches> read_inches(std::string_view text);
[[nodiscard]] std::optional<Length> read_coordinate(std::string_view text);
/// 1250, 1250.00, $1250.00, $1,250.00; at most two decimals.
[[nodiscard]] std::optional<Money> read_money(std::string_view text);
/// YYYY-MM-DD, a day that exists.
[[nodiscard]] std::optional<Date> read_date(std::string_view text);
/// H:MM or HH:MM, 24 hours.
[[nodiscard]] std::optional<TimeOfDay> read_time(std::string_view text);
/// Digits with at most one dot: 12, 0.06. No sign, exponent, base prefix or separator; at most 9 digits each side.
[[nodiscard]] std::optional<Ratio> read_number(std::string_view text);
/// A number from 0 to 100 with an optional % sign.
[[nodiscard]] std::optional<Percent> read_percent(std::string_view text);
/// yes, no, true, false in any case.
[[nodiscard]] std::optional<bool> read_yes_no(std::string_view text);

// Printing. Short forms can be read again; long forms are for paper.

[[nodiscard]] std::string print(Length length);       ///< 30'6 1/2"   0"   12'
[[nodiscard]] std::string print_long(Length length);  ///< 30 ft 6 1/2 in
/// The digits of a length, for languages that name its units otherwise: "30" and "6 1/2", either may be empty.
struct LengthDigits {
  bool negative = false;
  std::string feet, inches;
};
[[nodiscard]] LengthDigits digits(Length length);
[[nodiscard]] std::string print(Money amount);           ///< $1,250.00
[[nodiscard]] std::string print(const Date& date);       ///< 2026-03-05
[[nodiscard]] std::string print_long(const Date& date);  ///< March 5, 2026
[[nodiscard]] std::string print(TimeOfDay time);         ///< 9:10
[[nodiscard]] std::string print_long(TimeOfDay time);    ///< 9:10 am
/// Digits with thousands separated by commas: 12345 -> 12,345.
[[nodiscard]] std::string grouped(std::int64_t n);

}  // namespace soundsill
