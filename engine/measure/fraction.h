// An exact rational number in lowest terms: what an inch tape reads.
//
// Range: numerator and denominator within 64 bits; an operation that would leave it gives nothing,
// and so does a zero denominator. Error: none. value() rounds once where both parts are below 2^53.
#pragma once

#include <compare>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>

namespace trammel {

class Fraction {
 public:
  constexpr Fraction(std::int64_t whole = 0) : num_(whole) {}  // NOLINT: a whole number is a fraction

  static constexpr std::optional<Fraction> make(std::int64_t num, std::int64_t den) {
    constexpr auto lowest = std::numeric_limits<std::int64_t>::min();
    if (den == 0 || num == lowest || den == lowest) return std::nullopt;
    const std::int64_t g = (den < 0 ? -1 : 1) * std::gcd(num, den);
    Fraction f;
    f.num_ = num / g;
    f.den_ = den / g;
    return f;
  }
  constexpr std::int64_t numerator() const { return num_; }
  constexpr std::int64_t denominator() const { return den_; }
  constexpr double value() const { return static_cast<double>(num_) / static_cast<double>(den_); }
  constexpr bool whole() const { return den_ == 1; }

  friend constexpr bool operator==(const Fraction&, const Fraction&) = default;
  friend constexpr std::strong_ordering operator<=>(const Fraction& a, const Fraction& b) {
    return Wide(a.num_) * b.den_ <=> Wide(b.num_) * a.den_;
  }

  friend constexpr std::optional<Fraction> add(const Fraction& a, const Fraction& b) {
    return narrow(Wide(a.num_) * b.den_ + Wide(b.num_) * a.den_, Wide(a.den_) * b.den_);
  }
  friend constexpr std::optional<Fraction> multiply(const Fraction& a, const Fraction& b) {
    return narrow(Wide(a.num_) * b.num_, Wide(a.den_) * b.den_);
  }
  friend constexpr std::optional<Fraction> negative(const Fraction& a) { return make(a.num_, -a.den_); }

 private:
  __extension__ using Wide = __int128;

  static constexpr std::optional<Fraction> narrow(Wide num, Wide den) {
    Wide a = num < 0 ? -num : num, b = den;
    while (b != 0) {
      const Wide rest = a % b;
      a = b;
      b = rest;
    }
    num /= a;  // a is at least 1: den is
    den /= a;
    constexpr Wide top = std::numeric_limits<std::int64_t>::max();
    if (num > top || num < -top || den > top) return std::nullopt;
    return make(static_cast<std::int64_t>(num), static_cast<std::int64_t>(den));
  }

  std::int64_t num_ = 0, den_ = 1;
};

}  // namespace trammel
