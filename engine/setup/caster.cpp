#include "setup/caster.h"

#include <cmath>

#include "measure/vector3.h"

namespace trammel::setup {

namespace {

using V = Vector3<double>;

// The spin axis turned by phi about the unit axis s.
V turned(const V& n, const V& s, double phi) {
  return std::cos(phi) * n + std::sin(phi) * cross(s, n) + (1.0 - std::cos(phi)) * dot(s, n) * s;
}

double heading(const V& n) { return std::atan2(n.x, n.y); }

double steered_camber(double caster, double inclination, double camber, double steer) {
  V s{-std::tan(caster), -std::tan(inclination), 1.0};
  s = (1.0 / norm(s)) * s;
  const V n{0.0, std::cos(camber), -std::sin(camber)};
  // Turn about the axis until the heading is `steer`; a toe-in turn is negative about an upright axis.
  double phi = -steer;
  for (int i = 0; i < 40; ++i) {
    const V at = turned(n, s, phi), rate = cross(s, at);
    const double slope = (at.y * rate.x - at.x * rate.y) / (at.x * at.x + at.y * at.y);
    const double step = (heading(at) - steer) / slope;
    phi -= step;
    if (std::abs(step) < 1e-15) break;
  }
  return -std::asin(turned(n, s, phi).z);
}

}  // namespace

Angle camber_when_steered(Angle caster, Angle inclination, Angle camber, Angle steer) {
  return Angle::from_si(steered_camber(caster.si(), inclination.si(), camber.si(), steer.si()));
}

CasterReading caster_of(const CasterSweep& sweep) {
  const double a = sweep.steer.si(), g = sweep.camber_straight.si(), in = sweep.steered_in.si(),
               out = sweep.steered_out.si();
  CasterReading r;
  if (!(std::abs(a) > 1e-3 && std::abs(a) < 1.0)) return r;

  // First guess: the difference of the cambers tells caster, their mean inclination.
  double c = (out - in) / (2.0 * std::sin(a)), i = (0.5 * (in + out) - g) / (1.0 - std::cos(a));
  r.by_rule_of_thumb = Angle::from_si(c);

  // Newton on both cambers; slopes by central differences, good to 1e-10.
  constexpr double h = 1e-5;
  double cc = 0, ci = 0, oc = 0, oi = 0, det = 0;
  bool met = false;
  for (int k = 0; k < 30 && !met; ++k) {
    const auto slope = [&](double steer, bool of_caster) {
      const double dc = of_caster ? h : 0.0, di = of_caster ? 0.0 : h;
      return (steered_camber(c + dc, i + di, g, steer) - steered_camber(c - dc, i - di, g, steer)) / (2.0 * h);
    };
    cc = slope(a, true), ci = slope(a, false), oc = slope(-a, true), oi = slope(-a, false);
    det = cc * oi - ci * oc;
    if (!(std::abs(det) > 1e-12)) return r;
    const double f = steered_camber(c, i, g, a) - in, e = steered_camber(c, i, g, -a) - out;
    const double dc = (oi * f - ci * e) / det, di = (cc * e - oc * f) / det;
    c -= dc;
    i -= di;
    met = std::abs(dc) + std::abs(di) < 1e-12;
    if (!(std::abs(c) < 1.0 && std::abs(i) < 1.0)) return r;
  }
  if (!met) return r;

  // Each reading's share of the uncertainty; camber straight ahead and the steer move both steered cambers.
  const auto spread = [&](double by_camber, double by_straight, double by_steer) {
    return Angle::from_si(
        std::hypot(sweep.camber_u.si() * std::hypot(by_camber, by_straight), sweep.steer_u.si() * by_steer) /
        std::abs(det));
  };
  const auto slope = [&](double dg, double da, double steer) {
    const double at = steer > 0 ? a + da : -a - da, back = steer > 0 ? a - da : -a + da;
    return (steered_camber(c, i, g + dg, at) - steered_camber(c, i, g - dg, back)) / (2.0 * h);
  };
  const double gi = slope(h, 0.0, 1.0), go = slope(h, 0.0, -1.0), si = slope(0.0, h, 1.0), so = slope(0.0, h, -1.0);
  r.caster = {Angle::from_si(c), spread(std::hypot(oi, ci), oi * gi - ci * go, oi * si - ci * so)};
  r.inclination = {Angle::from_si(i), spread(std::hypot(oc, cc), cc * go - oc * gi, cc * so - oc * si)};
  r.outcome = CasterOutcome::found;
  return r;
}

}  // namespace trammel::setup
