// An exact rational number in lowest terms: what an inch tape reads.
#pragma once

#include <compare>
#include <cstdint>
#include <numeric>
#include <optional>

namespace trammel {

class Fraction {
 public:
  constexpr Fraction(std::int64_t whole = 0) : num_(whole) {}  // NOLINT: a whole number is a fraction
  // Nothing where the denominator is zero.
  static constexpr std::optional<Fraction> make(std::int64_t num, std::int64_t den) {
    if (den == 0) return std::nullopt;
    if (den < 0) { num = -num; den = -den; }
    const std::int64_t g = std::gcd(num, den);
    Fraction f;
    f.num_ = g ? num / g : 0;
    f.den_ = g ? den / g : 1;
    return f;
  }
  constexpr std::int64_t numerator() const { return num_; }
  constexpr std::int64_t denominator() const { return den_; }
  constexpr double value() const { return static_cast<double>(num_) / static_cast<double>(den_); }
  friend constexpr bool operator==(const Fraction&, const Fraction&) = default;

 private:
  std::int64_t num_ = 0, den_ = 1;
};

}  // namespace trammel
