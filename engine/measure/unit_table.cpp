#include "measure/unit_table.h"

#include <numbers>

namespace trammel::reading {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double lbf = units::lbf.si();

// Factors: NIST SP 811 (2008) B.8; the pound, the inch and standard gravity are exact by definition.
// `hp` is the horsepower of 550 ft·lbf/s; `kgf` is 1 kg at standard gravity.
constexpr UnitRow rows[] = {
    {Kind::length, "mm", 1, 1000, 0, false, "mm|millimetre|millimetres|millimeter|millimeters"},
    {Kind::length, "cm", 1, 100, 0, false, "cm|centimetre|centimetres|centimeter|centimeters"},
    {Kind::length, "m", 1, 1, 0, false, "m|metre|metres|meter|meters"},
    {Kind::length, "in", 127, 5000, 0, true, "in|in.|\"|''|inch|inches"},
    {Kind::length, "ft", 381, 1250, 0, true, "ft|ft.|'|foot|feet", "in", 12},
    {Kind::length, "km", 1000, 1, 0, false, "km|kilometre|kilometres|kilometer|kilometers"},
    {Kind::length, "mi", 201168, 125, 0, true, "mi|mile|miles"},

    {Kind::area, "mm²", 1, 1e6, 0, false, "mm2|mm^2"},
    {Kind::area, "cm²", 1, 1e4, 0, false, "cm2|cm^2"},
    {Kind::area, "m²", 1, 1, 0, false, "m2|m^2"},
    {Kind::area, "in²", 16129, 25e6, 0, true, "in2|in^2|sq in|sq. in."},
    {Kind::area, "ft²", 145161, 1562500, 0, true, "ft2|ft^2|sq ft|sq. ft."},

    {Kind::angle, "deg", pi, 180, 0, true, "deg|°|degree|degrees", "arcmin", 60},
    {Kind::angle, "arcmin", pi, 10800, 0, true, "arcmin|'|min of arc|minute of arc|minutes of arc", "arcsec", 60},
    {Kind::angle, "arcsec", pi, 648000, 0, true, "arcsec|\"|''|sec of arc|second of arc|seconds of arc"},
    {Kind::angle, "rad", 1, 1, 0, false, "rad|radian|radians"},
    {Kind::angle, "mrad", 1, 1000, 0, false, "mrad"},

    {Kind::turns, "turn", 1, 1, 0, true, "turn|turns"},
    {Kind::turns, "flats", 1, 1, 0, true, "flats|flat"},  // the turn's number of flats comes with the rules

    {Kind::mass, "kg", 1, 1, 0, false, "kg|kilogram|kilograms"},
    {Kind::mass, "lb", 45359237, 1e8, 0, true, "lb|lb.|lbs|lbs.|pound|pounds"},
    {Kind::mass, "g", 1, 1000, 0, false, "g|gram|grams"},
    {Kind::mass, "t", 1000, 1, 0, false, "t|tonne|tonnes"},

    {Kind::force, "N", 1, 1, 0, false, "N|newton|newtons"},
    {Kind::force, "kN", 1000, 1, 0, false, "kN"},
    {Kind::force, "lbf", lbf, 1, 0, true, "lbf"},
    {Kind::force, "kgf", 980665, 1e5, 0, false, "kgf"},

    {Kind::torque, "N·m", 1, 1, 0, false, "N·m|Nm"},
    {Kind::torque, "lbf·ft", lbf * 381, 1250, 0, true,
     "lbf·ft|ft·lbf|ft·lb|ft·lbs|lb·ft|lbs·ft|foot·pound|foot·pounds|pound·feet|pound·foot"},
    {Kind::torque, "lbf·in", lbf * 127, 5000, 0, true,
     "lbf·in|in·lbf|in·lb|in·lbs|lb·in|lbs·in|inch·pound|inch·pounds|pound·inches|pound·inch"},
    {Kind::torque, "kgf·m", 980665, 1e5, 0, false, "kgf·m"},
    {Kind::torque, "kN·m", 1000, 1, 0, false, "kN·m|kNm"},

    {Kind::speed, "km/h", 5, 18, 0, false, "km/h|kph|kmh"},
    {Kind::speed, "mph", 1397, 3125, 0, true, "mph|mi/h"},
    {Kind::speed, "m/s", 1, 1, 0, false, "m/s"},

    {Kind::pressure, "kPa", 1000, 1, 0, false, "kPa"},
    {Kind::pressure, "psi", lbf * 25e6, 16129, 0, true, "psi|lbf/in2|lb/in2|lbf/sq in"},
    {Kind::pressure, "bar", 1e5, 1, 0, false, "bar"},
    {Kind::pressure, "MPa", 1e6, 1, 0, false, "MPa|N/mm2|N/mm^2"},
    {Kind::pressure, "Pa", 1, 1, 0, false, "Pa"},

    {Kind::power, "kW", 1000, 1, 0, false, "kW"},
    {Kind::power, "hp", lbf * 550 * 381, 1250, 0, true, "hp|horsepower"},
    {Kind::power, "W", 1, 1, 0, false, "W|watt|watts"},

    {Kind::temperature, "°C", 1, 1, 273.15, false, "°C|C|deg C|degC"},
    {Kind::temperature, "°F", 5, 9, 459.67 * 5 / 9, false, "°F|F|deg F|degF"},
    {Kind::temperature, "K", 1, 1, 0, false, "K"},

    {Kind::time, "s", 1, 1, 0, false, "s|sec|second|seconds"},
    {Kind::time, "min", 60, 1, 0, false, "min|minute|minutes", "s", 60},
    {Kind::time, "h", 3600, 1, 0, false, "h|hr|hrs|hour|hours", "min", 60},

    {Kind::stiffness, "N/mm", 1000, 1, 0, false, "N/mm"},
    {Kind::stiffness, "lbf/in", lbf * 5000, 127, 0, true, "lbf/in|lb/in|lbs/in"},
    {Kind::stiffness, "N/m", 1, 1, 0, false, "N/m"},
    {Kind::stiffness, "kN/m", 1000, 1, 0, false, "kN/m"},

    {Kind::ratio, "", 1, 1, 0, false, ""},
    {Kind::ratio, "%", 1, 100, 0, false, "%|percent|per cent"},
    {Kind::share, "%", 1, 100, 0, false, "%|percent|per cent"},
    {Kind::share, "", 1, 1, 0, false, ""},

    {Kind::money, "", 1, 1, 0, false, ""},

    {Kind::pitch, "mm/turn", 1, 1000, 0, false, "mm/turn|mm per turn"},
    {Kind::pitch, "in/turn", 127, 5000, 0, true, "in/turn|in per turn|inch per turn"},
};

constexpr AmbiguousUnit ambiguous[] = {
    {Kind::torque, "lb|lb.|lbs|lbs.|pound|pounds|lbf", "lbf·ft|lbf·in"},
    {Kind::torque, "kg", "kgf·m|N·m"},
    {Kind::mass, "ton|tons", "t|kg|lb"},
    {Kind::force, "lb|lb.|lbs|lbs.|pound|pounds", "lbf|N"},
    {Kind::temperature, "°|deg|degree|degrees", "°C|°F"},
};

}  // namespace

std::span<const UnitRow> unit_table() { return rows; }
std::span<const AmbiguousUnit> ambiguous_units() { return ambiguous; }

const UnitRow* find_unit(Kind kind, std::string_view name) {
  for (const UnitRow& row : rows)
    if (row.kind == kind && row.name == name) return &row;
  return nullptr;
}

}  // namespace trammel::reading
