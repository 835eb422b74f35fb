// Exact fractions. Every quantity that is printed comes from these and from integers, never from a double.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace soundsill {

/// A fraction in lowest terms with a positive denominator.
/// Arithmetic throws std::overflow_error when a result leaves 64 bits; readers bound their input so that it does not.
class Ratio {
 public:
  constexpr Ratio() = default;
  constexpr Ratio(std::int64_t whole) : num_(whole) {}  // NOLINT: a whole number is a ratio
  Ratio(std::int64_t num, std::int64_t den);

  [[nodiscard]] std::int64_t num() const { return num_; }
  [[nodiscard]] std::int64_t den() const { return den_; }

  friend Ratio operator+(const Ratio& a, const Ratio& b);
  friend Ratio operator-(const Ratio& a, const Ratio& b);
  friend Ratio operator*(const Ratio& a, const Ratio& b);
  friend Ratio operator/(const Ratio& a, const Ratio& b);  ///< throws std::domain_error on zero
  Ratio& operator+=(const Ratio& b) { return *this = *this + b; }
  friend bool operator==(const Ratio& a, const Ratio& b) = default;
  friend std::strong_ordering operator<=>(const Ratio& a, const Ratio& b);

  /// The nearest whole number, halves away from zero.
  [[nodiscard]] std::int64_t rounded() const;
  [[nodiscard]] std::int64_t floor() const;
  [[nodiscard]] std::int64_t ceil() const;
  /// Rounded to `digits` decimals, halves away from zero.
  [[nodiscard]] Ratio rounded_to(int digits) const;
  /// Only for comparison with outside figures and for placing ink; nothing printed comes from it.
  [[nodiscard]] double approx() const { return static_cast<double>(num_) / static_cast<double>(den_); }

 private:
  std::int64_t num_ = 0;
  std::int64_t den_ = 1;
};

/// Decimal text with exactly `digits` decimals, halves away from zero: 13/8 with 1 -> "1.6".
[[nodiscard]] std::string decimal(const Ratio& r, int digits);
/// Decimal text with at most `digits` decimals, trailing zeros dropped: 3/2 with 3 -> "1.5", 2 -> "2".
[[nodiscard]] std::string shortest(const Ratio& r, int digits);

}  // namespace soundsill
