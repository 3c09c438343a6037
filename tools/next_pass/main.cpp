// Carries the alignment of an example job one stop further, by simulation: the readings that ship with an
// example are made here and never typed in.
//
//   next_pass JOB.toml SEED LEFT_CAMBER RIGHT_CAMBER TOTAL_TOE STEERING_WHEEL [REPEATS [again]]
//
// The cart's truth is the state given (camber of each wheel, total toe at the toe diameter, steering wheel off
// straight) with effects of the adjusters drawn from their uncertainty by the seed. What the file holds already is
// replayed with the same seed, so that the next stop follows from it. Without readings the first is appended; else the
// turns that `trammel align` prescribes, if any, and the reading after them. Nothing is appended once it says accept,
// but with `again`: the reading after the first drive. Each value is the mean of REPEATS readings, 1 where not given.
#include <fmt/core.h>

#include <cmath>
#include <cstdlib>

#include "assess/alignment_task.h"
#include "job/job_shape.h"
#include "jobfile/splice.h"
#include "measure/text.h"
#include "setup/simulate.h"
#include "setup/verdict.h"
#include "shop/files.h"
#include "shop/open.h"

using namespace trammel;

namespace {

double si(const char* text, Kind kind) {
  const ReadResult read = read_quantity(text, kind);
  if (const auto* written = std::get_if<Written>(&read)) return written->number.si;
  fmt::print(stderr, "cannot read {}\n", text);
  std::exit(2);
}

// As a person writes it down: the tape to a sixteenth, the square to half a millimetre, the wheel to a degree.
template <class Q>
Q as_written(const std::string& text) {
  return Q::from_si(si(text.c_str(), KindOf<Q>::kind));
}
Length on_tape(Length l) { return as_written<Length>(fmt::format("{}/16 in", std::lround(16.0 * l.in(units::inch)))); }
Length to_half_mm(Length l) {
  return as_written<Length>(fmt::format("{:.1f} mm", 0.5 * std::round(2.0 * l.in(units::mm))));
}

// The mean of several is written to a tenth.
Length to_a_tenth(Length l) { return as_written<Length>(fmt::format("{:.1f} mm", l.in(units::mm))); }

SquareGap gap(const setup::SquareGap& g, bool mean) {
  return {mean ? to_a_tenth(g.gap) : to_half_mm(g.gap),
          to_half_mm(g.over),
          g.at == setup::GapAt::top ? SquareGap::At::top : SquareGap::At::bottom,
          {},
          {}};
}
template <class Q>
Valued<Q> measured(Q value) {
  return {value, std::nullopt, Basis::measured, {}};
}

Reading written(const setup::Reading& r, Length toe_diameter) {
  Reading w;
  const bool mean = r.repeats > 1;
  const auto tape = [&](Length l) { return measured(mean ? to_a_tenth(l) : on_tape(l)); };
  if (mean) w.repeats = Count{r.repeats, {}};
  if (r.left_camber_gap) w.left_camber_gap = gap(*r.left_camber_gap, mean);
  if (r.right_camber_gap) w.right_camber_gap = gap(*r.right_camber_gap, mean);
  if (r.toe_front) w.toe_front = tape(*r.toe_front);
  if (r.toe_rear) w.toe_rear = tape(*r.toe_rear);
  w.toe_diameter = measured(to_half_mm(toe_diameter));
  if (r.steering_wheel_angle)
    w.steering_wheel_angle =
        measured(as_written<Angle>(fmt::format("{:.0f} deg", r.steering_wheel_angle->in(units::degree))));
  return w;
}

// Puts a move under its key.
struct Put {
  std::string key;
  AdjusterMove move;
  void field(const Key& k, std::optional<AdjusterMove>& place) {
    if (k.name == key) place = move;
  }
  void field(const Key&, std::optional<Text>&) {}  // who and when
};

Adjustment written(const std::vector<setup::PrescribedTurn>& turns, const std::vector<FittedAdjuster>& adjusters) {
  Adjustment a;
  for (const setup::PrescribedTurn& t : turns)
    for (const FittedAdjuster& f : adjusters) {
      if (f.law.side != t.side || f.law.name != t.adjuster) continue;
      Put put{key_of(f), {t.flats, AdjusterMove::Unit::flats, {}}};
      if (!(f.thread_diameter.si() > 0.0) || f.part_turns != 1.0)
        put.move = {t.turns / units::turn * f.per_turn.si(), AdjusterMove::Unit::length, {}};
      fields(put, a);
    }
  return a;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 7 || argc > 9) {
    fmt::print(stderr, "next_pass JOB.toml SEED LEFT_CAMBER RIGHT_CAMBER TOTAL_TOE STEERING_WHEEL [REPEATS [again]]\n");
    return 2;
  }
  const std::string path = argv[1];
  DiskFiles disk;
  const Loaded<Job> job = load_job(disk, path);
  fmt::print(stderr, "{}", render(job.diagnostics));
  const Loaded<Cart> cart = open_cart(path, false);
  if (!job.value || !cart.value) return 2;
  const auto given = job_alignment(*job.value, *cart.value, cart_model(*cart.value));
  if (!given) return 2;

  // The truth: own toes from total toe and from where the steering wheel stands on a straight run.
  setup::Generator generator(static_cast<std::uint64_t>(std::strtoull(argv[2], nullptr, 10)));
  const double ratio = given->task.steering_ratio ? given->task.steering_ratio->value : 14.0;
  const Angle total = setup::toe_angle(Length::from_si(si(argv[5], Kind::length)), given->task.toe_diameter);
  const Angle difference = Angle::from_si(2.0 * si(argv[6], Kind::angle) / ratio);
  const setup::WheelAngles start{Angle::from_si(si(argv[3], Kind::angle)), Angle::from_si(si(argv[4], Kind::angle)),
                                 0.5 * (total + difference), 0.5 * (total - difference)};
  setup::TrueCart truth = setup::draw_cart(given->task, start, generator);
  truth.steering_ratio = ratio;
  setup::SimulatedCart simulated(given->task, truth);

  // What the file holds already happens again.
  setup::ReadingPlan plan;
  if (argc > 7) plan.repeats = std::max(1, std::atoi(argv[7]));
  for (const setup::Event& event : given->events) {
    if (std::holds_alternative<setup::Reading>(event))
      simulated.read(plan, generator);
    else
      simulated.turn(std::get<setup::Adjustment>(event), generator);
  }

  auto text = std::get<std::string>(disk.read(path, ""));
  if (!given->events.empty()) {
    const setup::Answer answer = setup::align(given->task, given->events, setup::usual_way(given->floor));
    const bool done = answer.verdict == setup::Verdict::accept;
    if (argc > 8) {
      if (!done) fmt::print(stderr, "not accepted yet: {:.3f}\n", answer.probability_in_tolerance);
    } else if (done || answer.verdict == setup::Verdict::diagnose) {
      fmt::print(stderr, "nothing more to do: {:.3f} in tolerance\n", answer.probability_in_tolerance);
      return 0;
    }
    // Turn, or only read once more where that is what is asked for.
    if (argc < 9 && !answer.turns.empty()) {
      setup::Adjustment turns;
      for (const auto& t : answer.turns) turns.turns.push_back({t.side, t.adjuster, t.turns});
      simulated.turn(turns, generator);
      const Spliced turned = append_adjustment(text, written(answer.turns, given->adjusters));
      fmt::print(stderr, "{}", render(turned.diagnostics));
      text = turned.text;
    }
  }
  const Spliced read = append_reading(text, written(simulated.read(plan, generator), given->task.toe_diameter));
  fmt::print(stderr, "{}", render(read.diagnostics));
  text = read.text;
  const std::string why = write_file(path, text);
  if (!why.empty()) fmt::print(stderr, "{}: {}\n", path, why);
  return why.empty() ? 0 : 2;
}
