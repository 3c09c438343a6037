// A cart whose truth is known, read and turned with errors: for rehearsed passes and for studies.
//
// The truth is four wheel angles (steering wheel straight), a steering ratio and what each adjuster really does: linear
// effects, or any function of the net turns (a linkage solved by the caller). Readings carry the instruments' errors:
// tape ends normal then rounded to the tape's step, gaps normal, the steering wheel's centre drawn once a stop; means
// over the repeats. Turns carry the turn error; scrub is drawn with the first turn of a pass and shows in what is read
// until the roll; jam twist and settling are drawn at the roll; a sidewall's bulge is the tyre's own. The caller owns
// the generator.
#pragma once

#include <functional>

#include "setup/alignment.h"
#include "setup/chance.h"

namespace trammel::setup {

struct WheelAngles {
  Angle left_camber, right_camber, left_toe, right_toe;
};

struct TrueEffect {
  Effect own, other;
};

struct TrueCart {
  WheelAngles start;
  double steering_ratio = 14.0;
  Length left_bulge{}, right_bulge{};  // of the sidewall at the square's foot
  std::vector<TrueEffect> effects;     // one for each of the task's adjusters
  // Where given, used in place of `effects`: change of the angles from the start at these net turns.
  std::function<WheelAngles(const std::vector<Angle>&)> linkage;
};

// What is read at one stop.
struct ReadingPlan {
  int repeats = 1;
  bool cambers = true, toe = true, strings = false, steering_wheel = true;
  bool on_lips = true;
  Length square_over = 280.0 * units::mm;
  Length string_diameter = 254.0 * units::mm;
  Length between_tyres = 850.0 * units::mm;  // middle of front and rear tape
};

class SimulatedCart {
 public:
  SimulatedCart(const AlignmentTask& task, TrueCart truth);
  // Before the roll it is a reading while turning.
  Reading read(const ReadingPlan& plan, Generator& g);
  void turn(const Adjustment& adjustment, Generator& g);
  void roll(Generator& g);
  WheelAngles truth() const { return now_; }
  bool in_tolerance() const;

 private:
  AlignmentTask task_;
  TrueCart cart_;
  std::vector<Angle> turned_;  // as really turned
  WheelAngles settled_, now_, scrub_;
  Angle centre_;  // of the steering wheel, clamped while turning
  bool turning_ = false, clamped_ = false;
  std::vector<bool> touched_;
  void place();
};

// Draws a cart: effects from the adjusters' means and spreads.
TrueCart draw_cart(const AlignmentTask& task, const WheelAngles& start, Generator& g);

}  // namespace trammel::setup
