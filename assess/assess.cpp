#include "assess/assess.h"

#include <algorithm>
#include <cmath>

#include "assess/accessories.h"
#include "assess/bench_presets.h"
#include "assess/context.h"
#include "assess/finding_group.h"
#include "assess/order_of_work.h"
#include "job/accessories.h"
#include "job/overlay.h"

namespace trammel {
namespace {

std::string code(OverlayFault fault) {
  switch (fault) {
    case OverlayFault::no_such_path:
      return "change-no-such-path";
    case OverlayFault::nothing_there:
      return "change-nothing-there";
    case OverlayFault::wrong_type:
      return "change-wrong-type";
    case OverlayFault::name_taken:
      return "change-name-taken";
    case OverlayFault::needed:
      return "change-needed";
    case OverlayFault::no_other_side:
      return "change-no-other-side";
  }
  return "change-no-such-path";
}

// The cart with every kit's changes on it, in the order of the kits.
Cart fitted(const Job& job, std::vector<Finding>& findings) {
  Cart cart = job.cart;
  for (const KitUse& use : job.kits) {
    OverlayResult laid = trammel::apply(cart, use.kit.change);
    for (const OverlayProblem& p : laid.problems) {
      Finding f;
      f.outcome = Outcome::stop;
      f.subject = use.kit.name.value;
      f.message = {code(p.fault), {{"kit", use.kit.name.value}, {"path", p.path}, {"nearest", p.nearest}}};
      f.source = "the kit's own words";
      f.place = p.place;
      findings.push_back(std::move(f));
    }
    cart = std::move(laid.cart);
  }
  return cart;
}

// What the kits offer and this cart does not get: nobody is to miss it in silence.
void tell_left_out(const Job& job, std::vector<Finding>& findings) {
  std::string names;
  for (const std::string& name : accessories_of(job))
    if (std::none_of(job.accessories.begin(), job.accessories.end(), [&](const Text& t) { return t.value == name; }))
      names += (names.empty() ? "" : ", ") + name;
  if (names.empty()) return;
  Finding f;
  f.outcome = Outcome::note;
  f.subject = "accessories";
  f.message = {"accessories-left-out", {{"names", names}}};
  f.source = "the kits' own words";
  f.basis = Basis::kit;
  findings.push_back(std::move(f));
}

int weight(Outcome o) {
  switch (o) {
    case Outcome::stop:
      return 0;
    case Outcome::condition:
      return 1;
    case Outcome::note:
      return 2;
    case Outcome::met:
      return 3;
  }
  return 3;
}

Verdict verdict(const std::vector<Finding>& findings) {
  Verdict v = Verdict::go;
  for (const Finding& f : findings) {
    if (f.outcome == Outcome::stop) return Verdict::no_go;
    if (f.outcome == Outcome::condition) v = Verdict::go_with_conditions;
  }
  return v;
}

// What a mechanic would say first, among findings of one outcome: what steers, what touches, what tips, what is
// overloaded; the rest in their own order.
std::size_t rank(const std::string& code) {
  static const char* first[] = {"bump-steer", "travel-out-of-reach", "tyre-gap",  "bend-speed",      "tip-back",
                                "side-slope", "steer-light",         "tyre-load", "axle-load",       "gross-mass",
                                "site-speed", "speed-class",         "doorway",   "stability-factor"};
  return static_cast<std::size_t>(std::find(std::begin(first), std::end(first), code) - std::begin(first));
}

// Of what is met, the closest to its limit first, one of each kind.
std::vector<const Finding*> least_margins(const std::vector<Finding>& findings) {
  std::vector<const Finding*> met;
  for (const Finding& f : findings)
    if (f.outcome == Outcome::met && f.margin && f.limit && f.limit->si != 0.0) met.push_back(&f);
  std::stable_sort(met.begin(), met.end(), [](const Finding* a, const Finding* b) {
    return a->margin->si / std::abs(a->limit->si) < b->margin->si / std::abs(b->limit->si);
  });
  std::vector<const Finding*> first;
  for (const Finding* f : met)
    if (std::none_of(first.begin(), first.end(), [&](const Finding* g) { return g->message.code == f->message.code; }))
      first.push_back(f);
  return first;
}

// At most three findings, by index: the gravest, the worst of each kind; where nothing is amiss, the least margins.
std::vector<std::size_t> sentences(const std::vector<Finding>& findings) {
  std::vector<const Finding*> candidates;
  for (const FindingGroup& group : to_act_on(findings))
    if (group.worst->outcome != Outcome::note) candidates.push_back(group.worst);
  std::stable_sort(candidates.begin(), candidates.end(), [](const Finding* a, const Finding* b) {
    return std::pair(weight(a->outcome), rank(a->message.code)) < std::pair(weight(b->outcome), rank(b->message.code));
  });
  if (candidates.empty()) candidates = least_margins(findings);
  std::vector<std::size_t> told;
  for (const Finding* f : candidates)
    if (told.size() < 3) told.push_back(static_cast<std::size_t>(f - findings.data()));
  return told;
}

void conclude(Assessment& out) {
  std::stable_sort(out.findings.begin(), out.findings.end(),
                   [](const Finding& a, const Finding& b) { return weight(a.outcome) < weight(b.outcome); });
  out.verdict = verdict(out.findings);
}

// What these judges say of a job as it is fitted.
template <class Judges>
Assessment judged(const Job& given, const Judges& judges) {
  Assessment out;
  const Job job = as_fitted(given);
  tell_left_out(given, out.findings);
  const Cart after = fitted(job, out.findings);
  const CartModel model_before = cart_model(job.cart), model_after = cart_model(after);
  Context c{job, job.cart, after, model_before, model_after, out};
  judges(c);
  conclude(out);
  return out;
}

}  // namespace

Job job_of_kit(const Kit& kit) {
  Job job;
  job.name = kit.name;
  job.kits.push_back({{}, kit});
  return job;
}

Assessment assess_kit(const Job& job) {
  Assessment out;
  const CartModel model = cart_model(job.cart);
  Context c{job, job.cart, job.cart, model, model, out};
  judge_fasteners(c);
  judge_work(c);
  hold_steps(c);
  judge_brake_trials(c);
  conclude(out);
  return out;
}

Assessment assess_record(const Job& job) {
  return judged(job, [](Context& c) {
    judge_fasteners(c);
    judge_work(c);
    judge_alignment(c);
    judge_rear(c);
    judge_release(c);
  });
}

Assessment assess(const Job& job) {
  Assessment out = judged(job, [](Context& c) {
    // Each room over the job, in the order of the work's stages.
    judge_geometry(c);
    judge_clearance(c);
    judge_speed_and_size(c);
    judge_loads(c);
    judge_fasteners(c);
    judge_work(c);
    hold_steps(c);
    order_steps(c);
    tell_presets(c);
    judge_support(c);
    judge_isolation(c);
    judge_brake_trials(c);
    judge_alignment(c);
    judge_rear(c);
    judge_release(c);
  });
  out.sentences = sentences(out.findings);
  return out;
}

}  // namespace trammel
