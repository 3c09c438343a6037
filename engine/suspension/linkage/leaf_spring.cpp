#include "suspension/linkage/leaf_spring.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "measure/dual.h"

namespace trammel::suspension {
namespace {

constexpr double most_slant = 35.0 * std::numbers::pi / 180.0;  // of a half's chord against the seat's line
constexpr double shortest = 1e-3;                               // m, of any part

struct Flat {
  double x = 0, z = 0;
};
Flat side_view(const Vector3<double>& p) { return {p.x, p.z}; }
Flat operator-(const Flat& a, const Flat& b) { return {a.x - b.x, a.z - b.z}; }
double size(const Flat& a) { return std::hypot(a.x, a.z); }
double cross(const Flat& a, const Flat& b) { return a.x * b.z - a.z * b.x; }
double dot(const Flat& a, const Flat& b) { return a.x * b.x + a.z * b.z; }
double turn_from(const Flat& a, const Flat& b) { return std::atan2(cross(a, b), dot(a, b)); }

// The seat's line: unit vector towards the fixed eye, so that both halves have one curvature.
Flat seat_line(const Flat& to_fixed, const Flat& to_shackled, double half_clamp) {
  // Each half is an arc from its end of the clamp: curvature = 2 n.d / d.d, n the line's normal.
  const auto difference = [&](double angle) {
    const Flat t{std::cos(angle), std::sin(angle)}, n{-t.z, t.x};
    const Flat f{to_fixed.x - half_clamp * t.x, to_fixed.z - half_clamp * t.z};
    const Flat e{to_shackled.x + half_clamp * t.x, to_shackled.z + half_clamp * t.z};
    return dot(n, f) / dot(f, f) - dot(n, e) / dot(e, e);
  };
  const Flat chord = to_fixed - to_shackled;
  double angle = std::atan2(chord.z, chord.x), before = angle + 0.02;
  double f = difference(angle), f_before = difference(before);
  for (int i = 0; i < 50 && f != f_before && std::abs(angle - before) > 1e-16; ++i) {
    const double next = angle - f * (angle - before) / (f - f_before);
    before = angle;
    f_before = f;
    angle = next;
    f = difference(angle);
  }
  return {std::cos(angle), std::sin(angle)};
}

// Length of the arc on a chord that leaves its tangent by `slant`.
double arc_length(double chord, double slant) { return slant == 0.0 ? chord : chord * slant / std::sin(slant); }

template <class T>
struct FlatOf {
  T x{}, z{};
};
template <class T>
FlatOf<T> turned(double x, double z, const T& angle) {
  using std::cos, std::sin;
  const T c = cos(angle), s = sin(angle);
  return {c * x - s * z, s * x + c * z};
}

}  // namespace

std::vector<PointFault> check(const LeafSpringPoints& p) {
  std::vector<PointFault> faults;
  const auto finite = [](const Vector3<double>& a) {
    return std::isfinite(a.x) && std::isfinite(a.y) && std::isfinite(a.z);
  };
  const auto need = [&](bool good, PointFaultKind kind, const char* point) {
    if (!good) faults.push_back({kind, point});
    return good;
  };
  using enum PointFaultKind;
  need(finite(p.fixed_eye), not_a_number, "fixed_eye");
  need(finite(p.shackled_eye), not_a_number, "shackled_eye");
  need(finite(p.shackle_pivot), not_a_number, "shackle_pivot");
  need(finite(p.seat), not_a_number, "seat");
  need(std::isfinite(p.clamped.si()), not_a_number, "clamped");
  if (!faults.empty()) return faults;

  const Flat f = side_view(p.fixed_eye) - side_view(p.seat), e = side_view(p.shackled_eye) - side_view(p.seat);
  const Flat shackle = side_view(p.shackled_eye) - side_view(p.shackle_pivot), eyes = f - e;
  need(size(f) > shortest, zero_length_part, "fixed_eye");
  need(size(e) > shortest, zero_length_part, "shackled_eye");
  need(size(shackle) > shortest, zero_length_part, "shackle_pivot");
  if (!faults.empty()) return faults;
  if (!need(f.x * e.x < 0, leaf_seat_outside, "seat")) return faults;
  if (!need(size(shackle) < 0.5 * size(eyes), leaf_eyes_exchanged, "shackle_pivot")) return faults;

  const double half_clamp = 0.5 * p.clamped.si();
  const bool fits = half_clamp >= 0 && half_clamp < 0.5 * std::min(size(f), size(e));
  if (!need(fits, zero_length_part, "clamped")) return faults;
  const Flat t = seat_line(f, e, half_clamp);
  const double at_fixed = std::abs(turn_from(t, f)), at_shackled = std::abs(turn_from({-t.x, -t.z}, e));
  need(at_fixed < most_slant && at_shackled < most_slant, leaf_too_arched, "seat");
  need(std::abs(cross(shackle, eyes)) > 0.02 * size(shackle) * size(eyes), leaf_shackle_in_line, "shackle_pivot");
  return faults;
}

LeafSpring::LeafSpring(const LeafSpringPoints& points, Length shackle_change) : points_(points) {
  const Flat seat = side_view(points.seat);
  const Flat f = side_view(points.fixed_eye) - seat, e = side_view(points.shackled_eye) - seat;
  const double half_clamp = 0.5 * points.clamped.si();
  const Flat t = seat_line(f, e, half_clamp);
  side_ = f.x > 0 ? 1.0 : -1.0;
  const Flat f_active{f.x - half_clamp * t.x, f.z - half_clamp * t.z};
  const Flat e_active{e.x + half_clamp * t.x, e.z + half_clamp * t.z};
  a_ = arc_length(size(f_active), turn_from(t, f_active));
  b_ = arc_length(size(e_active), turn_from({-t.x, -t.z}, e_active));
  to_pin_ = {(half_clamp + 0.25 * a_) * t.x, (half_clamp + 0.25 * a_) * t.z};
  to_other_pin_ = {-(half_clamp + 0.25 * b_) * t.x, -(half_clamp + 0.25 * b_) * t.z};
  link_ = {f.x - to_pin_.x, f.z - to_pin_.z};
  other_link_ = {e.x - to_other_pin_.x, e.z - to_other_pin_.z};
  const Flat fitted = side_view(points.shackled_eye) - side_view(points.shackle_pivot);
  branch_ = cross(fitted, f - e) > 0 ? 1.0 : -1.0;
  shackle_ = size(fitted) + shackle_change.si();
}

// Newton on the seat's turn and the curvature at a given height.
bool LeafSpring::close(double seat_z, double& turn, double& curvature) const {
  using D = Dual<double, 2>;
  const Flat fixed = side_view(points_.fixed_eye), pivot = side_view(points_.shackle_pivot);
  for (int i = 0, settled = 0; i < 40; ++i) {
    const D p = D::variable(turn, 0), k = D::variable(curvature, 1);
    const auto l1 = turned(link_.x, link_.z, p + k * (side_ * 2.0 / 3.0 * a_));
    const auto l2 = turned(other_link_.x, other_link_.z, p - k * (side_ * 2.0 / 3.0 * b_));
    const auto p1 = turned(to_pin_.x, to_pin_.z, p), p2 = turned(to_other_pin_.x, to_other_pin_.z, p);
    const D height = D(fixed.z - seat_z) - p1.z - l1.z;
    const D ex = D(fixed.x - pivot.x) - p1.x - l1.x + p2.x + l2.x,
            ez = D(fixed.z - pivot.z) - p1.z - l1.z + p2.z + l2.z;
    const D gap = sqrt(ex * ex + ez * ez) - D(shackle_);
    const double det = height.slope[0] * gap.slope[1] - height.slope[1] * gap.slope[0];
    if (!(std::abs(det) > 1e-12) || !std::isfinite(det)) return false;
    const double dp = -(height.value * gap.slope[1] - height.slope[1] * gap.value) / det;
    const double dk = -(height.slope[0] * gap.value - height.value * gap.slope[0]) / det;
    if (std::abs(dp) > 0.5 || std::abs(dk) * std::max(a_, b_) > 2.0) return false;
    turn += dp;
    curvature += dk;
    if (std::max(std::abs(dp), std::abs(dk)) < 1e-13 && ++settled == 2) return true;
  }
  return false;
}

LeafPose LeafSpring::pose(double seat_z, double turn, double curvature) const {
  using D = Dual<double, 3>;  // by turn, curvature and seat height
  const Flat fixed = side_view(points_.fixed_eye), pivot = side_view(points_.shackle_pivot);
  const D p = D::variable(turn, 0), k = D::variable(curvature, 1), z = D::variable(seat_z, 2);
  const auto l1 = turned(link_.x, link_.z, p + k * (side_ * 2.0 / 3.0 * a_));
  const auto l2 = turned(other_link_.x, other_link_.z, p - k * (side_ * 2.0 / 3.0 * b_));
  const auto p1 = turned(to_pin_.x, to_pin_.z, p), p2 = turned(to_other_pin_.x, to_other_pin_.z, p);
  const D seat_x = D(fixed.x) - p1.x - l1.x, height = D(fixed.z) - p1.z - l1.z - z;
  const D ex = seat_x + p2.x + l2.x - D(pivot.x), ez = D(fixed.z - pivot.z) - p1.z - l1.z + p2.z + l2.z;
  const D gap = sqrt(ex * ex + ez * ez);
  const double det = height.slope[0] * gap.slope[1] - height.slope[1] * gap.slope[0];

  LeafPose out;
  out.seat = {seat_x.value, points_.seat.y, seat_z};
  out.shackled_eye = {pivot.x + ex.value, points_.shackled_eye.y, pivot.z + ez.value};
  out.turn = Angle::from_si(turn);
  out.curvature_change = curvature;
  const Flat was = side_view(points_.shackled_eye) - pivot, is{ex.value, ez.value};
  const Flat eyes{fixed.x - pivot.x - ex.value, fixed.z - pivot.z - ez.value};
  out.shackle_swing = Angle::from_si(turn_from(was, is));
  out.shackle_to_line = Angle::from_si(std::abs(turn_from({-is.x, -is.z}, eyes)));
  // height = 0 and gap constant: the turn and curvature per metre of seat height.
  const double turn_z = gap.slope[1] / det, curvature_z = -gap.slope[0] / det;
  out.turn_per_rise = turn_z;
  out.x_per_rise = seat_x.slope[0] * turn_z + seat_x.slope[1] * curvature_z;
  if (cross(is, eyes) * branch_ <= 0) out.outcome.status = PoseStatus::shackle_over_centre;
  return out;
}

LeafPose LeafSpring::at_rise(Length rise, const LeafPose* from) const {
  const double target = points_.seat.z + rise.si();
  LeafPose here;
  if (from && from->outcome.ok()) {
    here = *from;
  } else {
    here = at_fitted_load();
    if (!here.outcome.ok()) return here;
  }
  // In steps of a centimetre at most, halved where Newton or the shackle objects.
  double z = here.seat.z, step = 0.01;
  while (z != target) {
    const double left = target - z, next = std::abs(left) <= step ? target : z + std::copysign(step, left);
    double turn = here.turn.si() + here.turn_per_rise * (next - z), curvature = here.curvature_change;
    if (close(next, turn, curvature)) {
      LeafPose there = pose(next, turn, curvature);
      if (there.outcome.ok()) {
        here = there;
        z = next;
        continue;
      }
    }
    step *= 0.5;
    if (step < 1e-10) {
      here.outcome = {PoseStatus::shackle_over_centre, Length::from_si(z - points_.seat.z), {}};
      return here;
    }
  }
  return here;
}

LeafPose LeafSpring::at_fitted_load() const {
  // The eyes keep their distance: the shackled eye is where their circle meets the shackle's.
  const Flat fixed = side_view(points_.fixed_eye), pivot = side_view(points_.shackle_pivot);
  const Flat eye = side_view(points_.shackled_eye);
  const Flat between = pivot - fixed;
  const double chord = size(eye - fixed), apart = size(between);
  const double along = (chord * chord - shackle_ * shackle_ + apart * apart) / (2 * apart);
  const double off2 = chord * chord - along * along;
  LeafPose none;
  none.outcome.status = PoseStatus::shackle_cannot_reach;
  if (!(shackle_ > shortest) || !(off2 > 0)) return none;
  const Flat u{between.x / apart, between.z / apart}, n{-u.z, u.x};
  const double off = std::copysign(std::sqrt(off2), dot(eye - fixed, n));
  const Flat now{along * u.x + off * n.x, along * u.z + off * n.z};
  const double turn = turn_from(eye - fixed, now);
  const Flat seat = side_view(points_.seat) - fixed;
  const double c = std::cos(turn), s = std::sin(turn);
  return pose(fixed.z + s * seat.x + c * seat.z, turn, 0.0);
}

Vector3<double> LeafSpring::seat_normal() const {
  const double along = std::hypot(to_pin_.x, to_pin_.z), up = to_pin_.x < 0 ? -1.0 : 1.0;
  return {-up * to_pin_.z / along, 0, up * to_pin_.x / along};
}

RollStiffness LeafSpring::wrap_stiffness(Stiffness rate) const {
  const double k = rate.si() * a_ * a_ * b_ * b_ / (a_ * a_ - a_ * b_ + b_ * b_);
  return RollStiffness::from_si(k);
}

}  // namespace trammel::suspension
