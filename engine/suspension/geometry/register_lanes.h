// As many doubles as a register holds, as one scalar of the kernel. Private to the files of one instruction set each,
// which include it before lanes_kernel.h; without a name outside them, so that the linker shares nothing between them.
#pragma once

#include <cmath>
#include <xsimd/xsimd.hpp>

namespace trammel::suspension {
namespace {

template <class Arch>
struct Lanes {
  using Batch = xsimd::batch<double, Arch>;
  static constexpr int width = static_cast<int>(Batch::size);
  Batch b = Batch(0.0);

  Lanes() = default;
  Lanes(double x) : b(x) {}        // NOLINT: a constant enters arithmetic as itself
  Lanes(const Batch& x) : b(x) {}  // NOLINT
  static Lanes load(const double* p) { return Batch::load_unaligned(p); }
  void store(double* p) const { b.store_unaligned(p); }

  Lanes& operator+=(const Lanes& x) { return b += x.b, *this; }
  Lanes& operator-=(const Lanes& x) { return b -= x.b, *this; }
  Lanes& operator*=(const Lanes& x) { return b *= x.b, *this; }
  Lanes& operator/=(const Lanes& x) { return b /= x.b, *this; }
  friend Lanes operator-(const Lanes& x) { return Lanes(-x.b); }
  friend Lanes operator+(const Lanes& x, const Lanes& y) { return Lanes(x.b + y.b); }
  friend Lanes operator-(const Lanes& x, const Lanes& y) { return Lanes(x.b - y.b); }
  friend Lanes operator*(const Lanes& x, const Lanes& y) { return Lanes(x.b * y.b); }
  friend Lanes operator/(const Lanes& x, const Lanes& y) { return Lanes(x.b / y.b); }
};
template <class A>
Lanes<A> sqrt(const Lanes<A>& x) {
  return xsimd::sqrt(x.b);
}
// Once a corner only, and not the library's: its argument reduction is a function that both files would share.
template <class A, class F>
Lanes<A> each(const Lanes<A>& x, F f) {
  double lane[Lanes<A>::width];
  x.store(lane);
  for (double& v : lane) v = f(v);
  return Lanes<A>::load(lane);
}
template <class A>
Lanes<A> sin(const Lanes<A>& x) {
  return each(x, [](double v) { return std::sin(v); });
}
template <class A>
Lanes<A> cos(const Lanes<A>& x) {
  return each(x, [](double v) { return std::cos(v); });
}
template <class A>
Lanes<A> asin(const Lanes<A>& x) {
  return xsimd::asin(x.b);
}
template <class A>
Lanes<A> atan2(const Lanes<A>& y, const Lanes<A>& x) {
  return xsimd::atan2(y.b, x.b);
}
// What a solve asks of a scalar: see scalar.h.
template <class A>
double value_of(const Lanes<A>& x) {
  return xsimd::hadd(x.b);
}
template <class A>
bool above(const Lanes<A>& x, double bound) {
  return xsimd::all(x.b > typename Lanes<A>::Batch(bound));
}
template <class A>
bool exactly_zero(const Lanes<A>& x) {
  return xsimd::all(x.b == typename Lanes<A>::Batch(0.0));
}

}  // namespace
}  // namespace trammel::suspension
