#include "sheets/invented_clearance.h"

#include <algorithm>
#include <cmath>

namespace trammel::sheets {
namespace {

using namespace units;

GapMap map_of(const char* side) {
  GapMap map;
  map.side = side;
  for (int i = 0; i <= 20; ++i) map.rises.push_back((-50.0 + 5.0 * i) * mm);
  for (int j = 0; j <= 24; ++j) map.steers.push_back((-30.0 + 2.5 * j) * degree);
  for (const Length rise : map.rises)
    for (const Angle steer : map.steers) {
      const double gap = 28.0 - 0.25 * std::abs(rise.in(units::mm)) - 0.7 * std::abs(steer.in(degree));
      map.cells.push_back({gap * units::mm, 0});
    }
  map.features = {"wing lip"};
  return map;
}

}  // namespace

TrimResult invented_trim(Length half, Length cut_half, Length deep) {
  TrimResult trim;
  trim.curve = "wing lip", trim.side = "left", trim.axle = "front";
  trim.kind = TrimResult::Kind::cut;
  trim.deepest = deep, trim.u = 1.5 * mm, trim.length = 2.0 * cut_half;
  const double end = half.in(units::mm), corner = cut_half.in(units::mm);
  for (double x = -end; x <= end + 0.5; x += 5.0) {
    const auto put = [&](double depth) {
      trim.lip.push_back({x * mm, 0.0 * mm});
      trim.cut.push_back({x * mm, depth * mm});
    };
    const bool at_corner = std::abs(std::abs(x) - corner) < 0.5;
    if (at_corner && x < 0) put(0.0);
    put(std::abs(x) < corner + 0.5 ? deep.in(units::mm) : 0.0);
    if (at_corner && x > 0) put(0.0);
  }
  trim.keep_outs = {
      {"lamp wiring",
       {{-20.0 * mm, 110.0 * mm}, {20.0 * mm, 110.0 * mm}, {20.0 * mm, 130.0 * mm}, {-20.0 * mm, 130.0 * mm}},
       9.0 * mm,
       false}};
  return trim;
}

void add_invented_clearance(Assessment& a) {
  for (const char* axle : {"front", "rear"})
    for (int i = 0; i < 5; ++i)
      for (const char* side : {"left", "right"}) {
        GapResult gap;
        gap.point = i == 0 ? "wing lip" : "bracket of the front footwell, no. " + std::to_string(i);
        gap.side = side, gap.pose = i % 2 ? "left-lock" : "straight", gap.axle = axle;
        gap.before = (12.0 + i) * mm, gap.after = (-3.0 + 9.0 * i) * mm, gap.u = 3.8 * mm;
        gap.rise = (40.0 - 30.0 * i) * mm;
        a.gaps.push_back(gap);
      }
  AxleClearance front;
  front.axle = "front", front.wanted = 15.0 * mm, front.steers = true;
  front.tyre_radius = 254.0 * mm, front.tyre_width = 229.0 * mm, front.shoulder = 30.5 * mm;
  front.growth = 2.5 * mm, front.skin = 2.0 * mm;
  front.maps = {map_of("left"), map_of("right")};
  using Kind = SteerStopResult::Kind;
  front.stops = {{"left", Kind::at_an_angle, 21.0 * degree, 6.2 * degree, 0.7, "coil spring"},
                 {"right", Kind::no_help, {}, {}, 1, "wing lip"}};
  front.largest_diameter = 516.0 * mm, front.widest = 229.0 * mm;
  front.choices = {{"18x8.5-8", true, 457.0 * mm, 216.0 * mm, 28.9 * mm},
                   {"22x10-10", true, 559.0 * mm, 254.0 * mm, -11.5 * mm}};
  front.trims = {invented_trim(60.0 * mm, 40.0 * mm, 90.0 * mm)};
  AxleClearance rear = front;
  rear.axle = "rear", rear.steers = false, rear.maps.clear(), rear.stops.clear();
  rear.trims = {invented_trim(250.0 * mm, 120.0 * mm, 330.0 * mm)};
  rear.trims[0].axle = "rear", rear.trims[0].side = "right";
  a.clearance = {front, rear};
}

}  // namespace trammel::sheets
