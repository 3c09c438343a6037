// UDUNITS-2 as an outside witness for the unit factors and plain decimals, where it reads rightly: it takes
// `3-1/2 in` as a sum of other things and `22"` as an arc, so fractions and quote marks are left to the rows.
#include <gtest/gtest.h>
#include <udunits2.h>

#include <cmath>
#include <iostream>
#include <memory>
#include <random>

#include "measure/text.h"

namespace trammel {
namespace {

struct Row {
  Kind kind;
  const char *ours, *theirs, *si;
};
const Row rows[] = {
    {Kind::length, "mm", "mm", "m"},
    {Kind::length, "cm", "cm", "m"},
    {Kind::length, "in", "international_inch", "m"},
    {Kind::length, "ft", "international_foot", "m"},
    {Kind::length, "km", "km", "m"},
    {Kind::length, "mi", "international_mile", "m"},
    {Kind::area, "mm²", "mm2", "m2"},
    {Kind::area, "in²", "international_inch2", "m2"},
    {Kind::area, "ft²", "international_foot2", "m2"},
    {Kind::angle, "deg", "arc_degree", "radian"},
    {Kind::angle, "arcmin", "arc_minute", "radian"},
    {Kind::angle, "arcsec", "arc_second", "radian"},
    {Kind::mass, "lb", "pound", "kg"},
    {Kind::mass, "g", "gram", "kg"},
    {Kind::mass, "t", "tonne", "kg"},
    {Kind::force, "lbf", "pound_force", "N"},
    {Kind::force, "kgf", "kilogram_force", "N"},
    {Kind::torque, "lbf·ft", "pound_force international_foot", "N m"},
    {Kind::torque, "lbf·in", "pound_force international_inch", "N m"},
    {Kind::torque, "kgf·m", "kilogram_force m", "N m"},
    {Kind::speed, "km/h", "km/hour", "m/s"},
    {Kind::speed, "mph", "international_mile/hour", "m/s"},
    {Kind::pressure, "psi", "psi", "Pa"},
    {Kind::pressure, "bar", "bar", "Pa"},
    {Kind::power, "kW", "kW", "W"},
    {Kind::power, "hp", "pound_force international_foot/s 550", "W"},
    {Kind::temperature, "°C", "celsius", "K"},
    {Kind::temperature, "°F", "fahrenheit", "K"},
    {Kind::time, "min", "minute", "s"},
    {Kind::time, "h", "hour", "s"},
    {Kind::stiffness, "N/mm", "N/mm", "N/m"},
    {Kind::stiffness, "lbf/in", "pound_force/international_inch", "N/m"},
};

TEST(Udunits, GivesTheSameSi) {
  ut_set_error_message_handler(ut_ignore);
  const std::unique_ptr<ut_system, decltype(&ut_free_system)> system(ut_read_xml(nullptr), &ut_free_system);
  ASSERT_TRUE(system);
  std::mt19937 rng(17);
  std::uniform_int_distribution<int> thousandths(1, 2'000'000);
  double worst = 0.0;
  for (const Row& row : rows) {
    using Unit = std::unique_ptr<ut_unit, decltype(&ut_free)>;
    const Unit from(ut_parse(system.get(), row.theirs, UT_UTF8), &ut_free);
    const Unit to(ut_parse(system.get(), row.si, UT_UTF8), &ut_free);
    ASSERT_TRUE(from && to) << row.theirs;
    const std::unique_ptr<cv_converter, decltype(&cv_free)> convert(ut_get_converter(from.get(), to.get()), &cv_free);
    ASSERT_TRUE(convert) << row.theirs;
    for (int i = 0; i < 200; ++i) {
      const int n = thousandths(rng);
      char text[64];
      std::snprintf(text, sizeof text, "%d.%03d %s", n / 1000, n % 1000, row.ours);
      const ReadResult r = read_quantity(text, row.kind);
      ASSERT_TRUE(std::holds_alternative<Written>(r)) << text;
      const double theirs = cv_convert_double(convert.get(), n / 1000.0);
      const double error = std::abs(std::get<Written>(r).number.si / theirs - 1.0);
      EXPECT_LT(error, 1e-14) << text;
      worst = std::max(worst, error);
    }
  }
  std::cout << "worst relative difference from UDUNITS-2 over " << std::size(rows) << " units " << worst << "\n";
}

}  // namespace
}  // namespace trammel
