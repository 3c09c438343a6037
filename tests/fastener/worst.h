// The worst error seen against a published value, printed when the test ends.
#pragma once

#include <cmath>
#include <iostream>
#include <string>

class Worst {
 public:
  explicit Worst(std::string what) : what_(std::move(what)) {}
  ~Worst() {
    std::cout << "worst " << what_ << ": " << 100.0 * error_ << " % at " << where_ << " (" << count_ << " values)\n";
  }
  // Takes note of a computed value and returns its error relative to the published one.
  double see(double computed, double published, const std::string& where) {
    const double e = std::abs(computed / published - 1.0);
    ++count_;
    if (e >= error_) error_ = e, where_ = where;
    return e;
  }
  int count() const { return count_; }

 private:
  std::string what_, where_ = "none";
  double error_ = 0.0;
  int count_ = 0;
};
