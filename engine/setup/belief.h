// The joint Gaussian behind Belief: order of the unknowns and the aims in their terms. For this room's sources only.
#pragma once

#include <Eigen/Dense>
#include <map>

#include "measure/box_probability.h"
#include "measure/gaussian.h"
#include "setup/alignment.h"

namespace trammel::setup {

// Order of the unknowns (SI; effects in rad per whole turn). Each adjuster adds four effects after these.
enum Unknown : int {
  left_camber,
  right_camber,
  left_toe,
  right_toe,
  steering_ratio,
  floor_slope,
  square_error,
  centre_error,
  left_camber_scrub,
  right_camber_scrub,
  left_toe_scrub,
  right_toe_scrub,
  effects
};

using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 4, 1>;  // at most the four aspects
using Square = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 4, 4>;

inline double turns_of(Angle a) { return a.in(units::turn); }

// One thing read, in the unknowns' terms: value, noise, and the model that predicts it.
struct Observation {
  ReadingItem item = ReadingItem::left_camber;
  double value = 0.0, variance = 0.0;
  bool is_length = false;
  double diameter = 0.0;  // toe lengths
  double held = 0.0;      // steering-wheel angle while strings were read
  double floor = 0.0;     // sign of the floor slope's part
  bool by_square = false;
  bool while_turning = false;
};

std::vector<Observation> observations(const Reading& reading, const AlignmentTask& task);
// Predicted value and its gradient at x.
double predict(const Observation& o, const Eigen::VectorXd& x, Eigen::RowVectorXd& gradient);

struct Belief::Inside {
  AlignmentTask task;
  Gaussian joint;
  std::vector<Angle> turned;
  bool turning = false;       // a pass is open
  bool clamped = false;       // the steering wheel stands as at the last reading
  std::vector<bool> touched;  // adjusters turned in this pass: their jam nuts are loose
  std::vector<ReadingFlag> flags;
  bool read_since_turn = false;  // and rolled
  ReadHere here;                 // in the open pass
  std::optional<Reading> last_reading;
  std::optional<std::size_t> last_event;  // of last_reading
  std::map<ReadingItem, double> doubted;  // values flagged at the last stop
  // Of all readings so far: the log density as foretold, and the largest standardised surprise.
  double log_evidence = 0.0, most_surprise = 0.0;
  int effect(std::size_t adjuster, int k) const { return effects + 4 * static_cast<int>(adjuster) + k; }
  double centre_variance() const;
  Eigen::Vector4d scrub_variance() const;     // of (cl, cr, tl, tr)
  Eigen::Vector4d settling_variance() const;  // likewise
  // What an error of this size (sd, turns) at an adjuster adds to the wheels' covariance.
  Eigen::Matrix4d turning_noise(std::size_t adjuster, double turns_sd) const;
};

// The state's index that effect k of an adjuster moves: own camber, own toe, other camber, other toe.
int moved_by(const Adjuster& adjuster, int k);

// The aims: which aspects have a tolerance, their bands (SI), and their gradient in (cl, cr, tl, tr).
struct Aims {
  std::vector<Aspect> aspects;
  Vector low, high;
  Eigen::Matrix<double, Eigen::Dynamic, 4, 0, 4, 4> jacobian;
  Vector mean;  // at the belief's mean
  double middle(int k) const { return 0.5 * (low[k] + high[k]); }
  double half(int k) const { return 0.5 * (high[k] - low[k]); }
};
// At the given wheel angles: the mean and gradient move with them.
void place(Aims& aims, const Eigen::Vector4d& wheels, Length diameter);
Aims aims_of(const Belief::Inside& b);
// The chance that all aims are met, `wheels` being the covariance of (cl, cr, tl, tr). `fine` is good to 2e-4;
// `coarse`, for ranking many candidates, to 2e-3.
enum class Points { coarse = 11, fine = 61 };
double chance_of_all(const Aims& aims, const Eigen::Matrix4d& wheels, Points points = Points::fine);
double normal_between(double mean, double sd, double low, double high);
// All four aspects in order, whether or not they have a tolerance, at given (cl, cr, tl, tr).
Eigen::Matrix4d aspect_jacobian(const Eigen::Vector4d& wheels, Length diameter);
Eigen::Vector4d aspect_means(const Eigen::Vector4d& wheels, Length diameter);

}  // namespace trammel::setup
