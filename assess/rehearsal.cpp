#include "assess/rehearsal.h"

#include <algorithm>
#include <set>

#include "assess/accessories.h"
#include "assess/context.h"
#include "assess/fitted_cart.h"
#include "assess/kit_places.h"
#include "assess/procedure.h"
#include "assess/work_words.h"
#include "job/accessories.h"
#include "messages/catalogue.h"
#include "work/cure.h"
#include "work/words.h"

namespace trammel {
namespace {

// "R3 left, R3 right" as "R3 (left, right)"; more than four places as their number; several groups one after another.
std::string together(const work::Roster& roster, const std::vector<std::string>& subjects) {
  if (subjects.size() == 1) return subjects.front();
  const std::string id = roster.group_of(subjects.front());
  std::vector<std::string> alike, rest;
  for (const std::string& s : subjects) (roster.group_of(s) == id ? alike : rest).push_back(s);
  if (!rest.empty()) return together(roster, alike) + ", " + together(roster, rest);
  if (subjects.size() > 4) return id + " (" + std::to_string(subjects.size()) + "×)";
  std::string all;
  for (const std::string& s : subjects)
    all += (all.empty() ? "" : ", ") + (s.size() > id.size() && s.starts_with(id + " ") ? s.substr(id.size() + 1) : s);
  return id + " (" + all + ")";
}

std::string joined(const std::vector<std::string>& list, const char* between) {
  std::string all;
  for (const std::string& s : list) all += (all.empty() ? "" : between) + s;
  return all;
}

// What the fasteners' own judge makes of the job's kits: torques, classes, surfaces, wrenches.
Assessment judged_fasteners(const Job& job) {
  Assessment out;
  const Cart cart{};
  const CartModel model{};
  Context c{job, cart, cart, model, model, out};
  judge_fasteners(c);
  return out;
}
std::vector<Finding> fastener_findings(const Job& job) {
  std::vector<Finding> all = judged_fasteners(job).findings;
  std::erase_if(all, [](const Finding& f) { return f.outcome != Outcome::stop && f.outcome != Outcome::condition; });
  return all;
}

// What the trials of the parking brake show; of a kit without its cart, whether they can be read.
std::vector<Finding> trial_findings(const Job& job) {
  Assessment out;
  const Cart after = job.cart.mass.empty() ? job.cart : fitted_cart(job);
  const CartModel model_before = cart_model(job.cart), model_after = cart_model(after);
  Context c{job, job.cart, after, model_before, model_after, out};
  judge_brake_trials(c);
  std::erase_if(out.findings, [](const Finding& f) { return f.outcome != Outcome::condition; });
  return std::move(out.findings);
}

// Steps that take more people than the shop has, with no word on what one does instead.
std::vector<Finding> short_handed(const Job& job, const work::Procedure& procedure) {
  std::vector<Finding> all;
  if (!job.shop || !job.shop->technicians) return all;
  for (const KitUse& use : job.kits)
    for (const KitStep& s : use.kit.step) {
      const bool taken = std::any_of(procedure.steps.begin(), procedure.steps.end(),
                                     [&](const work::Step& step) { return step.id == s.id.value; });
      if (!taken || !s.people || s.people->value <= job.shop->technicians->value || s.one_person) continue;
      Finding f;
      f.outcome = Outcome::condition;
      f.subject = "step " + s.id.value;
      f.message = {"step-short-handed",
                   {{"step", s.id.value},
                    {"people", std::to_string(s.people->value)},
                    {"technicians", std::to_string(job.shop->technicians->value)}}};
      f.source = "the kit's own steps against the shop";
      f.basis = Basis::kit;
      f.place = s.people->place;
      all.push_back(std::move(f));
    }
  return all;
}

// Thread locker that the kit's own minutes do not let cure.
std::vector<Finding> curing(const work::Roster& roster, const KitPlaces& places) {
  std::vector<Finding> all;
  std::set<std::string> told;
  const auto called = [&](std::size_t at) {
    const work::ExpandedStep& x = roster.order[at];
    const std::string side = side_word(x.side);
    return roster.procedure.steps[x.step].id + (side.empty() ? "" : " " + side);
  };
  for (const work::Cure& cure : work::cures(roster)) {
    Time between;
    for (std::size_t at = cure.final + 1; at < cure.load; ++at)
      between += roster.procedure.steps[roster.order[at].step].time.value_or(Time{});
    const std::string& id = roster.fasteners[cure.fastener].instance.group;
    if (between >= cure.time || !told.insert(id).second) continue;
    const bool at_once = cure.final == cure.load;
    Finding f;
    f.outcome = at_once ? Outcome::stop : Outcome::note;
    f.subject = id;
    f.message = {at_once ? "locker-loaded-at-once" : "locker-waits",
                 {{"subject", id},
                  {"cure", number(cure.time)},
                  {"minutes", number(between)},
                  {"from", called(cure.final)},
                  {"to", called(cure.load)},
                  {"wait", number(cure.time - between)}}};
    f.source = "the kit's own `cure` and `minutes`";
    f.basis = Basis::kit;
    work::Fault at;
    at.subject = id;
    f.place = places.of(at);
    all.push_back(std::move(f));
  }
  return all;
}

// With all accessories first, then none, then every choice of them; past six of them, each alone and each pair.
std::vector<std::vector<std::string>> choices(const std::vector<std::string>& names) {
  constexpr std::size_t most_for_all = 6;
  std::vector<std::vector<std::string>> all = {names};
  if (!names.empty()) all.emplace_back();
  for (std::size_t size = 1; size < names.size() && (size < 3 || names.size() <= most_for_all); ++size) {
    // The choices of one size, in the order of the names.
    std::vector<bool> taken(names.size(), false);
    std::fill_n(taken.begin(), size, true);
    do {
      auto& chosen = all.emplace_back();
      for (std::size_t i = 0; i < names.size(); ++i)
        if (taken[i]) chosen.push_back(names[i]);
    } while (std::prev_permutation(taken.begin(), taken.end()));
  }
  return all;
}

bool same(const RehearsedFinding& a, const RehearsedFinding& b) {
  return a.finding.message.code == b.finding.message.code && a.finding.subject == b.finding.subject &&
         a.trace == b.trace && trammel::word(a.finding.message, {}) == trammel::word(b.finding.message, {});
}

}  // namespace

std::vector<RehearsedFinding> rehearsed(const Job& job, const work::Rehearsal& rehearsal) {
  const KitPlaces places(job);
  std::vector<RehearsedFinding> all;
  for (std::size_t i = 0; i < rehearsal.found.size(); ++i) {
    const work::Uncovered& u = rehearsal.found[i];
    // A torque wrench that stops short is told by the fasteners' own judge.
    if (u.fault.kind == work::FaultKind::tool_out_of_range) continue;
    // What only repeats another is told with it.
    if (u.follows) continue;
    work::Fault fault = u.fault;
    fault.subject = together(rehearsal.walk.roster, u.subjects);
    RehearsedFinding r;
    Finding& f = r.finding;
    f.outcome = fault_outcome(fault);
    f.message = fault_message(fault);
    const std::string side = side_word(fault.side);
    f.subject = fault.step.empty() ? fault.subject : "step " + fault.step + (side.empty() ? "" : " " + side);
    f.source = "the kits' own steps, rehearsed";
    f.basis = Basis::kit;
    f.place = places.of(u.fault);
    if (u.branch == work::Branch::left_out || u.branch == work::Branch::repeated)
      f.message.arguments.emplace_back("branch", u.branch_step);
    if (!u.beneath.empty()) {
      std::string beneath = trammel::word(fault_message(u.beneath.front()), {});
      if (u.beneath.size() > 1)
        beneath = trammel::word(
            Message{"work-beneath-more", {{"first", beneath}, {"count", std::to_string(u.beneath.size() - 1)}}}, {});
      f.message.arguments.emplace_back("beneath", beneath);
    }
    for (const work::Uncovered& later : rehearsal.found)
      if (later.follows == i && std::find(r.again.begin(), r.again.end(), later.fault.step) == r.again.end())
        r.again.push_back(later.fault.step);
    r.trace = u.trace;
    r.least_steps = u.least_steps;
    if (u.branch == work::Branch::left_out) r.trace.insert(r.trace.begin(), "(without " + u.branch_step + ")");
    if (u.branch == work::Branch::repeated) r.trace.insert(r.trace.begin(), "(" + u.branch_step + " twice)");
    all.push_back(std::move(r));
  }
  for (Finding& f : curing(rehearsal.walk.roster, places)) all.push_back({std::move(f), {}, 0, {}, {}});
  for (Finding& f : short_handed(job, rehearsal.walk.roster.procedure)) all.push_back({std::move(f), {}, 0, {}, {}});
  return all;
}

FastenerLine fastener_line(const Job& job, const std::string& id) {
  for (FastenerLine& line : judged_fasteners(job).fasteners)
    if (line.id == id) return std::move(line);
  return {};
}

RehearsedJob rehearse(const Job& job) {
  RehearsedJob out;
  for (Finding& f : job_procedure(job).findings) out.found.push_back({std::move(f), {}, 0, {}, {}});
  for (Finding& f : trial_findings(job)) out.found.push_back({std::move(f), {}, 0, {}, {}});
  for (Finding& f : fastener_findings(job)) out.found.push_back({std::move(f), {}, 0, {}, {}});

  const std::vector<std::string> names = accessories_of(job);
  const std::vector<std::vector<std::string>> variants = choices(names);
  for (const auto& chosen : variants) {
    const std::string called = names.empty()    ? ""
                               : chosen.empty() ? "without accessories"
                                                : "with " + joined(chosen, ", ");
    if (!called.empty()) out.variants.push_back(called);
    const work::Rehearsal r = work::rehearse(job_procedure(with_accessories(job, chosen)).procedure);
    const bool first = &chosen == &variants.front();
    if (first) {
      out.steps = r.walk.roster.procedure.steps.size();
      out.sides_written_out = r.walk.roster.order.size();
      out.fasteners = r.walk.roster.fasteners.size();
      out.parts = r.walk.roster.parts.size();
    }
    out.branches += r.branches;
    out.states += r.states;
    out.complete = out.complete && r.complete;
    for (RehearsedFinding& f : rehearsed(job, r)) {
      if (std::any_of(out.found.begin(), out.found.end(), [&](const RehearsedFinding& g) { return same(f, g); }))
        continue;
      if (!first) f.variant = called;
      out.found.push_back(std::move(f));
    }
  }
  return out;
}

}  // namespace trammel
