// A kit: what it changes on the cart, its parts and fasteners, and the steps of fitting it.
//
// Changes are an ordered overlay; before, after and each change alone are the same operation.
#pragma once

#include <variant>

#include "job/cart.h"

namespace trammel {

// What a change may put at a path; which one follows from the path.
using ChangeValue =
    std::variant<std::monostate, Valued<Length>, Valued<Angle>, Valued<Mass>, Valued<Speed>, Valued<Pressure>,
                 Valued<Stiffness>, Valued<Torque>, Valued<double>, PointValue, Text, Count, Flag, Adjuster, Link, Hole,
                 Line, MassItem, Seat, BodyPoint, BodyEdge, BodyCurve, BodyPart, KeepOut>;

struct Change {
  enum class Act { set, move, add, remove };
  Act act = Act::set;
  std::string path;       // "front.left.lower_arm.ball_joint"
  ChangeValue value;      // set: the new value; move: what is added; add: the item
  bool mirror = false;    // the same on the other side, y turned about
  std::string accessory;  // only where this accessory is fitted; empty: always
  std::string why;
  Place place;
};

struct LeastStates {
  std::optional<Text> jacked, on_stands, on_wheels, rolled, driven, released;
};

// A bolt that something turns on: which wheel's load it sees. See engine/fastener/pivot.h.
struct KitPivot {
  Text axle;                            // "front" or "rear"
  std::optional<Text> lies;             // "across the cart" where not said
  std::optional<Valued<double>> share;  // of one wheel's load; all of it where not said
  std::optional<Count> planes;          // in which it is sheared; 2 where not said
};

struct KitFastener {
  Text id;
  Text at;     // "steering arm to knuckle, {left,right}.{front,rear}"
  Text stack;  // the joint from head to thread
  std::optional<Valued<Length>> across_flats, across_flats_nut;
  std::optional<Valued<Torque>> torque;
  std::vector<Valued<Torque>> passes;  // in order, the last is the final torque
  std::optional<Text> surface, method;
  std::optional<Valued<double>> nut_factor;  // K of T = K F d that the torque was reckoned with
  std::optional<LeastStates> least_state;
  std::optional<Text> only_on;   // final only in this state: "wheels" for a bonded bush
  std::optional<Text> reuse;     // "new" or "reuse"
  std::optional<Text> retorque;  // when, in words
  std::optional<Flag> second_person;
  std::optional<Text> bush;       // "bonded": final only on the wheels; "greased": it may be made final hanging
  std::optional<Text> accessory;  // belongs to this accessory
  std::optional<Text> duty;       // "wheel", "body", "battery" or "general": which default least states hold
  std::optional<Text> as_found;   // state before the work; final or out where not said, as the steps imply
  std::vector<Text> holds;        // parts that it clamps
  std::optional<Text> shares;     // "F2 front": the same holes as those of an earlier kit
  std::optional<Valued<Torque>> torque_limit;  // greatest torque on the way to a castle nut's slot
  std::optional<Text> set_by;                  // what sets it where torque does not: "end float 0.03 to 0.10 mm"
  std::optional<KitPivot> pivot;
  std::optional<Text> bolt_kept, nut_kept;  // where each is while the joint is open
  std::optional<Valued<Time>> cure;         // of thread locker, before it is loaded
  std::optional<Text> grease;               // where grease belongs; never on the thread
  std::optional<Text> note;
};

struct Part {
  Text id, name;
  std::optional<Count> count;
  std::optional<Text> at;            // "{left,right}" where there is one on each side
  std::optional<Text> kind;          // "suspension", "wheel" or "body"
  std::optional<Text> source;        // "cart" where it is on the cart already, "pack" where the kit brings it
  std::optional<Text> replaces;      // the part that stays off because this one is on
  std::optional<Text> accessory;     // belongs to this accessory
  std::optional<Valued<Mass>> mass;  // of one
};

// What makes a reading or check void besides the steps that say so.
struct Proof {
  Text id;
  std::optional<Flag> voided_by_lifting;
  std::vector<Text> voided_by_slackening, voided_by_removing;  // fasteners, parts
  std::vector<Text> only_while;  // needs without which it proves nothing: "rear on stands", "not axle on jack"
  std::vector<Text> guards;      // loads and steps that wait for it: "driven"
};

// How a step tries the parking brake: standing on a slope, or against a level pull on a pull gauge.
struct BrakeTrial {
  Text by;                              // "slope" or "level pull"
  std::optional<Valued<double>> slope;  // of the ramp, as a ratio; the site's steepest where not said
  std::optional<Valued<Mass>> load;     // in the cart beside its own mass, on the slope
  std::optional<Valued<Force>> pull;    // that it holds against; what the site's slope asks for where not said
};

struct KitStep {
  Text id;
  Text act;                              // key `do`: what to do, in the author's words
  std::optional<Text> stage;             // "front", "rear", "both" …: which end it belongs to
  std::optional<Text> sides;             // "once", "each", "left", "right"
  std::vector<Text> needs, gives, ends;  // conditions that must hold, begin and cease
  std::vector<Text> tighten, slacken;    // "F3 final", "F8 part-tight"
  std::vector<Text> work;                // "drill wing lip, 6.5 mm", "route brake cable, above the tube"
  std::vector<Text> removes, fits, tools, undoes, proves, cautions;
  std::optional<Text> evidence;
  std::vector<Text> loads;                 // what comes on at its end: "rear jacked", "on wheels", "rolled" …
  std::optional<Text> accessory;           // done only where this accessory is fitted
  std::optional<Flag> person_under;        // someone works under the cart
  std::optional<Text> after, before;       // where a second kit's step comes in
  std::optional<Flag> optional, any_time;  // may be left out; may come at any time that its needs allow
  std::optional<Text> repeat_until;        // done again until this is met
  std::optional<Flag> hold;                // wait for a second look before going on
  std::optional<Valued<Time>> minutes;
  std::optional<Count> people;
  std::optional<Text> one_person;  // what a shop of one does instead, where it takes two
  std::optional<BrakeTrial> trial;
  std::optional<Text> calls;  // "isolate" or "power up": the standard sequence for this cart's drive
};

struct Kit {
  Text format, name;
  std::optional<Text> maker_note;
  std::optional<Text> language;   // of the author's own words, and of the booklet's fixed ones
  std::vector<Text> conflicts;    // names of kits that cannot be fitted with this one
  std::vector<Text> given;        // conditions that hold before the first step
  std::vector<Text> accessories;  // that it offers; what says `accessory` names one of them
  std::vector<Change> change;
  std::vector<Part> part;
  std::vector<Proof> proof;
  std::vector<KitFastener> fastener;
  std::vector<KitStep> step;
};

}  // namespace trammel
