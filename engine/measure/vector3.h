// A three-component vector over any scalar or quantity.
//
// Bare components (double, dual numbers, SIMD lanes) are metres in the cart frame unless a name says
// otherwise; see docs/frames-and-signs.md. With Quantity components products carry their dimension:
// Vector3<Length> dot Vector3<Force> is a Torque.
#pragma once

#include <cmath>

namespace trammel {

template <class T>
struct Vector3 {
  T x{}, y{}, z{};

  constexpr Vector3& operator+=(const Vector3& b) {
    x += b.x;
    y += b.y;
    z += b.z;
    return *this;
  }
  constexpr Vector3& operator-=(const Vector3& b) {
    x -= b.x;
    y -= b.y;
    z -= b.z;
    return *this;
  }
  friend constexpr Vector3 operator+(Vector3 a, const Vector3& b) { return a += b; }
  friend constexpr Vector3 operator-(Vector3 a, const Vector3& b) { return a -= b; }
  friend constexpr Vector3 operator-(const Vector3& a) { return {-a.x, -a.y, -a.z}; }
  friend constexpr bool operator==(const Vector3&, const Vector3&) = default;
};

template <class S, class T>
constexpr auto operator*(const S& s, const Vector3<T>& a) -> Vector3<decltype(s * a.x)> {
  return {s * a.x, s * a.y, s * a.z};
}
template <class T, class S>
constexpr auto operator/(const Vector3<T>& a, const S& s) -> Vector3<decltype(a.x / s)> {
  return {a.x / s, a.y / s, a.z / s};
}
template <class T, class U>
constexpr auto dot(const Vector3<T>& a, const Vector3<U>& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
template <class T, class U>
constexpr auto cross(const Vector3<T>& a, const Vector3<U>& b) -> Vector3<decltype(a.x * b.y)> {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
template <class T>
T norm(const Vector3<T>& a) {
  using std::sqrt;
  return sqrt(dot(a, a));
}
template <class T>
Vector3<T> unit(const Vector3<T>& a) {
  return a / norm(a);
}
// The mirror image in the cart's middle plane y = 0.
template <class T>
constexpr Vector3<T> mirrored(const Vector3<T>& a) {
  return {a.x, -a.y, a.z};
}

}  // namespace trammel
