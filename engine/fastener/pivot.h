// A pivot bolt under the loads of the road.
//
// Load cases of one wheel, W its static load and A its axle's, S the static stability factor
// (reference/pivot_load_cases):
//   bump     vertical 3 W
//   braking  vertical 1.5 W, along the cart 1.1 W
//   kerb     vertical 2 W (the wheel carries its axle alone), across the cart 1.75 S A
// The kit says which share of the wheel's load one bolt takes (1 where it does not: the whole), how the bolt lies, and
// through how many planes it is sheared. Across the bolt act the two loads normal to it, along it the third.
// While friction of the clamped faces holds, 0.2 F for each plane (EN 1090-2 class D, from memory), the bolt is not
// sheared. Beyond that it bears the load itself:
//   Rs = across/(n As 0.577 Re), Rt = (F + along)/(As Re), Rt^2 + Rs^3 <= 1      (shear.h; NASA TM-106943 eq. 56)
// F is the least of the preload window for friction, the nominal for tension. Bearing of the parts: across/(n d t)
// below yield; tearing out at the edge: two planes, 2 t (e - h/2) 0.577 s each part (eq. 69-73). Ignores: bending of a
// long pin, fatigue, wear, lever arms (they belong into the share).
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "fastener/preload.h"
#include "fastener/strength.h"
#include "reference/basis.h"

namespace trammel::fastener {

enum class PivotCase { bump, braking, kerb };
inline constexpr PivotCase pivot_cases[] = {PivotCase::bump, PivotCase::braking, PivotCase::kerb};
std::string_view name(PivotCase load_case);

struct WheelLoads {
  Force wheel, axle;       // static, fully laden
  double stability = 1.0;  // half the track over the height of the centre of gravity
};
struct RoadLoad {
  Force vertical, along_cart, across_cart;
  std::string_view source;
  reference::Basis basis{};
};
RoadLoad road_load(PivotCase load_case, const WheelLoads& wheel);

enum class PivotLies { across_cart, along_cart, upright };
struct BoltLoad {
  Force across, along;  // the bolt
};
// One bolt's part of a wheel's load.
BoltLoad bolt_load(const RoadLoad& road, PivotLies lies, double share);

struct PivotAnswer {
  Force friction;  // holds without shearing the bolt
  bool slips = false;
  double shear = 0.0, tension = 0.0;  // Rs, Rt
  double together = 0.0;              // Rt^2 + Rs^3 where it slips, Rt^2 where it does not
};
PivotAnswer pivot_answer(const BoltLoad& load, int planes, const Thread& thread, const Strength& bolt,
                         const PreloadWindow& preload);

// Force at which a part's hole edge tears out; `edge` from the hole's middle to the part's edge.
Force tear_out(Length thickness, Length edge, Length hole, Pressure yield);

}  // namespace trammel::fastener
