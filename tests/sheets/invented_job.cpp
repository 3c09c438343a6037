#include "sheets/invented_job.h"

#include <algorithm>

namespace trammel::sheets {
namespace {

using namespace units;

template <class Q>
Valued<Q> measured(Q q, std::optional<Q> u = std::nullopt) {
  return {q, u, Basis::measured, {}};
}
Text text(std::string s) { return {std::move(s), {}}; }
PointValue point(double x, double y, double z) { return {{x * mm, y * mm, z * mm}, {}, Basis::measured, {}}; }

const std::vector<std::string> corners = {"left front", "right front", "left rear", "right rear"};

FastenerLine fastener(std::string id, std::string at, std::vector<std::string> instances, std::string thread,
                      Torque torque, Length across, double proof) {
  FastenerLine f;
  f.id = id, f.kit = "Landing kit", f.at = at, f.instances = instances, f.thread = thread, f.strength = "8.8";
  f.stack = "bolt " + thread + " 8.8 zinc, washer, arm 10 mm, knuckle thread 18 mm steel";
  f.torque_asked = number(torque);
  f.torque_computed = number(torque * 0.96);
  f.surface = "dry zinc, clean";
  f.nut_factor = {0.14, 0.20, 0.26};
  f.of_proof = {{proof * 0.72, proof, proof * 1.35}};
  f.preload = {{proof * 24 * kN, proof * 34 * kN, proof * 46 * kN}};
  f.wrench_head = number(across);
  f.reuse = "reuse";
  return f;
}

std::vector<FastenerLine> fasteners() {
  std::vector<std::string> studs;
  for (const std::string& corner : corners)
    for (int i = 1; i <= 4; ++i) studs.push_back(corner + " " + std::to_string(i));
  std::vector<FastenerLine> list = {
      fastener("F1", "cradle to frame rail", corners, "M12x80", 60 * Nm, 18 * mm, 0.51),
      fastener("F2", "lower arm pivot", {"left front", "left rear", "right front", "right rear"}, "M12x90", 60 * Nm,
               18 * mm, 0.51),
      fastener("F3", "steering arm to knuckle", {"left front", "left rear", "right front", "right rear"}, "M10x40",
               50 * Nm, 16 * mm, 0.74),
      fastener("F4", "tie rod end, castle nut", {"left", "right"}, "M10", 35 * Nm, 16 * mm, 0.52),
      fastener("F6", "sleeve jam nut", {"left inner", "left outer", "right inner", "right outer"}, "M14x1.5", 50 * Nm,
               21 * mm, 0.31),
      fastener("F8", "wheel nut, 60 degree cone", studs, "M12x1.5", 85 * Nm, 18 * mm, 0.77),
      fastener("R1", "spring seat to axle", {"left 1", "left 2", "right 1", "right 2"}, "M10x60", 45 * Nm, 16 * mm,
               0.74),
      fastener("R2", "track bar to frame", {""}, "M12x70", 60 * Nm, 18 * mm, 0.51),
      fastener("E1", "battery main terminal", {"plus", "minus"}, "M8", 10 * Nm, 13 * mm, 0.3)};
  list[1].only_on = "wheels";
  list[2].second_person = true;
  list[2].wrench_nut = number(17 * mm);
  list[5].passes = {number(30 * Nm), number(60 * Nm), number(85 * Nm)};
  list[5].retorque = "after 25 km or 7 days";
  list[5].second_person = true;
  list[5].flags = {{Outcome::condition, {"invented-flag-preload-reaches-proof", {}}}};
  list[6].retorque = "after 25 km or 7 days";
  list[7].note = "tighten only at ride height";
  list[8].torque_asked.reset();
  list[8].of_proof.reset();
  list[8].preload.reset();
  return list;
}

const char* load_after(int n, int steps) { return n * 10 < steps * 8 ? "on stands" : "on wheels"; }

std::vector<StepLine> steps_of(const std::vector<FastenerLine>& fasteners, int count) {
  const std::vector<std::string> acts = {
      "Park on the slab, chock the rear wheels, key out and in your pocket",
      "Open the pack main negative, cap and tag the lug",
      "Jack under the cradle, stands under the rails, lower on to them, rock test, wheels off",
      "Take the arms off the old cradle, keep bushes with their side",
      "Bolt the lowered cradle to the frame rails, nuts by hand until all four are in",
      "Bolt the steering arms to the knuckles",
      "Fit the longer arms; pivots to contact only, they are finished at ride height",
      "Refit the wheels, three passes, the last on the floor",
      "Settle the cart and finish the pivots at ride height"};
  std::vector<StepLine> steps;
  for (int i = 0; i < count; ++i) {
    StepLine s;
    s.number = i + 1;
    s.id = "step-" + std::to_string(i + 1);
    s.act = acts[i % acts.size()];
    s.kit = "Landing kit";
    s.side = i % 4 == 3 ? "left" : "";
    s.minutes = (5.0 + 5 * (i % 4)) * minute;
    s.people = i % 5 == 4 ? 2 : 1;
    s.tools = {"torque wrench 10 to 60", "spanner 16"};
    s.evidence = "arm ball height within 5 mm of the height noted before";
    const FastenerLine& f = fasteners[i % fasteners.size()];
    s.stage = f.id[0] == 'R' ? "rear" : f.id == "F8" ? "both" : f.id[0] == 'F' ? "front" : "";
    s.tighten = {{f.id, f.instances, i % 2 ? "final" : "part-tight", i % 2 ? f.torque_asked : std::nullopt}};
    if (i % 4 == 0) s.slacken = {{"F8", {"left front 1", "left front 2"}, "slack", std::nullopt}};
    if (i % 3 == 1) s.cautions = {"crush", "stored energy"};
    if (i == 1) s.cautions = {"battery"};
    if (i % 4 == 2) s.removes = {"road wheels", "brake hose bracket"}, s.undoes = {"toe", "camber"};
    s.hold = i % 5 == 4;
    s.load = load_after(i, count);
    for (std::size_t j = 0; j < fasteners.size() && static_cast<int>(j) <= i; ++j)
      for (const std::string& instance : fasteners[j].instances)
        s.unfinished.loose.push_back({fasteners[j].id, instance,
                                      (i + j) % 3 == 0   ? "finger-tight"
                                      : (i + j) % 3 == 1 ? "part-tight"
                                                         : "slack",
                                      fasteners[j].at,
                                      j % 3 == 0   ? "on stands"
                                      : j % 3 == 1 ? "on wheels"
                                                   : "rolled"});
    steps.push_back(s);
  }
  if (count > 0) steps.back().unfinished.loose.clear();
  if (count > 3) steps[3].faults = {{"invented-fault-bush-left-behind", {}}};
  return steps;
}

AlignResult alignment() {
  AlignResult a;
  a.verdict = "adjust";
  a.state = {{1.4 * degree.si(), 0.15 * degree.si()},
             {-0.6 * degree.si(), 0.15 * degree.si()},
             {-0.019, 0.0008},
             {0.0022, 0.0006},
             {6 * degree.si(), degree.si()}};
  a.toe_diameter = 508 * mm;
  a.probability = 0.004;
  a.probability_after = 0.87;
  const auto turn = [](const char* side, const char* adjuster, double flats) {
    AlignTurn t;
    t.side = side, t.adjuster = adjuster, t.flats = flats, t.turns = flats / 6,
    t.direction = flats > 0 ? "longer" : "shorter";
    return t;
  };
  a.turns = {turn("left", "upper_arm", -4.0), turn("right", "upper_arm", 2.5), turn("left", "tie_rod", -9.25),
             turn("right", "tie_rod", -8.0)};
  a.turns[0].square_gap_after = 1.2 * mm, a.turns[0].over = 280 * mm;
  a.turns[1].square_gap_after = -3.5 * mm, a.turns[1].over = 280 * mm;
  a.turns[2].toe_after = -8 * mm;
  a.turns[3].toe_after = 4.5 * mm;
  // On slip plates: what is seen before the cart is rolled.
  a.slip_plates = true;
  a.handling = {{"invented-clamp-the-wheel", {}}, {"handling-jam-and-roll", {}}};
  a.turns[0].gap_at_stop = 2.4 * mm, a.turns[2].toe_at_stop = -9.5 * mm;
  a.suspects = {
      {0.6, {"invented-cause-bent-spindle", {}}, {"invented-test-turn-half-round", {}}, {"invented-otherwise-arm", {}}},
      {0.3, {"invented-cause-sagged-spring", {}}, {"invented-test-ride-heights", {}}, {}}};
  a.caster = {{"left", true, {0.09, 0.01}, {0.2, 0.01}, 0.088, 0.085}, {"right", false, {}, {}, 0.0, std::nullopt}};
  a.total_toe_wanted = {3 * mm, 6 * mm, {}};
  a.toe_difference_wanted = {-1 * mm, 1 * mm, {}};
  a.camber_wanted = {-0.25 * degree, 0.25 * degree, {}};
  AlignPass pass;
  pass.state = a.state;
  pass.state.total_toe.value = -0.026;
  pass.probability = 0.001;
  pass.turned = {turn("left", "tie_rod", -3.0)};
  a.passes = {pass, pass};
  a.notes = {{"invented-note-second-toe-reading-doubted", {}}};
  return a;
}

RearResult rear_axle() {
  RearResult r;
  r.verdict = "adjust";
  r.thrust = {0.01, 0.001}, r.offset = {-0.009, 0.0015}, r.offset_known = true;
  r.probability = 0.02, r.probability_after = 0.97;
  r.thrust_after = {0.002, 0.001}, r.offset_after = {0.0001, 0.0016};
  r.turns = {{"track bar", "sleeve", 2.8, 17.0, 6.0 * mm, {"invented-turn-the-track-bar", {}}},
             {"left arm", "eccentric", 0, 0, -5.0 * mm, {"invented-set-the-left-arm", {}}}};
  r.why = {"invented-rear-why", {}};
  r.coach = {{"invented-rear-coach", {}}};
  return r;
}

}  // namespace

Job invented_job() {
  Job job;
  job.name = text("Shuttle 7, landing kit and side cover");
  job.customer = text("Skerry Quay landing");
  job.date = text("2026-11-25");
  job.cart.name = text("Shuttle 7");
  job.cart.wheelbase = measured(1900 * mm);
  job.cart.seat = {{text("driver"), point(-700, 250, 1000)}, {text("rear"), point(-1500, -250, 1000)}};
  job.cart.body_point = {{text("wing lip"), point(-280, 480, 560), {}}};
  job.cart.ratings = Ratings{measured(880 * kg), measured(400 * kg)};
  Axle axle;
  axle.tyre = Tyre{text("20x10-10"), {}, {}, {}, {}, measured(254 * mm), measured(150 * kPa)};
  job.cart.front = axle;
  job.cart.rear = axle;
  job.site = Site{text("harbour"), Valued<double>{0.18, {}, Basis::measured, {}}, measured(5.0 * metre),
                  measured(1880 * mm), measured(20 * km_per_h)};
  job.events = {TorqueEntry{text("F1 left front"), {}, measured(60 * Nm), text("B"), text("M. K."), {}, {}, {}}};
  return job;
}

Assessment invented_assessment(int steps, bool with_alignment) {
  Assessment a;
  a.verdict = Verdict::go_with_conditions;
  a.sentences = {0, 1};
  a.before = {1900 * mm, 1760 * mm, 112 * mm, 217 * mm, 217 * mm, 460 * mm, 475 * mm, 20 * km_per_h, "golf-car"};
  a.after = {1900 * mm, 1830 * mm,       182 * mm,
             247 * mm,  247 * mm,        478 * mm,
             490 * mm,  22.8 * km_per_h, "personal-transport-vehicle"};
  const auto load = [](const char* name, double kilograms) {
    LoadCaseResult c;
    c.name = name;
    c.after.total = kilograms * kg;
    c.after.tilt_rigid = 33 * degree, c.after.tilt_rolled = 29.5 * degree, c.after.tip_back = 41 * degree;
    c.after.bend_speed = (26.0 - kilograms / 100) * km_per_h;
    c.before = c.after;
    return c;
  };
  a.load_cases = {load("driver", 568), load("four people", 820), load("two behind and luggage", 742)};
  const auto finding = [](Outcome outcome, const char* code, Number value, Number limit) {
    Finding f;
    f.outcome = outcome, f.message = {code, {}}, f.value = value, f.limit = limit,
    f.source = "common practice, no source";
    f.load_case = "four people";
    f.margin = Number{value.kind, limit.si - value.si, {}};
    return f;
  };
  a.findings = {finding(Outcome::stop, "invented-stop-rear-tyre-below-axle-load", number(310 * kg), number(300 * kg)),
                finding(Outcome::condition, "invented-condition-hold-the-speed",
                        number(22.8 * km_per_h, 0.4 * km_per_h), number(20 * km_per_h)),
                finding(Outcome::note, "invented-note-door-is-near", number(1830 * mm, 3 * mm), number(1880 * mm))};
  a.findings[0].cure = Message{"invented-cure-take-the-next-load-index", {}};
  for (const double side : {1.0, -1.0}) {
    const std::string s = side > 0 ? "left." : "right.";
    const auto put = [&](const char* name, double x, double y, double z) {
      a.front_after.points[s + name] = {x * mm, side * y * mm, z * mm};
    };
    put("lower_arm.front_bush", 107, 78, 269), put("lower_arm.rear_bush", -96, 81, 265),
        put("lower_arm.ball_joint", 5, 361, 219);
    put("tie_rod.rack_end", 120, 85, 323), put("tie_rod.knuckle_end", 105, 362, 275);
    a.rear_after.points[s + "trailing.chassis"] = {-1300 * mm, side * 300 * mm, 300 * mm};
    a.rear_after.points[s + "trailing.axle"] = {-1880 * mm, side * 320 * mm, 250 * mm};
  }
  a.fasteners = fasteners();
  a.steps = steps_of(a.fasteners, steps);
  a.release_refused = {{"invented-refused-f2-is-snug", {}}};
  if (with_alignment) a.align = alignment(), a.rear = rear_axle();
  return a;
}

void add_invented_resume(Assessment& a) {
  ResumeCard card;
  card.last_done = {{4, "signed", "step-2", "M. K.", "2026-11-25 10:40", false},
                    {3, "signed", "step-1", "M. K.", "2026-11-25 10:05", false}};
  card.front = "on_stands", card.rear = "on_wheels";
  card.conditions = {"pack isolated", "front on stands", "rear wheels chocked both ways"};
  card.parts_off = {"road wheels", "brake hose bracket", "old cradle"};
  card.proofs_open = {"toe", "camber", "steering stop"};
  card.next = {3, 4, 5};
  a.resume = card;
  a.unfinished.loose = a.steps[1].unfinished.loose;
}

}  // namespace trammel::sheets
