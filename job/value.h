// One value of a job: what it is, how sure it is, where it comes from and where it is written.
//
// Every number that a person gives keeps its standard uncertainty (JCGM 100:2008, 2.3.1), its basis and
// its place, so that each result can name the inputs it stands on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/kind.h"
#include "measure/vector3.h"

namespace trammel {

enum class Basis { measured, kit, assumed, computed };

// Where a value stands: a file with line and column counted from 1, or an entry of the record by name.
struct Place {
  std::string file;
  int line = 0, column = 0;
};

template <class Q>
struct Valued {
  Q value{};
  std::optional<Q> u;  // standard uncertainty
  Basis basis = Basis::assumed;
  Place place;
};

// A point in the cart frame; u holds for each coordinate.
struct PointValue {
  Vector3<Length> value;
  std::optional<Length> u;
  Basis basis = Basis::assumed;
  Place place;
};

// What may be accepted: from low to high, both included.
template <class Q>
struct BandValue {
  Q low{}, high{};
  Place place;
};

struct Text {
  std::string value;
  Place place;
};
struct Count {
  int value = 0;
  Place place;
};
struct Flag {
  bool value = false;
  Place place;
};

// A move of an adjuster as it was told: in turns or flats of its hexagon, as a change of length or shift, or by the
// angle of an eccentric bolt. Positive is longer.
struct AdjusterMove {
  enum class Unit { turns, flats, length, angle };
  double amount = 0.0;  // turns or flats by count, the others in SI
  Unit unit = Unit::turns;
  Place place;
};

// A gap read at a square: "3.5 mm at top over 280 mm".
struct SquareGap {
  enum class At { top, bottom };
  Length gap{}, over{};
  At at = At::top;
  std::optional<Length> u;
  Place place;
};

}  // namespace trammel
