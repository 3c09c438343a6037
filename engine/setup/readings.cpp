#include "setup/readings.h"

#include <cmath>

#include "measure/uncertainty.h"
#include "setup/belief.h"

namespace trammel::setup {

std::vector<Observation> observations(const Reading& r, const AlignmentTask& task) {
  const Instruments& in = task.instruments;
  const double n = std::max(1, r.repeats);
  std::vector<Observation> all;

  // Cambers: by square as an angle with the gap's and the base's uncertainty, or by gauge.
  const auto camber = [&](ReadingItem item, const std::optional<SquareGap>& gap, const std::optional<Angle>& gauge) {
    const double side = item == ReadingItem::left_camber ? -1.0 : 1.0;
    if (gap) {
      const Estimate<Angle> c = camber_of(*gap, in.square.sd, in.square_base.sd);
      // The sidewall pushes the square's foot out by a rectangular 0 to `bulge` (JCGM 100:2008 4.3.7), alike each time.
      const double bulge = r.square_touches == SquareTouches::sidewall ? task.handling.sidewall_bulge / gap->over : 0.0;
      const bool plumb = r.square_stands == SquareStands::plumb;
      all.push_back({.item = item,
                     .value = c.value.si() + 0.5 * bulge,
                     .variance = std::pow(c.u.si(), 2) / n + bulge * bulge / 12.0,
                     .floor = plumb ? side : 0.0,
                     .by_square = true});
    }
    if (gauge)
      all.push_back(
          {.item = item, .value = gauge->si(), .variance = std::pow(in.camber_gauge.sd.si(), 2) / n, .floor = side});
  };
  camber(ReadingItem::left_camber, r.left_camber_gap, r.left_camber_gauge);
  camber(ReadingItem::right_camber, r.right_camber_gap, r.right_camber_gauge);

  // Total toe: rear less front, each end with its own noise and the tape's step as a rectangle.
  const double step = std::pow(resolution(in.tape_step.sd).si(), 2);
  if (r.toe_front && r.toe_rear)
    all.push_back({.item = ReadingItem::total_toe,
                   .value = (*r.toe_rear - *r.toe_front).si(),
                   .variance = 2.0 * (std::pow(in.tape.sd.si(), 2) + step) / n,
                   .is_length = true,
                   .diameter = r.toe_diameter.value_or(task.toe_diameter).si()});

  // Each wheel's own toe by string, with the steering wheel held; the wheel's angle where it was rolled straight.
  const bool strings = r.left_string || r.right_string;
  const SteeringWheel wheel = r.steering_wheel.value_or(strings ? SteeringWheel::held : SteeringWheel::rolled_straight);
  const double held = wheel == SteeringWheel::held && r.steering_wheel_angle ? r.steering_wheel_angle->si() : 0.0;
  const auto string = [&](ReadingItem item, const std::optional<StringReading>& s) {
    if (s)
      all.push_back({.item = item,
                     .value = (s->front - s->rear).si(),
                     .variance = 2.0 * std::pow(in.string.sd.si(), 2) / n,
                     .is_length = true,
                     .diameter = r.string_diameter.value_or(task.toe_diameter).si(),
                     .held = held});
  };
  string(ReadingItem::left_string, r.left_string);
  string(ReadingItem::right_string, r.right_string);
  if (r.steering_wheel_angle && wheel == SteeringWheel::rolled_straight && !r.while_turning)
    all.push_back({.item = ReadingItem::steering_wheel_angle,
                   .value = r.steering_wheel_angle->si(),
                   .variance = std::pow(in.steering_wheel.sd.si(), 2) / n});
  for (Observation& o : all) o.while_turning = r.while_turning;
  return all;
}

double predict(const Observation& o, const Eigen::VectorXd& x, Eigen::RowVectorXd& gradient) {
  gradient.setZero(x.size());
  // While turning each wheel stands off by its scrub.
  const auto wheel_angle = [&](int wheel) {
    return o.while_turning ? x[wheel] + x[left_camber_scrub + wheel] : x[wheel];
  };
  const auto set_slope = [&](int wheel, double slope) {
    gradient[wheel] = slope;
    if (o.while_turning) gradient[left_camber_scrub + wheel] = slope;
  };
  switch (o.item) {
    case ReadingItem::left_camber:
    case ReadingItem::right_camber: {
      const int wheel = o.item == ReadingItem::left_camber ? left_camber : right_camber;
      set_slope(wheel, 1.0);
      gradient[square_error] = o.by_square ? 1.0 : 0.0;
      gradient[floor_slope] = o.floor;
      return gradient * x;
    }
    case ReadingItem::total_toe:
      set_slope(left_toe, o.diameter * std::cos(wheel_angle(left_toe)));
      set_slope(right_toe, o.diameter * std::cos(wheel_angle(right_toe)));
      return o.diameter * (std::sin(wheel_angle(left_toe)) + std::sin(wheel_angle(right_toe)));
    case ReadingItem::left_string:
    case ReadingItem::right_string: {
      // Steered left by held / ratio, the left wheel toes out and the right one in.
      const bool left = o.item == ReadingItem::left_string;
      const int wheel = left ? left_toe : right_toe;
      const double sign = left ? 1.0 : -1.0, ratio = x[steering_ratio];
      const double toe = wheel_angle(wheel) + sign * (x[centre_error] - o.held / ratio),
                   slope = o.diameter * std::cos(toe);
      set_slope(wheel, slope);
      gradient[centre_error] = sign * slope;
      gradient[steering_ratio] = sign * slope * o.held / (ratio * ratio);
      return o.diameter * std::sin(toe);
    }
    case ReadingItem::steering_wheel_angle: {
      const double off = 0.5 * (x[left_toe] - x[right_toe]) + x[centre_error], ratio = x[steering_ratio];
      gradient[left_toe] = 0.5 * ratio;
      gradient[right_toe] = -0.5 * ratio;
      gradient[centre_error] = ratio;
      gradient[steering_ratio] = off;
      return ratio * off;
    }
  }
  return 0.0;
}

}  // namespace trammel::setup
