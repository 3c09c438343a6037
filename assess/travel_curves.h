// What is read of an axle over its travel, as it stands and as it stood, and the difference, each with its uncertainty.
//
// Rise is each cart's own, from where it stands at rest, the steering straight. Camber and toe at rest are those with
// which the points were taken.
// Model: each coordinate of each point carries its standard uncertainty u, independent of the others; first-order
// propagation (JCGM 100:2008 5.1.2), slopes by central differences over u / 10. A point that the kits left where it was
// is one and the same in both carts, so its share of the difference is that of the difference of both slopes.
// Error: 1e-3 of the spread, and curvature over u. Ignores: correlation of points that were taped from one datum.
// Law 1: without a change the difference is nought, and so is its uncertainty.
#pragma once

#include <string>
#include <vector>

#include "job/cart.h"
#include "measure/kind.h"

namespace trammel {

struct CurvePoint {
  Length rise{};
  double value = 0.0, u = 0.0;  // SI
};

struct TravelCurve {
  std::string name;  // "camber", "toe", "half-track" …, of curve_names()
  std::string side;  // "left"; "right" where it is not the left one's mirror image; "axle" of one body
  Kind kind = Kind::angle;
  std::vector<CurvePoint> now, stock, difference;  // the later two empty where the stock cart is not known
};

// Every curve that there may be, in their order.
std::vector<std::string> curve_names();
// Those that this axle has; none where it is not known how it moves.
std::vector<TravelCurve> travel_curves(const Cart& stock, const Cart& now, const std::string& axle);

}  // namespace trammel
