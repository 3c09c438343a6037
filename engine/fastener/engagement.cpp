#include "fastener/engagement.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "reference/iso965_pitch_diameter_tolerances.h"
#include "reference/iso965_pitch_tolerances.h"
#include "reference/member_materials.h"

namespace trammel::fastener {
namespace {

constexpr Length micrometre = Length::from_si(1e-6);

// The limits that decide stripping: the bolt at its least, the tapped part at its greatest.
struct Limits {
  Length d_min, d2_min, tapped_d2_max, tapped_d1_max;
};

std::optional<Limits> metric_limits(const Thread& t) {
  const double d = t.d.in(units::mm), p = t.pitch.in(units::mm);
  for (const auto& by_pitch : reference::iso965_pitch_tolerances) {
    if (std::abs(by_pitch.pitch_mm - p) > 1e-9) continue;
    for (const auto& by_size : reference::iso965_pitch_diameter_tolerances) {
      if (std::abs(by_size.pitch_mm - p) > 1e-9 || d <= by_size.over_d_mm || d > by_size.to_d_mm) continue;
      // Limits are tabled in whole micrometres.
      const auto whole = [](Length l) { return std::round(l / micrometre) * micrometre; };
      const Length d2 = whole(pitch_diameter(t)), d1 = whole(t.d - 1.082532 * t.pitch);
      const Length es = by_pitch.es_g_um * micrometre;
      return Limits{t.d - es - by_pitch.td6_um * micrometre, d2 - es - by_size.bolt_um * micrometre,
                    d2 + by_size.nut_um * micrometre, d1 + by_pitch.minor_td6_um * micrometre};
    }
  }
  return std::nullopt;
}

// ASME B1.1 class 2A and 2B in inches, from memory; Td2 the bolt's pitch-diameter tolerance.
Limits inch_limits(const Thread& t) {
  const double d = t.d.in(units::inch), p = t.pitch.in(units::inch);
  const double td2 = 0.0015 * std::cbrt(d) + 0.0015 * std::sqrt(d) + 0.015 * std::cbrt(p * p);
  const double allowance = 0.3 * td2, d2 = d - 0.649519 * p, d1 = d - 1.082532 * p;
  return {(d - allowance - 0.06 * std::cbrt(p * p)) * units::inch, (d2 - allowance - td2) * units::inch,
          (d2 + 1.3 * td2) * units::inch, (d1 + 0.25 * p - 0.4 * p * p) * units::inch};
}

std::optional<Limits> limits(const Thread& t) { return is_metric(t) ? metric_limits(t) : inch_limits(t); }

}  // namespace

std::optional<StripAreas> strip_areas(const Thread& t, Length engagement) {
  const auto l = limits(t);
  if (!l) return std::nullopt;
  const double per_turn = std::numbers::pi * (engagement / t.pitch), root3 = std::numbers::sqrt3;
  const Length bolt_ring = 0.5 * t.pitch + (l->d2_min - l->tapped_d1_max) / root3;
  const Length tapped_ring = 0.5 * t.pitch + (l->d_min - l->tapped_d2_max) / root3;
  return StripAreas{per_turn * (l->tapped_d1_max * bolt_ring), per_turn * (l->d_min * tapped_ring)};
}

std::optional<MinorLimits> tapped_minor_limits(const Thread& t) {
  const auto l = limits(t);
  if (!l) return std::nullopt;
  return MinorLimits{t.d - 1.082532 * t.pitch, l->tapped_d1_max};
}

std::optional<TappedStrength> tapped_strength(Material material) {
  for (const auto& row : reference::member_materials)
    if (row.material == name(material)) return TappedStrength{row.tensile_min_mpa * units::MPa, row.source, row.basis};
  return std::nullopt;
}

std::optional<Engagement> needed_engagement(const Thread& t, const Strength& bolt, Material tapped) {
  const auto material = tapped_strength(tapped);
  const auto areas = strip_areas(t, t.d);
  if (!material || !areas) return std::nullopt;
  const Force breaks = stress_area(t) * bolt.tensile;
  const double by_bolt = breaks / (0.5 * (bolt.tensile * areas->bolt_thread));
  const double by_tapped = breaks / (0.5 * (material->tensile * areas->tapped_thread));
  return Engagement{std::max(by_bolt, by_tapped) * t.d, material->tensile, material->source, material->basis};
}

std::optional<Force> strip_force(const Thread& t, Length engagement, const Strength& bolt, Material tapped) {
  const auto material = tapped_strength(tapped);
  const auto areas = strip_areas(t, engagement);
  if (!material || !areas) return std::nullopt;
  return std::min(0.5 * (bolt.tensile * areas->bolt_thread), 0.5 * (material->tensile * areas->tapped_thread));
}

}  // namespace trammel::fastener
