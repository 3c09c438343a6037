#include "suspension/geometry/bench_preset.h"

#include <cmath>

namespace trammel::suspension {

std::optional<LengthChanges<double>> bench_preset(const AxleMechanism& axle, Side side, const WantedAngles& wanted,
                                                  bool by_strut_top) {
  AxleCoordinates at;
  LengthChanges<double>& change = side == Side::left ? at.changes.left : at.changes.right;
  Length& camber_by = by_strut_top ? change.strut_top : change.upper_arm;
  for (int i = 0; i < 30; ++i) {
    const AdjusterRates r = axle.adjuster_rates(side, at);
    if (!r.outcome.ok()) return std::nullopt;
    const WheelAnglesRate& arm = by_strut_top ? r.strut_top : r.upper_arm;
    const double camber = wanted.camber ? (*wanted.camber - r.camber).si() : 0.0, toe = (wanted.toe - r.toe).si();
    if (std::abs(camber) < 1e-12 && std::abs(toe) < 1e-12) return change;

    // Two by two, or the rod alone.
    double by_arm = 0.0, by_rod = 0.0;
    if (wanted.camber) {
      const double d = arm.camber.si() * r.tie_rod.toe.si() - r.tie_rod.camber.si() * arm.toe.si();
      if (std::abs(d) < 1e-9) return std::nullopt;
      by_arm = (camber * r.tie_rod.toe.si() - r.tie_rod.camber.si() * toe) / d;
      by_rod = (arm.camber.si() * toe - camber * arm.toe.si()) / d;
    } else {
      if (std::abs(r.tie_rod.toe.si()) < 1e-6) return std::nullopt;
      by_rod = toe / r.tie_rod.toe.si();
    }
    camber_by += Length::from_si(by_arm);
    change.tie_rod += Length::from_si(by_rod);
    constexpr double most = 0.06;
    if (!(std::abs(camber_by.si()) < most) || !(std::abs(change.tie_rod.si()) < most)) return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Length> distance(const AxleMechanism& axle, const std::string& from, const std::string& to) {
  const Vector3<double>*a = nullptr, *b = nullptr;
  const std::vector<Hardpoint> points = axle.points();
  for (const Hardpoint& p : points) {
    if (p.name == from) a = &p.at;
    if (p.name == to) b = &p.at;
  }
  if (!a || !b) return std::nullopt;
  return Length::from_si(norm(*a - *b));
}

}  // namespace trammel::suspension
