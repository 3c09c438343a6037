// Everything computed of one job, ready to be shown: the one hand-over from the rooms of the engine to
// the sheets, the commands and the screen. Plain data; no formula below this line of the house.
#pragma once

#include <array>
#include <map>

#include "assess/finding.h"
#include "job/job.h"

namespace trammel {

// One load on the cart, before and after the kits.
struct LoadedCart {
  Mass total{}, front{}, rear{};  // total and axle loads
  Vector3<Length> cg;
  std::optional<Length> cg_height_u;
  std::optional<double> stability_factor;  // half track over cg height
  std::optional<Angle> tilt_rigid, tilt_rolled, tip_back;
  std::optional<Speed> bend_speed;  // at the site's tightest bend
};
struct LoadCaseResult {
  std::string name;
  LoadedCart before, after;
};

struct CartSummary {
  Length wheelbase{};
  std::optional<Length> height, clearance, front_radius, rear_radius, front_half_track, rear_half_track;
  std::optional<Speed> top_speed;
  std::string speed_class;  // code of the class by attainable speed
};

// One curve of wheel geometry over travel, for drawing; each point is (rise, value).
struct TravelPoint {
  Length rise{};
  Angle camber{}, toe{}, caster{};
  Length half_track{};
};
struct AxleTravel {
  bool computed = false;
  Message why_not;                                // where it is not computed
  std::vector<TravelPoint> left, right;           // over travel, rack in the middle
  std::optional<AnglePerLength> bump_steer;       // greatest |d toe / d rise| over the travel that is used
  std::map<std::string, Vector3<Length>> points;  // hardpoints at rest, "left.lower_arm.ball_joint" …, for drawing
};

// Least gap between tyre and one feature of the body over rise, steer and roll.
struct GapResult {
  std::string point, side, pose, axle;  // pose: code of where the wheels are turned to
  std::optional<Length> before, after, u;
  Length rise{};
  Angle steer{}, roll{};  // steer of this wheel, to the left
  Vector3<Length> at;     // the body's nearest place
};

// Least gap of one wheel over rise and steer, row by row from the lowest rise.
struct GapMap {
  std::string side;
  std::vector<Length> rises;
  std::vector<Angle> steers;  // of this wheel at its fitted height, to the left; one where it does not steer
  struct Cell {
    std::optional<Length> gap;  // none where the linkage does not reach
    int feature = -1;           // of `features`
  };
  std::vector<Cell> cells;
  std::vector<std::string> features;
};

// Where the steering is to stop on one side so that both wheels keep the wanted gap.
struct SteerStopResult {
  std::string direction;  // "left", "right"
  enum class Kind { at_an_angle, whole_lock, no_help } kind = Kind::whole_lock;
  Angle inner{}, u{};   // of the wheel inside the turn, without sign
  double share = 1;     // of the lock
  std::string feature;  // what stops it
};

// Places in a panel's plane as seen from outside the cart: x to the right of the paper, y up, one origin a panel.
struct PanelPoint {
  Length x{}, y{};
};
struct BehindPanel {
  std::string name;
  std::vector<PanelPoint> outline;
  Length behind{};       // the least distance behind the panel
  bool crossed = false;  // the piece to be cut off lies before it
};
struct TrimResult {
  std::string curve, side, axle;
  enum class Kind { cut, nothing, beyond, no_plane } kind = Kind::nothing;
  std::vector<PanelPoint> lip, cut;                 // one for one along the lip
  Length deepest{}, out_of_plane{}, u{}, length{};  // length: of the lip that is cut back
  std::vector<BehindPanel> keep_outs;
};

struct TyreChoiceResult {
  std::string size;
  bool understood = false;
  Length diameter{}, width{};
  std::optional<Length> gap;  // the least to any feature
};
struct AxleClearance {
  std::string axle;
  Length wanted{}, lowest{}, highest{};
  Length tyre_radius{}, tyre_width{}, shoulder{}, growth{}, skin{};
  bool steers = false;
  std::vector<GapMap> maps;
  std::vector<SteerStopResult> stops;
  std::vector<TrimResult> trims;
  std::optional<Length> largest_diameter, widest;  // that keep the gap, the other size as it is
  std::vector<TyreChoiceResult> choices;
};

struct Flagged {
  Outcome outcome = Outcome::note;
  Message message;
};
// What the record says of one instance.
struct TorqueReached {
  std::string instance;
  std::optional<Number> torque;  // none: not entered yet
  std::string set;               // what was measured instead, as it was written
  std::string wrench, who, when;
  Outcome outcome = Outcome::met;  // condition: it does not count
  std::optional<Number> asked;     // of this one, where it is not what is asked of the others
  std::string second, instead;     // who took the second look; what was done in its place
  std::vector<std::string> told;   // found and decided of it: "found seized", "P. Varga: bolt cut out"
};
struct FastenerLine {
  std::string id, kit, at;
  std::vector<std::string> instances;  // "left front", … ; one empty name where there is only one
  std::string thread, strength, stack;
  std::optional<Number> torque_asked, torque_computed;
  std::optional<Number> torque_kit;  // what the kit asks, where a decision has put another in its place
  bool threaded = true;              // a pin or a clip has no torque
  std::vector<Number> passes;
  std::string surface;
  std::array<double, 3> nut_factor{};             // low, nominal, high
  std::optional<std::array<Force, 3>> preload;    // low, nominal, high
  std::optional<std::array<double, 3>> of_proof;  // fraction of proof load, low, nominal, high
  std::optional<Number> wrench_head, wrench_nut;
  std::string reuse, only_on, retorque, note;
  std::size_t from_pack = 0;  // of its instances: new on this cart, or with a new nut; the others are the cart's own
  std::string set_by, bolt_kept, nut_kept, grease;
  std::optional<Number> torque_limit, cure;
  bool held = false;    // what the kit asks cannot be taken, and nobody has decided
  std::string decided;  // "who: what", where somebody has
  bool second_person = false;
  std::vector<Flagged> flags;
  std::vector<TorqueReached> reached;  // one for each instance, where anything is entered
};

// One entry of the job's record, with its number for an undo.
struct RecordLine {
  int number = 0;
  std::string kind, what, who, when;  // "signed", "torque", "undo"
  bool struck = false;
};
// The card for going on after an interruption.
struct ResumeCard {
  std::vector<RecordLine> last_done;  // two steps, the later first
  std::string front, rear;            // how each end stands: "on_stands"
  std::vector<std::string> conditions, parts_off, proofs_open;
  std::vector<int> next;  // step numbers not done yet
};

struct FastenerMove {
  std::string id;
  std::vector<std::string> instances;
  std::string state;
  std::optional<Number> torque;
};

struct LooseItem {
  std::string id, instance, state, at;
  std::string may_bear;  // greatest load it may see as it is: "on stands", …
};
// What is not yet as it must be when the cart is given back.
struct Unfinished {
  std::vector<LooseItem> loose;
  std::vector<std::string> off;  // parts whose place on the cart is empty
  std::string may_be;            // the most that may come on the cart so: "on stands", "rolled", … "released"
  bool up = false;               // a wheel is off the floor: what it may be is for when it is down
};

// What the cart stands on at a step, seen from above, and what that bears.
struct LoadRange {
  Number least, most;  // kg
};
struct Foothold {
  std::string what;  // "left stand", "front right wheel", "jack under the axle"
  Length x{}, y{};
  Number load;                     // kg; below zero: it lifts off
  std::optional<LoadRange> range;  // of four points, as they give; `load` where they give alike
};
struct SupportView {
  std::string up;  // "front", "rear", "both"
  std::vector<Foothold> points;
  Length cg_x{}, cg_y{};
  std::optional<Number> jack;                   // what the jack carries beside the stands
  Force tip{}, bar{}, slip{};                   // pull that tips it; a seized nut's pull; a slipping bar's
  Force roll{};                                 // pull that the chocked wheels on the floor resist
  bool chocked = false, brake_holds = false;    // what holds the wheels on the floor, as the steps have it
  bool changed = false;                         // differs from the step before
  std::vector<std::string> off, off_unweighed;  // parts off and counted; off, and their mass not told
  std::vector<std::string> propped;             // held by a jack of their own, which takes what is not computed
};

// What the record says of a step that was signed.
struct BookedStep {
  std::string who, when, evidence, second, instead;
};

struct StepLine {
  int number = 0;
  std::string id, side, kit, stage, act, evidence, load;
  std::vector<std::string> tools, needs, removes, fits, undoes, cautions;
  std::vector<std::string> work;        // "drill wing lip, 6.5 mm"
  std::string repeat_until, accessory;  // empty: done once; always
  bool optional = false, person_under = false;
  std::vector<FastenerMove> tighten, slacken;
  Unfinished unfinished;  // once it is done
  bool hold = false, done = false;
  bool again = false;  // was done, and later work or what was found undid it: not done
  std::optional<BookedStep> booked;
  std::optional<Time> minutes;
  int people = 1;
  bool short_handed = false;  // asks for more people than the shop has
  std::string one_person;     // what is done instead, where the kit says so
  std::vector<Message> faults;
  std::optional<SupportView> support;  // where an end is off its wheels
  std::vector<Message> points;         // a standard sequence, to be done in this order
  std::vector<std::string> keep_out;   // what a saw or a drill must not reach here
};

// A place in the order of work: what is signed first, then as planned.
struct StepInOrder {
  std::size_t step = 0;  // of `steps`
  std::string who;       // "A", "B", "A+B" of two technicians; empty where there is one
};

struct AlignValue {
  double value = 0.0;  // SI
  double u = 0.0;
};
struct AlignState {
  AlignValue left_camber, right_camber;  // rad
  AlignValue total_toe, toe_difference;  // m at the toe diameter
  AlignValue steering_wheel_angle;       // rad
};
struct AlignTurn {
  std::string side, adjuster;  // "left", "right" or "both"; "upper_arm"
  double turns = 0.0;          // of the part itself; positive is longer
  double flats = 0.0;
  int flats_per_turn = 6;
  std::string direction;                  // code: "longer" or "shorter"
  std::string kind = "both-hand sleeve";  // as in the cart file
  std::string lettering;                  // code: "up", "down"; empty where the hand is not known
  std::string stand;                      // code: "in-front", "behind", "left-side", "right-side"
  std::optional<Number> amount;           // what is no thread: change of length, or where an eccentric bolt then stands
  Message sentence;                       // the whole, from where one stands
  std::vector<Message> checks;            // which way round, what square and tape show, how much thread is left
  std::optional<Length> gap_a_flat, toe_a_flat;    // a test of the hand: the top gap opens, the tape's toe grows
  std::optional<Length> gap_at_stop, toe_at_stop;  // slip plates: while turning, at the moment of stopping
  std::optional<Length> square_gap_after;          // what the square should read on this wheel, positive at the top
  std::optional<Length> over;                      // the square's base
  std::optional<Length> toe_after;                 // total toe that the tape should read
};
struct AlignPass {  // what each pass read and what was then turned
  AlignState state;
  double probability = 0.0;
  std::vector<AlignTurn> turned;
  bool while_turning = false;    // read before the roll
  std::vector<Message> doubted;  // readings of this stop, with what to read again
};
// Caster by a steering sweep.
struct AlignCaster {
  std::string side;
  bool found = false;
  AlignValue caster, inclination;  // rad
  double rule_of_thumb = 0.0;
  std::optional<double> by_geometry;  // of the cart as described
};
struct AlignSuspect {
  double share = 0.0;
  Message cause;      // with its share
  Message test;       // five minutes, telling it from the next
  Message otherwise;  // what it then is
};
// How the rear axle stands: square to the cart, and in its middle.
struct RearTurn {
  std::string link, kind;  // the link's name; the adjuster's kind, as in the cart file
  double turns = 0.0, flats = 0.0;
  Length change{};   // of its length, positive is longer
  Message sentence;  // the whole
};
struct RearResult {
  std::string verdict;  // as of the front
  AlignValue thrust;    // rad, to the left positive
  AlignValue offset;    // m, to the left positive
  bool offset_known = false;
  double probability = 0.0, probability_after = 0.0;
  AlignValue thrust_after, offset_after;
  BandValue<Angle> thrust_wanted;
  BandValue<Length> offset_wanted;
  std::vector<RearTurn> turns;
  Message why;
  std::vector<Message> coach, notes;
};
struct AlignResult {
  std::string verdict;  // "adjust", "accept", "measure", "diagnose"
  AlignState state;
  Length toe_diameter{};
  double probability = 0.0;
  std::vector<AlignTurn> turns;
  AlignState expected;
  double probability_after = 0.0;
  int more_readings = 0;
  Message why;                    // the verdict's reason
  std::vector<Message> coach;     // before and while reading, chosen by what the job has
  std::vector<Message> handling;  // before and after turning
  std::vector<Message> notes;     // doubted readings, defaults in use
  std::vector<AlignSuspect> suspects;
  std::vector<AlignCaster> caster;
  bool slip_plates = false, beam = false;
  bool wants_camber = true, wants_difference = true;  // a tolerance is given or assumed
  std::vector<AlignPass> passes;
  BandValue<Angle> camber_wanted;
  BandValue<Length> total_toe_wanted, toe_difference_wanted;
};
// Of `handling`: what is done once the turns are made, not before them.
bool comes_after(const Message& handling);

struct Assessment {
  Verdict verdict = Verdict::go;
  std::vector<Finding> findings;       // fixed order: stop, condition, note, met; each by room
  std::vector<std::size_t> sentences;  // the verdict in at most three findings, as a mechanic would say it
  CartSummary before, after;
  std::vector<LoadCaseResult> load_cases;
  AxleTravel front_before, front_after, rear_before, rear_after;
  std::vector<GapResult> gaps;
  std::vector<AxleClearance> clearance;
  std::vector<FastenerLine> fasteners;
  std::vector<StepLine> steps;           // numbered as the kits have them
  std::vector<StepInOrder> order;        // of a job; empty for a kit alone, which keeps its own
  Unfinished unfinished;                 // by the signed steps of the job
  std::vector<Message> release_refused;  // empty: nothing is below final
  std::string work_state;                // where anything is entered: in-work, held-back, released; else not-begun
  std::optional<RecordLine> given_back;  // the signature that gives the cart back
  std::vector<RecordLine> record;
  std::optional<ResumeCard> resume;  // where anything is signed
  std::optional<AlignResult> align;
  std::optional<RearResult> rear;  // where the rear axle was read
};

}  // namespace trammel
