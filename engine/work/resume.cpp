#include "work/resume.h"

namespace trammel::work {

Resume resume(const Roster& r, const Ledger& ledger) {
  Resume out;
  const State& s = ledger.state;
  const std::vector<std::size_t> kept = standing(ledger);
  for (auto it = kept.rbegin(); it != kept.rend() && out.last_done.size() < 2; ++it)
    if (std::holds_alternative<StepDone>(ledger.entries[*it].event.what)) out.last_done.push_back(ledger.entries[*it]);
  for (std::size_t i = 0; i < r.fasteners.size(); ++i)
    if (counts(r, s, i) && below(s.fasteners[i], FastenerState::final)) out.loose.push_back(i);
  for (std::size_t i = 0; i < r.parts.size(); ++i)
    if (s.parts[i] == PartState::off) out.parts_off.push_back(i);
  for (std::size_t i = 0; i < r.proofs.size(); ++i) {
    const ProofState p = proof_state(r, s, i);
    if (p == ProofState::voided || p == ProofState::disputed) out.proofs_open.push_back(i);
  }
  out.front = support_of(s, End::front);
  out.rear = support_of(s, End::rear);
  for (std::size_t i = 0; i < r.order.size(); ++i)
    if ((s.done[r.order[i].step] & r.order[i].mask) != r.order[i].mask) out.next.push_back(i);
  return out;
}

}  // namespace trammel::work
