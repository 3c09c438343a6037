// A dual number: a value with its exact first derivatives in N directions.
//
// f(a + e b) = f(a) + e f'(a) b with e*e = 0, carried through every operation, so that a kernel
// written once as a template gives its Jacobian without differences.
// Error: rounding only. Source: Griewank & Walther, Evaluating Derivatives, 2nd ed. (SIAM 2008), 3.1.
#pragma once

#include <array>
#include <cmath>
#include <compare>

namespace trammel {

template <class T, int N>
struct Dual {
  T value{};
  std::array<T, N> slope{};

  constexpr Dual() = default;
  constexpr Dual(T v) : value(v) {}  // NOLINT: a constant enters arithmetic as itself
  constexpr Dual(T v, const std::array<T, N>& s) : value(v), slope(s) {}
  // The k-th independent variable.
  static constexpr Dual variable(T v, int k) {
    Dual d(v);
    d.slope[k] = T(1);
    return d;
  }

  constexpr Dual& operator+=(const Dual& b) {
    value += b.value;
    for (int i = 0; i < N; ++i) slope[i] += b.slope[i];
    return *this;
  }
  constexpr Dual& operator-=(const Dual& b) {
    value -= b.value;
    for (int i = 0; i < N; ++i) slope[i] -= b.slope[i];
    return *this;
  }
  constexpr Dual& operator*=(const Dual& b) { return *this = *this * b; }
  constexpr Dual& operator/=(const Dual& b) { return *this = *this / b; }

  // The chain rule: f(value) with derivative `d`.
  constexpr Dual chain(T f, T d) const {
    Dual r(f);
    for (int i = 0; i < N; ++i) r.slope[i] = d * slope[i];
    return r;
  }

  friend constexpr Dual operator-(const Dual& a) { return a.chain(-a.value, T(-1)); }
  friend constexpr Dual operator+(Dual a, const Dual& b) { return a += b; }
  friend constexpr Dual operator-(Dual a, const Dual& b) { return a -= b; }
  friend constexpr Dual operator*(const Dual& a, const Dual& b) {
    Dual r(a.value * b.value);
    for (int i = 0; i < N; ++i) r.slope[i] = a.slope[i] * b.value + a.value * b.slope[i];
    return r;
  }
  friend constexpr Dual operator/(const Dual& a, const Dual& b) {
    const T q = a.value / b.value;
    Dual r(q);
    for (int i = 0; i < N; ++i) r.slope[i] = (a.slope[i] - q * b.slope[i]) / b.value;
    return r;
  }
  friend constexpr auto operator<=>(const Dual& a, const Dual& b) { return a.value <=> b.value; }
  friend constexpr bool operator==(const Dual& a, const Dual& b) { return a.value == b.value; }
};

template <class T, int N>
Dual<T, N> sqrt(const Dual<T, N>& a) {
  using std::sqrt;
  const T s = sqrt(a.value);
  return a.chain(s, T(0.5) / s);
}
template <class T, int N>
Dual<T, N> sin(const Dual<T, N>& a) {
  using std::cos, std::sin;
  return a.chain(sin(a.value), cos(a.value));
}
template <class T, int N>
Dual<T, N> cos(const Dual<T, N>& a) {
  using std::cos, std::sin;
  return a.chain(cos(a.value), -sin(a.value));
}
template <class T, int N>
Dual<T, N> tan(const Dual<T, N>& a) {
  using std::tan;
  const T t = tan(a.value);
  return a.chain(t, T(1) + t * t);
}
template <class T, int N>
Dual<T, N> asin(const Dual<T, N>& a) {
  using std::asin, std::sqrt;
  return a.chain(asin(a.value), T(1) / sqrt(T(1) - a.value * a.value));
}
template <class T, int N>
Dual<T, N> acos(const Dual<T, N>& a) {
  using std::acos, std::sqrt;
  return a.chain(acos(a.value), T(-1) / sqrt(T(1) - a.value * a.value));
}
template <class T, int N>
Dual<T, N> exp(const Dual<T, N>& a) {
  using std::exp;
  const T e = exp(a.value);
  return a.chain(e, e);
}
template <class T, int N>
Dual<T, N> log(const Dual<T, N>& a) {
  using std::log;
  return a.chain(log(a.value), T(1) / a.value);
}
template <class T, int N>
constexpr Dual<T, N> abs(const Dual<T, N>& a) {
  return a.value < T(0) ? -a : a;
}
template <class T, int N>
Dual<T, N> atan(const Dual<T, N>& a) {
  using std::atan;
  return a.chain(atan(a.value), T(1) / (T(1) + a.value * a.value));
}
template <class T, int N>
Dual<T, N> atan2(const Dual<T, N>& y, const Dual<T, N>& x) {
  using std::atan2;
  const T r2 = x.value * x.value + y.value * y.value;
  Dual<T, N> r(atan2(y.value, x.value));
  for (int i = 0; i < N; ++i) r.slope[i] = (x.value * y.slope[i] - y.value * x.slope[i]) / r2;
  return r;
}

}  // namespace trammel
