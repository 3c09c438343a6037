#include "setup/study.h"

#include <cmath>

namespace trammel::setup {

namespace {

// A stop's reading taken at its face value: are its numbers in tolerance?
bool reads_in_tolerance(const AlignmentTask& task, const Reading& r) {
  const Tolerance& t = task.tolerance;
  const auto in = [](const auto& band, auto value) { return !band || (value >= band->low && value <= band->high); };
  const double ratio = task.steering_ratio ? task.steering_ratio->value : 14.0;
  Length difference;
  if (r.left_string && r.right_string) {
    const Length l = r.left_string->front - r.left_string->rear, right = r.right_string->front - r.right_string->rear;
    difference = 0.5 * (l - right) * (task.toe_diameter / *r.string_diameter);
  } else if (r.steering_wheel_angle) {
    difference = task.toe_diameter * (r.steering_wheel_angle->si() / ratio);
  }
  return in(t.camber, camber_of(*r.left_camber_gap)) && in(t.camber, camber_of(*r.right_camber_gap)) &&
         in(t.total_toe, *r.toe_rear - *r.toe_front) && in(t.toe_difference, difference);
}

// Turning goes on while the reading is out.
void until_both_in(const AlignmentTask& task, const Study& study, const TrueCart& truth, StudyResult& result,
                   Generator& g) {
  SimulatedCart cart(task, truth);
  Belief belief(task);
  bool first_good = false;
  for (int pass = 0;; ++pass) {
    const Reading reading = cart.read(study.plan, g);
    belief.condition(reading);
    if (reads_in_tolerance(task, reading)) {
      if (!first_good) {
        first_good = true;
        ++result.first_good;
        result.first_good_out += !cart.in_tolerance();
      }
      if (cart.in_tolerance()) {
        ++result.both_in[pass];
        return;
      }
    }
    if (pass == study.most_passes) break;
    const Adjustment adjustment = prescribe(task, belief).as_adjustment();
    cart.turn(adjustment, g);
    belief.adjust(adjustment);
  }
  ++result.both_in.back();
}

// Does what the verdict says.
void as_judged(const AlignmentTask& task, const Study& study, const TrueCart& truth, StudyResult& result,
               Generator& g) {
  SimulatedCart cart(task, truth);
  Belief belief(task);
  int passes = 0;
  for (int stop = 0; stop < study.most_stops && passes <= study.most_passes; ++stop) {
    belief.condition(cart.read(study.plan, g));
    const Answer answer = judge(task, belief);
    result.mean_stops += 1.0 / study.carts;
    if (answer.verdict == Verdict::accept) {
      ++result.accepted;
      result.accepted_out += !cart.in_tolerance();
      ++result.judged_passes[passes];
      return;
    }
    if (answer.verdict == Verdict::diagnose) {
      ++result.diagnosed;
      break;
    }
    if (answer.verdict == Verdict::adjust) {
      Adjustment adjustment;
      for (const PrescribedTurn& t : answer.turns) adjustment.turns.push_back({t.side, t.adjuster, t.turns});
      cart.turn(adjustment, g);
      belief.adjust(adjustment);
      ++passes;
    }
  }
  ++result.judged_passes.back();
}

double share_within(const std::vector<int>& counts, int passes, int carts) {
  int sum = 0;
  for (int k = 0; k <= passes && k + 1 < static_cast<int>(counts.size()); ++k) sum += counts[k];
  return static_cast<double>(sum) / carts;
}

}  // namespace

double StudyResult::done_within(int passes) const { return share_within(both_in, passes, carts); }
double StudyResult::accepted_within(int passes) const { return share_within(judged_passes, passes, carts); }

int StudyResult::percentile(double share) const {
  for (int k = 0; k + 1 < static_cast<int>(both_in.size()); ++k)
    if (done_within(k) >= share) return k;
  return static_cast<int>(both_in.size()) - 1;
}

StudyResult run_study(const AlignmentTask& task, const Study& study, Generator& g) {
  StudyResult result;
  result.carts = study.carts;
  result.both_in.assign(study.most_passes + 2, 0);
  result.judged_passes.assign(study.most_passes + 2, 0);
  for (int i = 0; i < study.carts; ++i) {
    const TrueCart truth = study.draw(g);
    until_both_in(task, study, truth, result, g);
    as_judged(task, study, truth, result, g);
  }
  return result;
}

}  // namespace trammel::setup
