// The solves of CornerLinkage: a rise to an arm angle, and how far the mechanism reaches.
// Include corner_linkage.h.
#pragma once

#include <algorithm>
#include <cmath>

#include "suspension/linkage/corner_kernel.h"

namespace trammel::suspension {

// One evaluation of a height's solve, and where the height is met: by the tangent at first, then by the cubic t(miss)
// through the last two evaluations and their slopes (inverse Hermite interpolation), which mostly saves a third.
template <class T>
struct Tried {
  T t{}, miss{}, slope{};  // slope: dt/dmiss
};
template <class T>
T by_tangent(const Tried<T>& now) {
  return now.t - now.miss * now.slope;
}
template <class T>
T by_cubic(const Tried<T>& before, const Tried<T>& now) {
  const T apart = before.miss - now.miss;
  const T inverse = apart / (apart * apart + T(1e-24));  // the tangent again where both are the same
  const T chord = (before.t - now.t) * inverse;
  const T square = (chord - now.slope) * inverse;
  const T cube = (before.slope + now.slope - T(2) * chord) * inverse * inverse;
  return now.t - now.miss * (now.slope - now.miss * (square - cube * before.miss));
}

// A rack shift and changes small enough that they bring no gap between them and the fitted pose.
template <class T>
bool CornerLinkage<T>::near_fit(const T& rack, const LengthChanges<T>& change) const {
  constexpr double small = 0.03;  // m
  return (!fitted_.steered || std::abs(value_of(rack)) < 0.25 * value_of(tie_rod_length_)) &&
         std::abs(value_of(change.upper_arm.si())) < small && std::abs(value_of(change.lower_arm.si())) < small &&
         std::abs(value_of(change.tie_rod.si())) < small && std::abs(value_of(change.strut_top.si())) < small;
}

template <class T>
CornerPose<T> CornerLinkage<T>::pose(LengthOf<T> rise, LengthOf<T> rack, const LengthChanges<T>& change,
                                     const Vector3<T>& drift) const {
  if (!usable_) return failed({PoseStatus::bad_geometry, {}, {}});
  const Setup s = setup(rack.si(), drift, change);
  if (too_short(s)) return failed({PoseStatus::length_too_short, {}, {}});
  const T target = fitted_.hub_centre.z + rise.si();

  // Newton and its better from the fitted angle, with the exact derivative: enough wherever no reach is nearly used up.
  constexpr double comfortable = 0.02, furthest = 0.35, exact = 4e-15;
  const T step = rise.si() / rate_at_fit_;
  const T bend = T(0.5) * curve_at_fit_ * step / rate_at_fit_;
  T t = T(0.5) * step * (T(1) - bend);
  bool fast = std::abs(value_of(t)) < furthest && near_fit(rack.si(), change);
  int settled = 0;
  Tried<T> before;
  for (int i = 0; fast && i < 12; ++i) {
    const Station at = station(s, t);
    if (!at.meets || !(value_of(at.upper_reach) > comfortable) || !(value_of(at.tie_reach) > comfortable) ||
        !(rise_sign_ * value_of(at.per_arm.shift.z) > 0.1 * rise_sign_ * value_of(rate_at_fit_)))
      break;
    const T miss = at.hub.z - target;
    // A scalar that carries slopes takes one step more: they settle a step after the value.
    if (std::abs(value_of(miss)) < exact && (!carries_slopes<T> || settled++ > 0))
      return finish(s, at, rack.si(), drift, change);
    const Tried<T> now{t, miss, T(0.5) * (T(1) + t * t) / at.per_arm.shift.z};
    t = i == 0 ? by_tangent(now) : by_cubic(before, now);
    before = now;
    fast = std::abs(value_of(t)) < furthest;
  }

  // Near the end of the branch, or beyond it: follow the mechanism there.
  PoseOutcome outcome = fitted_angle_outcome(rack.si(), drift, change);
  if (!outcome.ok()) return failed(outcome);
  const Station start = station(s, T(0));
  outcome = follow(s, value_of(target), value_of(target) >= value_of(start.hub.z), t);
  if (!outcome.ok()) return failed(outcome);
  Station at = station(s, t);
  if constexpr (carries_slopes<T>) {
    for (int i = 0; i < 2; ++i) {
      t -= T(0.5) * (at.hub.z - target) * (T(1) + t * t) / at.per_arm.shift.z;
      at = station(s, t);
      if (!at.meets) return failed({PoseStatus::not_converged, {}, {}});
    }
  }
  return finish(s, at, rack.si(), drift, change);
}

template <class T>
bool CornerLinkage<T>::quick_pose(LengthOf<T> rise, LengthOf<T> rack, CornerPose<T>& pose) const {
  // As the fast part of pose(), each bound held by every lane.
  if (!usable_) return false;
  constexpr double comfortable = 0.02, furthest = 0.35, exact = 4e-15;
  const Setup s = setup(rack.si(), {}, {});
  const T target = fitted_.hub_centre.z + rise.si();
  const T step = rise.si() / rate_at_fit_;
  T t = T(0.5) * step * (T(1) - T(0.5) * curve_at_fit_ * step / rate_at_fit_);
  Tried<T> before;
  for (int i = 0; i < 8; ++i) {
    if (!above(T(furthest) - t, 0) || !above(T(furthest) + t, 0)) return false;
    const Station at = station(s, t);
    if (!at.meets || !above(at.upper_reach, comfortable) || !above(at.tie_reach, comfortable) ||
        !above(T(rise_sign_) * (at.per_arm.shift.z - T(0.1) * rate_at_fit_), 0))
      return false;
    const T miss = at.hub.z - target;
    if (above(T(exact) - miss, 0) && above(T(exact) + miss, 0)) {
      pose = finish(s, at, rack.si(), {}, {});
      return true;
    }
    const Tried<T> now{t, miss, T(0.5) * (T(1) + t * t) / at.per_arm.shift.z};
    t = i == 0 ? by_tangent(now) : by_cubic(before, now);
    before = now;
  }
  return false;
}

template <class T>
CornerPose<T> CornerLinkage<T>::pose_at_arm(AngleOf<T> arm_angle, LengthOf<T> rack, const LengthChanges<T>& change,
                                            const Vector3<T>& drift) const {
  using std::tan;
  if (!usable_) return failed({PoseStatus::bad_geometry, {}, {}});
  const Setup s = setup(rack.si(), drift, change);
  if (too_short(s)) return failed({PoseStatus::length_too_short, {}, {}});
  PoseOutcome outcome = fitted_angle_outcome(rack.si(), drift, change);
  const T t = tan(T(0.5) * arm_angle.si());
  // Every angle between the fitted one and this one must meet too, or this is another branch.
  Station at;
  const double end = value_of(t);
  const int parts = std::clamp(static_cast<int>(std::min(std::abs(end), 2.0) / 0.01), 1, 200);
  for (int i = 1; outcome.ok() && i <= parts; ++i) {
    at = station(s, i == parts ? t : T(end * i / parts));
    if (at.meets) continue;
    outcome.status =
        value_of(at.upper_reach) > 0 ? PoseStatus::tie_rod_cannot_reach : PoseStatus::upper_arm_cannot_reach;
    double good = end * (i - 1) / parts, bad = end * i / parts;
    for (int k = 0; k < 60; ++k) {
      const double mid = 0.5 * (good + bad);
      (station(s, T(mid)).meets ? good : bad) = mid;
    }
    outcome.rise_limit = Length::from_si(value_of(station(s, T(good)).hub.z - fitted_.hub_centre.z));
  }
  if (outcome.ok() && !(rise_sign_ * value_of(at.per_arm.shift.z) > 0)) {
    outcome.status = PoseStatus::lower_arm_cannot_reach;
    outcome.rise_limit = Length::from_si(value_of(at.hub.z - fitted_.hub_centre.z));
  }
  if (!outcome.ok()) return failed(outcome);
  return finish(s, at, rack.si(), drift, change);
}

// Whether the mechanism closes with the lower arm as fitted: the start of every continuation. Rack and changes are
// brought in together in small shares, so that no gap is passed; where one is met its edge is found by halving.
template <class T>
PoseOutcome CornerLinkage<T>::fitted_angle_outcome(const T& rack, const Vector3<T>& drift,
                                                   const LengthChanges<T>& change) const {
  const auto at_share = [&](double share) {
    const T k(share);
    return station(setup(k * rack, k * drift,
                         {k * change.upper_arm, k * change.lower_arm, k * change.tie_rod, k * change.strut_top}),
                   T(0));
  };
  const auto closes = [&](const Station& at) { return at.meets && rise_sign_ * value_of(at.per_arm.shift.z) > 0; };
  constexpr double step = 0.005, most = 400;
  const double way = std::max({std::abs(value_of(rack)), std::abs(value_of(change.upper_arm.si())),
                               std::abs(value_of(change.lower_arm.si())), std::abs(value_of(change.tie_rod.si())),
                               std::abs(value_of(change.strut_top.si()))});
  const int parts = way < step * most ? 1 + static_cast<int>(way / step) : static_cast<int>(most);
  for (int i = 1; i <= parts; ++i) {
    const Station at = at_share(double(i) / parts);
    if (closes(at)) continue;
    PoseOutcome outcome;
    if (!(value_of(at.upper_reach) > 0))
      outcome.status = PoseStatus::upper_arm_cannot_reach;
    else if (!at.meets)
      outcome.status = PoseStatus::tie_rod_cannot_reach;
    else
      outcome.status = PoseStatus::lower_arm_cannot_reach;
    if (value_of(rack) == 0) return outcome;
    double good = double(i - 1) / parts, bad = double(i) / parts;
    for (int k = 0; k < 60; ++k) {
      const double mid = 0.5 * (good + bad);
      (closes(at_share(mid)) ? good : bad) = mid;
    }
    outcome.rack_limit = Length::from_si(good * value_of(rack));
    return outcome;
  }
  return {};
}

template <class T>
PoseOutcome CornerLinkage<T>::follow(const Setup& s, double target_z, bool upward, T& half_tan) const {
  const double direction = (upward ? 1.0 : -1.0) * rise_sign_;
  const double origin = value_of(fitted_.hub_centre.z);
  const double full_rate = std::abs(value_of(rate_at_fit_));
  constexpr double longest = 0.01, shortest = 1e-13, furthest = 1.0;  // of tan(q/2)
  double t = 0, step = longest;
  Station at = station(s, T(0));
  const auto rate = [&](const Station& x) { return rise_sign_ * value_of(x.per_arm.shift.z) / full_rate; };
  PoseStatus stopped_by = PoseStatus::lower_arm_cannot_reach;

  for (int i = 0; i < 4000; ++i) {
    // No step may spend more than half of a reach, nor jump one that is nearly closed.
    const double least = std::min(value_of(at.upper_reach), value_of(at.tie_reach));
    step = std::min({step, longest, 0.25 * std::sqrt(std::max(least, 0.0))});
    if (step < shortest || std::abs(t) >= furthest) break;
    const double next_t = t + direction * step;
    const Station next = station(s, T(next_t));
    const bool upper_ok = value_of(next.upper_reach) > 0.5 * value_of(at.upper_reach);
    const bool tie_ok = next.meets && value_of(next.tie_reach) > 0.5 * value_of(at.tie_reach);
    const bool rate_ok = next.meets && rate(next) > 0.5 * std::min(rate(at), 1.0);
    if (!upper_ok || !tie_ok || !rate_ok) {
      stopped_by = !upper_ok ? PoseStatus::upper_arm_cannot_reach
                   : !tie_ok ? PoseStatus::tie_rod_cannot_reach
                             : PoseStatus::lower_arm_cannot_reach;
      step *= 0.5;
      continue;
    }
    const double over = (upward ? 1.0 : -1.0) * (value_of(next.hub.z) - target_z);
    if (over < 0) {
      t = next_t;
      at = next;
      step *= 1.5;
      continue;
    }

    // The target lies within this step: Newton kept inside it by halving.
    double near = t, far = next_t, x = next_t;
    Station here = next;
    for (int k = 0; k < 100; ++k) {
      const double miss = value_of(here.hub.z) - target_z;
      if (std::abs(miss) < 4e-15 || std::abs(far - near) < 1e-17) break;
      ((upward ? miss : -miss) > 0 ? far : near) = x;
      double trial = x - 0.5 * miss * (1 + x * x) / value_of(here.per_arm.shift.z);
      if (!((trial - near) * (trial - far) < 0)) trial = 0.5 * (near + far);
      if (trial == x) break;
      x = trial;
      here = station(s, T(x));
      if (!here.meets) return {PoseStatus::not_converged, Length::from_si(value_of(at.hub.z) - origin), {}};
    }
    // A nearly closed reach leaves its root's rounding in the height.
    const double closing = std::sqrt(std::min(value_of(here.upper_reach), value_of(here.tie_reach)));
    if (!(std::abs(value_of(here.hub.z) - target_z) < std::max(1e-12, 2e-14 / closing)))
      return {PoseStatus::not_converged, Length::from_si(value_of(at.hub.z) - origin), {}};
    half_tan = T(x);
    return {};
  }
  return {stopped_by, Length::from_si(value_of(at.hub.z) - origin), {}};
}

template <class T>
PoseOutcome CornerLinkage<T>::reach(bool upward, LengthOf<T> rack, const LengthChanges<T>& change) const {
  if (!usable_) return {PoseStatus::bad_geometry, {}, {}};
  const Setup s = setup(rack.si(), {}, change);
  if (too_short(s)) return {PoseStatus::length_too_short, {}, {}};
  const PoseOutcome outcome = fitted_angle_outcome(rack.si(), {}, change);
  if (!outcome.ok()) return outcome;
  T t{};
  return follow(s, upward ? 1e9 : -1e9, upward, t);
}

}  // namespace trammel::suspension
