#include "setup/blunder.h"

#include <algorithm>
#include <cmath>

#include "setup/belief.h"

namespace trammel::setup {

namespace {

struct Hypothesis {
  Blunder blunder;
  double log_prior = 0.0, log_apart = 0.0;  // the density of what is set aside
  std::vector<Event> tail;                  // from the stop, or the turns before it, to the end
  std::size_t from = 0;
};

GapAt other(GapAt at) { return at == GapAt::top ? GapAt::bottom : GapAt::top; }

// The adjustments just before a reading: its turns were perhaps not rolled.
std::size_t turned_before(const std::vector<Event>& events, std::size_t reading) {
  std::size_t from = reading;
  while (from > 0 && std::holds_alternative<Adjustment>(events[from - 1])) --from;
  return from;
}

std::vector<Event> tail_with(const std::vector<Event>& events, std::size_t from, const Reading& reading,
                             std::size_t at) {
  std::vector<Event> tail(events.begin() + static_cast<std::ptrdiff_t>(from), events.end());
  tail[at - from] = reading;
  return tail;
}

void not_rolled(std::vector<Event>& events, std::size_t from, std::size_t reading) {
  for (std::size_t i = from; i < reading; ++i) std::get<Adjustment>(events[i]).rolled = false;
  std::get<Reading>(events[reading]).while_turning = true;
}

void set_aside(Reading& r, ReadingItem item) {
  switch (item) {
    case ReadingItem::left_camber:
      r.left_camber_gap.reset(), r.left_camber_gauge.reset();
      break;
    case ReadingItem::right_camber:
      r.right_camber_gap.reset(), r.right_camber_gauge.reset();
      break;
    case ReadingItem::total_toe:
      r.toe_front.reset(), r.toe_rear.reset();
      break;
    case ReadingItem::left_string:
      r.left_string.reset();
      break;
    case ReadingItem::right_string:
      r.right_string.reset();
      break;
    case ReadingItem::steering_wheel_angle:
      r.steering_wheel_angle.reset();
      break;
  }
}

// Every slip that one stop may hold.
void add_slips(const std::vector<Event>& events, std::size_t at, std::vector<Hypothesis>& all) {
  const Reading& r = std::get<Reading>(events[at]);
  const auto add = [&](ReadingItem item, Suspicion kind, double prior, const Reading& instead, double range = 0.0) {
    all.push_back({{at, item, kind, 0.0},
                   std::log(prior),
                   range > 0.0 ? -std::log(range) : 0.0,
                   tail_with(events, at, instead, at),
                   at});
  };
  const auto apart = [&](ReadingItem item, double range) {
    Reading instead = r;
    set_aside(instead, item);
    add(item, Suspicion::unlikely, 0.005, instead, range);
  };
  const auto camber = [&](ReadingItem item, std::optional<SquareGap> Reading::*gap,
                          std::optional<Angle> Reading::*gauge) {
    if (!(r.*gap) && !(r.*gauge)) return;
    apart(item, (12.0 * units::degree).si());
    Reading instead = r;
    if (r.*gap)
      (instead.*gap)->at = other((r.*gap)->at);
    else
      instead.*gauge = -*(r.*gauge);
    add(item, r.*gap ? Suspicion::gap_at_wrong_edge : Suspicion::wrong_sign, 0.01, instead);
  };
  camber(ReadingItem::left_camber, &Reading::left_camber_gap, &Reading::left_camber_gauge);
  camber(ReadingItem::right_camber, &Reading::right_camber_gap, &Reading::right_camber_gauge);

  // A length misread once among its repeats, or its ends exchanged.
  const auto lengths = [&](ReadingItem item, const auto& changed, const auto& exchanged) {
    apart(item, (200.0 * units::mm).si());
    add(item, Suspicion::front_and_rear_swapped, 0.005, exchanged(r));
    for (const Length slip : {units::inch / 16.0, units::inch / 8.0, units::inch / 4.0, units::inch / 2.0, units::inch,
                              10.0 * units::mm, 50.0 * units::mm, 100.0 * units::mm})
      for (const double sign : {-1.0, 1.0})
        add(item, Suspicion::tape_misread, 0.02 / 16.0,
            changed(r, slip * (sign / static_cast<double>(std::max(1, r.repeats)))));
  };
  if (r.toe_front && r.toe_rear)
    lengths(
        ReadingItem::total_toe,
        [](Reading x, Length by) {
          x.toe_rear = *x.toe_rear + by;
          return x;
        },
        [](Reading x) {
          std::swap(x.toe_front, x.toe_rear);
          return x;
        });
  for (const auto& [item, string] : {std::pair{ReadingItem::left_string, &Reading::left_string},
                                     {ReadingItem::right_string, &Reading::right_string}}) {
    if (!(r.*string)) continue;
    const auto s = string;
    lengths(
        item,
        [s](Reading x, Length by) {
          (x.*s)->rear = (x.*s)->rear + by;
          return x;
        },
        [s](Reading x) {
          std::swap((x.*s)->front, (x.*s)->rear);
          return x;
        });
  }
  if (r.steering_wheel_angle && !r.left_string && !r.right_string && !r.while_turning) {
    apart(ReadingItem::steering_wheel_angle, (60.0 * units::degree).si());
    Reading instead = r;
    instead.steering_wheel_angle = -*r.steering_wheel_angle;
    add(ReadingItem::steering_wheel_angle, Suspicion::wrong_sign, 0.01, instead);
  }

  // Read before the roll: scrub in all of it, the steering wheel anywhere near where it was clamped.
  const std::size_t from = turned_before(events, at);
  if (from == at || r.while_turning) return;
  std::vector<Event> tail(events.begin() + static_cast<std::ptrdiff_t>(from), events.end());
  not_rolled(tail, 0, at - from);
  const double wheel = r.steering_wheel_angle && !r.left_string && !r.right_string ? (20.0 * units::degree).si() : 0.0;
  all.push_back({{at, ReadingItem::total_toe, Suspicion::not_rolled, 0.0},
                 std::log(0.02),
                 wheel > 0.0 ? -std::log(wheel) : 0.0,
                 std::move(tail),
                 from});
}

}  // namespace

Blunders find_blunders(const AlignmentTask& given, const std::vector<Event>& events) {
  AlignmentTask task = given;
  task.surprise_limit = 1e9;  // the bare evidence, nothing widened

  // As read, keeping what was known before each event.
  std::vector<Belief> before{Belief(task)};
  for (std::size_t i = 0; i < events.size(); ++i) {
    before.push_back(before.back());
    before.back().apply(events[i], i);
  }
  Blunders result;
  const Belief::Inside& end = before.back().inside();
  if (end.most_surprise < worth_a_look) return result;

  std::vector<Hypothesis> all;
  for (std::size_t i = 0; i < events.size(); ++i)
    if (std::holds_alternative<Reading>(events[i])) add_slips(events, i, all);

  // Each slip's weight against all sound.
  double sum = 1.0;
  for (Hypothesis& h : all) {
    Belief belief = before[h.from];
    for (std::size_t i = 0; i < h.tail.size(); ++i) belief.apply(h.tail[i], h.from + i);
    h.blunder.probability =
        std::exp(std::min(500.0, belief.inside().log_evidence + h.log_apart + h.log_prior - end.log_evidence));
    sum += h.blunder.probability;
  }
  result.sound = 1.0 / sum;
  for (const Hypothesis& h : all) {
    const auto same = std::find_if(result.suspects.begin(), result.suspects.end(), [&](const Blunder& b) {
      return b.event == h.blunder.event && b.item == h.blunder.item && b.kind == h.blunder.kind;
    });
    const double share = h.blunder.probability / sum;
    if (same != result.suspects.end())
      same->probability += share;
    else
      result.suspects.push_back({h.blunder.event, h.blunder.item, h.blunder.kind, share});
  }
  std::erase_if(result.suspects, [](const Blunder& b) { return b.probability < 0.01; });
  std::stable_sort(result.suspects.begin(), result.suspects.end(),
                   [](const Blunder& a, const Blunder& b) { return a.probability > b.probability; });
  return result;
}

ReadingFlag flag_of(const AlignmentTask& task, const std::vector<Event>& events, const Blunder& blunder) {
  const std::vector<Event> clean = without(blunder, events);
  ReadingFlag flag{.event = blunder.event, .item = blunder.item, .suspicion = blunder.kind};
  // What the entries before it foretold; a first reading has only the prior to be held against.
  std::vector<Event> so_far(clean.begin(), clean.begin() + static_cast<std::ptrdiff_t>(blunder.event));
  Belief then = fold(task, so_far);
  for (const Observation& o : observations(std::get<Reading>(events[blunder.event]), task)) {
    if (o.item != blunder.item) continue;
    Eigen::RowVectorXd slope;
    const double expected = predict(o, then.inside().joint.mean(), slope),
                 known = slope.dot(then.inside().joint.covariance() * slope.transpose());
    flag.z = (o.value - expected) / std::sqrt(known + o.variance);
    flag.is_length = o.is_length;
    if (o.is_length) {
      flag.read_length = Length::from_si(o.value);
      flag.expected_length = Length::from_si(expected);
    } else {
      flag.read_angle = Angle::from_si(o.value);
      flag.expected_angle = Angle::from_si(expected);
    }
  }
  return flag;
}

std::vector<Event> without(const Blunder& blunder, std::vector<Event> events) {
  if (blunder.kind == Suspicion::not_rolled)
    not_rolled(events, turned_before(events, blunder.event), blunder.event);
  else
    set_aside(std::get<Reading>(events[blunder.event]), blunder.item);
  return events;
}

}  // namespace trammel::setup
