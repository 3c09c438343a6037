#include "fastener/pivot.h"

#include <algorithm>

#include "fastener/shear.h"
#include "reference/pivot_load_cases.h"

namespace trammel::fastener {
namespace {

constexpr double slip_factor = 0.2;  // EN 1090-2 class D, from memory

static_assert(reference::pivot_load_cases.size() == 3);
static_assert(reference::pivot_load_cases[0].name == "bump" && reference::pivot_load_cases[2].name == "kerb");

const reference::PivotCaseRow& row(PivotCase c) { return reference::pivot_load_cases[static_cast<std::size_t>(c)]; }

}  // namespace

std::string_view name(PivotCase c) { return row(c).name; }

RoadLoad road_load(PivotCase c, const WheelLoads& wheel) {
  const auto& r = row(c);
  return {r.vertical * wheel.wheel, r.along * wheel.wheel, r.side * wheel.stability * wheel.axle, r.source, r.basis};
}

BoltLoad bolt_load(const RoadLoad& road, PivotLies lies, double share) {
  switch (lies) {
    case PivotLies::across_cart:
      return {share * hypot(road.vertical, road.along_cart), share * road.across_cart};
    case PivotLies::along_cart:
      return {share * hypot(road.vertical, road.across_cart), share * road.along_cart};
    case PivotLies::upright:
      return {share * hypot(road.along_cart, road.across_cart), share * road.vertical};
  }
  return {};
}

PivotAnswer pivot_answer(const BoltLoad& load, int planes, const Thread& thread, const Strength& bolt,
                         const PreloadWindow& preload) {
  PivotAnswer a;
  const Area area = stress_area(thread);
  const double n = static_cast<double>(planes);
  a.friction = n * slip_factor * std::max(preload.low - load.along, Force{});
  a.slips = load.across > a.friction;
  a.tension = (preload.nominal + load.along) / (area * bolt.yield);
  a.shear = a.slips ? load.across / (n * (area * shear_yield(bolt.yield))) : 0.0;
  a.together = tension_with_shear(a.tension, a.shear);
  return a;
}

Force tear_out(Length thickness, Length edge, Length hole, Pressure yield) {
  return 2.0 * shear_yield(yield) * (thickness * std::max(edge - 0.5 * hole, Length{}));
}

}  // namespace trammel::fastener
