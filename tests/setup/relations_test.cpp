// The exact relations against published and derived rows, and the trade's own check values.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

#include "setup/cart.h"

namespace trammel::setup {
namespace {

// The row of tests/data/geometry_worked_examples.csv, and the number after a key in it.
std::string row(const std::string& id) {
  std::ifstream file(TRAMMEL_SOURCE_DIR "/tests/data/geometry_worked_examples.csv");
  for (std::string line; std::getline(file, line);)
    if (line.rfind(id + ",", 0) == 0) return line;
  ADD_FAILURE() << "no row " << id;
  return {};
}

double after(const std::string& text, const std::string& key) {
  const auto at = text.find(key);
  if (at == std::string::npos) ADD_FAILURE() << key << " is not in " << text;
  return at == std::string::npos ? 0.0 : std::strtod(text.c_str() + at + key.size(), nullptr);
}

// TOE-1: a shop-note page on checking toe, as published: D sin(toe).
TEST(Relations, Toe1) {
  const std::string r = row("TOE-1");
  const Length d = after(r, "diameter ") * inch;
  const Length x = toe_length(after(r, ", toe ") * degree, d);
  const double error = x.in(inch)-after(r, "sin(toe)=");
  EXPECT_NEAR(error, 0.0, 1e-6);
  std::cout << "worst error TOE-1: " << std::abs(error) << " in (as published)\n";
}

// CAMBER-GAP: derived; atan(gap/height) with rectangular half-widths, GUM 4.3.7.
TEST(Relations, CamberGap) {
  const std::string r = row("CAMBER-GAP");
  const double root3 = std::sqrt(3.0);
  const SquareGap s{after(r, "gap ") * mm, GapAt::bottom, after(r, ", height ") * mm};
  const Estimate<Angle> c = camber_of(s, 0.5 * mm / root3, 1.0 * mm / root3);
  const double value = std::abs(c.value.in(degree)-after(r, "rectangular)\",")),
               u = std::abs(c.u.in(degree)-after(r, "; u="));
  EXPECT_LT(value, 1e-5);
  EXPECT_LT(u, 1e-5);
  std::cout << "worst error CAMBER-GAP: " << value << " deg, u " << u << " deg (derived)\n";
}

// Common practice, no source: a gap at the top against a standing square is negative camber; total toe-in of an eighth
// to a quarter of an inch at the tyre.
TEST(Relations, Trade) {
  EXPECT_LT(camber_of({3.5 * mm, GapAt::top, 280.0 * mm}).si(), 0.0);
  EXPECT_GT(camber_of({1.0 * mm, GapAt::bottom, 280.0 * mm}).si(), 0.0);
  const AlignmentTask s = two_arm_cart();
  EXPECT_NEAR(s.tolerance.total_toe->low.in(inch), 1.0 / 8.0, 0.01);
  EXPECT_NEAR(s.tolerance.total_toe->high.in(inch), 1.0 / 4.0, 0.02);

  // The tape an eighth longer behind than ahead is toe-in.
  Reading r;
  r.toe_front = 33.5 * inch;
  r.toe_rear = 33.625 * inch;
  Belief b(s);
  for (int i = 0; i < 200; ++i) b.condition(r);
  EXPECT_NEAR(b.state().total_toe.value.in(inch), 0.125, 0.002);
}

// Law 1 of wheel_angles.h.
TEST(Relations, RoundTrip) {
  double worst = 0.0;
  for (double c = -6.0; c <= 6.0; c += 0.25) {
    worst = std::max(worst, std::abs(camber_of(gap_of(c * degree, 280.0 * mm)).in(degree)-c));
    worst = std::max(worst, std::abs(toe_angle(toe_length(c * degree, 508.0 * mm), 508.0 * mm).in(degree)-c));
  }
  EXPECT_LT(worst, 1e-12);
  std::cout << "worst error, round trips: " << worst << " deg\n";
}

// Signs of strings, the steering wheel and the floor.
TEST(Relations, Signs) {
  AlignmentTask s = two_arm_cart();
  // Left wheel toed in, right one straight: difference positive; rolling straight the wheel stands to the left.
  Belief b(s);
  b.condition(exact_reading(s, {{}, {}, 0.5 * degree, {}}));
  EXPECT_NEAR(b.state().toe_difference.value.in(mm), 0.5 * toe_length(0.5 * degree, s.toe_diameter).in(mm), 0.02);
  EXPECT_NEAR(b.state().steering_wheel_angle.value.in(degree), 14.0 * 0.25, 0.1);

  // Straight wheels read with the steering wheel held 14 deg to the left: left strings toe out by one degree.
  const auto string = [](Angle toe) { return StringReading{60.0 * mm + toe_length(toe, 254.0 * mm), 60.0 * mm}; };
  Reading held;
  held.left_string = string(-1.0 * degree);
  held.right_string = string(1.0 * degree);
  held.string_diameter = 254.0 * mm;
  held.steering_wheel_angle = 14.0 * degree;
  Belief h(s);
  h.condition(held);
  EXPECT_NEAR(h.state().toe_difference.value.in(mm), 0.0, 0.6);

  // A floor whose left side is higher: a gauge reads the left low and the right high.
  Reading floor;
  floor.left_camber_gauge = -0.5 * degree;
  floor.right_camber_gauge = 0.5 * degree;
  floor.floor_slope = {0.5 * degree, 0.01 * degree};
  Belief f(s);
  f.condition(floor);
  EXPECT_NEAR(f.state().left_camber.value.in(degree), 0.0, 0.01);
  EXPECT_NEAR(f.state().right_camber.value.in(degree), 0.0, 0.01);
}

}  // namespace
}  // namespace trammel::setup
