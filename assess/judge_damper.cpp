#include "assess/geometry.h"
#include "suspension/geometry/axle.h"

namespace trammel {

using suspension::Side;

// A damper that is fully out or in before the wheel is at its stop becomes the stop, and is torn or bent by it.
void judge_damper(Context& c, const JudgedAxle& axle) {
  for (const Side side : {Side::left, Side::right}) {
    const auto& given = side == Side::right && axle.now.right ? axle.now.right : axle.now.left;
    if (!given || (side == Side::right && !axle.now.right)) continue;
    const bool strut = given->strut && !given->damper;
    const auto& open = strut ? given->strut->open : given->damper ? given->damper->open : std::nullopt;
    const auto& closed = strut ? given->strut->closed : given->damper ? given->damper->closed : std::nullopt;
    const std::string part = axle.name + (side == Side::left ? ".left." : ".right.") + (strut ? "strut" : "damper");
    const std::string subject = axle.now.right ? axle.name + (side == Side::left ? " left" : " right") : axle.name;
    const auto held = [&](const char* code, const std::optional<Valued<Length>>& limit, const char* key, Length rise,
                          Finding::Sense sense) {
      if (!limit) return;
      const auto length = [&](const suspension::AxleMechanism& m) { return m.side_pose(side, {rise}).damper_length; };
      const auto now = length(*axle.model.mechanism);
      if (!now) return;
      LimitCheck check{code, subject + " damper"};
      check.sense = sense;
      check.value = number(*now);
      check.limit = number(limit->value);
      if (limit->u) check.limit.u = limit->u->si();
      if (axle.was)
        if (const auto was = length(*axle.was)) check.before = number(*was);
      check.when_broken = Outcome::stop;
      check.source = "geometry";
      check.inputs = axle.range.inputs;
      check.inputs.push_back(input(part + "." + key, *limit));
      Finding f = held_against(std::move(check));
      f.message.arguments.emplace_back("rise", number(rise));
      if (f.outcome != Outcome::met) f.cure = Message{"cure-damper", {}};
      c.add(std::move(f));
    };
    held("damper-out", open, "open", axle.range.lowest, Finding::Sense::at_most);
    held("damper-in", closed, "closed", axle.range.highest, Finding::Sense::at_least);
  }
}

}  // namespace trammel
