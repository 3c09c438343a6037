// The body of every lanes_*.cpp: one block of as many lanes as the scalar has, through a row of poses. Private.
//
// Only a source file that names its scalar in an unnamed namespace may include this: nothing that is made here may be
// seen by another file, which might run on a processor without these instructions.
#pragma once

#include "suspension/geometry/lanes.h"
#include "suspension/geometry/wheel_geometry.h"
#include "suspension/linkage/corner_linkage.h"

namespace trammel::suspension {

template <class Lanes>
void run_block(const Block& b) {
  constexpr int width = Lanes::width;
  // The layout with this block's coordinates.
  CornerPoints<Lanes> points;
  points.guide = b.layout->guide;
  points.steered = b.layout->steered;
  points.camber = AngleOf<Lanes>::from_si(Lanes(b.layout->camber.si()));
  points.toe = AngleOf<Lanes>::from_si(Lanes(b.layout->toe.si()));
  if (b.layout->spring) points.spring.emplace().on = b.layout->spring->on;
  if (b.layout->damper) points.damper.emplace().on = b.layout->damper->on;
  const double* next = b.coordinates;
  each_point(points, [&](CornerPoint, Vector3<Lanes>& at) {
    for (Lanes* x : {&at.x, &at.y, &at.z}) {
      *x = Lanes::load(next);
      next += width;
    }
  });
  const CornerLinkage<Lanes> linkage(points);
  const LengthOf<Lanes> radius = LengthOf<Lanes>::from_si(Lanes(b.radius));

  for (int i = 0; i < b.rows; ++i) {
    CornerPose<Lanes> pose;
    const auto rise = LengthOf<Lanes>::from_si(Lanes::load(b.rises + i * width));
    const auto rack = LengthOf<Lanes>::from_si(Lanes::load(b.racks + i * width));
    b.good[i] = linkage.quick_pose(rise, rack, pose);
    if (!b.good[i]) continue;
    const WheelGeometry<Lanes> g = wheel_geometry(pose.wheel(), pose.per_rise, radius, pose.spring_per_rise);
    double* out = b.out + static_cast<long>(i) * outputs_a_row * width;
    const Lanes all[outputs_a_row] = {g.camber.si(),
                                      g.toe.si(),
                                      g.caster.si(),
                                      g.steering_axis_inclination.si(),
                                      g.steering_axis_offset_at_ground.si(),
                                      g.caster_trail.si(),
                                      g.half_track.si(),
                                      g.roll_centre_height.si(),
                                      g.camber_rate.si(),
                                      g.toe_rate.si(),
                                      g.motion_ratio};
    for (int k = 0; k < outputs_a_row; ++k) all[k].store(out + k * width);
  }
}

}  // namespace trammel::suspension
