#include "fastener/shear.h"

#include "reference/iso898_1_classes.h"

namespace trammel::fastener {
namespace {

constexpr double partial_factor = 1.25;  // gamma M2

std::optional<double> shear_factor(std::string_view c) {
  for (std::string_view k : {"4.6", "5.6", "8.8"})
    if (c == k) return 0.6;
  for (std::string_view k : {"4.8", "5.8", "6.8", "10.9"})
    if (c == k) return 0.5;
  return std::nullopt;
}

}  // namespace

std::optional<Force> shear_resistance(std::string_view bolt_class, const Thread& thread) {
  const auto factor = shear_factor(bolt_class);
  if (!factor || !is_metric(thread)) return std::nullopt;
  for (const auto& row : reference::iso898_1_classes)
    if (row.property_class.substr(0, row.property_class.find(' ')) == bolt_class)
      return *factor / partial_factor * (row.rm_nominal_mpa * units::MPa * stress_area(thread));
  return std::nullopt;
}

Pressure shear_yield(Pressure tensile_yield) { return 0.577 * tensile_yield; }

double tension_with_shear(double tension_share, double shear_share) {
  return tension_share * tension_share + shear_share * shear_share * shear_share;
}

}  // namespace trammel::fastener
