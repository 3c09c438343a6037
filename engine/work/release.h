// May the cart be given back? Refused while anything is below final (or below the verified that its kit asks for), any
// proof is open or disputed, any part is off that should be on, a step is not done, or an end does not stand on its
// wheels. Every reason is listed, in the roster's order.
// Law 1: no release while an instance is below final. Law 2: granted exactly when the list is empty.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "work/ledger.h"

namespace trammel::work {

enum class Refusal : unsigned char {
  fastener_below_final,
  fastener_off_ladder,
  fastener_not_checked,  // final, where the kit asks for a second person's check or a lock
  proof_never_made,
  proof_voided,
  proof_disputed,
  part_off,
  part_not_fitted,
  step_not_done,
  end_not_on_wheels
};

// What the subject is, where it is no fastener with a state of its own: "not done", "void", "off".
std::string_view word(Refusal why);

struct RefusedBy {
  Refusal why{};
  std::string subject;                       // instance, part, proof, step or end
  FastenerState state = FastenerState::out;  // of a fastener
};

struct Release {
  std::vector<RefusedBy> refused_by;
  bool granted() const { return refused_by.empty(); }
};

Release release(const Roster& roster, const State& state);

}  // namespace trammel::work
