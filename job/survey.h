// Tape distances between points of a cart: what a person wrote while measuring it.
//
// A datum has a known place: marks on floor or frame. A point is to be found. Every coordinate read of either (a height
// above the floor, a plumb line's x and y) is a reading like the distances, with its own uncertainty; where none is
// stated it is that of the tape.
#pragma once

#include <optional>
#include <vector>

#include "job/shape.h"
#include "job/value.h"

namespace trammel {

struct SurveyDatum {
  Text name;
  std::optional<PointValue> at;
  std::optional<Valued<Length>> x, y, z;  // only what is known of it
};

struct SurveyedPoint {
  Text name;
  std::optional<PointValue> near;  // a rough place; tells mirrored places apart
  std::optional<Text> side;        // "left" or "right" of the cart's middle
  std::optional<Valued<Length>> x, y, z;
  std::optional<Text> becomes;  // path of the cart's point that it is
};

struct TapedDistance {
  Text from, to;
  Valued<Length> length;
  Place place;
};

struct SurveyTools {
  std::optional<Valued<Length>> tape, height;  // standard uncertainty of one reading
};

struct SurveyFile {
  Text format, name;
  std::optional<Text> decimal_sign;
  std::optional<SurveyTools> tools;
  std::optional<Valued<Length>> wanted;  // uncertainty of a point that is enough
  std::vector<SurveyDatum> datum;
  std::vector<SurveyedPoint> point;
  std::vector<TapedDistance> distance;
};

}  // namespace trammel
