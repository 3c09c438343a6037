// Compiled with the processor's own instructions, see CMakeLists.txt; called only where it has them.
#include <cmath>
#include <xsimd/xsimd.hpp>

namespace trammel::suspension {
namespace {

struct Lanes {
  using Batch = xsimd::batch<double, xsimd::fma3<xsimd::avx2>>;
  static constexpr int width = 4;
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
Lanes sqrt(const Lanes& x) { return xsimd::sqrt(x.b); }
// Once a corner only, and not the library's: its argument reduction is a function that both files would share.
template <class F>
Lanes each(const Lanes& x, F f) {
  double lane[Lanes::width];
  x.store(lane);
  for (double& v : lane) v = f(v);
  return Lanes::load(lane);
}
Lanes sin(const Lanes& x) {
  return each(x, [](double v) { return std::sin(v); });
}
Lanes cos(const Lanes& x) {
  return each(x, [](double v) { return std::cos(v); });
}
Lanes asin(const Lanes& x) { return xsimd::asin(x.b); }
Lanes atan2(const Lanes& y, const Lanes& x) { return xsimd::atan2(y.b, x.b); }
// What a solve asks of a scalar: see scalar.h.
double value_of(const Lanes& x) { return xsimd::hadd(x.b); }
bool above(const Lanes& x, double bound) { return xsimd::all(x.b > Lanes::Batch(bound)); }
bool exactly_zero(const Lanes& x) { return xsimd::all(x.b == Lanes::Batch(0.0)); }

}  // namespace
}  // namespace trammel::suspension

#include "suspension/geometry/lanes_kernel.h"

namespace trammel::suspension {

void block_avx2(const Block& block) { run_block<Lanes>(block); }

}  // namespace trammel::suspension
