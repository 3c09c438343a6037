#include "work/resume.h"

#include <algorithm>

namespace trammel::work {

std::vector<std::size_t> done_again(const Roster& r, const State& s) {
  const auto done = [&](const ExpandedStep& x) { return (s.done[x.step] & x.mask) == x.mask; };
  // Fasteners and proofs that a step brings to where they must be and that are not there now.
  const auto short_of = [&](const ExpandedStep& x, auto take) {
    const Step& step = r.procedure.steps[x.step];
    for (const Tighten& t : step.tighten)
      if (rung(t.to) >= rung(FastenerState::final))
        for (std::size_t i : r.fasteners_of(t.fastener, x.side))
          if (below(s.fasteners[i], t.to)) take(i);
    for (const std::string& p : step.proves)
      if (const auto i = r.proof(p);
          i && (s.proofs[*i].good & x.mask & r.proofs[*i].reach) != (x.mask & r.proofs[*i].reach))
        take(r.fasteners.size() + *i);
  };
  std::vector<unsigned char> made_good(r.fasteners.size() + r.proofs.size(), 0);
  for (const ExpandedStep& x : r.order)
    if (!done(x)) short_of(x, [&](std::size_t k) { made_good[k] = 1; });
  std::vector<std::size_t> out;
  for (std::size_t at = r.order.size(); at-- > 0;) {
    if (!done(r.order[at])) continue;
    bool again = false;
    short_of(r.order[at], [&](std::size_t k) { again = again || !made_good[k]; });
    if (!again) continue;
    // The last step that makes it good is enough.
    short_of(r.order[at], [&](std::size_t k) { made_good[k] = 1; });
    out.insert(out.begin(), at);
  }
  return out;
}

Resume resume(const Roster& r, const State& s) {
  Resume out;
  for (std::size_t i = 0; i < r.proofs.size(); ++i) {
    const ProofState p = proof_state(r, s, i);
    if (p == ProofState::voided || p == ProofState::disputed) out.proofs_open.push_back(i);
  }
  out.front = support_of(s, End::front);
  out.rear = support_of(s, End::rear);
  const std::vector<std::size_t> again = done_again(r, s);
  for (std::size_t i = 0; i < r.order.size(); ++i)
    if ((s.done[r.order[i].step] & r.order[i].mask) != r.order[i].mask ||
        std::find(again.begin(), again.end(), i) != again.end())
      out.next.push_back(i);
  return out;
}

}  // namespace trammel::work
