// What to do next, by expected minutes to acceptance.
//
// Between two rolls the cart stands either rolled (readings honest, steering wheel read on a straight run) or with a
// pass open (turned, not yet jammed and rolled: readings carry the scrub). The choices and what each costs:
//   rolled   roll and read: cambers, toe or both, n times each;  turn as prescribed;  accept
//   turning  read where it stands, then touch up;                jam, roll and read
// Each is looked ahead over: the coming means are spread as the readings will move them (32 fixed points, aims taken
// one by one), the covariance is exact for the linear model, turns are taken to the middle of the tolerance as far as
// the adjusters serve it. What is not accepted then costs another round.
//   minutes       = cost now + (1 - chance of acceptance) x another round
//   another round = R (1 + longer x what is not known of the aims, in logarithms of half tolerances)
//   R             = least over the readings of (turning + roll + readings + price of a pass) / chance that it is the
//                   last round: a renewal, from wheels known as a stop of two readings leaves them
// A reading is asked for only where that makes the expected minutes less than turning or rolling does. Ignores: what
// further rounds would learn beyond one; correlation between the aims within the look-ahead (never in acceptance).
// Sources: Raiffa & Schlaifer, Applied Statistical Decision Theory (1961) 5 (a sample's worth), Dinkelbach, Manag. Sci.
// 13 (1967) 492 (least ratio); both from memory.
// Law 1: accept exactly where P(all in tolerance) >= the task's limit, rolled, read since the last turn.
#pragma once

#include "setup/prescription.h"

namespace trammel::setup {

// Minutes in a shop; assumed, to be set by the shop's own clock.
struct ShopTimes {
  Time cambers = 2.0 * units::minute;   // both wheels, once
  Time toe = 2.0 * units::minute;       // tape front and rear, once; steering wheel with it
  Time strings = 2.0 * units::minute;   // both wheels' own toe by string or straight-edge, once
  Time turning = 4.0 * units::minute;   // a spell: clamp, slacken, turn, jam
  Time touch_up = 1.0 * units::minute;  // a correction within a spell, nuts still slack
  Time roll = 1.0 * units::minute;      // and settle
};

// How the shop works. The price of a pass is what a spell of turning is felt to cost over and above its minutes: a dear
// pass buys few passes by more readings, a free one the fewest minutes. It and `longer` are found by trial on the
// population (docs/alignment.md).
struct Way {
  ShopTimes times;
  int most_repeats = 4;  // readings of one kind at a stop, also between two turns of a spell
  bool read_while_turning = true;
  bool strings = false;  // used at a rolled stop
  bool strings_while_turning = true;
  bool may_turn = true;  // false where no turn is better than none
  Time pass_price = 8.0 * units::minute;
  double longer = 0.3;
};
Way usual_way(Floor floor);

enum class Do { accept, read, turn, read_while_turning, roll };

struct NextStep {
  Do what = Do::read;
  int cambers = 0, toe = 0, strings = 0;  // how often each is read at this stop
  Time minutes{};                         // expected to acceptance
  double chance = 0.0;                    // of acceptance without a further round
  double chance_by_reading = 0.0;         // rolled: at best, by reading alone
  Time minutes_by_turning{};              // rolled: where turning comes first; 0 where it may not
  int readings_in_all = 0;                // to read: of the kind read most, over all stops of what is planned
};

NextStep next_step(const Belief& belief, const Way& way);

}  // namespace trammel::setup
