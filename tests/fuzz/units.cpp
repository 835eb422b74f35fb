// Lengths, money, days, numbers: what is printed is read again as the same value; fractions never leave 64 bits in
// silence. The first byte says which reader gets the rest.
#include "units/units.h"

#include <stdexcept>
#include <string>

#include "fuzz/fuzz.h"

using namespace soundsill;
using fuzzing::must;

namespace {

void lengths(std::string_view text) {
  if (const auto length = read_length(text)) {
    must(length->sixteenths >= 0, "a length is not negative");
    must(read_length(print(*length)) == length, "a printed length is read again");
    must(read_length(print_long(*length)) == length, "a length in words is read again");
    must(read_coordinate(text) == length, "a length is a coordinate too");
  }
  if (const auto at = read_coordinate(text))
    must(read_coordinate(print(*at)) == at, "a printed coordinate is read again");
  if (const auto size = read_inches(text)) {
    const auto again = read_inches(print(*size));
    must(again && again->value == size->value, "a printed size is read again");
  }
}

void amounts(std::string_view text) {
  if (const auto money = read_money(text)) must(read_money(print(*money)) == money, "printed money is read again");
  if (const auto percent = read_percent(text))
    must(percent->value >= Ratio(0) && percent->value <= Ratio(100), "a percentage is from 0 to 100");
  if (const auto number = read_number(text)) {
    must(*number >= Ratio(0), "a number is not negative");
    must(read_number(decimal(*number, 9)) == number, "a printed number is read again");
    must(read_number(shortest(*number, 9)) == number, "a number printed short is read again");
  }
  (void)read_yes_no(text);
}

void days(std::string_view text) {
  if (const auto date = read_date(text)) {
    must(date->day.ok() && read_date(print(*date)) == date, "a printed day is read again");
    must(days_between(*date, plus_days(*date, 366)) == 366, "days are counted as they are added");
    must(plus_months(*date, 13).day.ok() && !print_long(*date).empty(), "a later month has a day");
  }
  if (const auto time = read_time(text)) must(read_time(print(*time)) == time, "a printed time is read again");
}

std::int64_t taken(std::string_view& bytes) {
  std::uint64_t value = 0;
  for (int i = 0; i < 8 && !bytes.empty(); ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes.front());
    bytes.remove_prefix(1);
  }
  return static_cast<std::int64_t>(value);
}

/// Fractions that fit give exact results, others throw; nothing else.
void fractions(std::string_view bytes) {
  try {
    const std::int64_t a = taken(bytes), b = taken(bytes), c = taken(bytes), d = taken(bytes);
    const Ratio one(a, b), other(c, d);
    must(one.den() > 0 && one.floor() <= one.ceil(), "a fraction is kept over a positive number");
    must((one < other) == (other > one), "an order has two ends");
    must(!decimal(one, 3).empty() && !shortest(one, 2).empty(), "a fraction can be printed");
    must(one + other == other + one && one * other == other * one, "order does not matter");
    must(one + other - other == one, "what was added is taken away again");
    if (other.num() != 0) must(one / other * other == one, "what was divided is multiplied again");
  } catch (const std::overflow_error&) {  // promised
  } catch (const std::domain_error&) {    // a zero below
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view rest = fuzzing::text_of(data, size).substr(1);
  switch (data[0] % 4) {
    case 0:
      lengths(rest);
      break;
    case 1:
      amounts(rest);
      break;
    case 2:
      days(rest);
      break;
    default:
      fractions(rest);
  }
  (void)safe_for_terminal(rest);
  return 0;
}
