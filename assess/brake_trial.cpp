// What a step's trial of the parking brake proves, against what the site's steepest slope asks of the loaded cart.
//
// Model: vehicle/brake.h, m g sin(slope): mass of the empty cart and what the trial puts in against the rated gross
// mass (where it is not given, the heaviest load case), the site's slope for the ramp's. A trial before any part is
// fitted is made on the old tyres: with the radius the pull of one brake torque falls, so that trial has to show more.
#include <algorithm>
#include <cmath>

#include "assess/context.h"
#include "assess/masses.h"
#include "vehicle/brake.h"
#include "work/tool.h"

namespace trammel {
namespace {

const char* source = "statics, m g sin(slope); rolling drag, which helps, left out";

using Pull = Quantity<dim::Force, Un>;
Number number_of(const Pull& p) { return number(vehicle::value_of(p), vehicle::standard_uncertainty(p)); }

AngleOf<Un> angle(vehicle::Sources& sources, const std::string& name, const Valued<double>& ratio) {
  const double flat = 1.0 + ratio.value * ratio.value;  // d atan(s) = ds / (1 + s^2)
  return sources.input(name, Angle::from_si(std::atan(ratio.value)), Angle::from_si(ratio.u.value_or(0.0) / flat));
}

bool shows_a_force(const KitStep& step) {
  return std::any_of(step.tools.begin(), step.tools.end(),
                     [](const Text& tool) { return work::read_tool(tool.value).kind == work::ToolKind::pull_gauge; });
}

struct Trials {
  Context& c;
  vehicle::Sources sources{};
  MassModel before = mass_model(c.before, c.model_before, c.model_before, sources);
  MassModel after = mass_model(c.after, c.model_before, c.model_after, sources);

  // The heaviest that the cart may be, and what says so.
  struct Full {
    vehicle::MassOf<Un> mass;
    Input from;
  };
  std::optional<Full> full() {
    if (c.after.ratings && c.after.ratings->gross) {
      const Valued<Mass>& gross = *c.after.ratings->gross;
      return Full{sources.input("gross", gross.value, gross.u.value_or(Mass{})), input("ratings.gross", gross)};
    }
    std::optional<Full> heaviest;
    for (const LoadCase& load : c.job.load_case) {
      std::vector<std::string> missing;
      auto items = after.empty;
      for (auto& r : riders(c.job, c.after, load, c.model_before, c.model_after, sources, missing))
        items.push_back(std::move(r));
      const auto whole = vehicle::sum(items).whole.mass;
      if (missing.empty() && (!heaviest || heaviest->mass < whole))
        heaviest = Full{whole, {load.name.value, number_of(whole), Basis::computed, load.name.place}};
    }
    return heaviest;
  }

  // How much less one brake torque pulls once the braked wheels are bigger.
  double tyres_grown() const {
    const auto grown = [](const std::optional<AxleModel>& was, const std::optional<AxleModel>& is) {
      return was && is && was->radius.si() > 0.0 ? is->radius / was->radius : 1.0;
    };
    const auto braked = [](const std::optional<Axle>& a) { return a && a->brake && a->brake->value != "none"; };
    double most = 1.0;
    if (braked(c.after.front) || !braked(c.after.rear))
      most = std::max(most, grown(c.model_before.front, c.model_after.front));
    if (braked(c.after.rear) || !braked(c.after.front))
      most = std::max(most, grown(c.model_before.rear, c.model_after.rear));
    return most;
  }

  void judge(const KitStep& step, bool work_begun, StepLine* line) {
    const BrakeTrial& trial = *step.trial;
    const bool level = trial.by.value == "level pull";
    const auto point = [&](const char* code, std::vector<std::pair<std::string, Argument>> arguments = {}) {
      if (line) line->points.push_back({code, std::move(arguments)});
    };
    if (level) point("trial-pull-1");
    const auto heaviest = full();
    const auto site = c.job.site && c.job.site->slope ? c.job.site->slope : std::nullopt;
    std::vector<Input> inputs = work_begun ? after.inputs : before.inputs;
    if (heaviest) inputs.push_back(heaviest->from);

    // What the trial shows.
    std::optional<Pull> shown;
    const MassModel& empty = work_begun ? after : before;
    if (level && trial.pull) {
      shown = sources.input("pull " + step.id.value, trial.pull->value, trial.pull->u.value_or(Force{}));
      inputs.push_back(input("step." + step.id.value + ".trial.pull", *trial.pull));
    } else if (!level && !empty.empty.empty() && (trial.slope || site)) {
      auto mass = vehicle::sum(empty.empty).whole.mass;
      if (trial.load) mass += sources.input("load " + step.id.value, trial.load->value, trial.load->u.value_or(Mass{}));
      shown = vehicle::slope_pull(mass, angle(sources, "slope " + step.id.value, trial.slope ? *trial.slope : *site));
      if (trial.slope) inputs.push_back(input("step." + step.id.value + ".trial.slope", *trial.slope));
    }

    // What the site asks.
    std::optional<Pull> asked;
    if (heaviest && site) {
      asked = vehicle::slope_pull(heaviest->mass, angle(sources, "site", *site));
      if (!work_begun) *asked *= Un(tyres_grown());
      inputs.push_back(input("site.slope", *site));
    }
    const std::vector<std::pair<std::string, Argument>> what = {
        {"step", step.id.value},
        {"slope", site ? share(site->value) : share(0.0)},
        {"mass", heaviest ? number_of(heaviest->mass) : number(Mass{})},
        {"tyres", !work_begun && tyres_grown() > 1.001 ? "@trial-bigger-tyres" : ""},
        {"asked", asked ? number_of(*asked) : number(Force{})},
        {"pull", shown ? number_of(*shown) : number(Force{})}};

    // On the sheet never less than is asked, to the next 10 N.
    const auto on_the_gauge = [&](const Pull& pull) {
      auto with = what;
      const Force told = Force::from_si(10.0 * std::ceil(vehicle::value_of(pull).si() / 10.0 - 1e-6));
      for (auto& [name, argument] : with)
        if (name == "asked" || name == "pull") argument = number(told);
      with.emplace_back("scale", number(Mass::from_si(std::ceil((told / units::g).si()))));
      return with;
    };
    if (level && asked && !trial.pull) point("trial-pull-2", on_the_gauge(*asked));
    if (level && trial.pull) point("trial-pull-given", on_the_gauge(*shown));
    if (level && !asked && !trial.pull) point("trial-pull-rule");
    if (level) point("trial-pull-3");
    if (level && !shows_a_force(step)) {
      Finding f;
      f.outcome = Outcome::condition;
      f.subject = "step " + step.id.value;
      f.message = {"trial-without-gauge", {{"step", step.id.value}}};
      f.source = common_practice;
      f.basis = Basis::kit;
      f.place = trial.by.place;
      c.add(std::move(f));
    }
    if (empty.empty.empty()) return;  // a kit without its cart

    if (shown && asked) {
      LimitCheck check{"trial-below-slope", "step " + step.id.value, Finding::Sense::at_least};
      check.value = number_of(*shown);
      check.limit = number_of(*asked);
      check.when_broken = Outcome::condition;
      check.source = source;
      check.inputs = std::move(inputs);
      Finding f = held_against(std::move(check));
      for (const auto& argument : what) f.message.arguments.push_back(argument);
      f.message.arguments.emplace_back("share", share(f.value->si / f.limit->si));
      f.place = trial.by.place;
      if (f.outcome != Outcome::met && !level) point("trial-short", f.message.arguments);
      return c.add(std::move(f));
    }
    std::vector<std::string> missing;
    if (!site) missing.push_back("site.slope");
    if (!heaviest) missing.push_back("ratings.gross");
    if (!shown && !missing.empty())
      return c.add(not_computed("the parking brake's trial, step " + step.id.value, missing));
    // What it covers, where nobody told what it must.
    if (shown && heaviest) {
      const double sine = vehicle::value_of(*shown).si() / (vehicle::value_of(heaviest->mass) * units::g).si();
      if (sine >= 1.0) return;
      Finding f = noted("trial-covers", "step " + step.id.value, std::nullopt, number_of(*shown), inputs, source);
      for (const auto& argument : what) f.message.arguments.push_back(argument);
      f.message.arguments.emplace_back("covers", share(std::floor(100.0 * std::tan(std::asin(sine))) / 100.0));
      c.add(std::move(f));
    }
  }
};

}  // namespace

void judge_brake_trials(Context& c) {
  std::optional<Trials> trials;
  bool work_begun = false;
  for (const KitUse& use : c.job.kits)
    for (const KitStep& step : use.kit.step) {
      if (step.trial) {
        if (!trials) trials.emplace(Trials{c});
        const auto line = std::find_if(c.out.steps.begin(), c.out.steps.end(),
                                       [&](const StepLine& l) { return l.id == step.id.value; });
        trials->judge(step, work_begun, line == c.out.steps.end() ? nullptr : &*line);
      }
      work_begun |= !step.fits.empty();
    }
}

}  // namespace trammel
