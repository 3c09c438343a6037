// What readings and turns to come would leave unknown, and whether they would end in acceptance (next_step.h tells the
// model). For this room's sources only.
#pragma once

#include <cmath>

#include "setup/belief.h"
#include "setup/next_step.h"

namespace trammel::setup {

// How often each is read, at how many rolls; the steering wheel is read at every roll.
struct Effort {
  int rolls = 1, cambers = 1, toe = 1;
};
using InPlace = ReadHere;

class LookAhead {
 public:
  static constexpr int head = effects;  // the unknowns that readings see
  using Head = Eigen::Matrix<double, head, head>;
  using Matrix = Eigen::MatrixXd;

  LookAhead(const Belief& belief, const Way& way);

  const Matrix& now() const { return b_.joint.covariance(); }
  const Vector& as_it_stands() const { return aims_.mean; }

  Time cost(const Effort& e) const;
  Time cost(const InPlace& e) const;

  // A rolled stop's readings taken in, the steering wheel centred afresh.
  Matrix after_stop(Matrix cov, const Effort& e) const;
  // A pass opens with turns to the middle.
  Matrix after_turns(Matrix cov) const;

  // The chance that readings of this effort end in acceptance, the aims' means being spread about `mean`.
  double acceptance(Head cov, const Vector& mean, const Effort& e) const;

  struct Value {
    Time minutes{};
    double chance = 0.0;
    Effort effort;
  };
  // Read until accepted or give up and go round again after `otherwise`: the effort of least expected minutes, at least
  // `from`, found from `near` by raising or lowering one part of it at a time.
  Value reading(const Head& cov, const Vector& mean, Time otherwise, const Effort& from, const Effort& near) const;
  // Minutes where what is not accepted goes round again.
  Time round() const { return round_; }
  Value after_rolling(const Matrix& turned, const Vector& mean) const;
  // Turned: rolled at once, or read where it stands and touched up first.
  Value from_turned(const Matrix& turned) const;
  // Read where it stands, touched up, perhaps once more.
  Value in_place(const Matrix& turned, const InPlace& e) const;

 private:
  // What reading sees, one row for each: value's slope in the unknowns, and the variance of one reading.
  struct Rows {
    Eigen::Matrix<double, Eigen::Dynamic, head, 0, 8, head> H;
    Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 8, 1> variance;
    std::vector<ReadingItem> items;
  };
  static Rows rows_of(const Belief::Inside& b, bool turning, bool strings);

  Value reading(const Head& cov, const Vector& mean, Time otherwise, const Effort& from) const {
    return reading(cov, mean, otherwise, from, near_);
  }
  Time another_round(const Head& cov, const Vector& mean) const;
  Time renewed() const;
  Matrix after_in_place(const Matrix& cov, const InPlace& e) const;
  Matrix touched_up(const Matrix& before, Matrix cov) const;
  Head after_roll(const Matrix& cov) const;

  const Belief::Inside& b_;
  const Way& way_;
  Aims aims_;
  Rows rolled_, standing_;
  double one_side_;  // standard deviations from a mean to its limit where that side alone just allows acceptance
  mutable Effort near_{4, 4, 6};  // where the last search ended: the next begins there
  Matrix step_, correct_;
  Eigen::Matrix4d turn_noise_, touch_noise_, jam_noise_;
  Vector centred_;  // the aims' means once turned
  Time round_{};
};

}  // namespace trammel::setup
