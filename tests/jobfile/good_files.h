// Whole files for tests. All numbers are our own invention.
#pragma once

#include <string>

namespace trammel {

// The input example of the file format: the front axle alone.
inline const std::string front_cart = R"(format = "trammel cart 1"
name = "invented"
wheelbase = "1855 mm"
[front]
layout = "double wishbone"
loaded_radius = "300 mm"
[front.left.lower_arm]       # [front.right…] only where the cart is not its own mirror image
front_bush = "107.48 77.87 269.32 mm"
rear_bush  = "-95.94 80.91 265.17 mm"
ball_joint = "5.12 361.08 219.11 mm"
[front.left.upper_arm]
front_bush = "95.21 86.68 434.82 mm"
rear_bush  = "-83.51 90.97 429.41 mm"
ball_joint = "-10.88 338.42 389.74 mm"
adjuster   = { kind = "both-hand sleeve", thread = "M14x1.5", flats = 6 }
[front.left.tie_rod]
rack_end    = "119.93 85.13 323.25 mm"
knuckle_end = "105.12 361.80 275.03 mm"
adjuster    = { kind = "sleeve and rod end", thread = "M10x1.5", flats = 6 }
[front.left.hub]             # the wheel as the points above were taken
centre = "0 459.48 299.99 mm"
camber = "-0.356 deg"
toe    = "0.007 deg"
[front.left.spring]
chassis = "-3.72 150 480 mm"
lower_arm = "0 250 240 mm"
)";

inline const std::string rear_axle = R"([rear]
layout = "live axle"
located_by = "two trailing arms and track bar"
axle_centre = "-1855 0 280 mm"
half_track = { value = "480 mm ± 2 mm", basis = "measured" }
[[rear.link]]
name = "left arm"
chassis = "-1300 350 300 mm"
axle = "-1800 350 250 mm"
[[rear.link]]
name = "right arm"
chassis = "-1300 -350 300 mm"
axle = "-1800 -350 250 mm"
[[rear.link]]
name = "track bar"
chassis = "-1900 380 320 mm"
axle = "-1900 -380 310 mm"
[[seat]]
name = "driver"
at = "-600 250 700 mm"
)";

inline const std::string small_kit = R"(format = "trammel kit 1"
name = "invented lift"
[[change]]
set = "front.left.lower_arm.ball_joint"
to = "8 398 176 mm"
mirror = true
[[change]]
move = "rear.link.track bar.axle"
by = "0 0 -30 mm"
[[fastener]]
id = "F3"
at = "steering arm to knuckle, {left,right}.{front,rear}"
stack = "bolt M10x40 8.8 zinc, washer, arm 10 mm, knuckle thread 18 mm steel"
across_flats = "16 mm"
torque = "50 N·m"
passes = ["20 N·m", "35 N·m", "50 N·m"]
surface = "dry zinc"
least_state = { on_wheels = "final" }
[[step]]
id = "fit-arms"
do = "Bolt the steering arms to the knuckles"
sides = "each"
needs = ["front on stands", "knuckle fitted"]
tighten = ["F3 final"]
undoes = ["toe", "camber"]
minutes = "20 min"
)";

inline const std::string small_job = R"(# A whole job.
format = "trammel job 1"
name = "invented"
date = 2026-05-11
cart = "cart.toml"
kits = ["kits/lift.toml"]
[site]
slope = "18 %"
[alignment]
accept_at = 0.9
[alignment.tolerance]
camber = "0 deg ± 0.25 deg"
total_toe = "3 mm to 6 mm"
[alignment.instruments]
turn_error = "0.02 turn"
[[reading]]
left_camber_gap  = "3.5 mm at top over 280 mm"    # a square on the level floor
right_camber_gap = "1 mm at bottom over 280 mm"
toe_front = "33 9/16 in"
toe_rear  = "34 1/16 in"
toe_diameter = "20 in"
steering_wheel_angle = "0 deg"
[[adjustment]]
left_upper_arm = "+4 flats"
left_tie_rod = "-0.5 turn"
[[reading]]
left_camber = "-0.1 deg ± 0.05 deg"
[[torque]]
fastener = "F3 left front"
torque = "50 N·m"
[[signed]]
step = "fit-arms"
side = "left"
who = "T. Ames"
when = 2026-05-11T10:30:00
)";

}  // namespace trammel
