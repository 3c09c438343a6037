// Points from tape distances: the most likely places, how sure they are, and how well each reading is checked.
//
// Model: every point has three coordinates. Readings are coordinates (a datum's given place, a height above the floor,
// a plumb line's x and y) and tape distances |p - q|, each normal with its own standard uncertainty u, independent.
// The places are those of weighted least squares over all readings. A coordinate read with u = 0 is held.
// A datum is a point with all three read; a free network is fixed by holding three coordinates of one point, two of a
// second and one of a third.
//   residual      read less fitted
//   redundancy    share of an error in this reading that its own residual shows: 1 - var(fitted) / u^2; the sum over
//                 all readings is readings less unknowns
//   standardised  residual / (u sqrt(redundancy)): standard normal where nothing is misread
//   least_seen    least misread that is found 4 times in 5 at a false alarm in 1000: 4.13 u / sqrt(redundancy)
// Frame: any, as the given coordinates have it; of carts ISO 8855, x forward, y left, z up.
// Of two mirrored places that the readings cannot tell apart, `side`, then `near`, then the one above the floor is
// taken; the other stays in `mirror`.
// Law 1: a rigid motion of all given coordinates moves the answer along.  Law 2: the order of readings is no matter.
// Ignores: sag and stretch of the tape, common errors of several datums.
// Error: u is linear propagation; good where it is small beside the distances.
// Source: least squares and reliability: Baarda, A testing procedure for use in geodetic networks (1968) (from memory).
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.h"
#include "measure/vector3.h"

namespace trammel::survey {

enum class Side { left, right };  // y above or below zero

struct CoordinateReading {
  Length value, u;
};

struct Point {
  std::string name;
  std::array<std::optional<CoordinateReading>, 3> read;  // x, y, z
  std::optional<Vector3<Length>> near;                   // rough place; no reading, only tells mirrored places apart
  std::optional<Side> side;
  bool needed = true;  // what its uncertainty is counts for what to measure next
};

struct Distance {
  std::size_t from = 0, to = 0;  // points
  Length read, u;
};

struct Survey {
  std::vector<Point> points;
  std::vector<Distance> distances;
};

// A reading by its number: all distances in their order, then the coordinates read with u > 0, by point and axis.
struct ReadingOf {
  std::optional<std::size_t> distance;
  std::size_t point = 0, axis = 0;  // of a coordinate
  Length read, u;
};
std::vector<ReadingOf> readings_of(const Survey& survey);

enum class Outcome {
  solved,
  loose,         // some points are not held by the readings: see PlacedPoint::loose
  not_converged  // the readings contradict each other too much to find places
};
inline bool usable(Outcome o) { return o == Outcome::solved; }

enum class MirrorToldBy { side, near, floor, nothing };

struct PlacedPoint {
  Vector3<Length> at, u;  // u of each coordinate
  Length worst_u;         // in its least sure direction
  bool loose = false;
  std::optional<Vector3<Length>> mirror;  // would fit the readings as well
  MirrorToldBy told_by = MirrorToldBy::nothing;
};

struct ReadingCheck {
  Length residual;
  double standardised = 0.0, redundancy = 0.0;
  std::optional<Length> least_seen;  // nothing where no misread could be seen
  bool left_out = false;             // then residual is against the place found without it
};

struct Solution {
  Outcome outcome = Outcome::not_converged;
  std::vector<PlacedPoint> points;
  std::vector<ReadingCheck> readings;  // by the number of readings_of
  double sum_of_squares = 0.0;         // chi-square with `redundancy` degrees of freedom
  int redundancy = 0;
  std::vector<double> covariance;  // m2, of x y z of each point in turn, row by row

  // sqrt(chi-square / redundancy): about 1 where the stated uncertainties are right.
  double spread() const;
};

// `left_out`: numbers of readings that take no part.
Solution solve(const Survey& survey, const std::vector<std::size_t>& left_out = {});

// The same from places known already, the points in their order: for solving once more with a reading less.
Solution solve_from(const Survey& survey, const std::vector<Vector3<Length>>& start,
                    const std::vector<std::size_t>& left_out = {});

}  // namespace trammel::survey
