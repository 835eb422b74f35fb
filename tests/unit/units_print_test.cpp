#include <catch2/catch.hpp>
#include <limits>

#include "units/units.h"

using namespace soundsill;

TEST_CASE("a length is printed in feet and inches, for files and for paper") {
  const Length l = Length::feet(30) + Length::inches(6) + Length{8};
  CHECK(print(l) == "30'6 1/2\"");
  CHECK(print_long(l) == "30 ft 6 1/2 in");
  CHECK(print(Length{}) == "0\"");
  CHECK(print_long(Length{}) == "0 in");
  CHECK(print(Length::feet(12)) == "12'");
  CHECK(print_long(Length::feet(12)) == "12 ft");
  CHECK(print(Length::inches(6)) == "6\"");
  CHECK(print(Length{3}) == "3/16\"");
  CHECK(print(Length::feet(30) + Length{8}) == "30'0 1/2\"");
  CHECK(print(-l) == "-30'6 1/2\"");
  CHECK(print(Length{std::numeric_limits<std::int64_t>::min()}) == "-48038396025285290'8\"");
}

TEST_CASE("a size that was typed as a long decimal is printed as one, so that it reads back") {
  CHECK(print(Inches{Ratio(1, 16)}) == "1/16\"");
  CHECK(print(Inches{Ratio(3)}) == "3\"");
  for (const char* typed : {"40.444", "1000.5", "999.999", "0.000000001", "999999999", "1/999"}) {
    const auto size = read_inches(typed);
    REQUIRE(size);
    const auto again = read_inches(print(*size));
    CHECK(again.has_value());
    CHECK((again && again->value == size->value));
  }
}

TEST_CASE("every printed length reads back as itself") {
  for (std::int64_t n = 0; n < 5000; ++n) {
    CHECK(read_length(print(Length{n})) == Length{n});
    CHECK(read_length(print_long(Length{n * 7})) == Length{n * 7});
    CHECK(read_coordinate(print(Length{-n})) == Length{-n});
  }
}

TEST_CASE("money is printed with commas and two decimals, and reads back") {
  CHECK(print(Money{125000}) == "$1,250.00");
  CHECK(print(Money{5}) == "$0.05");
  CHECK(print(Money{123456789}) == "$1,234,567.89");
  CHECK(print(Money{-250}) == "-$2.50");
  CHECK(print(Money{std::numeric_limits<std::int64_t>::min()}) == "-$92,233,720,368,547,758.08");
  for (std::int64_t cents = 0; cents < 100'000'000; cents += 99'991)
    CHECK(read_money(print(Money{cents})) == Money{cents});
}

TEST_CASE("dates are printed for files and for paper, and read back") {
  const Date date = *read_date("2026-03-05");
  CHECK(print(date) == "2026-03-05");
  CHECK(print_long(date) == "March 5, 2026");
  for (int days = 0; days < 3000; days += 13) {
    const Date later = plus_days(date, days);
    CHECK(read_date(print(later)) == later);
    CHECK(days_between(date, later) == days);
    CHECK(days_between(later, date) == -days);
  }
}

TEST_CASE("days are counted over leap days and year ends") {
  CHECK(days_between(*read_date("2024-02-28"), *read_date("2024-03-01")) == 2);
  CHECK(days_between(*read_date("2025-02-28"), *read_date("2025-03-01")) == 1);
  CHECK(print(plus_days(*read_date("2023-12-31"), 60)) == "2024-02-29");
  CHECK(print(plus_days(*read_date("2024-03-01"), -1)) == "2024-02-29");
  CHECK(*read_date("2026-03-05") < *read_date("2026-03-06"));
}

TEST_CASE("times are printed by 24 hours in files and by 12 on paper") {
  CHECK(print(TimeOfDay{550}) == "9:10");
  CHECK(print_long(TimeOfDay{550}) == "9:10 am");
  CHECK(print_long(TimeOfDay{5}) == "12:05 am");
  CHECK(print_long(TimeOfDay{720}) == "12:00 pm");
  CHECK(print_long(TimeOfDay{1439}) == "11:59 pm");
  for (int m = 0; m < 1440; ++m) CHECK(read_time(print(TimeOfDay{m})) == TimeOfDay{m});
}

TEST_CASE("thousands are separated by commas") {
  CHECK(grouped(0) == "0");
  CHECK(grouped(999) == "999");
  CHECK(grouped(12345) == "12,345");
  CHECK(grouped(-1234567) == "-1,234,567");
  CHECK(grouped(std::numeric_limits<std::int64_t>::min()) == "-9,223,372,036,854,775,808");
}

TEST_CASE("a measure times a rate is rounded once, halves away from zero") {
  CHECK(times(Ratio(1, 2), Money{3}) == Money{2});
  CHECK(times(Ratio(-1, 2), Money{3}) == Money{-2});
  CHECK(times(Ratio(656, 10), Money{1250}) == Money{82000});
  CHECK(times(Ratio(1, 3), Money{100}) == Money{33});
  CHECK_THROWS_AS(times(Ratio(std::numeric_limits<std::int64_t>::max()), Money{2}), std::overflow_error);
}
