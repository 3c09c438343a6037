#include "fastener/wheel.h"

#include <cassert>

namespace trammel::fastener {

std::vector<int> tightening_order(int studs) {
  assert(studs >= 1);
  std::vector<int> order;
  if (studs % 2 == 0) {
    // Even: each nut, then the one straight across.
    for (int i = 0; i < studs / 2; ++i) {
      order.push_back(i);
      order.push_back(i + studs / 2);
    }
  } else {
    // Odd: the star's stroke, half a circle on each time.
    const int stroke = studs / 2;
    for (int i = 0; i < studs; ++i) order.push_back(i * stroke % studs);
  }
  return order;
}

std::vector<Torque> pass_torques(Torque final_torque, int passes) {
  assert(passes >= 1);
  std::vector<Torque> torques;
  for (int i = 1; i <= passes; ++i) torques.push_back(static_cast<double>(i) / passes * final_torque);
  return torques;
}

bool passes_rise(const std::vector<Torque>& passes) {
  for (std::size_t i = 1; i < passes.size(); ++i)
    if (passes[i] <= passes[i - 1]) return false;
  return true;
}

double least_turns(const Thread& stud) { return stud.d / stud.pitch; }

}  // namespace trammel::fastener
