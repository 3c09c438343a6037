// What people write, read to SI; what is unclear, refused with the choices.
#include "measure/text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

namespace trammel {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;

// Reads or fails the test.
Written read(std::string_view text, Kind kind, const TextRules& rules = {}) {
  const ReadResult r = read_quantity(text, kind, rules);
  if (const auto* e = std::get_if<TextError>(&r)) {
    ADD_FAILURE() << text << ": fault " << static_cast<int>(e->fault) << " at " << e->at << " nearest " << e->nearest;
    return {};
  }
  return std::get<Written>(r);
}
TextError refused(std::string_view text, Kind kind, const TextRules& rules = {}) {
  const ReadResult r = read_quantity(text, kind, rules);
  if (const auto* w = std::get_if<Written>(&r)) {
    ADD_FAILURE() << text << " was read as " << w->number.si << " [" << w->unit << "]";
    return {};
  }
  return std::get<TextError>(r);
}

struct Row {
  std::string_view text;
  Kind kind;
  double si;
  std::string_view unit;
};

constexpr double deg = std::numbers::pi / 180.0;

// SI values: NIST SP 811 (2008) B.8 gives 25.4 mm, 1.355 818 N·m a lbf·ft, 0.112 984 8 N·m a lbf·in,
// 6.894 757 kPa a psi, 0.447 04 m/s a mph, 745.6999 W a horsepower, 4.448 222 N a lbf, 0.453 592 37 kg a lb,
// 175.1268 N/m a lbf/in, to seven digits: half a unit of the seventh is at most 5e-7 of the value.
constexpr Row rows[] = {
    {"23 5/8 in", Kind::length, 0.600075, "in"},
    {"23-5/8 in", Kind::length, 0.600075, "in"},
    {"23 5/8\"", Kind::length, 0.600075, "in"},
    {"23⅝ in", Kind::length, 0.600075, "in"},
    {"23 ⅝″", Kind::length, 0.600075, "in"},
    {"23 5⁄8 in", Kind::length, 0.600075, "in"},
    {"5/8 in", Kind::length, 0.015875, "in"},
    {"½ in", Kind::length, 0.0127, "in"},
    {".875\"", Kind::length, 0.022225, "in"},
    {"0.875 IN", Kind::length, 0.022225, "in"},
    {"5'3 1/2\"", Kind::length, 1.6129, "in"},
    {"5' 3 1/2\"", Kind::length, 1.6129, "in"},
    {"5'-3 1/2\"", Kind::length, 1.6129, "in"},
    {"5′3 1/2″", Kind::length, 1.6129, "in"},
    {"5’3 1/2”", Kind::length, 1.6129, "in"},
    {"5 ft 3 1/2 in", Kind::length, 1.6129, "in"},
    {"-5'3 1/2\"", Kind::length, -1.6129, "in"},
    {"5ft3.5in", Kind::length, 1.6129, "in"},
    {"5'", Kind::length, 1.524, "ft"},
    {"5''", Kind::length, 0.127, "in"},
    {"595.3 mm", Kind::length, 0.5953, "mm"},
    {"595.3mm", Kind::length, 0.5953, "mm"},
    {"+6 mm", Kind::length, 0.006, "mm"},
    {"-60mm", Kind::length, -0.06, "mm"},
    {"−60 mm", Kind::length, -0.06, "mm"},
    {"12.5 cm", Kind::length, 0.125, "cm"},
    {"1.855 m", Kind::length, 1.855, "m"},
    {"595.3 mm (23 7/16 in)", Kind::length, 0.5953, "mm"},
    {"20.1 mm2", Kind::area, 20.1e-6, "mm²"},
    {"20.1 mm²", Kind::area, 20.1e-6, "mm²"},
    {"1 sq in", Kind::area, 6.4516e-4, "in²"},
    {"-1°15'", Kind::angle, -1.25 * deg, "arcmin"},
    {"1°15'30\"", Kind::angle, (1.25 + 30.0 / 3600) * deg, "arcsec"},
    {"-0°30'", Kind::angle, -0.5 * deg, "arcmin"},
    {"1°", Kind::angle, deg, "deg"},
    {"-0.5 deg", Kind::angle, -0.5 * deg, "deg"},
    {"15'", Kind::angle, 0.25 * deg, "arcmin"},
    {"0.01 rad", Kind::angle, 0.01, "rad"},
    {"0.75 turn", Kind::turns, 0.75, "turn"},
    {"-1 1/2 turns", Kind::turns, -1.5, "turn"},
    {"200 lb", Kind::mass, 90.718474, "lb"},
    {"200 lbs", Kind::mass, 90.718474, "lb"},
    {"450 kg", Kind::mass, 450, "kg"},
    {"1.2 t", Kind::mass, 1200, "t"},
    {"12.5 kN", Kind::force, 12500, "kN"},
    {"100 lbf", Kind::force, 444.8222, "lbf"},
    {"52 N·m", Kind::torque, 52, "N·m"},
    {"52 N⋅m", Kind::torque, 52, "N·m"},
    {"52 Nm", Kind::torque, 52, "N·m"},
    {"52 N m", Kind::torque, 52, "N·m"},
    {"52 N-m", Kind::torque, 52, "N·m"},
    {"52 N.m", Kind::torque, 52, "N·m"},
    {"40 lbf·ft", Kind::torque, 54.23272, "lbf·ft"},
    {"40 lbf-ft", Kind::torque, 54.23272, "lbf·ft"},
    {"40 ft-lb", Kind::torque, 54.23272, "lbf·ft"},
    {"40 ft-lbs", Kind::torque, 54.23272, "lbf·ft"},
    {"40 FT-LB", Kind::torque, 54.23272, "lbf·ft"},
    {"40 ft·lbf", Kind::torque, 54.23272, "lbf·ft"},
    {"40 ft lb", Kind::torque, 54.23272, "lbf·ft"},
    {"40 lb-ft", Kind::torque, 54.23272, "lbf·ft"},
    {"480 in-lb", Kind::torque, 54.2327, "lbf·in"},
    {"480 in·lb", Kind::torque, 54.2327, "lbf·in"},
    {"480 lbf-in", Kind::torque, 54.2327, "lbf·in"},
    {"5 kgf·m", Kind::torque, 49.03325, "kgf·m"},
    {"15 mph", Kind::speed, 6.7056, "mph"},
    {"18 km/h", Kind::speed, 5, "km/h"},
    {"25 psi", Kind::pressure, 172368.9, "psi"},
    {"1.8 bar", Kind::pressure, 180000, "bar"},
    {"640 MPa", Kind::pressure, 640e6, "MPa"},
    {"640 N/mm2", Kind::pressure, 640e6, "MPa"},
    {"5 hp", Kind::power, 3728.4995, "hp"},
    {"3.7 kW", Kind::power, 3700, "kW"},
    {"20 °C", Kind::temperature, 293.15, "°C"},
    {"68 °F", Kind::temperature, 293.15, "°F"},
    {"-40 °F", Kind::temperature, 233.15, "°F"},
    {"-459.67 °F", Kind::temperature, 0, "°F"},
    {"1 h 30 min", Kind::time, 5400, "min"},
    {"90 s", Kind::time, 90, "s"},
    {"100 lbf/in", Kind::stiffness, 17512.68, "lbf/in"},
    {"100 lb/in", Kind::stiffness, 17512.68, "lbf/in"},
    {"22 N/mm", Kind::stiffness, 22000, "N/mm"},
    {"0.62", Kind::ratio, 0.62, ""},
    {"62 %", Kind::ratio, 0.62, "%"},
    {"129.90", Kind::money, 129.90, ""},
    {"1.5 mm/turn", Kind::pitch, 0.0015, "mm/turn"},
    {"1/20 in/turn", Kind::pitch, 0.00127, "in/turn"},
};

TEST(ReadQuantity, ReadsWhatPeopleWrite) {
  double worst = 0.0;
  for (const Row& row : rows) {
    const Written w = read(row.text, row.kind);
    EXPECT_EQ(w.unit, row.unit) << row.text;
    const double error = std::abs(w.number.si - row.si) / std::max(1e-12, std::abs(row.si));
    EXPECT_LT(row.si == 0 ? std::abs(w.number.si) : error, 5e-7) << row.text << " gave " << w.number.si;
    worst = std::max(worst, row.si == 0 ? 0 : error);
  }
  std::cout << "worst relative difference from the published seven digits " << worst << "\n";
}

struct Refusal {
  std::string_view text;
  Kind kind;
  TextFault fault;
  std::vector<std::string> choices = {};  // where they are checked: all of these are offered
  std::string nearest = {};
};

TEST(ReadQuantity, RefusesWhatIsUnclear) {
  const Refusal refusals[] = {
      {"", Kind::length, TextFault::empty},
      {"   ", Kind::length, TextFault::empty},
      {"abc", Kind::length, TextFault::not_a_number},
      {"mm", Kind::length, TextFault::not_a_number},
      {"23 5/8", Kind::length, TextFault::unit_missing, {"mm", "in", "ft"}},
      {"54", Kind::torque, TextFault::unit_missing, {"N·m", "lbf·ft", "lbf·in"}},
      {"5'3", Kind::length, TextFault::unit_missing, {"in"}},
      {"1,5 mm", Kind::length, TextFault::decimal_sign, {"1.5"}},
      {"1,234 mm", Kind::length, TextFault::decimal_sign, {"1.234", "1234"}},
      {"1,234,567 mm", Kind::length, TextFault::decimal_sign, {"1234567"}},
      {"1 234 mm", Kind::length, TextFault::ambiguous, {"1234"}},
      {"3-4 mm", Kind::length, TextFault::ambiguous, {"3 to 4"}},
      {"23 -5/8 in", Kind::length, TextFault::ambiguous},
      {"23 - 5/8 in", Kind::length, TextFault::ambiguous},
      {"2 11/8 in", Kind::length, TextFault::out_of_range},
      {"5'13\"", Kind::length, TextFault::out_of_range},
      {"1°75'", Kind::angle, TextFault::out_of_range},
      {"5.5' 3\"", Kind::length, TextFault::trailing_text},
      {"5/0 in", Kind::length, TextFault::zero_denominator},
      {"2 1/0 in", Kind::length, TextFault::zero_denominator},
      {"5/ in", Kind::length, TextFault::not_a_number},
      {"5. mm", Kind::length, TextFault::not_a_number},
      {"1.2.3 mm", Kind::length, TextFault::not_a_number},
      {"--5 mm", Kind::length, TextFault::not_a_number},
      {"52 lb", Kind::torque, TextFault::ambiguous, {"lbf·ft", "lbf·in"}},
      {"52 kg", Kind::torque, TextFault::ambiguous, {"kgf·m", "N·m"}},
      {"2 tons", Kind::mass, TextFault::ambiguous, {"t", "kg", "lb"}},
      {"200 lb", Kind::force, TextFault::ambiguous, {"lbf", "N"}},
      {"20°", Kind::temperature, TextFault::ambiguous, {"°C", "°F"}},
      {"52 N·m", Kind::length, TextFault::wrong_kind, {"mm", "in"}},
      {"52 mm", Kind::torque, TextFault::wrong_kind, {"N·m", "lbf·ft"}},
      {"5 m/s", Kind::length, TextFault::wrong_kind},
      {"5 mm²", Kind::length, TextFault::wrong_kind},
      {"5 in-lb", Kind::length, TextFault::wrong_kind},
      {"5 °C", Kind::angle, TextFault::wrong_kind},
      {"5 lbf·ft", Kind::force, TextFault::wrong_kind},
      {"5 mm", Kind::ratio, TextFault::wrong_kind},
      {"5 mm", Kind::pitch, TextFault::wrong_kind, {"mm/turn"}},
      {"595.3 mn", Kind::length, TextFault::unit_unknown, {"mm"}, "mm"},
      {"595.3 MM", Kind::length, TextFault::unit_unknown, {}, "mm"},
      {"640 mPa", Kind::pressure, TextFault::unit_unknown, {}, "MPa"},
      {"40 lfb-ft", Kind::torque, TextFault::unit_unknown, {}, "lbf·ft"},
      {"23 inchs", Kind::length, TextFault::unit_unknown, {}, "in"},
      {"5 m3", Kind::length, TextFault::trailing_text},
      {"1e5 mm", Kind::length, TextFault::unit_unknown},
      {"5 mm and", Kind::length, TextFault::trailing_text},
      {"5 mm 6 mm", Kind::length, TextFault::trailing_text},
      {"4 1/2 flats", Kind::turns, TextFault::flats_per_turn_unknown},
      {"5 mm ± -1 mm", Kind::length, TextFault::negative_uncertainty},
      {"5 mm ±", Kind::length, TextFault::empty},
      {"5'3\" ± 1/8", Kind::length, TextFault::unit_missing},
      {"595.3 mm (23 3/4 in)", Kind::length, TextFault::ambiguous, {"595.3 mm", "23 3/4 in"}},
      {"595.3 mm (23 7/16 in", Kind::length, TextFault::trailing_text},
      {"-300 °C", Kind::temperature, TextFault::out_of_range},
      {"1234567890123456789 mm", Kind::length, TextFault::out_of_range},
      {"0.1234567890123456789 mm", Kind::length, TextFault::out_of_range},
      {"12.50 GBP", Kind::money, TextFault::unit_unknown},
  };
  for (const Refusal& r : refusals) {
    const TextError e = refused(r.text, r.kind);
    EXPECT_EQ(static_cast<int>(e.fault), static_cast<int>(r.fault)) << r.text;
    for (const std::string& choice : r.choices) EXPECT_THAT(e.choices, Contains(choice)) << r.text;
    if (!r.nearest.empty()) { EXPECT_EQ(e.nearest, r.nearest) << r.text; }
    EXPECT_LE(e.at + e.length, r.text.size()) << r.text;
  }
}

TEST(ReadQuantity, PointsAtTheFault) {
  const TextError unit = refused("595.3 mn", Kind::length);
  EXPECT_EQ(unit.at, 6u);
  EXPECT_EQ(unit.length, 2u);
  const TextError wrong = refused("52 mm", Kind::torque);
  EXPECT_EQ(wrong.at, 3u);
  EXPECT_EQ(wrong.length, 2u);
}

TEST(ReadQuantity, KeepsTheFractionAndTheDecimals) {
  EXPECT_EQ(read("5'3 1/2\"", Kind::length).fraction, Fraction::make(127, 2));
  EXPECT_EQ(read(".875\"", Kind::length).fraction, Fraction::make(7, 8));
  EXPECT_EQ(read("4 1/2 turns", Kind::turns).fraction, Fraction::make(9, 2));
  EXPECT_EQ(read("595.3 mm", Kind::length).fraction, std::nullopt);
  EXPECT_EQ(read("595.30 mm", Kind::length).decimals, 2);
  // 23 5/8 in is 600.075 mm, the double nearest to it and no other.
  EXPECT_EQ(read("23 5/8 in", Kind::length).number.si, 0.600075);
  EXPECT_EQ(read("23.625 in", Kind::length).number.si, 0.600075);
  EXPECT_EQ(read("600.075 mm", Kind::length).number.si, 0.600075);
}

TEST(ReadQuantity, RulesOfTheFormOrFile) {
  EXPECT_EQ(read("1,5 mm", Kind::length, {.decimal_sign = ','}).number.si, 0.0015);
  EXPECT_EQ(read(",5 mm", Kind::length, {.decimal_sign = ','}).number.si, 0.0005);
  const TextError point = refused("1.234 mm", Kind::length, {.decimal_sign = ','});
  EXPECT_EQ(point.fault, TextFault::decimal_sign);
  EXPECT_THAT(point.choices, ElementsAre("1,234", "1234"));
  EXPECT_EQ(read("23 5/8", Kind::length, {.bare = "in"}).number.si, 0.600075);
  EXPECT_EQ(read("23 5/8 mm", Kind::length, {.bare = "in"}).unit, "mm");
  const Written flats = read("4 1/2 flats", Kind::turns, {.flats_per_turn = 6});
  EXPECT_EQ(flats.number.si, 0.75);
  EXPECT_EQ(flats.unit, "flats");
  EXPECT_EQ(flats.fraction, Fraction::make(9, 2));
}

TEST(ReadQuantity, ReadsTheUncertainty) {
  EXPECT_DOUBLE_EQ(*read("812 mm ± 3 mm", Kind::length).number.u, 0.003);
  EXPECT_DOUBLE_EQ(*read("812 ± 3 mm", Kind::length, {.bare = "mm"}).number.u, 0.003);
  EXPECT_DOUBLE_EQ(*read("812 mm ± 3", Kind::length).number.u, 0.003);
  EXPECT_DOUBLE_EQ(*read("23 5/8 in ± 1/16", Kind::length).number.u, 0.0254 / 16);
  EXPECT_DOUBLE_EQ(*read("23 5/8 in +/- 1 mm", Kind::length).number.u, 0.001);
  EXPECT_DOUBLE_EQ(*read("20 °C ± 2 °C", Kind::temperature).number.u, 2.0);
  EXPECT_DOUBLE_EQ(*read("1°15' ± 5'", Kind::angle).number.u, 5 * deg / 60);
  EXPECT_EQ(read("812 mm", Kind::length).number.u, std::nullopt);
}

TEST(ReadBand, ReadsTolerances) {
  const auto band = [](std::string_view text, Kind kind) { return std::get<Band>(read_band(text, kind)); };
  EXPECT_NEAR(band("0 deg ± 0.25 deg", Kind::angle).low_si, -0.25 * deg, 1e-15);
  EXPECT_NEAR(band("0 deg ± 0.25 deg", Kind::angle).high_si, 0.25 * deg, 1e-15);
  EXPECT_EQ(band("3 mm to 6 mm", Kind::length).low_si, 0.003);
  EXPECT_EQ(band("3 mm to 6 mm", Kind::length).high_si, 0.006);
  EXPECT_EQ(band("3 to 6 mm", Kind::length).low_si, 0.003);
  EXPECT_EQ(band("-1/8 in to 1/8 in", Kind::length).low_si, -0.003175);
  const auto fault = [](std::string_view text) { return std::get<TextError>(read_band(text, Kind::length)).fault; };
  EXPECT_EQ(fault("3 mm"), TextFault::band_missing);
  EXPECT_EQ(fault("6 mm to 3 mm"), TextFault::out_of_range);
  EXPECT_EQ(fault("3 to 6"), TextFault::unit_missing);
  EXPECT_EQ(fault("3-6 mm"), TextFault::ambiguous);
  EXPECT_EQ(fault("3 mm to"), TextFault::trailing_text);
  EXPECT_EQ(fault("3 mm to 6 kg"), TextFault::wrong_kind);
}

TEST(ReadPoint, ReadsThreeLengthsAndOneUnit) {
  const auto p = std::get<WrittenPoint>(read_point("107.48 77.87 269.32 mm"));
  EXPECT_EQ(p.x_si, 0.10748);
  EXPECT_EQ(p.y_si, 0.07787);
  EXPECT_EQ(p.z_si, 0.26932);
  EXPECT_FALSE(p.u_si);
  const auto q = std::get<WrittenPoint>(read_point("-4 1/2 0 23-5/8 in ± 2 mm"));
  EXPECT_EQ(q.x_si, -0.1143);
  EXPECT_EQ(q.z_si, 0.600075);
  EXPECT_DOUBLE_EQ(*q.u_si, 0.002);
  const auto fault = [](std::string_view text) { return std::get<TextError>(read_point(text)).fault; };
  EXPECT_EQ(fault("1 2 3"), TextFault::unit_missing);
  EXPECT_EQ(fault("1 2 mm"), TextFault::not_a_number);
  EXPECT_EQ(fault("1 2 3 4 mm"), TextFault::not_a_number);
  EXPECT_EQ(fault("1 2 3 deg"), TextFault::wrong_kind);
  EXPECT_EQ(fault("1,5 2 3 mm"), TextFault::decimal_sign);
}

TEST(Print, EchoesBothSystems) {
  const auto show = [](std::string_view text, Kind kind, const PrintStyle& style = {}) {
    return print(read(text, kind).number, style);
  };
  EXPECT_EQ(show("595.3 mm", Kind::length), "595.3 mm (23 7/16 in)");
  EXPECT_EQ(show("23 5/8 in", Kind::length), "600.1 mm (23 5/8 in)");
  EXPECT_EQ(show("23 5/8 in", Kind::length, {.systems = Systems::inch}), "23 5/8 in");
  EXPECT_EQ(show("-7/16 in", Kind::length, {.systems = Systems::inch}), "-7/16 in");
  EXPECT_EQ(show("23 5/8 in", Kind::length, {.systems = Systems::metric}), "600.1 mm");
  EXPECT_EQ(show("595.3 mm", Kind::length, {.decimal_sign = ','}), "595,3 mm (23 7/16 in)");
  EXPECT_EQ(show("-0.01 mm", Kind::length), "0 mm (0 in)");
  EXPECT_EQ(show("0.7 mm", Kind::length), "0.7 mm");
  EXPECT_EQ(show("0.8 mm", Kind::length), "0.8 mm (1/16 in)");
  EXPECT_EQ(show("2999.96 mm", Kind::length), "3 m (118 1/8 in)");
  EXPECT_EQ(show("40 lbf·ft", Kind::torque), "54.2 N·m (40 lbf·ft)");
  EXPECT_EQ(show("52 N·m", Kind::torque), "52 N·m (38.4 lbf·ft)");
  EXPECT_EQ(show("6 N·m", Kind::torque), "6 N·m (53.1 lbf·in)");
  EXPECT_EQ(show("0.35 deg ± 0.04 deg", Kind::angle), "0.350 deg ± 0.040 deg");
  EXPECT_EQ(show("812 mm ± 3 mm", Kind::length), "812.0 mm ± 3.0 mm (31 15/16 in)");
  EXPECT_EQ(show("812 mm ± 3 mm", Kind::length, {.uncertainty = false}), "812 mm (31 15/16 in)");
  EXPECT_EQ(show("812 mm ± 123 mm", Kind::length), "810 mm ± 120 mm (31 7/8 in)");
  EXPECT_EQ(show("10 mm ± 9.96 mm", Kind::length), "10 mm ± 10 mm (3/8 in)");
  EXPECT_EQ(show("15 mph", Kind::speed), "24.1 km/h (15 mph)");
  EXPECT_EQ(show("25 psi", Kind::pressure), "172 kPa (24.9 psi)");
  EXPECT_EQ(show("640 MPa", Kind::pressure), "640 MPa (92800 psi)");
  EXPECT_EQ(show("20 °C", Kind::temperature), "20 °C (68 °F)");
  EXPECT_EQ(show("1000 lb", Kind::mass), "453.6 kg (1000 lb)");
  EXPECT_EQ(show("5 hp", Kind::power), "3.73 kW (5 hp)");
  EXPECT_EQ(show("12.5", Kind::money), "12.50");
  EXPECT_EQ(show("0.75 turn", Kind::turns), "0.75 turn");
  EXPECT_EQ(show("1.5 mm/turn", Kind::pitch), "1.5 mm/turn");
}

}  // namespace
}  // namespace trammel
