// A cart as it stands: geometry, masses, springs, tyres, drive and the places where it may be touched.
//
// Frame: ISO 8855, x forward, y left, z up; origin on the ground under the middle of the front axle, the
// cart level, as it stands. Only the left side is given where the cart is its own mirror image.
#pragma once

#include <optional>
#include <vector>

#include "job/shape.h"
#include "job/value.h"

namespace trammel {

struct Adjuster {
  Text kind;                                        // what is moved and what that does to the length
  std::optional<Text> thread;                       // "M14x1.5"
  std::optional<Count> flats;                       // flats of the part that is turned
  std::optional<Text> right_hand_at, left_hand_at;  // which end of the part that is turned has which thread
  std::optional<Valued<Length>> shortest, longest;  // change of length that thread engagement or a slot allows
  std::optional<Valued<Length>> throw_;             // eccentric bolt: its eccentricity
  std::optional<Valued<Length>> step;               // thinnest shim, distance of two holes
  std::optional<Text> only_on;                      // "left" or "right": the other side has none
};

// A ball joint or a rod end: how far its stud leans in its housing before it binds.
struct JointLimit {
  Valued<Angle> swing;                // from the middle, all round
  std::optional<Valued<Angle>> lean;  // from the middle as it stands; none where not said
  std::optional<Text> stud;           // "across" (default) or "along" the rod
};

struct Arm {
  PointValue front_bush, rear_bush, ball_joint;
  std::optional<Adjuster> adjuster;
  std::optional<JointLimit> joint;  // of its ball joint
};

struct TieRod {
  PointValue rack_end, knuckle_end;
  std::optional<Adjuster> adjuster;
  std::optional<JointLimit> inner_joint, outer_joint;
};

// The tie rod of a beam, from one steering arm to the other.
struct CrossRod {
  PointValue left_end, right_end;
  std::optional<Adjuster> adjuster;
};

// From the pitman arm to a steering arm of a beam.
struct DragLink {
  PointValue chassis_end, axle_end;
  std::optional<PointValue> pitman_pivot, pitman_shaft;  // two points of the shaft that turns its end on the body
  std::optional<Adjuster> adjuster;
  std::optional<JointLimit> joint;  // of both ends
};

struct Hub {
  PointValue centre;
  Valued<Angle> camber, toe;
};

struct Spring {
  PointValue chassis;
  std::optional<PointValue> lower_arm, upper_arm, knuckle, axle;  // its other end, on the part that moves
  std::optional<Valued<Stiffness>> rate;
  std::optional<Valued<Length>> diameter;  // outside; the tyre's gap to it is then told
  std::optional<Valued<Length>> spacer;    // put between spring and seat, or a perch screwed down
};

struct Damper {
  PointValue chassis;
  std::optional<PointValue> lower_arm, upper_arm, knuckle;
  std::optional<Valued<Length>> open, closed;  // between its eyes, fully out and fully in
};

// A rubber that the arm or the axle meets on its way up.
struct BumpStop {
  PointValue chassis;                          // its seat on the body
  std::optional<PointValue> lower_arm, axle;   // what meets it, at the place that does
  Valued<Length> free_length;                  // of the rubber, not pressed
  std::optional<Valued<Length>> solid_length;  // pressed as far as it goes
};

// A shaft that drives the wheel of an independent axle.
struct HalfShaft {
  PointValue inner, outer;                          // middles of its joints
  Valued<Angle> swing;                              // greatest angle that its joints run at
  std::optional<Valued<Length>> shortest, longest;  // joint to joint, by its plunge
};

// A damper fast to the knuckle that slides through a mount on the body.
struct Strut {
  PointValue top, lower;
  std::optional<Valued<Length>> open, closed;  // from the top mount to `lower`
  std::optional<Adjuster> adjuster;            // of the top mount, outward positive
  std::optional<JointLimit> joint;             // of the top mount
};

// Half of a transverse leaf spring in the place of an arm.
struct TransverseLeaf {
  Text in_place_of;
  PointValue clamp, eye;
};

// An arm that carries the wheel by itself: a trailing arm or a swing axle's half.
struct WheelArm {
  PointValue bush, other_bush;
};

struct Kingpin {
  PointValue bottom, top;
};

// Between a pitman arm and an idler arm: what the tie rods' inner ends hang on.
struct Relay {
  PointValue pitman_pivot, pitman_end, idler_pivot, idler_end;
};

// A leaf spring as it stands, and what a kit changes on it.
struct LeafSpring {
  PointValue fixed_eye, shackled_eye, shackle_pivot, seat;
  std::optional<Valued<Stiffness>> rate;         // at the seat
  std::optional<Valued<Length>> clamped;         // length that the U-bolts hold
  std::optional<Valued<Length>> shackle_length;  // of the shackle fitted now; else from the points
  std::optional<Valued<Length>> block;           // height of the block between spring and axle
  std::optional<Valued<Angle>> wedge;            // turn of the axle against the spring, nose up
};

// A cable or hose from the body to the axle.
struct Line {
  Text name;
  PointValue chassis, axle;
  Valued<Length> slack;
};

// Everything of one wheel of an independent axle, or the left spring and so on of a live one.
struct Corner {
  std::optional<Arm> lower_arm, upper_arm;
  std::optional<TieRod> tie_rod;
  std::optional<Hub> hub;
  std::optional<Spring> spring;
  std::optional<Damper> damper;
  std::optional<Strut> strut;
  std::optional<TransverseLeaf> transverse_leaf;
  std::optional<WheelArm> arm;
  std::optional<Kingpin> kingpin;
  std::optional<LeafSpring> leaf;
  std::optional<BumpStop> bump_stop;
  std::optional<HalfShaft> half_shaft;
};

// A hole of a bracket in which a link may be bolted.
struct Hole {
  Text name;
  PointValue at;
};

struct Link {
  Text name;
  PointValue chassis, axle;
  std::vector<Hole> hole;  // that its bracket offers for the body end
  std::optional<Adjuster> adjuster;
  std::optional<JointLimit> joint;  // of both ends
};

// Where an axle's oil is filled to, and where it breathes.
struct AxleOil {
  std::optional<PointValue> level_plug, vent;
};

struct Tyre {
  Text size;  // "205/50-10" or "18x8.5-8"
  std::optional<Count> load_index;
  std::optional<Text> speed_symbol;
  std::optional<Valued<Mass>> max_load;           // where the sidewall gives a load in place of an index
  std::optional<Valued<Length>> diameter, width;  // measured; else from the size
  std::optional<Valued<Pressure>> pressure;
  std::optional<Valued<Length>> shoulder_radius, growth, skin;  // for the gap to the body; else assumed
};

struct Axle {
  Text layout;
  std::optional<Text> located_by;  // live axle: by which links
  std::optional<Valued<Length>> loaded_radius;
  std::optional<Corner> left, right;
  std::optional<Relay> relay;  // else the tie rods hang on a rack
  std::optional<PointValue> axle_centre;
  std::optional<Valued<Length>> half_track;
  std::vector<Link> link;
  std::optional<CrossRod> tie_rod;                  // solid beam
  std::optional<DragLink> drag_link;                // solid beam
  std::optional<Valued<Torque>> added_roll_couple;  // per radian of roll
  std::vector<Line> line;
  std::optional<AxleOil> oil;
  std::optional<Tyre> tyre;
  std::optional<Valued<Mass>> rating;
  std::optional<Valued<Length>> bump, droop;  // travel of the wheel to its stops, both positive
  std::optional<Valued<Length>> rack_travel;  // from the middle to one lock
  std::optional<PointValue> stand;            // where the left stand takes the frame; the right one is its mirror image
  std::optional<Text> brake;                  // what the parking brake holds: "wheels", "motor shaft" …
  std::optional<Valued<Length>> rack_per_turn;  // rack shift along +y for one turn of the steering wheel to the left
};

struct MassItem {
  Text name;
  Valued<Mass> mass;
  PointValue at;
  std::optional<Text> carried_by;  // "body" (default), "front axle" or "rear axle": what it rises with
};

// Where a person sits or a load lies.
struct Seat {
  Text name;
  PointValue at;  // centre of gravity of a person seated here, or of a load
};

struct Ratings {
  std::optional<Valued<Mass>> gross, payload;
};

struct Drive {
  std::optional<Valued<Speed>> top_speed;
  std::optional<Text> driven;  // "rear" or "front"
  std::optional<Text> power;   // "lead-acid", "lithium" or "petrol"
};

// What a drill or a saw must not reach: cables, hoses, tanks, welds.
struct KeepOut {
  Text name;
  std::optional<Text> end;  // where it runs; both where not said
  std::optional<Text> note;
};

struct BodyPoint {
  Text name;
  PointValue at;
  std::optional<Flag> both_sides;  // its mirror image is there too
};

struct BodyEdge {
  Text name;
  PointValue from, to;
  std::optional<Flag> both_sides;
};

// A lip or a bent edge: straight pieces from point to point, or an arc through three.
struct BodyCurve {
  Text name;
  std::vector<PointValue> points;
  std::optional<Text> form;
  std::optional<Flag> may_be_trimmed;  // a panel's lip that may be cut back
  std::optional<PointValue> panel;     // a point of the panel off the lip; needed where the lip is straight
  std::optional<Flag> both_sides;
};

// Round from end to end (spring, damper, tube, cable), or a box along the cart's axes between two corners.
// What must not be cut where a panel before it is trimmed.
struct BodyPart {
  Text name;
  std::optional<PointValue> from, to;
  std::optional<Valued<Length>> diameter;
  std::optional<PointValue> corner, opposite;
  std::optional<Text> moves_with;  // "body" (default), "lower arm" or "axle"
  std::optional<Flag> both_sides;
};

struct Cart {
  Text format, name;
  std::optional<Text> basis;  // of every value in the file that does not say its own
  std::optional<Text> vehicle_class;
  Valued<Length> wheelbase;
  std::optional<Valued<Length>> height;
  std::optional<Valued<Length>> clearance;  // ground clearance at its least
  std::optional<Axle> front, rear;
  std::vector<MassItem> mass;
  std::vector<Seat> seat;
  std::optional<Ratings> ratings;
  std::optional<Drive> drive;
  std::vector<BodyPoint> body_point;
  std::vector<BodyEdge> body_edge;
  std::vector<BodyCurve> body_curve;
  std::vector<BodyPart> body_part;
  std::vector<KeepOut> keep_out;
  std::optional<Valued<Length>> wanted_gap;  // between tyre and body
};

}  // namespace trammel
