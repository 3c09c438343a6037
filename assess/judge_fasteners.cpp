#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "assess/context.h"
#include "assess/decided.h"
#include "assess/fastener_words.h"
#include "assess/joint_asked.h"
#include "assess/work_words.h"
#include "measure/nearest.h"
#include "messages/catalogue.h"
#include "work/instance.h"
#include "work/tool.h"
#include "work/words.h"

namespace trammel {
namespace {

namespace fs = fastener;

// A word of the kit that is none of those that are known.
void word_unknown(Context& c, const char* code, const KitFastener& f, const Text& text,
                  const std::vector<std::string_view>& known) {
  std::string all;
  for (const std::string_view k : known) all += (all.empty() ? "" : ", ") + std::string(k);
  Finding unknown;
  unknown.outcome = Outcome::condition;
  unknown.subject = f.id.value;
  unknown.message = {code,
                     {{"subject", f.id.value},
                      {"text", text.value},
                      {"nearest", meant(nearest(text.value, std::span<const std::string_view>(known)))},
                      {"known", all}}};
  unknown.source = "the kit's own words";
  unknown.place = text.place;
  c.add(std::move(unknown));
}

// A distance or a time: "after 25 km or 7 days".
bool tells_when(const std::string& text) {
  static constexpr std::array<std::string_view, 12> units = {"km",   "mi",    "mile", "miles", "min",  "minutes",
                                                             "hour", "hours", "day",  "days",  "week", "weeks"};
  bool number = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" ,;", at), text.size());
    const std::string word = text.substr(at, end - at);
    if (number && (word == "h" || std::find(units.begin(), units.end(), word) != units.end())) return true;
    number = !word.empty() && word.find_first_not_of("0123456789.") == std::string::npos;
    at = end + 1;
  }
  return false;
}

fs::Ask ask(const KitFastener& f, Context& c) {
  if (f.surface && !fs::read_surface(f.surface->value))
    word_unknown(c, "surface-unknown", f, *f.surface, fs::surface_names());
  if (f.method && !fs::read_method(f.method->value))
    word_unknown(c, "method-unknown", f, *f.method, fs::method_names());
  if (f.retorque && !tells_when(f.retorque->value)) word_unknown(c, "retorque-undated", f, *f.retorque, {});
  fs::Ask asked = ask_of(f);
  asked.wheel = f.duty && f.duty->value == "wheel";
  return asked;
}

// What the cart's loads do to a pivot: the case that comes nearest to what bolt and parts bear.
struct PivotLoad {
  fs::PivotCase load_case{};
  fs::Judgement judgement;
};

std::optional<PivotLoad> under_road(const Context& c, const KitPivot& pivot, fs::Question& q) {
  // The greatest load of that axle, with the least stable cart: whichever load case has it.
  const bool front = pivot.axle.value == "front";
  Mass axle{};
  double stability = 0.0;
  for (const LoadCaseResult& l : c.out.load_cases) {
    axle = std::max(axle, front ? l.after.front : l.after.rear);
    if (l.after.stability_factor) stability = std::max(stability, *l.after.stability_factor);
  }
  if (axle <= Mass{} || stability <= 0.0) return std::nullopt;
  const fs::WheelLoads wheel{0.5 * axle * units::g, axle * units::g, stability};
  const std::string lies = pivot.lies ? pivot.lies->value : "across the cart";
  const auto how = lies == "upright"          ? fs::PivotLies::upright
                   : lies == "along the cart" ? fs::PivotLies::along_cart
                                              : fs::PivotLies::across_cart;
  q.ask.planes = pivot.planes ? pivot.planes->value : 2;
  std::optional<PivotLoad> worst;
  fs::Question tried = q;
  for (const fs::PivotCase load_case : fs::pivot_cases) {
    tried.ask.load = fs::bolt_load(fs::road_load(load_case, wheel), how, pivot.share ? pivot.share->value : 1.0);
    const fs::Judgement j = fs::judge(tried.joint, tried.ask);
    if (!j.pivot) return std::nullopt;
    if (worst && j.pivot->together <= worst->judgement.pivot->together) continue;
    worst = PivotLoad{load_case, j};
    q.ask.load = tried.ask.load;
  }
  return worst;
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
  // A torque that the kit gives holds for a surface: without it nobody knows the clamp force.
  if (flag == fs::Flag::surface_assumed && q.ask.torque && !f.surface) found.outcome = Outcome::condition;
  if (flag == fs::Flag::locker_cures && !f.cure) found.outcome = Outcome::condition;
  // A jam nut only keeps what another thread holds: its own strength decides nothing.
  const bool lone_jam_nut = !q.joint.bolt && fs::jam_nut(q.joint) && fs::clamping_nut(q.joint) == fs::jam_nut(q.joint);
  if (lone_jam_nut && (flag == fs::Flag::class_missing || flag == fs::Flag::torque_too_low))
    found.outcome = Outcome::note;
  // A chart that does not print the size is a hint.
  if (flag == fs::Flag::u_bolt_above_chart && j.u_bolt->basis == reference::Basis::derived)
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

// A pivot's share of what bolt and parts bear, as a limit.
void judge_pivot(Context& c, const KitFastener& f, const PivotLoad& pivot, const fs::Question& q) {
  const fs::PivotAnswer& a = *pivot.judgement.pivot;
  LimitCheck check{"pivot-load", f.id.value};
  check.load_case = fs::name(pivot.load_case);
  check.value = share(a.together);
  check.limit = share(1.0);
  check.when_broken = Outcome::stop;
  check.source = flag_source(fs::Flag::pivot_overloaded, q, pivot.judgement);
  check.inputs = {{"fastener." + f.id.value + ".pivot", std::nullopt, Basis::kit, f.pivot->axle.place},
                  {"load across the bolt", number(q.ask.load->across), Basis::computed, {}}};
  if (!f.pivot->share) check.inputs.push_back({"share of the wheel's load", share(1.0), Basis::assumed, {}});
  c.add(held_against(std::move(check)));
}

// What the steps say of bolt and nut, against where the kit says they are kept; when it is checked again.
void judge_keeping(Context& c, const KitFastener& f, const fs::Question& q) {
  const auto tell = [&](const char* code, Outcome outcome, const Place& place) {
    Finding found;
    found.outcome = outcome;
    found.subject = f.id.value;
    found.message = {code, {{"subject", f.id.value}, {"at", without_places(f.at.value)}}};
    found.source = "common practice, no source";
    found.basis = Basis::kit;
    found.place = place;
    c.add(std::move(found));
  };
  if (f.bolt_kept && f.bolt_kept->value == "left in")
    for (const KitUse& use : c.job.kits)
      for (const KitStep& step : use.kit.step)
        for (const Text& move : step.slacken)
          if (move.value == f.id.value + " out") tell("bolt-left-in-and-out", Outcome::condition, move.place);
  const bool u_bolt = q.joint.bolt && q.joint.bolt->kind == fs::BoltKind::u_bolt;
  const fs::Nut* nut = fs::clamping_nut(q.joint);
  if ((u_bolt || (nut && nut->kind == fs::NutKind::wheel)) && !f.retorque)
    tell("no-second-tightening", Outcome::note, f.stack.place);
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
  line.set_by = text(f.set_by);
  line.bolt_kept = text(f.bolt_kept);
  line.nut_kept = text(f.nut_kept);
  line.grease = text(f.grease);
  if (f.torque_limit) line.torque_limit = number(f.torque_limit->value);
  if (f.cure) line.cure = number(f.cure->value);
  line.second_person = f.second_person && f.second_person->value;
  const work::Expansion places = work::expand_braces(f.id.value, f.at.value);
  for (const work::Instance& i : places.instances)
    line.instances.push_back(work::name(i).substr(std::min(work::name(i).size(), f.id.value.size() + 1)));
  if (line.instances.empty()) line.instances.emplace_back();
  line.from_pack = line.instances.size();
  line.at = without_places(f.at.value);

  // Pins, clips and the like are no threaded joint: they are counted and not computed.
  const auto read = fs::read_stack(f.stack.value);
  if (const auto* error = std::get_if<fs::StackError>(&read)) {
    Finding bad;
    const bool no_thread = error->fault == fs::StackFault::no_threaded_part;
    bad.outcome = no_thread ? Outcome::note : Outcome::stop;
    bad.subject = f.id.value;
    bad.message = stack_message(f.id.value, f.stack.value, *error);
    bad.source = "the kit's own words";
    bad.place = f.stack.place;
    line.threaded = !no_thread;
    line.flags.push_back({bad.outcome, bad.message});
    c.add(std::move(bad));
    c.out.fasteners.push_back(std::move(line));
    return;
  }
  fs::Question q{std::get<fs::Joint>(read), ask(f, c)};
  const auto pivot = f.pivot ? under_road(c, *f.pivot, q) : std::nullopt;
  const fs::Judgement j = pivot ? pivot->judgement : fs::judge(q.joint, q.ask);
  // What was decided is what is asked from then on, and what the page shows.
  const auto decided = torque_decided(c.job, f);
  fs::Ask asked = q.ask;
  if (decided) {
    asked.torque = *decided;
    asked.passes.clear();
    line.torque_kit = line.torque_asked;
    line.torque_asked = number(*decided);
    line.passes.clear();
    line.torque_limit.reset();
  }
  const fs::Judgement now = decided ? fs::judge(q.joint, asked) : j;
  describe(line, q.joint, now);
  if (pivot) judge_pivot(c, f, *pivot, q);
  judge_keeping(c, f, q);
  for (const fs::Flag flag : j.flags) {
    Finding found =
        flagged(f, flag, j, q,
                line.instances.size() > 1 ? line.at + ", " + std::to_string(line.instances.size()) + "×" : line.at);
    line.flags.push_back({found.outcome, found.message});
    c.add(std::move(found));
  }

  // The whole window below proof: the one limit every joint has.
  if (now.proof) {
    LimitCheck check{"preload", f.id.value};
    check.value = share(now.proof->nominal,
                        0.5 * std::max(now.proof->high - now.proof->nominal, now.proof->nominal - now.proof->low));
    check.limit = share(1.0);
    check.when_broken = Outcome::stop;
    check.source =
        strength_source(q, now) + "; spread of the method: VDI 2230, " + std::string(now.method_scatter.source);
    check.inputs = {{"fastener." + f.id.value + ".stack", std::nullopt, Basis::kit, f.stack.place},
                    {"nut factor", number(now.k.nominal), f.surface ? Basis::kit : Basis::assumed, {}}};
    Finding met = held_against(std::move(check));
    // A window that reaches proof at its far end is told by its own flag.
    if (met.outcome == Outcome::condition) met.outcome = Outcome::note;
    c.add(std::move(met));
  }
  c.out.fasteners.push_back(std::move(line));
}

// A nut factor that the kit states, against what is published for its surface, and against what it states for another.
struct StatedFactor {
  const KitFastener* fastener;
  fs::Surface surface;
  double k = 0.0;
  fs::NutFactor known;
  bool outside() const { return k < known.low - 1e-9 || k > known.high + 1e-9; }
  // What is clamped, of what the kit reckons with.
  double clamps() const { return k / known.nominal; }
};
constexpr double told_from = 0.05, matters_from = 0.20;  // of the clamp force; assumed

std::string listed(const std::vector<const StatedFactor*>& all) {
  std::string text;
  for (const StatedFactor* s : all)
    text += (text.empty() ? "" : ", ") + s->fastener->id.value + " (" + std::string(fs::name(s->surface)) + ")";
  return text;
}

void judge_nut_factors(Context& c, const Kit& kit) {
  std::vector<StatedFactor> stated;
  for (const KitFastener& f : kit.fastener)
    if (const auto surface = f.surface ? fs::read_surface(f.surface->value) : std::nullopt; surface && f.nut_factor)
      stated.push_back({&f, *surface, f.nut_factor->value, fs::nut_factor(*surface)});
  const auto tell = [&](const char* code, Outcome outcome, const StatedFactor& s, const std::string& others) {
    Finding found;
    found.outcome = outcome;
    found.subject = s.fastener->id.value;
    found.message = {code,
                     {{"subject", found.subject},
                      {"factor", number(s.k)},
                      {"surface", std::string(fs::name(s.surface))},
                      {"low", number(s.known.low)},
                      {"usual", number(s.known.nominal)},
                      {"high", number(s.known.high)},
                      {"change", share(std::abs(s.clamps() - 1.0))},
                      {"way", s.clamps() < 1.0 ? "@clamps-less" : "@clamps-more"},
                      {"others", others}}};
    found.source = std::string(s.known.source);
    found.basis = Basis::kit;
    found.inputs = {input("fastener." + found.subject + ".nut_factor", *s.fastener->nut_factor)};
    found.place = s.fastener->nut_factor->place;
    c.add(std::move(found));
  };
  for (const StatedFactor& s : stated) {
    // The same number, taken for dry threads and for oiled ones.
    std::vector<const StatedFactor*> others;
    for (const StatedFactor& o : stated)
      if (o.k == s.k && !o.fastener->nut_factor->u && fs::is_wet(o.surface) != fs::is_wet(s.surface))
        others.push_back(&o);
    if (s.outside()) {
      const bool matters = std::abs(s.clamps() - 1.0) > told_from;
      const std::string too =
          others.empty() ? "" : trammel::word(Message{"nut-factor-also", {{"others", listed(others)}}}, {});
      tell("nut-factor-outside", matters ? Outcome::condition : Outcome::note, s, too);
      continue;
    }
    const bool told = std::any_of(others.begin(), others.end(), [](const StatedFactor* o) { return o->outside(); });
    if (fs::is_wet(s.surface) || others.empty() || told || s.fastener->nut_factor->u) continue;
    // Told once, at the dry joint: which of the two is meant is the author's to say.
    double most = std::abs(s.clamps() - 1.0);
    for (const StatedFactor* o : others) most = std::max(most, std::abs(o->clamps() - 1.0));
    if (most > told_from)
      tell("nut-factor-dry-and-oiled", most > matters_from ? Outcome::condition : Outcome::note, s, listed(others));
  }
}

// The torque wrenches that a step names, against the torques it asks for.
void judge_tools(Context& c, const KitStep& step) {
  std::vector<fs::TorqueWrench> wrenches;
  for (const Text& tool : step.tools)
    if (const work::Tool t = work::read_tool(tool.value); t.lowest) wrenches.push_back({*t.lowest, *t.highest});
  if (wrenches.empty()) return;
  std::vector<std::string> ids;
  for (const FastenerLine& l : c.out.fasteners) ids.push_back(l.id);
  for (const Text& move : step.tighten) {
    const work::Target target = work::read_target(move.value, ids);
    const std::string& id = target.fastener.id;
    const auto line =
        std::find_if(c.out.fasteners.begin(), c.out.fasteners.end(), [&](const FastenerLine& l) { return l.id == id; });
    if (line == c.out.fasteners.end() || !line->torque_asked || !target.state) continue;
    // Part-tight is every pass but the last; final is the torque itself.
    std::vector<Number> asked;
    if (*target.state == work::FastenerState::final) asked = {*line->torque_asked};
    if (*target.state == work::FastenerState::part_tight && !line->passes.empty())
      asked.assign(line->passes.begin(), line->passes.end() - 1);
    for (const Number& one : asked) {
      const Torque torque = Torque::from_si(one.si);
      const auto best = [&](fs::WrenchRange range) {
        return std::any_of(wrenches.begin(), wrenches.end(),
                           [&](const fs::TorqueWrench& w) { return fs::wrench_range(w, torque) == range; });
      };
      if (best(fs::WrenchRange::fits)) continue;
      Finding found;
      found.outcome = Outcome::condition;
      found.subject = id;
      found.message = {best(fs::WrenchRange::below_a_fifth) ? "tool-low-on-scale" : "tool-off-scale",
                       {{"subject", id}, {"step", step.act.value}, {"torque", one}}};
      found.source = "ISO 6789-1 (from memory)";
      found.basis = Basis::kit;
      found.place = move.place;
      c.add(std::move(found));
    }
  }
}

// The number that stands before "split pin" in the words of a check.
std::optional<std::size_t> pins_said(const std::string& text) {
  static constexpr std::array<std::string_view, 13> numbers = {
      "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
  const std::size_t at = text.find("split pin");
  if (at == std::string::npos || at < 2) return std::nullopt;
  const std::size_t end = at - 1, begin = text.rfind(' ', end - 1) + 1;  // npos + 1 is 0
  const std::string word = text.substr(begin, end - begin);
  for (std::size_t n = 0; n < numbers.size(); ++n)
    if (word == numbers[n] || word == std::to_string(n)) return n;
  return std::nullopt;
}

// A check that counts split pins counts one for each castle nut or pin that the step makes fast.
void judge_pins(Context& c, const Kit& kit, const KitStep& step) {
  const auto said = step.evidence ? pins_said(step.evidence->value) : std::nullopt;
  if (!said) return;
  const std::string sides = step.sides ? step.sides->value : "once";
  std::vector<std::string> ids;
  for (const KitFastener& f : kit.fastener) ids.push_back(f.id.value);
  std::size_t made_fast = 0;
  for (const Text& move : step.tighten) {
    const work::Target target = work::read_target(move.value, ids);
    for (const KitFastener& f : kit.fastener) {
      if (f.id.value != target.fastener.id) continue;
      if (!pinned(f)) continue;
      for (const work::Instance& i : work::expand_braces(f.id.value, f.at.value).instances)
        made_fast += work::picks(target.fastener, i) &&
                     (sides == "once" || i.side == work::Side::none ||
                      (i.side == work::Side::right) == (sides == "right"));  // each: one side at a time
    }
  }
  if (made_fast == *said) return;
  Finding found;
  found.outcome = Outcome::condition;
  found.subject = "step " + step.id.value;
  found.message = {"pins-miscounted",
                   {{"step", step.id.value}, {"said", std::to_string(*said)}, {"pinned", std::to_string(made_fast)}}};
  found.source = "the kit's own words";
  found.basis = Basis::kit;
  found.place = step.evidence->place;
  c.add(std::move(found));
}

// A stop and the limit behind it are one thing to decide about.
std::string decided_as(const std::string& code) { return code == "pivot-load" ? "pivot-overloaded" : code; }

// Stops of one fastener that its decisions answer: a torque what it cures, words the one that they are about
// (decided.h).
std::set<const Finding*> answered(const Context& c, const KitFastener& f, const std::vector<Finding*>& stops,
                                  const std::vector<const Decision*>& decisions) {
  std::set<std::string> others;  // that no torque cures
  for (const Finding* stop : stops)
    if (!torque_stop(stop->message.code)) others.insert(decided_as(stop->message.code));
  std::set<const Finding*> all;
  std::optional<Strain> strained;
  for (const Decision* d : decisions)
    if (const auto torque = torque_of(*d, c.job)) strained = strain(f, f.stack.value, *torque);
  for (const Finding* stop : stops) {
    const std::string code = decided_as(stop->message.code);
    if (torque_stop(code)) {
      if (strained && strained->takes()) all.insert(stop);
      continue;
    }
    for (const Decision* d : decisions) {
      const bool named = d->answers && d->answers->value == code;
      const bool only = !d->answers && !torque_of(*d, c.job) && others.size() == 1;
      if (named || only) all.insert(stop);
    }
  }
  return all;
}

// What the kit asks and the joint cannot take holds the work until somebody decides; a decision is shown with who and
// when, and what it was about stays on the page as a condition.
void judge_dispute(Context& c, const KitFastener& kit, FastenerLine& line) {
  std::vector<Finding*> stops;
  for (Finding& f : c.out.findings)
    if (f.subject == line.id && f.outcome == Outcome::stop) stops.push_back(&f);
  if (stops.empty() && !line.torque_kit) return;
  const std::vector<const Decision*> decisions = decisions_about(c.job, line.id);
  const std::set<const Finding*> done = answered(c, kit, stops, decisions);
  std::string open;
  Place first;
  for (Finding* f : stops) {
    const std::string code = decided_as(f->message.code);
    if (done.contains(f)) {
      f->outcome = Outcome::condition;
      for (Flagged& flag : line.flags)
        if (flag.message.code == f->message.code) flag.outcome = Outcome::condition;
      continue;
    }
    if (open.empty()) first = f->place;
    if (open.find(code) == std::string::npos) open += (open.empty() ? "" : ", ") + code;
  }
  line.held = !open.empty();
  const auto add = [&](Outcome outcome, Message message, const Place& place) {
    Finding f;
    f.outcome = outcome;
    f.subject = line.id;
    f.message = std::move(message);
    f.source = "the kit's own words";
    f.basis = Basis::kit;
    f.place = place;
    c.add(std::move(f));
  };
  if (!decisions.empty() && (!done.empty() || line.torque_kit)) {
    const Decision& d = *decisions.back();
    line.decided = d.who.value + ": " + d.decided.value;
    Message message{line.torque_kit ? "dispute-decided-torque" : "dispute-decided",
                    {{"subject", line.id},
                     {"who", d.who.value},
                     {"decided", d.decided.value},
                     {"when", d.when ? ", " + d.when->value : std::string()}}};
    if (line.torque_kit) {
      message.arguments.emplace_back("torque", *line.torque_asked);
      message.arguments.emplace_back("kit", *line.torque_kit);
    }
    add(Outcome::condition, std::move(message), d.place);
  }
  if (!line.held) return;
  Message message{decisions.empty() ? "dispute-held" : "dispute-held-yet", {{"subject", line.id}, {"open", open}}};
  // With its entry, so that who has just decided is told.
  for (std::size_t n = 0; n < c.job.events.size() && !decisions.empty(); ++n)
    if (std::get_if<Decision>(&c.job.events[n]) == decisions.back())
      message.arguments.emplace_back("entry", std::to_string(n + 1));
  add(Outcome::stop, std::move(message), first);
}

void judge_disputes(Context& c) {
  for (const KitUse& use : c.job.kits)
    for (const KitFastener& f : use.kit.fastener)
      for (FastenerLine& line : c.out.fasteners)
        if (line.id == f.id.value && line.kit == use.kit.name.value) judge_dispute(c, f, line);
}

}  // namespace

void judge_fasteners(Context& c) {
  for (const KitUse& use : c.job.kits)
    for (const KitFastener& f : use.kit.fastener) judge_one(c, use.kit, f);
  for (const KitUse& use : c.job.kits) judge_nut_factors(c, use.kit);
  for (const KitUse& use : c.job.kits)
    for (const KitStep& step : use.kit.step) {
      judge_tools(c, step);
      judge_pins(c, use.kit, step);
    }
  judge_disputes(c);
}

// A step that tightens what is held is held with it.
void hold_steps(Context& c) {
  for (StepLine& step : c.out.steps)
    for (const FastenerMove& move : step.tighten)
      for (const FastenerLine& line : c.out.fasteners)
        if (line.id == move.id && line.held) step.faults.push_back({"dispute-held", {{"subject", line.id}}});
}

}  // namespace trammel
