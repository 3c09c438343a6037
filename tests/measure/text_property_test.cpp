// Laws of text.h on generated values: what is printed reads back, and prints the same again.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>

#include "measure/text.h"

namespace trammel {
namespace {

// Random values run from one seed; RC_PARAMS given from outside overrides it.
[[maybe_unused]] const int seeded = setenv("RC_PARAMS", "seed=811 max_success=500", 0);

constexpr Kind kinds[] = {Kind::length,    Kind::area,  Kind::angle,    Kind::turns, Kind::mass,        Kind::force,
                          Kind::torque,    Kind::speed, Kind::pressure, Kind::power, Kind::temperature, Kind::time,
                          Kind::stiffness, Kind::ratio, Kind::share,    Kind::money, Kind::pitch};

// A value of any size that the trade meets and well beyond, in SI of its kind.
rc::Gen<double> magnitude() {
  return rc::gen::map(rc::gen::pair(rc::gen::inRange(-1'000'000'000, 1'000'000'001), rc::gen::inRange(0, 12)),
                      [](const std::pair<int, int>& p) { return p.first * std::pow(10.0, -p.second); });
}

Number generated(Kind kind) {
  Number n{kind, *magnitude(), std::nullopt};
  if (kind == Kind::temperature) n.si = 100.0 + std::abs(n.si);
  if (*rc::gen::arbitrary<bool>()) n.u = std::abs(*magnitude());
  if (kind == Kind::temperature && n.u) n.u = std::fmod(*n.u, 50.0);
  return n;
}
PrintStyle style() {
  PrintStyle s;
  s.systems = *rc::gen::element(Systems::both, Systems::metric, Systems::inch);
  s.tape_denominator = *rc::gen::element(8, 16, 32, 64);
  s.uncertainty = *rc::gen::arbitrary<bool>();
  s.decimal_sign = *rc::gen::element('.', ',');
  return s;
}

RC_GTEST_PROP(TextLaws, Law1PrintReadPrintIsStable, ()) {
  for (Kind kind : kinds) {
    const Number n = generated(kind);
    const PrintStyle s = style();
    const std::string once = print(n, s);
    const ReadResult r = read_quantity(once, kind, {.decimal_sign = s.decimal_sign});
    if (const auto* e = std::get_if<TextError>(&r)) RC_FAIL(once + " is refused: " + std::to_string(int(e->fault)));
    const std::string again = print(std::get<Written>(r).number, s);
    RC_ASSERT(again == once);
  }
}

// Half of the last place shown, by kind: the value read back is the value printed.
RC_GTEST_PROP(TextLaws, Law1ReadsBackToThePrintedPlace, ()) {
  const double mm = *rc::gen::inRange(-2'999'000, 2'999'000) / 1000.0;
  const Number n{Kind::length, mm / 1000, std::nullopt};
  const auto metric = std::get<Written>(read_quantity(print(n), Kind::length));
  RC_ASSERT(std::abs(metric.number.si - n.si) <= 0.5e-4 + 1e-12);
  const auto inch = std::get<Written>(read_quantity(print(n, {.systems = Systems::inch}), Kind::length));
  RC_ASSERT(std::abs(inch.number.si - n.si) <= 0.0254 / 32 + 1e-12);
}

// Whole inches and a fraction, written in every way, are one exact value, the double nearest to it.
RC_GTEST_PROP(TextLaws, InchFractionsAreExact, ()) {
  const int whole = *rc::gen::inRange(0, 400), power = *rc::gen::inRange(1, 7), den = 1 << power;
  const int num = *rc::gen::inRange(1, den);
  const std::string w = std::to_string(whole), f = std::to_string(num).append("/").append(std::to_string(den));
  // 127/5000 m an inch: both parts are whole, so the quotient is the nearest double.
  const double si = static_cast<double>((std::int64_t{whole} * den + num) * 127) / (std::int64_t{den} * 5000);
  const Fraction exact = *Fraction::make(std::int64_t{whole} * den + num, den);
  const std::string feet = std::to_string(whole / 12), rest = std::to_string(whole % 12);
  const std::string ways[] = {w + " " + f + " in",
                              w + "-" + f + " in",
                              w + " " + f + "\"",
                              feet + "'" + rest + " " + f + "\"",
                              feet + " ft " + rest + "-" + f + " in",
                              feet + "'-" + rest + " " + f + "\""};
  for (const std::string& text : ways) {
    const ReadResult r = read_quantity(text, Kind::length);
    RC_ASSERT(std::holds_alternative<Written>(r));
    RC_ASSERT(std::get<Written>(r).number.si == si);
    RC_ASSERT(std::get<Written>(r).fraction == exact);
    const auto minus = std::get<Written>(read_quantity(std::string("-").append(text), Kind::length));
    RC_ASSERT(minus.number.si == -si);
  }
}

// The two systems say the same: what stands in brackets is the value beside it, to the tape.
RC_GTEST_PROP(TextLaws, Law3BothSystemsAgree, ()) {
  const double mm = *rc::gen::inRange(-2'999'000, 2'999'000) / 1000.0;
  const std::string text = print({Kind::length, mm / 1000, std::nullopt});
  const std::size_t open = text.find(" (");
  RC_ASSERT(open != std::string::npos);
  const auto metric = std::get<Written>(read_quantity(text.substr(0, open), Kind::length));
  const auto inch = std::get<Written>(read_quantity(text.substr(open + 2, text.size() - open - 3), Kind::length));
  RC_ASSERT(std::abs(metric.number.si - inch.number.si) <= 0.0254 / 32 + 1e-12);
}

// Decimals read to the double that the language itself gives.
RC_GTEST_PROP(TextLaws, DecimalsAreTheNearestDouble, ()) {
  const int whole = *rc::gen::inRange(0, 100'000'000), decimals = *rc::gen::inRange(0, 1'000'000);
  std::string part = std::to_string(decimals);
  part.insert(0, 6 - part.size(), '0');
  const std::string text = std::to_string(whole) + "." + part;
  const auto w = std::get<Written>(read_quantity(text, Kind::ratio));
  RC_ASSERT(w.number.si == std::stod(text));
}

// Whatever the bytes, the answer is a value or a fault inside the text.
RC_GTEST_PROP(TextLaws, AnyBytesAreAnswered, (const std::string& noise)) {
  static const char* const pieces[] = {"5", "/", "8", " ", "'", "\"", "in", "mm",
                                       "±", "-", "(", ")", ".", ",",  "°",  "to"};
  std::string text = noise;
  for (int i = *rc::gen::inRange(0, 8); i > 0; --i) text += pieces[*rc::gen::inRange(0, 16)];
  for (Kind kind : kinds) {
    const ReadResult r = read_quantity(text, kind);
    if (const auto* e = std::get_if<TextError>(&r))
      RC_ASSERT(e->at + e->length <= text.size());
    else
      RC_ASSERT(std::isfinite(std::get<Written>(r).number.si));
  }
}

}  // namespace
}  // namespace trammel
