// The keys of a cart file. See job/shape.h.
#pragma once

#include <array>

#include "job/cart.h"

namespace trammel {

namespace words {
inline constexpr std::array<std::string_view, 8> adjuster_kinds = {
    "both-hand sleeve", "sleeve and rod end", "rod end", "eccentric bolt", "shims", "slot", "holes", "none"};
inline constexpr std::array<std::string_view, 6> part_ends = {"outer", "inner", "left", "right", "front", "rear"};
inline constexpr std::array<std::string_view, 2> left_right = {"left", "right"};
inline constexpr std::array<std::string_view, 4> brakes = {"wheels", "motor shaft", "power-off motor shaft", "none"};
inline constexpr std::array<std::string_view, 3> powers = {"lead-acid", "lithium", "petrol"};
inline constexpr std::array<std::string_view, 2> ends_of_cart = {"front", "rear"};
inline constexpr std::array<std::string_view, 6> layouts = {"double wishbone", "strut",     "swing axle",
                                                            "trailing arm",    "live axle", "solid beam"};
inline constexpr std::array<std::string_view, 2> leaf_places = {"upper arm", "lower arm"};
inline constexpr std::array<std::string_view, 4> located_by = {
    "two trailing arms and track bar", "three links and track bar", "four links and track bar", "leaf springs"};
inline constexpr std::array<std::string_view, 4> bases = {"measured", "kit", "assumed", "computed"};
inline constexpr std::array<std::string_view, 4> vehicle_classes = {"golf car", "personal transport vehicle",
                                                                    "low-speed vehicle", "utility cart"};
inline constexpr std::array<std::string_view, 3> carried_by = {"body", "front axle", "rear axle"};
inline constexpr std::array<std::string_view, 2> stud_ways = {"across", "along"};
inline constexpr std::array<std::string_view, 2> curve_forms = {"straight pieces", "arc"};
inline constexpr std::array<std::string_view, 3> moves_with = {"body", "lower arm", "axle"};
inline constexpr std::array<std::string_view, 2> ends = {"front", "rear"};
}  // namespace words

// Plausible sizes, in SI. common practice, no source.
namespace sizes {
inline constexpr Plausible wheelbase{1.0, 4.5}, half_track{0.25, 0.9}, radius{0.12, 0.45}, diameter{0.25, 0.9};
inline constexpr Plausible height{0.8, 2.6}, clearance{0.02, 0.6}, travel{0.005, 0.4}, adjuster_reach{-0.08, 0.08};
inline constexpr Plausible cart_mass{0.2, 1500}, person{30, 200}, stiffness{2e3, 3e5}, speed{1.0, 30.0};
inline constexpr Plausible damper{0.1, 1.0};
inline constexpr Plausible clamped{0.0, 0.3}, shackle{0.02, 0.3}, block{0.0, 0.2}, slack{0.0, 0.3},
    roll_couple{10.0, 1e5};
inline constexpr Plausible swing{0.02, 1.3}, lean{-0.8, 0.8}, rubber{0.005, 0.2}, shaft{0.1, 1.0}, spacer{-0.05, 0.15};
inline constexpr Plausible small_angle{-0.35, 0.35}, pressure{4e4, 5e5}, gap{0.001, 0.1};
inline constexpr Plausible part_diameter{0.003, 0.6}, shoulder{0.0, 0.12}, skin{0.0, 0.03};
}  // namespace sizes

template <class V>
void fields(V& v, Adjuster& s) {
  v.field(Key{"kind", "what is turned and how it is threaded", Need::required, {}, words::adjuster_kinds}, s.kind);
  v.field(Key{"thread", "thread of the part that is turned, as M14x1.5"}, s.thread);
  v.field(Key{"flats", "flats of the part that is turned", {}, Plausible{2, 12}}, s.flats);
  v.field(Key{"right_hand_at", "end of the turned part with the right-hand thread", {}, {}, words::part_ends},
          s.right_hand_at);
  v.field(Key{"left_hand_at", "end of the turned part with the left-hand thread", {}, {}, words::part_ends},
          s.left_hand_at);
  v.field(Key{"shortest", "shortest it may be set, as change of length, negative", {}, sizes::adjuster_reach},
          s.shortest);
  v.field(Key{"longest", "longest it may be set, as change of length, positive", {}, sizes::adjuster_reach}, s.longest);
  v.field(Key{"throw", "eccentric bolt: eccentricity, half of its whole travel", {}, Plausible{5e-4, 0.02}}, s.throw_);
  v.field(Key{"step", "shims: the thinnest; holes: from one to the next", {}, Plausible{1e-4, 0.05}}, s.step);
  v.field(Key{"only_on", "the only side that has it; both where not said", {}, {}, words::left_right}, s.only_on);
}
template <class V>
void fields(V& v, JointLimit& s) {
  v.field(Key{"swing", "greatest angle of the stud from the middle of its housing", Need::required, sizes::swing},
          s.swing);
  v.field(Key{"lean", "stud from the middle as it stands, top outward positive; none where not said", {}, sizes::lean},
          s.lean);
  v.field(Key{"stud", "rod: the stud runs across it where not said", {}, {}, words::stud_ways}, s.stud);
}
template <class V>
void fields(V& v, Arm& s) {
  v.field(Key{"front_bush", "centre of the front bush", Need::required}, s.front_bush);
  v.field(Key{"rear_bush", "centre of the rear bush", Need::required}, s.rear_bush);
  v.field(Key{"ball_joint", "centre of the ball joint at the knuckle", Need::required}, s.ball_joint);
  v.field(Key{"adjuster", "how its length is set"}, s.adjuster);
  v.field(Key{"joint", "how far its ball joint swings"}, s.joint);
}
template <class V>
void fields(V& v, TieRod& s) {
  v.field(Key{"rack_end", "centre of the joint at the rack, the relay, or the body for a toe link", Need::required},
          s.rack_end);
  v.field(Key{"knuckle_end", "centre of the joint at the knuckle", Need::required}, s.knuckle_end);
  v.field(Key{"adjuster", "how its length is set"}, s.adjuster);
  v.field(Key{"inner_joint", "how far its inner joint swings"}, s.inner_joint);
  v.field(Key{"outer_joint", "how far its outer joint swings"}, s.outer_joint);
}
template <class V>
void fields(V& v, CrossRod& s) {
  v.field(Key{"left_end", "centre of the joint at the left steering arm", Need::required}, s.left_end);
  v.field(Key{"right_end", "centre of the joint at the right steering arm", Need::required}, s.right_end);
  v.field(Key{"adjuster", "how its length is set"}, s.adjuster);
}
template <class V>
void fields(V& v, DragLink& s) {
  v.field(Key{"chassis_end", "centre of the joint at the pitman arm", Need::required}, s.chassis_end);
  v.field(Key{"axle_end", "centre of the joint at the steering arm", Need::required}, s.axle_end);
  v.field(Key{"pitman_pivot", "a point of the shaft on which the pitman arm turns"}, s.pitman_pivot);
  v.field(Key{"pitman_shaft", "another point of that shaft"}, s.pitman_shaft);
  v.field(Key{"adjuster", "how its length is set"}, s.adjuster);
  v.field(Key{"joint", "how far the joints of both its ends swing"}, s.joint);
}
template <class V>
void fields(V& v, Hub& s) {
  v.field(Key{"centre", "wheel centre as the points were taken", Need::required}, s.centre);
  v.field(Key{"camber", "camber as the points were taken", Need::required, sizes::small_angle}, s.camber);
  v.field(Key{"toe", "this wheel's toe as the points were taken", Need::required, sizes::small_angle}, s.toe);
}
template <class V>
void fields(V& v, Spring& s) {
  v.field(Key{"chassis", "upper end, on the body", Need::required}, s.chassis);
  v.field(Key{"lower_arm", "other end, on the lower arm or the only arm"}, s.lower_arm);
  v.field(Key{"upper_arm", "other end, on the upper arm"}, s.upper_arm);
  v.field(Key{"knuckle", "other end, on the knuckle"}, s.knuckle);
  v.field(Key{"axle", "other end, on the axle"}, s.axle);
  v.field(Key{"rate", "spring rate along its own line", {}, sizes::stiffness}, s.rate);
  v.field(Key{"diameter", "outside diameter, for the tyre's gap to it", {}, sizes::part_diameter}, s.diameter);
  v.field(Key{"spacer",
              "put between spring and seat, a perch screwed down, or by how much a coil-over is longer; the wheel "
              "comes down by it",
              {},
              sizes::spacer},
          s.spacer);
}
template <class V>
void fields(V& v, Damper& s) {
  v.field(Key{"chassis", "its eye on the body", Need::required}, s.chassis);
  v.field(Key{"lower_arm", "other eye, on the lower arm or the only arm"}, s.lower_arm);
  v.field(Key{"upper_arm", "other eye, on the upper arm"}, s.upper_arm);
  v.field(Key{"knuckle", "other eye, on the knuckle"}, s.knuckle);
  v.field(Key{"open", "eye to eye, fully out", {}, sizes::damper}, s.open);
  v.field(Key{"closed", "eye to eye, fully in", {}, sizes::damper}, s.closed);
}
template <class V>
void fields(V& v, Strut& s) {
  v.field(Key{"top", "middle of the top mount", Need::required}, s.top);
  v.field(Key{"lower", "a lower point on the damper's own line", Need::required}, s.lower);
  v.field(Key{"open", "top mount to that point, fully out", {}, sizes::damper}, s.open);
  v.field(Key{"closed", "top mount to that point, fully in", {}, sizes::damper}, s.closed);
  v.field(Key{"adjuster", "how its top mount is moved across the cart"}, s.adjuster);
  v.field(Key{"joint", "how far its top mount lets it lean"}, s.joint);
}
template <class V>
void fields(V& v, BumpStop& s) {
  v.field(Key{"chassis", "its seat on the body", Need::required}, s.chassis);
  v.field(Key{"lower_arm", "place of the lower or only arm that meets it"}, s.lower_arm);
  v.field(Key{"axle", "place of the axle that meets it"}, s.axle);
  v.field(Key{"free_length", "of the rubber, not pressed", Need::required, sizes::rubber}, s.free_length);
  v.field(Key{"solid_length", "of the rubber, pressed as far as it goes", {}, sizes::rubber}, s.solid_length);
}
template <class V>
void fields(V& v, HalfShaft& s) {
  v.field(Key{"inner", "middle of its inner joint", Need::required}, s.inner);
  v.field(Key{"outer", "middle of its outer joint", Need::required}, s.outer);
  v.field(Key{"swing", "greatest angle that its joints run at", Need::required, sizes::swing}, s.swing);
  v.field(Key{"shortest", "joint to joint, pushed in", {}, sizes::shaft}, s.shortest);
  v.field(Key{"longest", "joint to joint, pulled out", {}, sizes::shaft}, s.longest);
}
template <class V>
void fields(V& v, TransverseLeaf& s) {
  v.field(Key{"in_place_of", "the arm whose place it takes", Need::required, {}, words::leaf_places}, s.in_place_of);
  v.field(Key{"clamp", "where the leaf leaves its clamp on the body", Need::required}, s.clamp);
  v.field(Key{"eye", "its joint at the knuckle", Need::required}, s.eye);
}
template <class V>
void fields(V& v, WheelArm& s) {
  v.field(Key{"bush", "centre of one bush; of a trailing arm the outer one", Need::required}, s.bush);
  v.field(Key{"other_bush", "centre of the other bush", Need::required}, s.other_bush);
}
template <class V>
void fields(V& v, Kingpin& s) {
  v.field(Key{"bottom", "lower end, in the arm", Need::required}, s.bottom);
  v.field(Key{"top", "upper end, in the arm", Need::required}, s.top);
}
template <class V>
void fields(V& v, Relay& s) {
  v.field(Key{"pitman_pivot", "where the pitman arm's shaft meets the arm", Need::required}, s.pitman_pivot);
  v.field(Key{"pitman_end", "joint of pitman arm and relay", Need::required}, s.pitman_end);
  v.field(Key{"idler_pivot", "where the idler's shaft meets its arm", Need::required}, s.idler_pivot);
  v.field(Key{"idler_end", "joint of idler arm and relay", Need::required}, s.idler_end);
}
template <class V>
void fields(V& v, LeafSpring& s) {
  v.field(Key{"fixed_eye", "eye that turns in the body", Need::required}, s.fixed_eye);
  v.field(Key{"shackled_eye", "eye that hangs on the shackle", Need::required}, s.shackled_eye);
  v.field(Key{"shackle_pivot", "where the shackle turns in the body", Need::required}, s.shackle_pivot);
  v.field(Key{"seat", "centre bolt, on the main leaf", Need::required}, s.seat);
  v.field(Key{"rate", "spring rate at the seat", {}, sizes::stiffness}, s.rate);
  v.field(Key{"clamped", "length that the U-bolts hold rigid", {}, sizes::clamped}, s.clamped);
  v.field(Key{"shackle_length", "shackle that is fitted, eye to eye; else from the points", {}, sizes::shackle},
          s.shackle_length);
  v.field(Key{"block", "height of the block between spring and axle", {}, sizes::block}, s.block);
  v.field(Key{"wedge", "turn of the axle by a wedge or taper, nose up positive", {}, sizes::small_angle}, s.wedge);
}
template <class V>
void fields(V& v, Line& s) {
  v.field(Key{"name", "what it is", Need::required}, s.name);
  v.field(Key{"chassis", "where the body holds it", Need::required}, s.chassis);
  v.field(Key{"axle", "where the axle holds it", Need::required}, s.axle);
  v.field(Key{"slack", "its length beyond the straight way, as the cart stood", Need::required, sizes::slack}, s.slack);
}
template <class V>
void fields(V& v, Corner& s) {
  v.field(Key{"lower_arm", "lower arm"}, s.lower_arm);
  v.field(Key{"upper_arm", "upper arm"}, s.upper_arm);
  v.field(Key{"tie_rod", "tie rod"}, s.tie_rod);
  v.field(Key{"hub", "wheel hub"}, s.hub);
  v.field(Key{"spring", "spring or coil-over"}, s.spring);
  v.field(Key{"damper", "damper, where it stands apart from the spring"}, s.damper);
  v.field(Key{"strut", "strut: the damper that guides the knuckle"}, s.strut);
  v.field(Key{"transverse_leaf", "double wishbone: leaf spring in the place of an arm"}, s.transverse_leaf);
  v.field(Key{"arm", "trailing arm or swing axle: the arm that carries the wheel"}, s.arm);
  v.field(Key{"kingpin", "swing axle that steers, or solid beam: its kingpin"}, s.kingpin);
  v.field(Key{"leaf", "leaf spring"}, s.leaf);
  v.field(Key{"bump_stop", "rubber that arm or axle meets on its way up"}, s.bump_stop);
  v.field(Key{"half_shaft", "shaft that drives this wheel"}, s.half_shaft);
}
template <class V>
void fields(V& v, Hole& s) {
  v.field(Key{"name", "a name for the hole", Need::required}, s.name);
  v.field(Key{"at", "its centre", Need::required}, s.at);
}
template <class V>
void fields(V& v, Link& s) {
  v.field(Key{"name", "a name for the link; `track bar` for the track bar", Need::required}, s.name);
  v.field(Key{"chassis", "its end on the body", Need::required}, s.chassis);
  v.field(Key{"axle", "its end on the axle", Need::required}, s.axle);
  v.field(Key{"hole", "holes that its bracket offers for the end on the body"}, s.hole);
  v.field(Key{"adjuster", "how its length is set"}, s.adjuster);
  v.field(Key{"joint", "how far the joints of both its ends swing"}, s.joint);
}
template <class V>
void fields(V& v, AxleOil& s) {
  v.field(Key{"level_plug", "hole that the oil is filled to, as it stands"}, s.level_plug);
  v.field(Key{"vent", "where it breathes, as it stands"}, s.vent);
}
template <class V>
void fields(V& v, Tyre& s) {
  v.field(Key{"size", "as on the sidewall, 205/50-10 or 18x8.5-8", Need::required}, s.size);
  v.field(Key{"load_index", "load index on the sidewall", {}, Plausible{20, 130}}, s.load_index);
  v.field(Key{"speed_symbol", "speed symbol on the sidewall"}, s.speed_symbol);
  v.field(Key{"max_load", "greatest load on the sidewall", {}, Plausible{50, 1500}}, s.max_load);
  v.field(Key{"diameter", "overall diameter, unloaded", {}, sizes::diameter}, s.diameter);
  v.field(Key{"width", "section width", {}, Plausible{0.08, 0.4}}, s.width);
  v.field(Key{"shoulder_radius", "radius of the rounded shoulder", {}, sizes::shoulder}, s.shoulder_radius);
  v.field(Key{"growth", "what speed and wear add to the radius", {}, sizes::skin}, s.growth);
  v.field(Key{"skin", "tolerance all round, taken off the gap", {}, sizes::skin}, s.skin);
  v.field(Key{"pressure", "cold pressure", {}, sizes::pressure}, s.pressure);
}
template <class V>
void fields(V& v, Axle& s) {
  v.field(Key{"layout", "how the wheels are carried", Need::required, {}, words::layouts}, s.layout);
  v.field(Key{"located_by", "live axle or solid beam: its links or springs", {}, {}, words::located_by}, s.located_by);
  v.field(Key{"loaded_radius", "wheel centre above ground, as it stands", {}, sizes::radius}, s.loaded_radius);
  v.field(Key{"left", "left wheel"}, s.left);
  v.field(Key{"right", "right wheel, only where it is not the left's mirror image"}, s.right);
  v.field(Key{"relay", "relay between pitman and idler arm, where the tie rods do not hang on a rack"}, s.relay);
  v.field(Key{"axle_centre", "live axle or solid beam: middle of the axle"}, s.axle_centre);
  v.field(Key{"half_track", "middle of the cart to the middle of the tyre", {}, sizes::half_track}, s.half_track);
  v.field(Key{"link", "live axle: its links"}, s.link);
  v.field(Key{"tie_rod", "solid beam: rod from one steering arm to the other"}, s.tie_rod);
  v.field(Key{"drag_link", "solid beam: rod from the pitman arm"}, s.drag_link);
  v.field(Key{"added_roll_couple",
              "couple per radian of roll that the springs' rate does not tell: bars, twist of leaves",
              {},
              sizes::roll_couple},
          s.added_roll_couple);
  v.field(Key{"line", "cables and hoses from the body to this axle"}, s.line);
  v.field(Key{"oil", "level plug and vent of a driven axle"}, s.oil);
  v.field(Key{"tyre", "tyres of this axle"}, s.tyre);
  v.field(Key{"rating", "greatest load on this axle", {}, Plausible{50, 3000}}, s.rating);
  v.field(Key{"bump", "wheel travel up to the stop", {}, sizes::travel}, s.bump);
  v.field(Key{"droop", "wheel travel down to the stop", {}, sizes::travel}, s.droop);
  v.field(Key{"rack_travel", "rack shift from the middle to a lock", {}, sizes::travel}, s.rack_travel);
  v.field(Key{"stand", "where the left stand takes the frame; the right one is its mirror image"}, s.stand);
  v.field(Key{"brake", "what the parking brake of this axle holds", {}, {}, words::brakes}, s.brake);
  v.field(Key{"rack_per_turn",
              "rack shift along +y for one turn of the steering wheel to the left",
              {},
              Plausible{-0.4, 0.4},
              {},
              Kind::pitch},
          s.rack_per_turn);
}
template <class V>
void fields(V& v, MassItem& s) {
  v.field(Key{"name", "what it is", Need::required}, s.name);
  v.field(Key{"mass", "its mass", Need::required, sizes::cart_mass}, s.mass);
  v.field(Key{"at", "its centre of gravity", Need::required}, s.at);
  v.field(Key{"carried_by", "what it rises with; the body where not said", {}, {}, words::carried_by}, s.carried_by);
}
template <class V>
void fields(V& v, Seat& s) {
  v.field(Key{"name", "a name for the place", Need::required}, s.name);
  v.field(Key{"at", "centre of gravity of a person or load here", Need::required}, s.at);
}
template <class V>
void fields(V& v, Ratings& s) {
  v.field(Key{"gross", "greatest gross mass", {}, Plausible{200, 5000}}, s.gross);
  v.field(Key{"payload", "greatest payload", {}, Plausible{50, 3000}}, s.payload);
}
template <class V>
void fields(V& v, Drive& s) {
  v.field(Key{"top_speed", "attainable speed on level ground", {}, sizes::speed}, s.top_speed);
  v.field(Key{"driven", "driven axle", {}, {}, words::ends}, s.driven);
  v.field(Key{"power", "what drives it: for isolation and its cautions", {}, {}, words::powers}, s.power);
}
template <class V>
void fields(V& v, KeepOut& s) {
  v.field(Key{"name", "cable, hose, tank or weld that must not be cut or drilled", Need::required}, s.name);
  v.field(Key{"end", "where it runs; both where not said", {}, {}, words::ends_of_cart}, s.end);
  v.field(Key{"note", "how far to stay away, how it is shielded"}, s.note);
}
template <class V>
void fields(V& v, BodyPoint& s) {
  v.field(Key{"name", "what is here", Need::required}, s.name);
  v.field(Key{"at", "where it is", Need::required}, s.at);
  v.field(Key{"both_sides", "its mirror image is there too"}, s.both_sides);
}
template <class V>
void fields(V& v, BodyEdge& s) {
  v.field(Key{"name", "what is here", Need::required}, s.name);
  v.field(Key{"from", "one end", Need::required}, s.from);
  v.field(Key{"to", "the other end", Need::required}, s.to);
  v.field(Key{"both_sides", "its mirror image is there too"}, s.both_sides);
}
template <class V>
void fields(V& v, BodyCurve& s) {
  v.field(Key{"name", "what is here", Need::required}, s.name);
  v.field(Key{"points", "points along it, in order; three of an arc", Need::required}, s.points);
  v.field(Key{"form", "straight from point to point where not said", {}, {}, words::curve_forms}, s.form);
  v.field(Key{"may_be_trimmed", "a panel's lip that may be cut back"}, s.may_be_trimmed);
  v.field(Key{"panel", "a point of the panel off the lip, where the lip is straight"}, s.panel);
  v.field(Key{"both_sides", "its mirror image is there too"}, s.both_sides);
}
template <class V>
void fields(V& v, BodyPart& s) {
  v.field(Key{"name", "what it is", Need::required}, s.name);
  v.field(Key{"from", "round part: one end of its middle line"}, s.from);
  v.field(Key{"to", "round part: the other end"}, s.to);
  v.field(Key{"diameter", "round part: outside", {}, sizes::part_diameter}, s.diameter);
  v.field(Key{"corner", "box along the cart's axes: one corner"}, s.corner);
  v.field(Key{"opposite", "box: the corner opposite"}, s.opposite);
  v.field(Key{"moves_with", "what carries it; the body where not said", {}, {}, words::moves_with}, s.moves_with);
  v.field(Key{"both_sides", "its mirror image is there too"}, s.both_sides);
}
template <class V>
void fields(V& v, Cart& s) {
  v.field(Key{"format", "\"trammel cart 1\"", Need::required}, s.format);
  v.field(Key{"name", "what the shop calls this cart", Need::required}, s.name);
  v.field(Key{"basis", "basis of every value here that does not say its own", {}, {}, words::bases}, s.basis);
  v.field(Key{"vehicle_class", "class it was made as", {}, {}, words::vehicle_classes}, s.vehicle_class);
  v.field(Key{"wheelbase", "front wheel centre to rear wheel centre", Need::required, sizes::wheelbase}, s.wheelbase);
  v.field(Key{"height", "ground to the highest part", {}, sizes::height}, s.height);
  v.field(Key{"clearance", "ground to the lowest part between the axles", {}, sizes::clearance}, s.clearance);
  v.field(Key{"front", "front axle"}, s.front);
  v.field(Key{"rear", "rear axle"}, s.rear);
  v.field(Key{"mass", "masses that make up the empty cart"}, s.mass);
  v.field(Key{"seat", "places of people and loads"}, s.seat);
  v.field(Key{"ratings", "the maker's greatest masses"}, s.ratings);
  v.field(Key{"drive", "speed and drive"}, s.drive);
  v.field(Key{"body_point", "points of the body that a tyre might touch"}, s.body_point);
  v.field(Key{"body_edge", "straight edges that a tyre might touch"}, s.body_edge);
  v.field(Key{"body_curve", "lips and bent edges that a tyre might touch"}, s.body_curve);
  v.field(Key{"body_part", "springs, dampers, rails, cables, boxes that a tyre or a saw might touch"}, s.body_part);
  v.field(Key{"keep_out", "what a drill or a saw must not reach"}, s.keep_out);
  v.field(Key{"wanted_gap", "least gap wanted between tyre and body", {}, sizes::gap}, s.wanted_gap);
}

}  // namespace trammel
