#include "assess/bench_presets.h"

#include <algorithm>

#include "assess/context.h"
#include "assess/standing.h"
#include "assess/tyres.h"
#include "suspension/geometry/bench_preset.h"

namespace trammel {
namespace {

using suspension::Side;

// The middle of what the job wants, else the trade's own target: no camber, 3/16 in of toe-in over the tyre.
void read_wanted(BenchPresets& answer, const Job& job, const Cart& cart) {
  const auto given = job.alignment ? job.alignment->tolerance : std::nullopt;
  if (given && given->camber) answer.camber_wanted = 0.5 * (given->camber->low + given->camber->high);
  Length total = 3.0 / 16.0 * units::inch;
  if (given && given->total_toe) total = 0.5 * (given->total_toe->low + given->total_toe->high);
  const auto tyre = tyre_model(cart.front, "front");
  Length diameter = tyre ? 2.0 * tyre->radius : 18.0 * units::inch;
  for (const Event* event : standing_events(job))
    if (const auto* r = std::get_if<Reading>(event); r && r->toe_diameter) {
      diameter = r->toe_diameter->value;
      break;
    }
  answer.toe_wanted = Angle::from_si(0.5 * total.si() / diameter.si());
}

}  // namespace

BenchPresets bench_presets(const Job& job, const Cart& after, const suspension::AxleMechanism& now,
                           const suspension::AxleMechanism* was) {
  BenchPresets answer;
  if (!after.front) return answer;
  read_wanted(answer, job, after);
  const Axle& axle = *after.front;
  const auto turns = [](const auto& part) { return part && part->adjuster && part->adjuster->kind.value != "none"; };
  for (const Side side : {Side::left, Side::right}) {
    const auto& corner = side == Side::right && axle.right ? axle.right : axle.left;
    if (!corner || !turns(corner->tie_rod)) continue;
    suspension::WantedAngles wanted{std::nullopt, answer.toe_wanted};
    const bool slot = turns(corner->strut);
    if (slot || turns(corner->upper_arm)) wanted.camber = answer.camber_wanted;
    const auto change = suspension::bench_preset(now, side, wanted, slot);
    if (!change) continue;
    const std::string name = side == Side::left ? "left." : "right.";
    const auto add = [&](const char* part, const char* from, const char* to, Length by) {
      const std::string a = name + part + from, b = name + part + to;
      const auto length = suspension::distance(now, a, b);
      if (!length) return;
      const auto old = was ? suspension::distance(*was, a, b) : length;
      answer.parts.push_back({side, part, *length + by, *length + by - old.value_or(*length)});
    };
    if (slot)
      answer.parts.push_back({side, "strut_top", {}, change->strut_top});
    else if (wanted.camber)
      add("upper_arm", ".front_bush", ".ball_joint", change->upper_arm);
    add("tie_rod", ".rack_end", ".knuckle_end", change->tie_rod);
  }
  return answer;
}

void tell_presets(Context& c) {
  const auto &now = c.model_after.front, &was = c.model_before.front;
  if (!now || !now->mechanism || !now->mechanism->steered() || !now->check().empty()) return;
  const BenchPresets presets =
      bench_presets(c.job, c.after, *now->mechanism, was && was->mechanism ? was->mechanism.get() : nullptr);
  for (StepLine& step : c.out.steps) {
    const auto undoes = [&](const char* what) {
      return std::find(step.undoes.begin(), step.undoes.end(), what) != step.undoes.end();
    };
    for (const BenchPreset& p : presets.parts) {
      const char* side = p.side == Side::left ? "left" : "right";
      const bool rod = p.part == "tie_rod", slot = p.part == "strut_top", less = p.change.si() < 0;
      if ((step.side == side || step.side.empty()) && undoes(rod ? "toe" : "camber"))
        step.points.push_back({rod    ? "preset-rod"
                               : slot ? "preset-strut"
                                      : "preset-arm",
                               {{"side", std::string(side)},
                                {"length", number(p.length)},
                                {"change", number(abs(p.change))},
                                {"direction", slot ? std::string(less ? "@inward" : "@outward")
                                                   : std::string(less ? "@direction-shorter" : "@direction-longer")}}});
    }
  }
}

}  // namespace trammel
