// One job: a cart, the kits it gets, its loads and site, and everything read and done so far.
//
// Readings, turns, signed steps and torques are events in the order in which they were written down;
// the alignment's state and the fastener ledger are folds over them.
#pragma once

#include <memory>

#include "job/kit.h"

namespace trammel {

struct LoadCase {
  Text name;
  std::vector<Text> seats;       // people sit here
  std::optional<Text> cargo_at;  // a seat's name where a load lies
  std::optional<Valued<Mass>> cargo;
};

struct Site {
  std::optional<Text> name;
  std::optional<Valued<double>> slope;        // steepest, as a ratio: "18 %"
  std::optional<Valued<Length>> bend_radius;  // tightest bend, at the cart's middle
  std::optional<Valued<Length>> door_height;
  std::optional<Valued<Speed>> speed_limit;
};

struct Instruments {
  std::optional<Valued<Length>> tape, square, string;  // standard uncertainty of one reading
  std::optional<Valued<Angle>> steering_wheel;
  std::optional<Valued<double>> turn_error;  // turns, standard uncertainty of one adjustment
};

struct AlignmentTolerance {
  std::optional<BandValue<Angle>> camber;
  std::optional<BandValue<Length>> total_toe, toe_difference;
  std::optional<BandValue<Angle>> thrust;        // of the rear axle: the way its wheels point
  std::optional<BandValue<Length>> rear_offset;  // of its middle from the cart's middle line
};

// Minutes that each job takes in this shop.
struct AlignmentTimes {
  std::optional<Valued<Time>> cambers, toe, strings, turning, touch_up, roll;
};

struct Alignment {
  std::optional<AlignmentTolerance> tolerance;
  std::optional<Instruments> instruments;
  std::optional<Valued<double>> accept_at;  // probability of conforming that is enough
  std::optional<Text> floor;                // what the front wheels stand on while they are turned
  std::optional<AlignmentTimes> times;
};

struct Reading {
  std::optional<SquareGap> left_camber_gap, right_camber_gap;
  std::optional<Valued<Angle>> left_camber, right_camber;  // by a gauge
  std::optional<Valued<Length>> toe_front, toe_rear, toe_diameter;
  std::optional<Valued<Length>> left_string_front, left_string_rear, right_string_front, right_string_rear;
  std::optional<Valued<Length>> string_diameter;
  std::optional<Valued<Angle>> steering_wheel_angle;
  std::optional<Valued<Angle>> floor_slope;                 // across the axle, left side higher positive
  std::optional<Flag> while_turning;                        // before the cart was jammed and rolled
  std::optional<Flag> on_sidewall;                          // the square touched the tyre's wall, not the rim's lips
  std::optional<Valued<Length>> left_height, right_height;  // wheel centre straight up to the same mark on each side
  std::optional<Flag> before_work;                          // as the cart came in, before anything was fitted
  std::optional<Count> repeats;                             // each value is the mean of so many
  std::optional<Text> who, when;
  Place place;
};

struct Adjustment {
  std::optional<AdjusterMove> left_upper_arm, right_upper_arm, left_lower_arm, right_lower_arm;
  std::optional<AdjusterMove> left_tie_rod, right_tie_rod;
  std::optional<AdjusterMove> left_strut_top, right_strut_top;
  std::optional<AdjusterMove> tie_rod, drag_link;  // of a beam
  std::optional<Text> who, when;
  Place place;
};

// How the rear axle stands under the cart: strings along the cart, lengths from the axle's ends to marks on the frame,
// or the gaps straight across to the frame.
struct RearReading {
  std::optional<Valued<Length>> left_string_front, left_string_rear, right_string_front, right_string_rear;
  std::optional<Valued<Length>> string_diameter;
  std::optional<Valued<Length>> left_length, right_length;          // from each end of the axle to its mark
  std::optional<Valued<Length>> marks_ahead;                        // of the axle, fore and aft; negative behind it
  std::optional<Valued<Length>> mark_out, end_out;                  // of the cart's middle; one mark in the middle is 0
  std::optional<Valued<Length>> left_mark_above, right_mark_above;  // than the axle's end; as high where not given
  std::optional<Flag> crossed;                                      // each end to the mark of the other side
  std::optional<Valued<Length>> left_to_frame, right_to_frame;
  std::optional<Count> repeats;
  std::optional<Text> who, when;
  Place place;
};

struct RearAdjustment {
  Text link;  // by its name in the cart file
  AdjusterMove move;
  std::optional<Text> who, when;
  Place place;
};

// Caster by a steering sweep: camber with one wheel straight, steered in and steered out by the same angle.
struct CasterReading {
  Text side;
  Valued<Angle> steer;
  std::optional<SquareGap> gap_straight, gap_steered_in, gap_steered_out;
  std::optional<Valued<Angle>> straight, steered_in, steered_out;  // by a gauge
  Place place;
};

struct Signed {
  Text step, who;
  std::optional<Text> side, when, evidence;
  std::optional<Text> second;   // who took the second look, at a hold point
  std::optional<Text> instead;  // what was done in its place by one who works alone
  Place place;
};

struct TorqueEntry {
  Text fastener;             // "F3" for all of them, "F3 left front" for one
  std::vector<Text> except;  // places of the group that are entered on their own: "left front 2"
  std::optional<Valued<Torque>> torque;
  std::optional<Text> wrench, who, when;
  std::optional<Valued<Angle>> turned;  // at a later check of a final torque: how far it moved before it got there
  std::optional<Text> set;              // what was measured, where the kit sets it by that: "0.06 mm"
  std::optional<Flag> fresh;            // with a new nut or bolt, where the old one serves once
  Place place;
};

// Who decided what of a fastener (or anything else) that was held, and why.
struct Decision {
  Text about;    // "F3"
  Text decided;  // "torque 45 N·m by the kit's maker, in writing"
  Text who;
  std::optional<Text> when, why;
  std::optional<Valued<Torque>> torque;  // asked from now on in place of the kit's
  std::optional<Text> answers;           // code of the finding that it answers
  Place place;
};

// A fastener seen otherwise than the steps have it: seized, damaged, another put in its place, or simply slack.
struct FoundSo {
  Text fastener;
  Text state;              // "seized", "damaged", "substituted" or a state of the ladder
  std::optional<Text> by;  // what stands in
  Text who;
  std::optional<Text> when, why;
  Place place;
};

// Strikes an earlier entry of any kind, also an undo. Entries are counted from 1 in the order written, of every kind.
struct Undo {
  Count entry;
  Text who;
  std::optional<Text> why, when;
  Place place;
};

// What an earlier entry lacks, written down afterwards. Nothing that stands there is replaced.
struct Addition {
  Count entry;
  Text who;
  std::optional<Text> when, why;
  std::optional<Text> evidence, second, instead;   // of a signed step
  std::optional<Text> wrench, done_by, done_when;  // of any entry that wants them
  Place place;
};

using Event = std::variant<Reading, Adjustment, RearReading, RearAdjustment, Signed, TorqueEntry, Decision, FoundSo,
                           Undo, Addition>;

// What the shop has and what it asks: for support, plan, record and quote.
struct Wrench {
  Text id;
  std::optional<Valued<Torque>> least, most;
  std::optional<Text> calibration_due;  // 2026-11-30
};
struct Price {
  Text part;
  Valued<double> price;  // of one, in the shop's currency
  std::optional<Count> count;
};
struct Shop {
  std::optional<Text> currency;
  std::optional<Valued<double>> hourly_rate, markup;  // of labour; on parts, as 15 %
  std::optional<Count> technicians;
  std::optional<Valued<Mass>> stand_rating, jack_rating;  // of one stand
  std::optional<Valued<Length>> stand_height, stand_base, bar;
  std::vector<Wrench> wrench;
  std::vector<Price> price;
};

struct KitUse {
  Text file;
  Kit kit;
};

struct Job;
// A finished job on the same kind of cart with the same kits: what its adjusters did is known there.
struct LearnedJob {
  Text file;
  std::shared_ptr<const Job> job;
};

struct Job {
  Text format, name;
  std::optional<Text> basis;  // of every value of the job's own file that does not say its own
  std::optional<Text> customer, date, place_of_rules;
  std::optional<Text> decimal_sign;
  std::optional<Valued<Mass>> person;  // one person's mass; assumed where not given
  Cart cart;
  std::vector<KitUse> kits;
  std::vector<Text> accessories;  // which of those that the kits offer this cart gets
  std::vector<LearnedJob> learned_from;
  std::vector<LoadCase> load_case;
  std::vector<Text> tyre_choice;  // sizes that could be fitted instead
  std::optional<Site> site;
  std::optional<Shop> shop;
  std::optional<Alignment> alignment;
  std::vector<CasterReading> caster_reading;
  std::vector<Event> events;  // in the order written
};

}  // namespace trammel
