// The chance that a joint normal value lies in a box: every state within its tolerance at once.
//
// Model: the sequence of conditional normals of Genz, variables ordered with the tightest first, integrated
// over Richtmyer's lattice (multiples of square roots of primes) folded by the tent, with 8 fixed shifts.
// The same input gives the same bits; there is no chance in it. Sides may be infinite; variables may be
// exact or wholly dependent on others.
// Range: up to about 8 variables. Error: `error` is three times the standard error over the shifts; at the
// default points, up to 5 variables, the true error is below 2e-5, below 1e-4 where correlations pass 0.95
// (measured on orthants), and rounding alone for one variable and for independent ones. About 2 ms a call.
// Source: A. Genz, J. Comput. Graph. Stat. 1 (1992) 141-149; order by Gibson, Glasbey & Elston (1994).
#pragma once

#include <Eigen/Core>

namespace trammel {

struct BoxProbability {
  double value = 0.0, error = 0.0;
};

BoxProbability probability_in_box(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance,
                                  const Eigen::VectorXd& low, const Eigen::VectorXd& high, int points_a_shift = 1021);

}  // namespace trammel
