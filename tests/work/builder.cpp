#include "work/builder.h"

#include <algorithm>
#include <stdexcept>

#include "work/words.h"

namespace trammel::work {
namespace {
std::vector<Instance> expanded(const std::string& id, const std::string& at) {
  const Expansion e = expand_braces(id, at);
  if (e.fault != ExpandFault::none) throw std::logic_error("cannot expand " + at);
  return e.instances;
}
}  // namespace

Fastener fastener(const std::string& id, const std::string& at, const Texts& holds, Duty duty) {
  Fastener f;
  f.id = id;
  f.instances = expanded(id, at);
  f.holds = holds;
  f.duty = duty;
  return f;
}

Part part(const std::string& id, const std::string& at, PartKind kind, PartSource source, const std::string& replaces) {
  Part p;
  p.id = id;
  p.instances = expanded(id, at);
  p.kind = kind;
  p.source = source;
  p.replaces = replaces;
  return p;
}

void write_steps(Procedure& procedure, const std::vector<StepText>& texts) {
  const auto fasteners = fastener_ids(procedure), parts = part_ids(procedure);
  for (const StepText& t : texts) {
    Step s;
    s.id = t.id;
    s.sides = read_sides(t.sides).value();
    for (const auto& x : t.slacken) {
      const Target target = read_target(x, fasteners);
      s.slacken.push_back({target.fastener, target.state.value_or(FastenerState::slack)});
    }
    for (const auto& x : t.tighten) {
      const Target target = read_target(x, fasteners);
      s.tighten.push_back({target.fastener, target.state.value(), std::nullopt, target.fresh});
    }
    for (const auto& x : t.removes) s.removes.push_back(read_removal(x, parts));
    for (const auto& x : t.fits) s.fits.push_back(read_selector(x, parts));
    for (const auto& x : t.undoes)
      if (const auto torque = read_torque_of(x, fasteners))
        s.undoes_torque.push_back(*torque);
      else
        s.undoes.push_back(x);
    for (const auto& x : t.loads) s.loads.push_back(read_applied_load(x).value());
    s.sets = t.sets;
    s.clears = t.clears;
    s.proves = t.proves;
    s.tools = t.tools;
    s.person_under = t.person_under;
    s.time = t.minutes * units::minute;
    s.after = t.after;
    s.before = t.before;
    s.evidence = t.evidence;
    for (const auto& x : t.work) s.deeds.push_back(read_deed(x).value());
    s.hazards = t.hazards;
    s.optional = t.optional;
    s.any_time = t.any_time;
    procedure.steps.push_back(std::move(s));
  }
  // Needs may name any step's condition, so they are read when all steps stand.
  const std::size_t first = procedure.steps.size() - texts.size();
  for (std::size_t i = 0; i < texts.size(); ++i)
    for (const auto& x : texts[i].needs) procedure.steps[first + i].needs.push_back(read_need(x, procedure));
}

Step& step(Procedure& procedure, const std::string& id) {
  const auto it =
      std::find_if(procedure.steps.begin(), procedure.steps.end(), [&](const Step& s) { return s.id == id; });
  if (it == procedure.steps.end()) throw std::logic_error("no step " + id);
  return *it;
}

bool has(const Walk& walk, FaultKind kind, const std::string& subject) {
  return std::any_of(walk.faults.begin(), walk.faults.end(),
                     [&](const Fault& f) { return f.kind == kind && (subject.empty() || f.subject == subject); });
}

std::string list(const Walk& walk) {
  std::string s;
  for (const Fault& f : walk.faults) s += std::string(word(f.kind)) + " [" + f.step + "] " + f.subject + "\n";
  return s;
}

}  // namespace trammel::work
