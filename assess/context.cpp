#include "assess/context.h"

#include <cmath>

namespace trammel {
namespace {

int sureness(Basis b) {
  switch (b) {
    case Basis::measured:
      return 0;
    case Basis::kit:
      return 1;
    case Basis::computed:
      return 2;
    case Basis::assumed:
      return 3;
  }
  return 3;
}

Basis weakest(const std::vector<Input>& inputs) {
  Basis b = Basis::measured;
  for (const Input& i : inputs) b = weaker(b, i.basis);
  return inputs.empty() ? Basis::computed : b;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& w : words) all += (all.empty() ? "" : ", ") + w;
  return all;
}

}  // namespace

std::string without_places(const std::string& at) {
  const std::size_t brace = at.find_first_of("{.");
  const std::size_t comma = at.rfind(',', brace);
  return brace == std::string::npos || comma == std::string::npos ? at : at.substr(0, comma);
}

Basis weaker(Basis a, Basis b) { return sureness(a) < sureness(b) ? b : a; }

Finding held_against(LimitCheck check) {
  Finding f;
  f.sense = check.sense;
  Number margin{check.value.kind, 0.0, std::nullopt};
  margin.si =
      check.sense == Finding::Sense::at_most ? check.limit.si - check.value.si : check.value.si - check.limit.si;
  const double u = std::hypot(check.value.u.value_or(0.0), check.limit.u.value_or(0.0));
  if (u > 0.0) margin.u = u;

  // Broken, not to be told apart from broken, or met.
  if (margin.si < 0.0)
    f.outcome = check.when_broken;
  else if (margin.si < 2.0 * u)
    f.outcome = check.when_broken == Outcome::note ? Outcome::note : Outcome::condition;
  else
    f.outcome = Outcome::met;

  f.subject = check.subject;
  f.load_case = check.load_case;
  f.value = check.value;
  f.limit = check.limit;
  f.margin = margin;
  f.before = check.before;
  f.source = std::move(check.source);
  f.basis = weakest(check.inputs);
  f.inputs = std::move(check.inputs);
  f.message.code = std::move(check.code);
  f.message.arguments = {{"subject", f.subject}, {"value", check.value}, {"limit", check.limit}, {"margin", margin}};
  if (check.before) f.message.arguments.emplace_back("before", *check.before);
  if (!f.load_case.empty()) f.message.arguments.emplace_back("load", f.load_case);
  return f;
}

Finding not_computed(std::string what, std::vector<std::string> missing) {
  Finding f;
  f.outcome = Outcome::note;
  f.subject = what;
  f.message = {"not-computed", {{"what", what}, {"missing", joined(missing)}}};
  f.source = common_practice;
  for (std::string& m : missing) f.inputs.push_back({std::move(m), std::nullopt, Basis::assumed, {}});
  return f;
}

Finding noted(std::string code, std::string subject, std::optional<Number> before, Number after,
              std::vector<Input> inputs, std::string source) {
  Finding f;
  f.outcome = Outcome::note;
  f.subject = subject;
  f.before = before;
  f.value = after;
  f.message = {std::move(code), {{"subject", subject}, {"value", after}}};
  if (before) f.message.arguments.emplace_back("before", *before);
  f.basis = weakest(inputs);
  f.inputs = std::move(inputs);
  f.source = std::move(source);
  return f;
}

}  // namespace trammel
