#include "assess/geometry.h"
#include "suspension/clearance/axle_places.h"

namespace trammel {
namespace {

using suspension::Side;
using V = Vector3<double>;
using Mechanism = std::shared_ptr<const suspension::AxleMechanism>;

const Length slack_left = 5.0 * units::mm;  // of a line at droop

}  // namespace

// Cables and hoses at full droop. Their clips on the axle are told as the cart first stood.
void judge_lines(Context& c, const JudgedAxle& axle) {
  for (const Line& line : axle.now.line) {
    const auto metres = [](const PointValue& p) { return V{p.value.x.si(), p.value.y.si(), p.value.z.si()}; };
    const V chassis = metres(line.chassis), as_it_stood = metres(line.axle);
    const Side side = as_it_stood.y < 0 ? Side::right : Side::left;
    const auto more_at_droop = [&](const Mechanism& m, const V& clip) -> std::optional<double> {
      const Length lowest = axle.range.lowest;
      const auto places = suspension::wheel_places(m, side, {}, lowest, axle.range.highest);
      const auto rest = places({}, 0.0, {}), droop = places(lowest, 0.0, {});
      if (!rest || !droop) return std::nullopt;
      return norm(droop->carrier(clip) - chassis) - norm(as_it_stood - chassis);
    };
    const auto now = more_at_droop(axle.model.mechanism, axle.model.carried(as_it_stood));
    if (!now) continue;
    LimitCheck check{"line-slack", line.name.value};
    check.value = number(Length::from_si(*now));
    if (axle.was)
      if (const auto before = more_at_droop(axle.was, as_it_stood)) check.before = number(Length::from_si(*before));
    check.limit = number(line.slack.value, line.slack.u.value_or(Length{}));
    check.source = "geometry";
    check.inputs = axle.range.inputs;
    check.inputs.push_back(input(axle.name + ".line." + line.name.value + ".slack", line.slack));
    Finding f = held_against(std::move(check));
    if (f.outcome != Outcome::met)
      f.cure = Message{"cure-longer-line", {{"by", number(Length::from_si(*now) - line.slack.value + slack_left)}}};
    c.add(std::move(f));
  }
}

}  // namespace trammel
