#include "setup/study_corner.h"

namespace trammel::setup {

suspension::CornerPoints<double> study_corner() {
  suspension::CornerPoints<double> p;
  p.lower_arm = {{0.107, 0.078, 0.269}, {-0.096, 0.081, 0.265}, {0.005, 0.361, 0.219}};
  p.upper_arm = {{0.095, 0.087, 0.435}, {-0.084, 0.091, 0.429}, {-0.011, 0.338, 0.390}};
  p.rack_end = {0.120, 0.085, 0.323};
  p.knuckle_end = {0.105, 0.362, 0.275};
  p.hub_centre = {0.0, 0.459, 0.300};
  return p;
}

suspension::CornerPoints<double> disturbed(suspension::CornerPoints<double> p, Length sd, Generator& g) {
  if (!(sd.si() > 0.0)) return p;
  for (Vector3<double>* at :
       {&p.lower_arm.front_bush, &p.lower_arm.rear_bush, &p.lower_arm.ball_joint, &p.upper_arm.front_bush,
        &p.upper_arm.rear_bush, &p.upper_arm.ball_joint, &p.rack_end, &p.knuckle_end}) {
    at->x += sd.si() * normal(g);
    at->y += sd.si() * normal(g);
    at->z += sd.si() * normal(g);
  }
  return p;
}

}  // namespace trammel::setup
