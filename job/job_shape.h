// The keys of a job file. `cart` and `kits` name other files and are read by jobfile itself; events keep
// the order in which they stand. See job/shape.h.
#pragma once

#include "job/job.h"
#include "job/kit_shape.h"

namespace trammel {

namespace words {
inline constexpr std::array<std::string_view, 2> floors = {"bare floor", "slip plates"};
inline constexpr std::array<std::string_view, 12> found_states = {
    "seized", "damaged",      "substituted", "out",   "nut-off",  "slack",
    "snug",   "finger-tight", "part-tight",  "final", "verified", "locked"};
inline constexpr std::array<std::string_view, 2> decimal_signs = {".", ","};
}  // namespace words
namespace sizes {
inline constexpr Plausible reading{0.2, 2.5}, string{0.0, 0.6}, toe_diameter{0.15, 0.8}, instrument{1e-5, 0.01};
inline constexpr Plausible hub_to_body{0.0, 0.8}, axle_to_mark{0.05, 3.0}, ahead{-2.0, 3.0}, out{0.0, 1.0},
    above{-0.8, 0.8}, frame_gap{0.0, 0.8};
inline constexpr Plausible short_work{6.0, 3600.0};
inline constexpr Plausible door{1.0, 4.0}, bend{1.5, 50}, slope{0.0, 0.6}, torque_done{0.3, 600};
}  // namespace sizes

template <class V>
void fields(V& v, LoadCase& s) {
  v.field(Key{"name", "what this load is", Need::required}, s.name);
  v.field(Key{"seats", "seats with a person in them"}, s.seats);
  v.field(Key{"cargo_at", "place where the load lies"}, s.cargo_at);
  v.field(Key{"cargo", "mass of the load", {}, Plausible{0.5, 1500}}, s.cargo);
}
template <class V>
void fields(V& v, Site& s) {
  v.field(Key{"name", "where the cart works"}, s.name);
  v.field(Key{"slope", "steepest way it must go, as 18 %", {}, sizes::slope}, s.slope);
  v.field(Key{"bend_radius", "tightest bend, at the middle of the cart", {}, sizes::bend}, s.bend_radius);
  v.field(Key{"door_height", "lowest doorway", {}, sizes::door}, s.door_height);
  v.field(Key{"speed_limit", "speed limit of the site", {}, sizes::speed}, s.speed_limit);
}
template <class V>
void fields(V& v, Instruments& s) {
  v.field(Key{"tape", "standard uncertainty of one tape reading", {}, sizes::instrument}, s.tape);
  v.field(Key{"square", "standard uncertainty of one gap at the square", {}, sizes::instrument}, s.square);
  v.field(Key{"string", "standard uncertainty of one string reading", {}, sizes::instrument}, s.string);
  v.field(Key{"steering_wheel", "standard uncertainty of its angle", {}, Plausible{1e-4, 0.3}}, s.steering_wheel);
  v.field(
      Key{"turn_error", "standard uncertainty of one adjustment, in turns", {}, Plausible{1e-3, 0.5}, {}, Kind::turns},
      s.turn_error);
}
template <class V>
void fields(V& v, AlignmentTolerance& s) {
  v.field(Key{"camber", "camber of each wheel, as 0 deg ± 0.25 deg"}, s.camber);
  v.field(Key{"total_toe", "both wheels together, at the toe diameter"}, s.total_toe);
  v.field(Key{"toe_difference", "half of left minus right toe, at the toe diameter"}, s.toe_difference);
  v.field(Key{"thrust", "rear axle: the way that its wheels point, to the left positive"}, s.thrust);
  v.field(Key{"rear_offset", "rear axle: its middle off the cart's middle line, to the left positive"}, s.rear_offset);
}
template <class V>
void fields(V& v, AlignmentTimes& s) {
  v.field(Key{"cambers", "both cambers read once", {}, sizes::short_work}, s.cambers);
  v.field(Key{"toe", "toe read once, front and rear", {}, sizes::short_work}, s.toe);
  v.field(Key{"strings", "both wheels' own toe by string, once", {}, sizes::short_work}, s.strings);
  v.field(Key{"turning", "a spell of turning: clamp, slacken, turn, jam", {}, sizes::short_work}, s.turning);
  v.field(Key{"touch_up", "a correction within a spell, nuts still slack", {}, sizes::short_work}, s.touch_up);
  v.field(Key{"roll", "roll and settle", {}, sizes::short_work}, s.roll);
}
template <class V>
void fields(V& v, Alignment& s) {
  v.field(Key{"tolerance", "what is wanted"}, s.tolerance);
  v.field(Key{"instruments", "how good each tool is"}, s.instruments);
  v.field(Key{"accept_at", "probability of being in tolerance that is enough", {}, Plausible{0.5, 0.999}}, s.accept_at);
  v.field(
      Key{"floor", "what the front wheels stand on while they are turned; bare where not said", {}, {}, words::floors},
      s.floor);
  v.field(Key{"times", "how long each takes in this shop"}, s.times);
}
template <class V>
void fields(V& v, Reading& s) {
  v.field(Key{"left_camber_gap", "gap at a standing square, as 3.5 mm at top over 280 mm"}, s.left_camber_gap);
  v.field(Key{"right_camber_gap", "gap at a standing square"}, s.right_camber_gap);
  v.field(Key{"left_camber", "by a gauge", {}, sizes::small_angle}, s.left_camber);
  v.field(Key{"right_camber", "by a gauge", {}, sizes::small_angle}, s.right_camber);
  v.field(Key{"toe_front", "between the tyres' centre lines ahead of the axle", {}, sizes::reading}, s.toe_front);
  v.field(Key{"toe_rear", "between the tyres' centre lines behind the axle", {}, sizes::reading}, s.toe_rear);
  v.field(Key{"toe_diameter", "fore-and-aft distance between the two", {}, sizes::toe_diameter}, s.toe_diameter);
  v.field(Key{"left_string_front", "string to the rim's front edge", {}, sizes::string}, s.left_string_front);
  v.field(Key{"left_string_rear", "string to the rim's rear edge", {}, sizes::string}, s.left_string_rear);
  v.field(Key{"right_string_front", "string to the rim's front edge", {}, sizes::string}, s.right_string_front);
  v.field(Key{"right_string_rear", "string to the rim's rear edge", {}, sizes::string}, s.right_string_rear);
  v.field(Key{"string_diameter", "fore-and-aft distance between the two", {}, sizes::toe_diameter}, s.string_diameter);
  v.field(Key{"steering_wheel_angle", "off straight, to the left positive", {}, Plausible{-1.6, 1.6}},
          s.steering_wheel_angle);
  v.field(Key{"floor_slope", "across the axle, left side higher positive", {}, sizes::small_angle}, s.floor_slope);
  v.field(Key{"while_turning", "read before the jam nuts were tightened and the cart rolled"}, s.while_turning);
  v.field(Key{"on_sidewall", "the square touched the tyre's wall and not the rim's lips"}, s.on_sidewall);
  v.field(Key{"left_height", "wheel centre straight up to a mark on the body", {}, sizes::hub_to_body}, s.left_height);
  v.field(Key{"right_height", "the same on the right, to the same mark", {}, sizes::hub_to_body}, s.right_height);
  v.field(Key{"before_work", "read as the cart came in, before anything was fitted"}, s.before_work);
  v.field(Key{"repeats", "each value is the mean of so many readings", {}, Plausible{1, 20}}, s.repeats);
  v.field(Key{"who", "who did it"}, s.who);
  v.field(Key{"when", "date and time, as 2026-04-20T08:10"}, s.when);
}
template <class V>
void fields(V& v, RearReading& s) {
  v.field(Key{"left_string_front", "string to the rim's front edge", {}, sizes::string}, s.left_string_front);
  v.field(Key{"left_string_rear", "string to the rim's rear edge", {}, sizes::string}, s.left_string_rear);
  v.field(Key{"right_string_front", "string to the rim's front edge", {}, sizes::string}, s.right_string_front);
  v.field(Key{"right_string_rear", "string to the rim's rear edge", {}, sizes::string}, s.right_string_rear);
  v.field(Key{"string_diameter", "fore-and-aft distance between the two", {}, sizes::toe_diameter}, s.string_diameter);
  v.field(Key{"left_length", "axle's left end to its mark on the frame", {}, sizes::axle_to_mark}, s.left_length);
  v.field(Key{"right_length", "axle's right end to its mark on the frame", {}, sizes::axle_to_mark}, s.right_length);
  v.field(Key{"marks_ahead", "marks ahead of the axle, fore and aft; behind it negative", {}, sizes::ahead},
          s.marks_ahead);
  v.field(Key{"mark_out", "from the cart's middle to each mark; 0 is one mark in the middle", {}, sizes::out},
          s.mark_out);
  v.field(Key{"end_out", "from the axle's middle to the place taped at each end", {}, sizes::out}, s.end_out);
  v.field(Key{"left_mark_above",
              "how much higher the mark of left_length stands than that end of the axle",
              {},
              sizes::above},
          s.left_mark_above);
  v.field(Key{"right_mark_above", "the same of right_length; lower is negative", {}, sizes::above}, s.right_mark_above);
  v.field(Key{"crossed", "each end was taped to the mark of the other side"}, s.crossed);
  v.field(Key{"left_to_frame", "left rim straight across to the frame", {}, sizes::frame_gap}, s.left_to_frame);
  v.field(Key{"right_to_frame", "right rim straight across to the frame", {}, sizes::frame_gap}, s.right_to_frame);
  v.field(Key{"repeats", "each value is the mean of so many readings", {}, Plausible{1, 20}}, s.repeats);
  v.field(Key{"who", "who did it"}, s.who);
  v.field(Key{"when", "date and time, as 2026-04-20T08:10"}, s.when);
}
template <class V>
void fields(V& v, RearAdjustment& s) {
  v.field(Key{"link", "the link's name in the cart file", Need::required}, s.link);
  v.field(Key{"move", "turn made, positive is longer", Need::required}, s.move);
  v.field(Key{"who", "who did it"}, s.who);
  v.field(Key{"when", "date and time, as 2026-04-20T08:10"}, s.when);
}
template <class V>
void fields(V& v, Adjustment& s) {
  v.field(Key{"left_upper_arm", "turn made, positive is longer"}, s.left_upper_arm);
  v.field(Key{"right_upper_arm", "turn made, positive is longer"}, s.right_upper_arm);
  v.field(Key{"left_lower_arm", "turn made, positive is longer"}, s.left_lower_arm);
  v.field(Key{"right_lower_arm", "turn made, positive is longer"}, s.right_lower_arm);
  v.field(Key{"left_tie_rod", "turn made, positive is longer"}, s.left_tie_rod);
  v.field(Key{"right_tie_rod", "turn made, positive is longer"}, s.right_tie_rod);
  v.field(Key{"left_strut_top", "move made in the slot, positive is outward"}, s.left_strut_top);
  v.field(Key{"right_strut_top", "move made in the slot, positive is outward"}, s.right_strut_top);
  v.field(Key{"tie_rod", "turn made at the tie rod of a beam"}, s.tie_rod);
  v.field(Key{"drag_link", "turn made at the drag link"}, s.drag_link);
  v.field(Key{"who", "who did it"}, s.who);
  v.field(Key{"when", "date and time, as 2026-04-20T08:10"}, s.when);
}
template <class V>
void fields(V& v, CasterReading& s) {
  v.field(Key{"side", "which wheel", Need::required, {}, words::left_right}, s.side);
  v.field(Key{"steer", "turned this far from straight ahead, each way", Need::required, Plausible{0.05, 0.7}}, s.steer);
  v.field(Key{"gap_straight", "gap at the square, wheel straight"}, s.gap_straight);
  v.field(Key{"gap_steered_in", "the same with the wheel's front turned inward"}, s.gap_steered_in);
  v.field(Key{"gap_steered_out", "the same with the wheel's front turned outward"}, s.gap_steered_out);
  v.field(Key{"straight", "camber by a gauge, wheel straight", {}, sizes::small_angle}, s.straight);
  v.field(Key{"steered_in", "camber by a gauge, turned inward", {}, sizes::small_angle}, s.steered_in);
  v.field(Key{"steered_out", "camber by a gauge, turned outward", {}, sizes::small_angle}, s.steered_out);
}
template <class V>
void fields(V& v, Signed& s) {
  v.field(Key{"step", "the step that is done", Need::required}, s.step);
  v.field(Key{"who", "who did it", Need::required}, s.who);
  v.field(Key{"second", "who took the second look, at a hold point"}, s.second);
  v.field(Key{"instead", "what was done instead of it by one who works alone, where the step says how"}, s.instead);
  v.field(Key{"side", "left or right, where a step has sides", {}, {}, words::left_right}, s.side);
  v.field(Key{"when", "date and time"}, s.when);
  v.field(Key{"evidence", "what was seen or measured"}, s.evidence);
}
template <class V>
void fields(V& v, TorqueEntry& s) {
  v.field(Key{"fastener", "F3 for all of them, or one by its place", Need::required}, s.fastener);
  v.field(Key{"except", "places of the group that this entry does not speak for, as left front 2"}, s.except);
  v.field(Key{"torque", "torque reached", {}, sizes::torque_done}, s.torque);
  v.field(Key{"set", "what was measured, where the kit sets it by that and not by torque, as 0.06 mm"}, s.set);
  v.field(Key{"new", "with a new nut or bolt, where the old one serves once"}, s.fresh);
  v.field(Key{"turned", "at a later check: how far it moved before the torque was reached", {}, Plausible{0.0, 6.3}},
          s.turned);
  v.field(Key{"wrench", "which torque wrench"}, s.wrench);
  v.field(Key{"who", "who did it"}, s.who);
  v.field(Key{"when", "date and time"}, s.when);
}
template <class V>
void fields(V& v, Decision& s) {
  v.field(Key{"about", "what was held, as F3", Need::required}, s.about);
  v.field(Key{"decided", "what was decided", Need::required}, s.decided);
  v.field(Key{"who", "who decided it", Need::required}, s.who);
  v.field(Key{"when", "date and time"}, s.when);
  v.field(Key{"why", "on what ground"}, s.why);
  v.field(Key{"torque",
              "torque asked from then on; where it is not given, the one in the decision's words",
              {},
              sizes::torque_done},
          s.torque);
  v.field(Key{"answers", "code of the finding that it answers, where more than one is open"}, s.answers);
}
template <class V>
void fields(V& v, FoundSo& s) {
  v.field(Key{"fastener", "F3 for all of them, or one by its place", Need::required}, s.fastener);
  v.field(Key{"state", "how it was found", Need::required, {}, words::found_states}, s.state);
  v.field(Key{"by", "what stands in for it, where it is substituted"}, s.by);
  v.field(Key{"who", "who saw it", Need::required}, s.who);
  v.field(Key{"when", "date and time"}, s.when);
  v.field(Key{"why", "what happened"}, s.why);
}
template <class V>
void fields(V& v, Undo& s) {
  v.field(Key{"entry", "number of the entry that it strikes, counted from 1 over all entries", Need::required,
              Plausible{1, 100000}},
          s.entry);
  v.field(Key{"who", "who says so", Need::required}, s.who);
  v.field(Key{"why", "what was wrong with it"}, s.why);
  v.field(Key{"when", "date and time"}, s.when);
}
template <class V>
void fields(V& v, Addition& s) {
  v.field(Key{"entry", "number of the entry that it adds to, counted from 1 over all entries", Need::required,
              Plausible{1, 100000}},
          s.entry);
  v.field(Key{"who", "who says so", Need::required}, s.who);
  v.field(Key{"when", "date and time"}, s.when);
  v.field(Key{"why", "why it was left out"}, s.why);
  v.field(Key{"evidence", "what was seen or measured, of a signed step"}, s.evidence);
  v.field(Key{"second", "who took the second look, of a signed step"}, s.second);
  v.field(Key{"instead", "what was done instead of it by one who works alone"}, s.instead);
  v.field(Key{"wrench", "which torque wrench, of a torque"}, s.wrench);
  v.field(Key{"done_by", "who did it, of an entry that does not say"}, s.done_by);
  v.field(Key{"done_when", "when it was done, of an entry that does not say"}, s.done_when);
}
template <class V>
void fields(V& v, Wrench& s) {
  v.field(Key{"id", "the shop's name for it, as W2", Need::required}, s.id);
  v.field(Key{"least", "least torque of its range", {}, sizes::torque_done}, s.least);
  v.field(Key{"most", "greatest torque of its range", {}, sizes::torque_done}, s.most);
  v.field(Key{"calibration_due", "date by which it is calibrated again, as 2026-11-30"}, s.calibration_due);
}
template <class V>
void fields(V& v, Price& s) {
  v.field(Key{"part", "what is sold", Need::required}, s.part);
  v.field(Key{"price", "what one costs the shop, a number", Need::required, {}, {}, Kind::money}, s.price);
  v.field(Key{"count", "how many; one where not said", {}, Plausible{1, 500}}, s.count);
}
template <class V>
void fields(V& v, Shop& s) {
  v.field(Key{"currency", "what prices are in, as EUR"}, s.currency);
  v.field(Key{"hourly_rate", "labour of one technician for an hour, a number", {}, {}, {}, Kind::money}, s.hourly_rate);
  v.field(Key{"markup", "on what parts cost the shop, as 15 %", {}, Plausible{0.0, 3.0}}, s.markup);
  v.field(Key{"technicians", "how many work on this job, 1 or 2", {}, Plausible{1, 2}}, s.technicians);
  v.field(Key{"stand_rating", "what one stand may carry", {}, Plausible{100, 10000}}, s.stand_rating);
  v.field(Key{"jack_rating", "what the jack may lift", {}, Plausible{100, 10000}}, s.jack_rating);
  v.field(Key{"stand_height", "height of the stands as set", {}, Plausible{0.1, 1.2}}, s.stand_height);
  v.field(Key{"stand_base", "least width of a stand's foot", {}, Plausible{0.1, 0.8}}, s.stand_base);
  v.field(Key{"bar", "longest bar used on a nut", {}, Plausible{0.1, 2.0}}, s.bar);
  v.field(Key{"wrench", "torque wrenches"}, s.wrench);
  v.field(Key{"price", "parts for the quote"}, s.price);
}
template <class V>
void fields(V& v, Job& s) {
  v.field(Key{"format", "\"trammel job 1\"", Need::required}, s.format);
  v.field(Key{"name", "what the shop calls this job", Need::required}, s.name);
  v.field(
      Key{"basis", "basis of every value here that does not say its own; readings are measured", {}, {}, words::bases},
      s.basis);
  v.field(Key{"customer", "whose cart it is"}, s.customer);
  v.field(Key{"date", "date of the job, as 2026-11-25"}, s.date);
  v.field(Key{"place_of_rules", "where the cart is used, for rules by place"}, s.place_of_rules);
  v.field(Key{"decimal_sign", "\".\" or \",\" for every number in this file", {}, {}, words::decimal_signs},
          s.decimal_sign);
  v.field(Key{"person", "mass of one person", {}, sizes::person}, s.person);
  v.field(Key{"accessories", "which of those that its kits offer this cart gets"}, s.accessories);
  v.field(Key{"load_case", "loads to be judged"}, s.load_case);
  v.field(Key{"tyre_choice", "tyre sizes that could be fitted, to be told which clear"}, s.tyre_choice);
  v.field(Key{"site", "where the cart works"}, s.site);
  v.field(Key{"shop", "the shop's rates and tools"}, s.shop);
  v.field(Key{"alignment", "tolerances and tools"}, s.alignment);
  v.field(Key{"caster_reading", "caster by a steering sweep"}, s.caster_reading);
}

}  // namespace trammel
