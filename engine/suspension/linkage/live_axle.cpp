#include "suspension/linkage/live_axle.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "measure/dual.h"
#include "suspension/linkage/scalar.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
constexpr int most_links = 5;  // four links and the track bar

// One link ready to be measured: its axle end about the axle's centre, its length now.
struct Rod {
  V chassis, on_axle, fitted;
  double length = 0;
};

struct Mechanism {
  AxleLocation location{};
  V centre;
  std::array<Rod, most_links> rods;
  int count = 0;
  // Leaf springs in place of rods.
  std::vector<LeafSpring> springs;
  std::vector<V> seats;                  // as fitted
  V held_sideways;                       // the axle's point that they hold
  mutable std::vector<LeafPose> nearby;  // where each spring was solved last
};

Mechanism build(const LiveAxlePoints& p, const std::vector<Length>& changes, double share) {
  Mechanism m{p.location, p.axle_centre, {}, 0, {}, {}, {}, {}};
  if (p.location == AxleLocation::leaf_springs) {
    for (const LeafSpringPoints& spring : p.springs) {
      m.springs.emplace_back(spring);
      m.seats.push_back(spring.seat);
      m.nearby.push_back(m.springs.back().at_fitted_load());
    }
    m.held_sideways = {p.axle_centre.x, p.axle_centre.y, sideways_height(p).si()};
    return m;
  }
  const auto add = [&](const Link& link) {
    const std::size_t i = m.count++;
    const double change = i < changes.size() ? changes[i].si() * share : 0.0;
    m.rods[i] = {link.chassis, link.axle - p.axle_centre, link.axle - link.chassis,
                 norm(link.axle - link.chassis) + change};
  };
  for (const Link& link : p.links) add(link);
  add(p.track_bar);
  return m;
}

// Unknowns and givens as the equations take them: x, y, yaw, pitch, rise, roll.
template <class T>
using Place = AxlePlace<T>;
template <class T>
using Axes = AxleAxes<T>;

template <class T>
struct RodState {
  Vector3<T> arm;   // from the axle's centre to the rod's axle end
  Vector3<T> span;  // from the chassis end to the axle end
  T length{}, elongation{};
};

template <class T>
RodState<T> rod_state(const Mechanism& m, const Rod& rod, const Place<T>& q, const Axes<T>& a) {
  RodState<T> s;
  s.arm = a.turned(rod.on_axle);
  const V base = m.centre - rod.chassis;
  s.span = s.arm + Vector3<T>{q[0] + T(base.x), q[1] + T(base.y), q[4] + T(base.z)};
  s.length = norm(s.span);
  s.elongation = s.length - T(rod.length);
  return s;
}

template <int N>
Dual<double, N> along_spring(const Dual<double, N>& height, double value, double rate) {
  return height.chain(value, rate);
}

// On leaf springs: each seat on its path, the pitch the mean of their turns, the held point not sideways.
template <class T>
std::array<T, 4> spring_conditions(const Mechanism& m, const Place<T>& q, const Axes<T>& a) {
  std::array<T, 4> f{};
  T turned(0);
  for (int i = 0; i < 2; ++i) {
    const Vector3<T> seat = moved(m.seats[i], m.centre, q, a);
    const LeafPose leaf = m.springs[i].at_rise(Length::from_si(value_of(seat.z) - m.seats[i].z), &m.nearby[i]);
    m.nearby[i] = leaf;
    if (!leaf.outcome.ok()) {
      f.fill(T(std::nan("")));
      return f;
    }
    f[i] = seat.x - along_spring(seat.z, leaf.seat.x, leaf.x_per_rise);
    turned += along_spring(seat.z, leaf.turn.si(), leaf.turn_per_rise);
  }
  f[2] = -q[3] - T(0.5) * turned;
  f[3] = moved(m.held_sideways, m.centre, q, a).y - T(m.held_sideways.y);
  return f;
}

// The four conditions that close the axle; zero where it is closed.
template <class T>
std::array<T, 4> conditions(const Mechanism& m, const Place<T>& q) {
  using std::atan2;
  const Axes<T> a(q);
  std::array<T, 4> f{};
  switch (m.location) {
    case AxleLocation::three_links_and_track_bar:
      for (int i = 0; i < 4; ++i) f[i] = rod_state(m, m.rods[i], q, a).elongation;
      break;
    case AxleLocation::two_trailing_arms_and_track_bar: {
      T turned(0);  // of both arms in side view, nose up
      for (int i = 0; i < 3; ++i) {
        const RodState<T> s = rod_state(m, m.rods[i], q, a);
        f[i] = s.elongation;
        const V& was = m.rods[i].fitted;
        if (i < 2) turned += atan2(was.x * s.span.z - was.z * s.span.x, was.x * s.span.x + was.z * s.span.z);
      }
      f[3] = -q[3] - T(0.5) * turned;
      break;
    }
    case AxleLocation::four_links_and_track_bar:
      // The gradient of half the sum of squared elongations.
      for (int i = 0; i < m.count; ++i) {
        const RodState<T> s = rod_state(m, m.rods[i], q, a);
        const Vector3<T> pull = (s.elongation / s.length) * s.span;
        f[0] += pull.x;
        f[1] += pull.y;
        f[2] += pull.y * s.arm.x - pull.x * s.arm.y;
        f[3] += dot(pull, cross(a.pitch_axis, s.arm));
      }
      break;
    case AxleLocation::leaf_springs:
      return spring_conditions(m, q, a);
  }
  return f;
}

struct Solution {
  std::array<double, 4> step{};                  // Newton's
  std::array<std::array<double, 4>, 2> rates{};  // of the unknowns by rise and by roll
  double size = 0;                               // largest condition
  double determinant = 0;
};

// One linearisation: Newton's step and the implicit derivatives, by elimination with row pivoting.
bool linearise(const Mechanism& m, const Place<double>& q, Solution& s) {
  using D = Dual<double, 6>;
  Place<D> dual;
  for (int i = 0; i < 6; ++i) dual[i] = D::variable(q[i], i);
  const std::array<D, 4> f = conditions(m, dual);
  std::array<std::array<double, 7>, 4> a;  // matrix, then three right-hand sides
  s.size = 0;
  for (int r = 0; r < 4; ++r) {
    for (int c = 0; c < 4; ++c) a[r][c] = f[r].slope[c];
    a[r][4] = -f[r].value;
    a[r][5] = -f[r].slope[4];
    a[r][6] = -f[r].slope[5];
    if (!std::isfinite(f[r].value)) return false;
    s.size = std::max(s.size, std::abs(f[r].value));
  }
  s.determinant = 1;
  for (int c = 0; c < 4; ++c) {
    int best = c;
    for (int r = c + 1; r < 4; ++r)
      if (std::abs(a[r][c]) > std::abs(a[best][c])) best = r;
    if (best != c) {
      std::swap(a[best], a[c]);
      s.determinant = -s.determinant;
    }
    s.determinant *= a[c][c];
    if (!(std::abs(a[c][c]) > 1e-9)) return false;
    for (int r = 0; r < 4; ++r) {
      if (r == c) continue;
      const double w = a[r][c] / a[c][c];
      for (int k = c; k < 7; ++k) a[r][k] -= w * a[c][k];
    }
  }
  for (int r = 0; r < 4; ++r) {
    s.step[r] = a[r][4] / a[r][r];
    s.rates[0][r] = a[r][5] / a[r][r];
    s.rates[1][r] = a[r][6] / a[r][r];
  }
  return true;
}

// Newton at given rise and roll. The determinant keeps its sign on the fitted branch.
bool close_axle(const Mechanism& m, double sign, Place<double>& q, Solution& s) {
  int settled = 0;
  for (int i = 0; i < 30; ++i) {
    if (!linearise(m, q, s) || s.determinant * sign <= 0) return false;
    double step = 0;
    for (int k = 0; k < 4; ++k) step = std::max(step, std::abs(s.step[k]));
    if (step > 0.3) return false;
    for (int k = 0; k < 4; ++k) q[k] += s.step[k];
    if (step < 1e-13 && ++settled == 2) return linearise(m, q, s);
    if (step < 1e-13 && s.size < 1e-15) return linearise(m, q, s);
  }
  return linearise(m, q, s) && s.size < 1e-12;
}

}  // namespace

int links_of(AxleLocation location) {
  switch (location) {
    case AxleLocation::two_trailing_arms_and_track_bar:
      return 2;
    case AxleLocation::three_links_and_track_bar:
      return 3;
    case AxleLocation::four_links_and_track_bar:
      return 4;
    case AxleLocation::leaf_springs:
      break;
  }
  return 0;
}

Length sideways_height(const LiveAxlePoints& p) {
  double sum = 0;
  for (const LeafSpringPoints& s : p.springs) {
    const V span = s.shackle_pivot - s.fixed_eye;
    sum += s.fixed_eye.z + span.z * (p.axle_centre.x - s.fixed_eye.x) / span.x;
  }
  return Length::from_si(sum / static_cast<double>(p.springs.size()));
}

AxlePlace<double> place(const LiveAxlePose& pose, Length rise, Angle roll) {
  return {
      pose.long_shift.si(), pose.lateral_shift.si(), pose.steer.si(), -pose.pinion_nose_up.si(), rise.si(), roll.si()};
}

std::vector<PointFault> check(const LiveAxlePoints& p) {
  std::vector<PointFault> faults;
  const auto finite = [](const V& a) { return std::isfinite(a.x) && std::isfinite(a.y) && std::isfinite(a.z); };
  if (!finite(p.axle_centre) || !std::isfinite(p.half_track.si()) || !std::isfinite(p.loaded_radius.si()))
    faults.push_back({PointFaultKind::not_a_number, "axle_centre"});
  if (!(p.half_track.si() > 0)) faults.push_back({PointFaultKind::half_track_not_positive, "axle_centre"});
  if (static_cast<int>(p.links.size()) != links_of(p.location))
    faults.push_back({PointFaultKind::wrong_number_of_links, "axle_centre"});
  const auto name = [&](std::size_t i) { return i < p.links.size() ? "link." + std::to_string(i) : "track_bar"; };
  if (p.location == AxleLocation::leaf_springs) {
    if (p.springs.size() != 2) faults.push_back({PointFaultKind::wrong_number_of_links, "axle_centre"});
    for (std::size_t i = 0; i < p.springs.size(); ++i)
      for (const PointFault& leaf : check(p.springs[i]))
        faults.push_back({leaf.kind, (i == 0 ? "left.leaf." : "right.leaf.") + leaf.point});
  }
  for (std::size_t i = 0; i <= p.links.size() && p.location != AxleLocation::leaf_springs; ++i) {
    const Link& link = i < p.links.size() ? p.links[i] : p.track_bar;
    const V span = link.axle - link.chassis;
    if (!finite(span))
      faults.push_back({PointFaultKind::not_a_number, name(i)});
    else if (norm(span) < 1e-6)
      faults.push_back({PointFaultKind::zero_length_link, name(i)});
  }
  if (!faults.empty()) return faults;
  Solution s;
  if (!linearise(build(p, {}, 0), Place<double>{}, s)) faults.push_back({PointFaultKind::links_in_line, "axle_centre"});
  return faults;
}

LiveAxlePose live_axle_pose(const LiveAxlePoints& p, Length rise, Angle roll, const std::vector<Length>& changes) {
  LiveAxlePose pose;
  pose.outcome.status = PoseStatus::bad_geometry;
  Solution s;
  Place<double> q{};
  if (!check(p).empty() || !linearise(build(p, {}, 0), q, s)) return pose;
  const double sign = s.determinant;

  // From the fitted pose to the one asked for in even shares of rise, roll and changes together.
  double largest = std::max(std::abs(rise.si()) / 0.02, std::abs(roll.si()) / 0.05);
  for (const Length& c : changes) largest = std::max(largest, std::abs(c.si()) / 0.02);
  double done = 0, share = 1.0 / std::max(1.0, std::ceil(largest));
  while (done < 1) {
    const double next = std::min(1.0, done + share);
    Place<double> trial = q;
    for (int k = 0; k < 4; ++k)  // the tangent as predictor
      trial[k] += (next - done) * (s.rates[0][k] * rise.si() + s.rates[1][k] * roll.si());
    trial[4] = next * rise.si();
    trial[5] = next * roll.si();
    Solution there;
    if (close_axle(build(p, changes, next), sign, trial, there)) {
      q = trial;
      s = there;
      done = next;
      continue;
    }
    share *= 0.5;
    if (share < 1e-9) {
      const bool springs = p.location == AxleLocation::leaf_springs;
      pose.outcome = {springs ? PoseStatus::shackle_over_centre : PoseStatus::link_cannot_reach, done * rise, {}};
      return pose;
    }
  }
  const Mechanism m = build(p, changes, 1);
  if (!close_axle(m, sign, q, s)) {
    pose.outcome.status = PoseStatus::not_converged;
    return pose;
  }

  // What is read from it.
  pose.outcome = {};
  pose.long_shift = Length::from_si(q[0]);
  pose.lateral_shift = Length::from_si(q[1]);
  pose.steer = Angle::from_si(q[2]);
  pose.pinion_nose_up = Angle::from_si(-q[3]);
  pose.per_rise = {s.rates[0][0], s.rates[0][1], s.rates[0][2], -s.rates[0][3]};
  pose.per_roll = {s.rates[1][0], s.rates[1][1], s.rates[1][2], -s.rates[1][3]};
  const Axes<double> a(q);
  pose.centre = p.axle_centre + V{q[0], q[1], q[4]};
  const V along = a.turned(p.along);
  pose.left_wheel = pose.centre + p.half_track.si() * along;
  pose.right_wheel = pose.centre - p.half_track.si() * along;
  const double turn_x = a.x.x - std::sin(q[2]) * s.rates[1][3];  // of the axle about x per radian of roll
  const double radius = p.loaded_radius.si() > 0 ? p.loaded_radius.si() : p.axle_centre.z;
  pose.roll_centre_height =
      Length::from_si(s.rates[1][1] / turn_x + radius * std::sqrt(std::max(0.0, 1 - along.z * along.z)));
  double residual = 0;
  for (int i = 0; i < m.count; ++i) residual = std::max(residual, std::abs(rod_state(m, m.rods[i], q, a).elongation));
  for (std::size_t i = 0; i < m.springs.size(); ++i)
    residual = std::max(residual, std::abs(moved(m.seats[i], m.centre, q, a).y - m.seats[i].y));
  pose.springs = m.nearby;
  pose.max_link_residual = Length::from_si(residual);
  return pose;
}

}  // namespace trammel::suspension
