#include "setup/cause_study.h"

#include <cmath>

#include "setup/population.h"
#include "setup/study_corner.h"

namespace trammel::setup {
namespace {

using suspension::CornerLinkage;

// One fault of one cart, in the cart's own terms.
struct Fault {
  Cause cause = Cause::bent_part;
  Where where = Where::both;
  bool is_new = false;
};

struct Draw {
  Cause cause;
  double prior[2];  // one side (left and right together), both
  double new_share;
};
// As diagnosis states them.
constexpr Draw wishbone[] = {{Cause::bent_part, {0.22, 0.0}, 0.3},      {Cause::worn_joint, {0.20, 0.06}, 0.2},
                             {Cause::sagged_spring, {0.12, 0.13}, 0.4}, {Cause::wrong_part, {0.0, 0.12}, 0.95},
                             {Cause::swapped_arms, {0.0, 0.05}, 0.95},  {Cause::rack_not_centred, {0.0, 0.08}, 0.7}};
constexpr Draw on_beam[] = {{Cause::bent_part, {0.22, 0.10}, 0.3},       {Cause::worn_joint, {0.20, 0.06}, 0.2},
                            {Cause::sagged_spring, {0.12, 0.13}, 0.4},   {Cause::wrong_part, {0.0, 0.10}, 0.95},
                            {Cause::reversed_block, {0.04, 0.06}, 0.95}, {Cause::rack_not_centred, {0.0, 0.08}, 0.7}};

Fault draw_fault(bool beam, Generator& g) {
  const std::span<const Draw> all = beam ? std::span<const Draw>(on_beam) : std::span<const Draw>(wishbone);
  double sum = 0.0;
  for (const Draw& d : all) sum += d.prior[0] + d.prior[1];
  double at = uniform(g) * sum;
  for (const Draw& d : all)
    for (int k = 0; k < 2; ++k) {
      at -= d.prior[k];
      if (at > 0.0) continue;
      const Where where = k == 1 ? Where::both : uniform(g) < 0.5 ? Where::left : Where::right;
      return {d.cause, where, uniform(g) < d.new_share};
    }
  return {};
}

// What one wheel shows, degrees, and its height and caster.
struct Wheel {
  double camber = 0.0, toe = 0.0, height = 0.0, caster = 0.0;
};
using Pair = std::array<Wheel, 2>;

struct Cart {
  CornerLinkage<double> left, right;
};

// Camber and toe in degrees where the linkage stands so.
std::pair<double, double> shown(const CornerLinkage<double>& corner, double rise, double rack,
                                const suspension::LengthChanges<double>& lengths) {
  const auto pose = corner.pose(Length::from_si(rise), Length::from_si(rack), lengths);
  if (!pose.outcome.ok()) return {0.0, 0.0};
  const double degree = units::degree.si();
  return {-std::asin(pose.spin_axis.z) / degree, std::atan2(pose.spin_axis.x, pose.spin_axis.y) / degree};
}

// The fault put into the cart. Sizes as diagnosis states them.
Pair faulty(const Fault& f, const Cart& cart, bool beam, Generator& g) {
  Pair w{};
  const bool on[2] = {f.where != Where::right, f.where != Where::left};
  const double size = normal(g), positive = std::abs(size), other = normal(g);
  const bool by_upper = uniform(g) < 0.6;
  double rise[2] = {}, rack = 0.0;
  suspension::LengthChanges<double> lengths[2];
  for (int k = 0; k < 2; ++k) {
    if (!on[k]) continue;
    const double side = k == 0 ? 1.0 : -1.0;
    switch (f.cause) {
      case Cause::bent_part:
        if (beam && f.where == Where::both) {
          w[k].camber += 1.2 * size + 0.3 * normal(g);
        } else if (beam || by_upper) {
          w[k].camber += 1.8 * size;
          w[k].toe += 1.0 * other;
          w[k].caster += 1.5 * normal(g);
        } else {
          lengths[k].lower_arm = -0.006 * positive * units::metre;
          w[k].camber += 0.3 * normal(g);
          w[k].toe += 0.7 * normal(g);
          w[k].caster += 1.0 * normal(g);
        }
        break;
      case Cause::worn_joint:
        w[k].camber += -0.9 * positive + 0.2 * normal(g);
        w[k].toe += -0.225 * positive + 0.3 * normal(g);
        break;
      case Cause::sagged_spring:
        rise[k] = 0.025 * positive + (f.where == Where::both ? 0.002 * normal(g) : 0.0);
        w[k].height -= rise[k];
        break;
      case Cause::wrong_part:
        if (beam)
          w[k].camber += 1.5 * size + 0.1 * normal(g);
        else
          (by_upper ? lengths[k].upper_arm : lengths[k].lower_arm) = 0.007 * size * units::metre;
        break;
      case Cause::swapped_arms:
        (by_upper ? lengths[k].upper_arm : lengths[k].lower_arm) = 0.0045 * side * size * units::metre;
        w[k].caster += 1.5 * normal(g);
        break;
      case Cause::reversed_block:
        w[k].caster += 4.0 * size;
        w[k].toe += 0.2 * normal(g);
        break;
      case Cause::rack_not_centred:
        rack = 0.004 * size;
        break;
      case Cause::adjuster_out_of_range:
        break;
    }
  }
  if (beam) {
    // The drag link steers both wheels alike: half a degree a millimetre.
    w[0].toe += 500.0 * rack;
    w[1].toe -= 500.0 * rack;
    return w;
  }
  const CornerLinkage<double>* corners[2] = {&cart.left, &cart.right};
  for (int k = 0; k < 2; ++k) {
    const double mirrored = k == 0 ? rack : -rack;
    const auto [camber, toe] = shown(*corners[k], rise[k], mirrored, lengths[k]);
    const auto [camber0, toe0] = shown(*corners[k], 0.0, 0.0, {});
    w[k].camber += camber - camber0;
    w[k].toe += toe - toe0;
  }
  return w;
}

// Rates of the corner as the tool believes it, degrees a metre by central differences.
CornerRates rates_of(const CornerLinkage<double>& corner, bool left) {
  const double h = 1e-4, degree = units::degree.si();
  const auto rate = [&](auto at) {
    const auto [c1, t1] = at(h);
    const auto [c0, t0] = at(-h);
    return WheelRate{AnglePerLength::from_si((c1 - c0) * degree / (2 * h)),
                     AnglePerLength::from_si((t1 - t0) * degree / (2 * h))};
  };
  CornerRates r;
  r.rise = rate([&](double d) { return shown(corner, d, 0.0, {}); });
  r.rack = rate([&](double d) { return shown(corner, 0.0, left ? d : -d, {}); });
  r.upper_arm = rate([&](double d) {
    suspension::LengthChanges<double> l;
    l.upper_arm = d * units::metre;
    return shown(corner, 0.0, 0.0, l);
  });
  r.lower_arm = rate([&](double d) {
    suspension::LengthChanges<double> l;
    l.lower_arm = d * units::metre;
    return shown(corner, 0.0, 0.0, l);
  });
  r.tie_rod = rate([&](double d) {
    suspension::LengthChanges<double> l;
    l.tie_rod = d * units::metre;
    return shown(corner, 0.0, 0.0, l);
  });
  return r;
}

// Tie rods alone can be turned: camber is only diagnosed.
AlignmentTask task_of(bool beam) {
  AlignmentTask t;
  t.toe_diameter = 508.0 * units::mm;
  t.tolerance.camber = {-0.5 * units::degree, 0.5 * units::degree};
  t.tolerance.total_toe = {3.0 * units::mm, 6.0 * units::mm};
  t.tolerance.toe_difference = {-2.0 * units::mm, 2.0 * units::mm};
  t.steering_ratio = {14.0, 0.5};
  t.chassis = class_average(beam);
  return t;
}

}  // namespace

CauseResult study_causes(const CauseStudy& study, Generator& g, const std::function<void()>& one_more) {
  CauseResult result;
  const CornerLinkage<double> believed(study_corner());
  AlignmentTask task = task_of(study.beam);
  if (!study.beam) {
    task.chassis.left = rates_of(believed, true);
    task.chassis.right = rates_of(believed, false);
    task.chassis.known = true;
  }
  const double d = task.toe_diameter / units::mm;
  const double middle = std::asin(2.25 / d) / units::degree.si();
  for (int done = 0; done < study.carts;) {
    const Cart cart{CornerLinkage<double>(disturbed(study_corner(), 5.0 * units::mm, g)),
                    CornerLinkage<double>(disturbed(study_corner(), 5.0 * units::mm, g))};
    const Fault fault = draw_fault(study.beam, g);
    const Pair off = faulty(fault, cart, study.beam, g);
    // Healthy scatter, after and before the work; the body's rise by the kit is known to a few millimetres.
    double now[4], before[4];
    for (int k = 0; k < 2; ++k) {
      now[k] = off[k].camber + 0.2 * normal(g);
      now[2 + k] = middle + off[k].toe + 0.2 * normal(g);
      before[k] = (fault.is_new ? 0.0 : off[k].camber) + 0.2 * normal(g);
      before[2 + k] = middle + (fault.is_new ? 0.0 : off[k].toe) + 0.2 * normal(g);
    }
    const auto toe = [&](double left, double right) {
      return d * (std::sin(left * units::degree.si()) + std::sin(right * units::degree.si()));
    };
    const double total = toe(now[2], now[3]), difference = 0.5 * (total - 2.0 * toe(now[3], 0.0));
    const bool out =
        std::abs(now[0]) > 0.5 || std::abs(now[1]) > 0.5 || std::abs(total - 4.5) > 1.5 || std::abs(difference) > 2.0;
    // A block that is turned round shows in the caster alone.
    if (!out && fault.cause != Cause::reversed_block) continue;
    ++done;
    if (one_more) one_more();

    TrueCart truth;
    truth.start = {now[0] * units::degree, now[1] * units::degree, now[2] * units::degree, now[3] * units::degree};
    SimulatedCart simulated(task, truth);
    Belief belief(task);
    for (int i = 0; i < 2; ++i) belief.condition(simulated.read({}, g));

    AlignmentTask asked = task;
    if (study.also != ReadAlso::nothing) {
      const Length u = 1.5 * units::mm;
      const double difference_mm = 1e3 * (off[0].height - off[1].height) + 4.0 * normal(g) + 1.4 * normal(g);
      asked.signs.height_difference = Estimate<Length>{difference_mm * units::mm, std::sqrt(2.0) * u};
    }
    if (study.also == ReadAlso::all) {
      const double change_mm = 500.0 * (off[0].height + off[1].height) * (fault.is_new ? 1.0 : 0.0) + 5.0 * normal(g);
      asked.signs.height_change = Estimate<Length>{change_mm * units::mm, 1.5 * units::mm};
      const auto read = [&](double value, double u) {
        return Estimate<Angle>{(value + u * normal(g)) * units::degree, u * units::degree};
      };
      asked.signs.before_work =
          Signs::Wheels{read(before[0], 0.15), read(before[1], 0.15), read(before[2], 0.2), read(before[3], 0.2)};
      asked.signs.left_caster = read(off[0].caster + 0.7 * normal(g), 0.7);
      asked.signs.right_caster = read(off[1].caster + 0.7 * normal(g), 0.7);
    }
    const std::vector<Suspect> ranked = diagnose(asked, belief);

    // Causes by their share, whichever side.
    std::array<double, seeded_causes + 1> share{};
    for (const Suspect& s : ranked) share[static_cast<std::size_t>(s.cause)] += s.share;
    std::size_t first = 0, second = 1;
    for (std::size_t i = 0; i < share.size(); ++i)
      if (share[i] > share[first]) first = i;
    second = first == 0 ? 1 : 0;
    for (std::size_t i = 0; i < share.size(); ++i)
      if (i != first && share[i] > share[second]) second = i;
    const std::size_t true_cause = static_cast<std::size_t>(fault.cause);
    ++result.seeded[true_cause];
    ++result.named[true_cause][first];
    result.first[true_cause] += first == true_cause;
    result.first_two[true_cause] += first == true_cause || second == true_cause;
    result.stated += share[first] / study.carts;
    for (const Suspect& s : ranked)
      if (static_cast<std::size_t>(s.cause) == true_cause) {
        result.right_side[true_cause] += s.where == fault.where;
        break;
      }
  }
  return result;
}

}  // namespace trammel::setup
