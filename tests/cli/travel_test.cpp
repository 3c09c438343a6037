// `trammel travel --json` on a published axle: the IAVSD road-vehicle benchmark front suspension (Frik, Leister &
// Schwartz 1993, Vehicle System Dynamics 22, 215-253), as a cart file like any other, end to end.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/run.h"

namespace trammel::test {
namespace {

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> all;
  std::stringstream in(line);
  for (std::string cell; std::getline(in, cell, ',');) all.push_back(cell);
  return all;
}

// Angles are as published to seven digits; positions, camber and toe derived from them. The benchmark's frame has
// x = 970 mm at the axle and the ground at z = -570 mm; the cart file is shifted so, which changes no angle.
TEST(TravelCommand, reproduces_the_published_curves) {
  std::ifstream rows(TRAMMEL_SOURCE_DIR "/tests/data/curves_iavsd_benchmark_front.csv");
  std::string line;
  std::getline(rows, line);
  double worst_angle = 0.0, worst_place = 0.0;
  int count = 0;
  while (std::getline(rows, line)) {
    const auto c = cells(line);
    const double rack = std::stod(c[6]), rise = std::stod(c[22]), camber = std::stod(c[23]), toe = std::stod(c[24]);
    std::ostringstream arguments;
    arguments.precision(12);
    // Positive rack is inward on this, the left side: towards -y.
    arguments << "travel tests/cases/carts/iavsd-front.toml --rise=" << rise << "mm --rack=" << -rack << "mm --json";
    const auto pose = nlohmann::json::parse(run(arguments.str()).out)["poses"][0]["left"];
    worst_angle = std::max({worst_angle, std::abs(pose["camber_deg"].get<double>() - camber),
                            std::abs(pose["toe_deg"].get<double>() - toe)});
    const auto lower = pose["points"]["lower_arm.ball_joint"];
    worst_place = std::max(worst_place, std::abs(1e3 * lower[1].get<double>() - std::stod(c[11])));
    ++count;
  }
  std::cout << "worst of " << count << " poses: " << worst_angle << " deg, lower ball joint " << worst_place << " mm\n";
  EXPECT_GT(count, 15);
  EXPECT_LT(worst_angle, 2e-5 * 180.0 / M_PI);  // rise is printed to a micrometre, angles to 1e-5 deg
  EXPECT_LT(worst_place, 2e-3);
}

}  // namespace
}  // namespace trammel::test
