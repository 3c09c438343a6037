#include <algorithm>

#include "assess/context.h"
#include "assess/fastener_words.h"
#include "work/instance.h"

namespace trammel {
namespace {

namespace fs = fastener;

// The text that a stack's fault points at.
std::string piece(const std::string& stack, std::size_t at, std::size_t length) {
  return at < stack.size() ? stack.substr(at, std::max<std::size_t>(length, 1)) : stack;
}

fs::Ask ask(const KitFastener& f, Context& c) {
  fs::Ask a;
  if (f.torque)
    a.torque = f.torque->value;
  else if (!f.passes.empty())
    a.torque = f.passes.back().value;
  if (f.surface) {
    a.surface = fs::read_surface(f.surface->value);
    if (!a.surface) {
      Finding unknown;
      unknown.outcome = Outcome::condition;
      unknown.subject = f.id.value;
      unknown.message = {"surface-unknown", {{"subject", f.id.value}, {"text", f.surface->value}}};
      unknown.source = "the kit's own words";
      unknown.place = f.surface->place;
      c.add(std::move(unknown));
    }
  }
  if (f.method) a.method = fs::read_method(f.method->value);
  if (f.across_flats) a.wrench = f.across_flats->value;
  if (f.across_flats_nut) a.nut_wrench = f.across_flats_nut->value;
  a.nut_reused = f.reuse && f.reuse->value == "reuse";
  return a;
}

void describe(FastenerLine& line, const fs::Joint& joint, const fs::Judgement& j) {
  line.thread = fs::name(joint.thread);
  if (joint.bolt) line.strength = joint.bolt->bolt_class;
  if (line.strength.empty())
    if (const fs::Nut* nut = fs::clamping_nut(joint); nut && !nut->nut_class.empty())
      line.strength = "nut " + nut->nut_class;
  line.surface = fs::name(j.surface);
  line.nut_factor = {j.k.low, j.k.nominal, j.k.high};
  const auto& window = j.preload ? j.preload : j.suggested_preload;
  if (window) line.preload = {window->low, window->nominal, window->high};
  if (j.proof) line.of_proof = {j.proof->low, j.proof->nominal, j.proof->high};
  if (j.suggested) line.torque_computed = number(*j.suggested);
}

Finding flagged(const KitFastener& f, fs::Flag flag, const fs::Judgement& j, const fs::Question& q,
                const std::string& at) {
  Finding found;
  found.outcome = outcome_of(flag);
  // A jam nut only keeps what another thread holds: its own strength decides nothing.
  const bool lone_jam_nut = !q.joint.bolt && fs::jam_nut(q.joint) && fs::clamping_nut(q.joint) == fs::jam_nut(q.joint);
  if (lone_jam_nut && (flag == fs::Flag::class_missing || flag == fs::Flag::torque_too_low))
    found.outcome = Outcome::note;
  found.subject = f.id.value;
  found.message = flag_message(flag, f.id.value, q, j, at);
  found.source = flag_source(flag, q, j);
  found.inputs = {{"fastener." + f.id.value + ".stack", std::nullopt, Basis::kit, f.stack.place}};
  if (f.torque) found.inputs.push_back(input("fastener." + f.id.value + ".torque", *f.torque));
  found.basis = f.surface ? Basis::kit : Basis::assumed;
  found.place = f.torque ? f.torque->place : f.stack.place;
  // With a torque the kit does not give, or gives wrong, ours is offered as what it is: computed.
  if (found.outcome != Outcome::note && j.suggested)
    found.cure = Message{"cure-torque", {{"computed", number(*j.suggested)}}};
  return found;
}

void judge_one(Context& c, const Kit& kit, const KitFastener& f) {
  FastenerLine line;
  line.id = f.id.value;
  line.kit = kit.name.value;
  line.stack = f.stack.value;
  if (f.torque)
    line.torque_asked = number(f.torque->value);
  else if (!f.passes.empty())
    line.torque_asked = number(f.passes.back().value);
  for (const auto& pass : f.passes) line.passes.push_back(number(pass.value));
  if (f.across_flats) line.wrench_head = number(f.across_flats->value);
  if (f.across_flats_nut) line.wrench_nut = number(f.across_flats_nut->value);
  const auto text = [](const std::optional<Text>& t) { return t ? t->value : std::string(); };
  line.reuse = text(f.reuse);
  line.only_on = text(f.only_on);
  line.retorque = text(f.retorque);
  line.note = text(f.note);
  line.second_person = f.second_person && f.second_person->value;
  const work::Expansion places = work::expand_braces(f.id.value, f.at.value);
  for (const work::Instance& i : places.instances)
    line.instances.push_back(work::name(i).substr(std::min(work::name(i).size(), f.id.value.size() + 1)));
  if (line.instances.empty()) line.instances.emplace_back();
  line.at = without_places(f.at.value);

  // Pins, clips and the like are no threaded joint: they are counted and not computed.
  const auto read = fs::read_stack(f.stack.value);
  if (const auto* error = std::get_if<fs::StackError>(&read)) {
    Finding bad;
    const bool no_thread = error->fault == fs::StackFault::no_threaded_part;
    bad.outcome = no_thread ? Outcome::note : Outcome::condition;
    bad.subject = f.id.value;
    bad.message = {no_thread ? "stack-without-thread" : "stack-unreadable",
                   {{"subject", f.id.value},
                    {"piece", piece(f.stack.value, error->at, error->length)},
                    {"nearest", error->nearest}}};
    bad.source = "the kit's own words";
    bad.place = f.stack.place;
    line.flags.push_back({bad.outcome, bad.message});
    c.add(std::move(bad));
    c.out.fasteners.push_back(std::move(line));
    return;
  }
  const fs::Question q{std::get<fs::Joint>(read), ask(f, c)};
  const fs::Judgement j = fs::judge(q.joint, q.ask);
  describe(line, q.joint, j);
  for (const fs::Flag flag : j.flags) {
    Finding found =
        flagged(f, flag, j, q,
                line.instances.size() > 1 ? line.at + ", " + std::to_string(line.instances.size()) + "×" : line.at);
    line.flags.push_back({found.outcome, found.message});
    c.add(std::move(found));
  }

  // The whole window below proof: the one limit every joint has.
  if (j.proof) {
    LimitCheck check{"preload", f.id.value};
    check.value =
        share(j.proof->nominal, 0.5 * std::max(j.proof->high - j.proof->nominal, j.proof->nominal - j.proof->low));
    check.limit = share(1.0);
    check.when_broken = Outcome::stop;
    check.source = strength_source(q, j) + "; spread of the method: VDI 2230, " + std::string(j.method_scatter.source);
    check.inputs = {{"fastener." + f.id.value + ".stack", std::nullopt, Basis::kit, f.stack.place},
                    {"nut factor", number(j.k.nominal), f.surface ? Basis::kit : Basis::assumed, {}}};
    Finding met = held_against(std::move(check));
    // A window that reaches proof at its far end is told by its own flag.
    if (met.outcome == Outcome::condition) met.outcome = Outcome::note;
    c.add(std::move(met));
  }
  c.out.fasteners.push_back(std::move(line));
}

}  // namespace

void judge_fasteners(Context& c) {
  for (const KitUse& use : c.job.kits)
    for (const KitFastener& f : use.kit.fastener) judge_one(c, use.kit, f);
}

}  // namespace trammel
