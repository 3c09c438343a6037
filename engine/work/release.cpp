#include "work/release.h"

#include <algorithm>

namespace trammel::work {

std::string_view word(Refusal why) {
  switch (why) {
    case Refusal::fastener_below_final:
    case Refusal::fastener_off_ladder:
    case Refusal::fastener_not_checked:
      return {};
    case Refusal::proof_never_made:
      return "not proved";
    case Refusal::proof_voided:
      return "void";
    case Refusal::proof_disputed:
      return "disputed";
    case Refusal::part_off:
      return "off";
    case Refusal::part_not_fitted:
      return "not fitted";
    case Refusal::step_not_done:
      return "not done";
    case Refusal::end_not_on_wheels:
      return "off its wheels";
  }
  return {};
}

Release release(const Roster& r, const State& state) {
  Release out;
  const auto refuse = [&](Refusal why, std::string subject, FastenerState s = FastenerState::out) {
    out.refused_by.push_back({why, std::move(subject), s});
  };
  // Every fastener at final, or at more where the kit asks for a check or a lock.
  for (std::size_t i = 0; i < r.fasteners.size(); ++i) {
    const FastenerState s = state.fasteners[i], least = least_for(r.fasteners[i].least, Load::released);
    if (!below(s, least) || scrapped(r, state, i)) continue;
    const Refusal why = !on_ladder(s)                    ? Refusal::fastener_off_ladder
                        : below(s, FastenerState::final) ? Refusal::fastener_below_final
                                                         : Refusal::fastener_not_checked;
    refuse(why, r.fasteners[i].name, s);
  }
  // Every proof good.
  for (std::size_t i = 0; i < r.proofs.size(); ++i) switch (proof_state(r, state, i)) {
      case ProofState::good:
        break;
      case ProofState::never:
        refuse(Refusal::proof_never_made, r.proofs[i].name);
        break;
      case ProofState::voided:
        refuse(Refusal::proof_voided, r.proofs[i].name);
        break;
      case ProofState::disputed:
        refuse(Refusal::proof_disputed, r.proofs[i].name);
        break;
    }
  // Every part back, replaced or scrapped, and the pack empty.
  for (std::size_t i = 0; i < r.parts.size(); ++i) {
    if (state.parts[i] == PartState::in_pack) refuse(Refusal::part_not_fitted, r.parts[i].name);
    const auto& instead = r.parts[i].replaced_by;
    const bool replaced = !instead.empty() && std::all_of(instead.begin(), instead.end(), [&](std::size_t k) {
      return state.parts[k] == PartState::on;
    });
    if (state.parts[i] == PartState::off && !replaced) refuse(Refusal::part_off, r.parts[i].name);
  }
  // Every step done but those that only give the cart back, and both ends on their wheels.
  for (std::size_t s = 0; s < r.procedure.steps.size(); ++s) {
    const auto& loads = r.procedure.steps[s].loads;
    const bool releases =
        std::any_of(loads.begin(), loads.end(), [](const ApplyLoad& l) { return l.load == Load::released; });
    if (!releases && state.done[s] != r.step_reach[s]) refuse(Refusal::step_not_done, r.procedure.steps[s].id);
  }
  if (support_of(state, End::front) != Support::on_wheels) refuse(Refusal::end_not_on_wheels, "front");
  if (support_of(state, End::rear) != Support::on_wheels) refuse(Refusal::end_not_on_wheels, "rear");
  return out;
}

}  // namespace trammel::work
