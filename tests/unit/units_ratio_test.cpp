#include <catch2/catch.hpp>
#include <limits>
#include <stdexcept>

#include "units/ratio.h"

using namespace soundsill;

namespace {
constexpr auto kMost = std::numeric_limits<std::int64_t>::max();
constexpr auto kLeast = std::numeric_limits<std::int64_t>::min();
}  // namespace

TEST_CASE("a ratio is kept in lowest terms over a positive denominator") {
  CHECK(Ratio(6, 4).num() == 3);
  CHECK(Ratio(6, 4).den() == 2);
  CHECK(Ratio(6, -4) == Ratio(-3, 2));
  CHECK(Ratio(0, -7).den() == 1);
  CHECK(Ratio(kLeast, 2) == Ratio(kLeast / 2));
  CHECK_THROWS_AS(Ratio(1, 0), std::domain_error);
  CHECK_THROWS_AS(Ratio(1, kLeast), std::overflow_error);
}

TEST_CASE("ratios add, subtract, multiply and divide exactly") {
  CHECK(Ratio(1, 3) + Ratio(1, 6) == Ratio(1, 2));
  CHECK(Ratio(1, 3) - Ratio(1, 2) == Ratio(-1, 6));
  CHECK(Ratio(2, 3) * Ratio(9, 4) == Ratio(3, 2));
  CHECK(Ratio(2, 3) / Ratio(-4, 9) == Ratio(-3, 2));
  CHECK_THROWS_AS(Ratio(1) / Ratio(0), std::domain_error);
  Ratio sum;
  for (int i = 0; i < 10; ++i) sum += Ratio(1, 10);
  CHECK(sum == Ratio(1));
}

TEST_CASE("intermediate results may leave 64 bits, final ones may not") {
  CHECK(Ratio(kMost, 3) * Ratio(3, kMost) == Ratio(1));
  CHECK(Ratio(kMost) - Ratio(kMost) == Ratio(0));
  CHECK_THROWS_AS(Ratio(kMost) + Ratio(1), std::overflow_error);
  CHECK_THROWS_AS(Ratio(kLeast) - Ratio(1), std::overflow_error);
  CHECK_THROWS_AS(Ratio(kMost) * Ratio(2), std::overflow_error);
  CHECK_THROWS_AS(Ratio(1, kMost) * Ratio(1, 2), std::overflow_error);
  CHECK_THROWS_AS(Ratio(kLeast) / Ratio(-1), std::overflow_error);
}

TEST_CASE("ratios are ordered by value, even near the limits") {
  CHECK(Ratio(1, 3) < Ratio(34, 100));
  CHECK(Ratio(-1, 2) < Ratio(-1, 3));
  CHECK(Ratio(kMost - 1, kMost) < Ratio(1));
  CHECK(Ratio(kLeast) < Ratio(kMost));
}

TEST_CASE("rounding goes to the nearest whole, halves away from zero") {
  CHECK(Ratio(5, 2).rounded() == 3);
  CHECK(Ratio(-5, 2).rounded() == -3);
  CHECK(Ratio(249, 100).rounded() == 2);
  CHECK(Ratio(kMost).rounded() == kMost);
  CHECK(Ratio(-5, 2).floor() == -3);
  CHECK(Ratio(-5, 2).ceil() == -2);
  CHECK(Ratio(5, 2).floor() == 2);
  CHECK(Ratio(5, 2).ceil() == 3);
  CHECK(Ratio(kLeast).floor() == kLeast);
  CHECK(Ratio(1, 8).rounded_to(2) == Ratio(13, 100));
  CHECK(Ratio(-1, 8).rounded_to(2) == Ratio(-13, 100));
  CHECK_THROWS_AS(Ratio(1, 3).rounded_to(19), std::overflow_error);
}

TEST_CASE("decimals are printed with exactly the digits asked for") {
  CHECK(decimal(Ratio(13, 8), 1) == "1.6");
  CHECK(decimal(Ratio(13, 8), 0) == "2");
  CHECK(decimal(Ratio(1, 20), 1) == "0.1");
  CHECK(decimal(Ratio(-1, 20), 1) == "-0.1");
  CHECK(decimal(Ratio(-1, 100), 1) == "0.0");
  CHECK(decimal(Ratio(5), 2) == "5.00");
  CHECK(decimal(Ratio(7, 1000), 3) == "0.007");
  CHECK(decimal(Ratio(kLeast), 1) == "-9223372036854775808.0");
}

TEST_CASE("the shortest decimal drops zeros behind the dot, never those before it") {
  CHECK(shortest(Ratio(3, 2), 3) == "1.5");
  CHECK(shortest(Ratio(2), 3) == "2");
  CHECK(shortest(Ratio(100), 0) == "100");
  CHECK(shortest(Ratio(100), 2) == "100");
  CHECK(shortest(Ratio(1, 3), 3) == "0.333");
}
