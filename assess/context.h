// What every judge of this room is given, and how it writes its findings. Private to assess.
#pragma once

#include <string>
#include <vector>

#include "assess/assessment.h"
#include "assess/models.h"

namespace trammel {

struct Context {
  const Job& job;
  const Cart& before;
  const Cart& after;
  const CartModel& model_before;
  const CartModel& model_after;
  Assessment& out;

  void add(Finding finding) { out.findings.push_back(std::move(finding)); }
};

// A limit held against a value; before, load case and cure are put in by the caller.
struct LimitCheck {
  std::string code, subject;
  Finding::Sense sense = Finding::Sense::at_most;
  Number value, limit;
  std::optional<Number> before;
  Outcome when_broken = Outcome::stop;
  std::string source;
  std::vector<Input> inputs;
  std::string load_case;
};
Finding held_against(LimitCheck check);

// What cannot be said for want of these inputs.
Finding not_computed(std::string what, std::vector<std::string> missing);

// A change worth knowing that breaks no limit.
Finding noted(std::string code, std::string subject, std::optional<Number> before, Number after,
              std::vector<Input> inputs, std::string source);

template <class Q>
Input input(std::string what, const Valued<Q>& v) {
  Number n = number(v.value);
  if (v.u) n.u = number(*v.u).si;
  return {std::move(what), n, v.basis, v.place};
}
inline Input input(std::string what, const PointValue& p) { return {std::move(what), std::nullopt, p.basis, p.place}; }
inline Input assumed(std::string what, Number n) { return {std::move(what), n, Basis::assumed, {}}; }

// "cradle to frame rail, front.{left,right}" for people: what it is, without the pattern of its places.
std::string without_places(const std::string& at);

// The less sure of two: measured, kit, computed, assumed.
Basis weaker(Basis a, Basis b);

inline const char* common_practice = "common practice, no source";

// The judges, in the order in which their findings stand.
void judge_geometry(Context& c);
void judge_clearance(Context& c);
void judge_loads(Context& c);
void judge_speed_and_size(Context& c);
void judge_fasteners(Context& c);
void hold_steps(Context& c);
void judge_work(Context& c);
void judge_alignment(Context& c);
void judge_rear(Context& c);
void judge_support(Context& c);
void judge_isolation(Context& c);
void judge_brake_trials(Context& c);
void judge_release(Context& c);

}  // namespace trammel
