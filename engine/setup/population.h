// Carts drawn at random, for studies: how far the model is from the cart, and how far out the wheels start.
//
// The true points of each corner are the nominal ones of an invented double wishbone, each coordinate off by a normal
// error; what the adjusters really do is the mechanism solved with those points, wheel centre held. The task holds what
// the technician's model knows: the mean effects and their spread over such carts. A fleet:
//   points   sd of what the model does not know of each point: 5 mm for a nominal geometry, 2 mm for a surveyed one
//   design   sd between designs, for class averages where there is no geometry: 15 mm
//   beam     a beam axle: a tie rod that moves the right wheel and a drag link that steers both, camber not turned
// Start: total toe 4.5 +-40 mm, camber +-3 deg a side, toe difference +-10 mm, rectangular. Tolerance: camber +-0.25
// deg, total toe-in 3 to 6 mm, toe difference +-1 mm. Tape sd 1 mm read to 1/16 in, square sd 0.5 mm over 280 mm,
// steering centre 0.6 mm, turning error sd 1/24 turn; scrub, jam twist and settling as in Handling. All assumed, our
// own.
#pragma once

#include "setup/simulate.h"

namespace trammel::setup {

struct Fleet {
  Length points = 5.0 * units::mm, design{};
  bool beam = false;
  Length tape_sd = 1.0 * units::mm, tape_step = units::inch / 16.0;
  Floor floor = Floor::bare;
};

class Population {
 public:
  Population(const Fleet& fleet, Generator& g);
  const AlignmentTask& task() const { return task_; }
  TrueCart draw(Generator& g) const;

 private:
  Fleet fleet_;
  AlignmentTask task_;
};

}  // namespace trammel::setup
