#include "assess/procedure.h"

#include <algorithm>

#include "assess/context.h"
#include "assess/decided.h"
#include "assess/fastener_words.h"
#include "assess/work_words.h"
#include "measure/nearest.h"
#include "work/known.h"
#include "work/merge.h"
#include "work/words.h"

namespace trammel {
namespace {

class Builder {
 public:
  // `earlier`: the fasteners of the kits before, whose holes this one may share.
  Builder(const Kit& kit, std::vector<std::string> earlier, std::vector<Finding>& findings)
      : kit_(kit), earlier_(std::move(earlier)), findings_(findings) {
    p_.name = kit.name.value;
  }

  work::Procedure build() {
    for (const Text& t : kit_.given) p_.given.push_back(t.value);
    for (const KitFastener& f : kit_.fastener) p_.fasteners.push_back(fastener(f));
    for (const Part& part_given : kit_.part) p_.parts.push_back(part(part_given));
    // Steps first without their needs, which may name any step or condition.
    for (const KitStep& s : kit_.step) p_.steps.push_back(step(s));
    for (const Proof& proof : kit_.proof) p_.proofs.push_back(read(proof));
    known_readings();
    for (std::size_t i = 0; i < kit_.step.size(); ++i)
      for (const Text& need : kit_.step[i].needs) p_.steps[i].needs.push_back(work::read_need(need.value, p_));
    return std::move(p_);
  }

 private:
  void unreadable(const char* code, const std::string& subject, const Text& text, std::string_view nearest = {}) {
    Finding f;
    f.outcome = Outcome::stop;
    f.subject = subject;
    f.message = {code, {{"subject", subject}, {"text", text.value}, {"nearest", meant(nearest)}}};
    f.source = "the kit's own words";
    f.place = text.place;
    findings_.push_back(std::move(f));
  }

  std::vector<work::Instance> instances(const std::string& id, const Text& at) {
    work::Expansion e = work::expand_braces(id, at.value);
    if (e.fault == work::ExpandFault::misspelt_place)
      unreadable("place-misspelt", id, at, e.nearest);
    else if (e.fault != work::ExpandFault::none)
      unreadable("place-unreadable", id, at);
    return std::move(e.instances);
  }
  std::optional<work::FastenerState> state(const std::string& subject, const std::optional<Text>& text) {
    if (!text) return std::nullopt;
    const auto s = work::read_fastener_state(text->value);
    if (!s) unreadable("state-unknown", subject, *text);
    return s;
  }

  work::Fastener fastener(const KitFastener& given) {
    work::Fastener f;
    f.id = given.id.value;
    f.instances = instances(f.id, given.at);
    if (given.duty)
      f.duty = given.duty->value == "wheel"     ? work::Duty::wheel
               : given.duty->value == "body"    ? work::Duty::body
               : given.duty->value == "battery" ? work::Duty::battery
                                                : work::Duty::general;
    if (const auto& least = given.least_state) {
      const std::optional<Text>* by_load[] = {&least->jacked, &least->on_stands, &least->on_wheels,
                                              &least->rolled, &least->driven,    &least->released};
      for (std::size_t i = 0; i < work::load_count; ++i) f.least[i] = state(f.id, *by_load[i]);
    }
    // What a second person must look at is not released on the first one's word.
    if (given.second_person && given.second_person->value)
      f.least[static_cast<std::size_t>(work::Load::released)] = work::FastenerState::verified;
    f.as_found = state(f.id, given.as_found);
    if (given.only_on)
      f.only_final = given.only_on->value == "jacked"      ? work::Support::jacked
                     : given.only_on->value == "on stands" ? work::Support::on_stands
                                                           : work::Support::on_wheels;
    // A bonded bush twists for good where it is clamped hanging; a greased one turns.
    if (given.bush && given.bush->value == "bonded" && !f.only_final) f.only_final = work::Support::on_wheels;
    f.new_each_time = given.reuse && given.reuse->value == "new";
    if (given.across_flats) f.head = given.across_flats->value;
    if (given.across_flats_nut) f.nut = given.across_flats_nut->value;
    f.two_ended = two_ended(given);
    f.pinned = pinned(given);
    if (given.torque)
      f.torque = given.torque->value;
    else if (!given.passes.empty())
      f.torque = given.passes.back().value;
    for (const auto& pass : given.passes) f.passes.push_back(pass.value);
    if (!f.passes.empty() && f.passes.back() != *f.torque) f.passes.push_back(*f.torque);
    if (given.torque_limit) f.torque_limit = given.torque_limit->value;
    f.castle = given.stack.value.find("castle") != std::string::npos;
    f.set_by_measure = given.set_by.has_value();
    if (given.cure) f.cure = given.cure->value;
    for (const Text& held : given.holds) f.holds.push_back(held.value);
    if (given.shares) f.shares = work::read_selector(given.shares->value, earlier_);
    return f;
  }

  work::Part part(const Part& given) {
    work::Part p;
    p.id = given.id.value;
    if (given.at) p.instances = instances(p.id, *given.at);
    if (given.kind)
      p.kind = given.kind->value == "wheel"  ? work::PartKind::wheel
               : given.kind->value == "body" ? work::PartKind::body
                                             : work::PartKind::suspension;
    if (given.source) p.source = given.source->value == "pack" ? work::PartSource::in_pack : work::PartSource::on_cart;
    if (given.replaces) p.replaces = given.replaces->value;
    if (given.count) p.count = given.count->value;
    return p;
  }

  work::Proof read(const Proof& given) {
    work::Proof p;
    p.id = given.id.value;
    if (const auto known = work::known_reading(p.id)) p = *known;
    if (given.voided_by_lifting) p.voided_by_lifting = given.voided_by_lifting->value;
    const auto ids = work::fastener_ids(p_), parts = work::part_ids(p_);
    for (const Text& t : given.voided_by_slackening)
      p.voided_by_slackening.push_back(work::read_selector(t.value, ids));
    for (const Text& t : given.voided_by_removing) p.voided_by_removing.push_back(work::read_selector(t.value, parts));
    for (const Text& t : given.only_while) p.only_while.push_back(work::read_need(t.value, p_));
    for (const Text& t : given.guards) p.guards.push_back(t.value);
    return p;
  }

  // Readings that a step makes and the kit says nothing more of.
  void known_readings() {
    for (const work::Step& s : p_.steps)
      for (const std::string& id : s.proves)
        if (std::none_of(p_.proofs.begin(), p_.proofs.end(), [&](const work::Proof& p) { return p.id == id; }))
          if (auto known = work::known_reading(id)) p_.proofs.push_back(std::move(*known));
  }

  work::Step step(const KitStep& given) {
    const auto ids = work::fastener_ids(p_), parts = work::part_ids(p_);
    work::Step s;
    s.id = given.id.value;
    s.title = given.act.value;
    if (given.stage) s.stage = given.stage->value;
    if (given.sides) s.sides = work::read_sides(given.sides->value).value_or(work::Sides::once);
    for (const Text& t : given.slacken) {
      const work::Target target = work::read_target(t.value, ids);
      s.slacken.push_back({target.fastener, target.state.value_or(work::FastenerState::slack)});
    }
    for (const Text& t : given.removes) { s.removes.push_back(work::read_removal(t.value, parts)); }
    for (const Text& t : given.fits) s.fits.push_back(work::read_selector(t.value, parts));
    for (const Text& t : given.tighten) {
      const work::Target target = work::read_target(t.value, ids);
      if (!target.state) unreadable("state-missing", s.id, t);
      s.tighten.push_back(
          {target.fastener, target.state.value_or(work::FastenerState::final), std::nullopt, target.fresh});
    }
    for (const Text& t : given.work) {
      if (auto deed = work::read_deed(t.value))
        s.deeds.push_back(std::move(*deed));
      else
        unreadable("deed-unknown", s.id, t);
    }
    for (const Text& t : given.gives) s.sets.push_back(t.value);
    for (const Text& t : given.ends) s.clears.push_back(t.value);
    for (const Text& t : given.proves) s.proves.push_back(t.value);
    for (const Text& t : given.undoes) {
      if (const auto torque = work::read_torque_of(t.value, ids))
        s.undoes_torque.push_back(*torque);
      else
        s.undoes.push_back(t.value);
    }
    for (const Text& t : given.loads) {
      const auto load = work::read_applied_load(t.value);
      if (load)
        s.loads.push_back(*load);
      else
        unreadable("load-unknown", s.id, t);
    }
    for (const Text& t : given.tools) s.tools.push_back(t.value);
    for (const Text& t : given.cautions) s.hazards.push_back(t.value);
    if (given.evidence) s.evidence = given.evidence->value;
    s.person_under = given.person_under && given.person_under->value;
    s.optional = given.optional && given.optional->value;
    s.any_time = given.any_time && given.any_time->value;
    if (given.repeat_until) s.repeat_until = given.repeat_until->value;
    s.hold_point = given.hold && given.hold->value;
    if (given.minutes) s.time = given.minutes->value;
    if (given.people) s.people = given.people->value;
    if (given.after) s.after = given.after->value;
    if (given.before) s.before = given.before->value;
    return s;
  }

  const Kit& kit_;
  std::vector<std::string> earlier_;
  std::vector<Finding>& findings_;
  work::Procedure p_;
};

// A proof stands in one of the kits' lists, or is a reading that the rehearsal knows: a word of its own would have no
// rules, and nothing would void it.
void proofs_listed(const Job& job, const work::Procedure& procedure, std::vector<Finding>& findings) {
  std::vector<std::string> listed;
  for (const work::Proof& p : procedure.proofs) listed.push_back(p.id);
  const auto check = [&](const KitStep& step, const Text& t) {
    if (std::find(listed.begin(), listed.end(), t.value) != listed.end()) return;
    Finding f;
    f.outcome = Outcome::condition;
    f.subject = "step " + step.id.value;
    f.message = {"proof-not-listed",
                 {{"step", step.id.value},
                  {"text", t.value},
                  {"nearest", meant(nearest(t.value, std::span<const std::string>(listed)))}}};
    f.source = "the kit's own words";
    f.place = t.place;
    findings.push_back(std::move(f));
  };
  for (const KitUse& use : job.kits)
    for (const KitStep& s : use.kit.step) {
      for (const Text& t : s.proves) check(s, t);
      for (const Text& t : s.undoes)
        if (!work::read_torque_of(t.value)) check(s, t);
    }
}

std::string merge_code(work::MergeFaultKind kind) {
  switch (kind) {
    case work::MergeFaultKind::duplicate_id:
      return "kits-same-id";
    case work::MergeFaultKind::unknown_anchor:
    case work::MergeFaultKind::anchor_cycle:
      return "kits-anchor-cycle";
    case work::MergeFaultKind::unknown_shared:
      return "kits-unknown-shared";
  }
  return "kits-same-id";
}

work::ParkingBrake brake_of(const std::optional<Axle>& axle) {
  using enum work::ParkingBrake;
  if (!axle || !axle->brake) return not_known;
  const std::string& word = axle->brake->value;
  return word == "wheels" ? wheels : word == "motor shaft" ? motor_shaft : word == "none" ? none : power_off_shaft;
}

}  // namespace

JobProcedure job_procedure(const Job& job) {
  JobProcedure result;
  bool first = true;
  for (const KitUse& use : job.kits) {
    const std::vector<std::string> earlier = work::fastener_ids(result.procedure);
    work::Procedure next = Builder(use.kit, earlier, result.findings).build();
    if (first) {
      result.procedure = std::move(next);
      first = false;
      continue;
    }
    work::Merge merged = work::merge(result.procedure, next);
    for (const work::MergeFault& fault : merged.faults) {
      // With its place and the nearest step: work/structure.cpp.
      if (fault.kind == work::MergeFaultKind::unknown_anchor) continue;
      Finding f;
      f.outcome = Outcome::stop;
      f.subject = use.kit.name.value;
      f.message = {merge_code(fault.kind),
                   {{"kit", use.kit.name.value},
                    {"what", fault.subject},
                    {"nearest", meant(nearest(fault.subject, std::span<const std::string>(earlier)))}}};
      f.source = "the kits' own words";
      f.place = use.kit.name.place;
      result.findings.push_back(std::move(f));
    }
    result.procedure = std::move(merged.procedure);
  }

  // What was decided is what is asked.
  for (const KitUse& use : job.kits)
    for (const KitFastener& given : use.kit.fastener)
      if (const auto torque = torque_decided(job, given))
        for (work::Fastener& f : result.procedure.fasteners)
          if (f.id == given.id.value) {
            f.torque = torque;
            f.passes.clear();
            f.torque_limit.reset();
            f.set_by_measure = false;
          }
  proofs_listed(job, result.procedure, result.findings);

  // What the cart itself holds with, and which wheels it turns.
  result.procedure.brakes = {brake_of(job.cart.front), brake_of(job.cart.rear)};
  if (job.cart.drive && job.cart.drive->driven)
    result.procedure.driven = job.cart.drive->driven->value == "front" ? work::End::front : work::End::rear;

  // Kits that say they cannot be fitted together.
  for (const KitUse& a : job.kits)
    for (const Text& other : a.kit.conflicts)
      for (const KitUse& b : job.kits)
        if (b.kit.name.value == other.value) {
          Finding f;
          f.outcome = Outcome::stop;
          f.subject = a.kit.name.value;
          f.message = {"kits-conflict", {{"kit", a.kit.name.value}, {"other", other.value}}};
          f.source = "the kit's own words";
          f.place = other.place;
          result.findings.push_back(std::move(f));
        }
  return result;
}

}  // namespace trammel
