#include "units/ratio.h"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace soundsill {
namespace {

using Wide = __int128;  // holds the product of any two 64-bit numbers, and the sum of two such products

Wide magnitude(Wide n) { return n < 0 ? -n : n; }

Wide common_divisor(Wide a, Wide b) {
  a = magnitude(a);
  b = magnitude(b);
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

std::int64_t narrow(Wide n) {
  if (n < std::numeric_limits<std::int64_t>::min() || n > std::numeric_limits<std::int64_t>::max())
    throw std::overflow_error("a fraction leaves 64 bits");
  return static_cast<std::int64_t>(n);
}

Ratio reduced(Wide num, Wide den) {
  if (den == 0) throw std::domain_error("a fraction with a zero below");
  if (den < 0) {
    num = -num;
    den = -den;
  }
  const Wide divisor = common_divisor(num, den);
  return {narrow(num / divisor), narrow(den / divisor)};
}

Wide floor_of(Wide num, Wide den) {
  const Wide whole = num / den;
  return num % den < 0 ? whole - 1 : whole;
}

Wide round_half_away(Wide num, Wide den) {
  const Wide whole = floor_of(magnitude(num) * 2 + den, den * 2);
  return num < 0 ? -whole : whole;
}

Wide power_of_ten(int digits) {
  if (digits < 0 || digits > 18) throw std::overflow_error("more than 18 decimals");
  Wide power = 1;
  for (int i = 0; i < digits; ++i) power *= 10;
  return power;
}

std::string digits_of(Wide n) {
  std::string text;
  do {
    text += static_cast<char>('0' + static_cast<int>(n % 10));
    n /= 10;
  } while (n != 0);
  std::reverse(text.begin(), text.end());
  return text;
}

/// num x 10^digits / den, rounded. The product needs at most 63 + 60 bits.
Wide scaled(const Ratio& r, int digits) { return round_half_away(Wide{r.num()} * power_of_ten(digits), r.den()); }

}  // namespace

Ratio::Ratio(std::int64_t num, std::int64_t den) {
  const bool lowest = den > 0 && common_divisor(num, den) == 1;
  if (!lowest) {
    *this = reduced(num, den);
    return;
  }
  num_ = num;
  den_ = den;
}

Ratio operator+(const Ratio& a, const Ratio& b) {
  return reduced(Wide{a.num_} * b.den_ + Wide{b.num_} * a.den_, Wide{a.den_} * b.den_);
}

Ratio operator-(const Ratio& a, const Ratio& b) {
  return reduced(Wide{a.num_} * b.den_ - Wide{b.num_} * a.den_, Wide{a.den_} * b.den_);
}

Ratio operator*(const Ratio& a, const Ratio& b) { return reduced(Wide{a.num_} * b.num_, Wide{a.den_} * b.den_); }

Ratio operator/(const Ratio& a, const Ratio& b) { return reduced(Wide{a.num_} * b.den_, Wide{a.den_} * b.num_); }

std::strong_ordering operator<=>(const Ratio& a, const Ratio& b) {
  const Wide left = Wide{a.num_} * b.den_;
  const Wide right = Wide{b.num_} * a.den_;
  if (left == right) return std::strong_ordering::equal;
  return left < right ? std::strong_ordering::less : std::strong_ordering::greater;
}

std::int64_t Ratio::rounded() const { return narrow(round_half_away(num_, den_)); }
std::int64_t Ratio::floor() const { return narrow(floor_of(num_, den_)); }
std::int64_t Ratio::ceil() const { return narrow(-floor_of(-Wide{num_}, den_)); }

Ratio Ratio::rounded_to(int digits) const { return reduced(scaled(*this, digits), power_of_ten(digits)); }

std::string decimal(const Ratio& r, int digits) {
  const Wide all = scaled(r, digits);
  std::string text = digits_of(magnitude(all));
  if (digits > 0) {
    const auto after = static_cast<std::size_t>(digits);
    if (text.size() <= after) text.insert(0, after + 1 - text.size(), '0');
    text.insert(text.size() - after, 1, '.');
  }
  return all < 0 ? "-" + text : text;
}

std::string shortest(const Ratio& r, int digits) {
  std::string text = decimal(r, digits);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace soundsill
