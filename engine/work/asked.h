// What is asked of one fastener as the work stands: the one answer for a step, an entry of the record and the release.
//
//   passes    torques in order, the last is final: the kit's, or of a hole that two kits share those of the kit that
//   says
//             so; a torque decided since stands in place of all of them
//   valid     no: what stands in for the fastener does not take what is asked, or the kit's own torque is in dispute
//   limit     of a castle nut: the greatest torque on the way to its slot; beyond it the nut comes off again
//   stands    it may be made final only while its end stands so: a bonded bush on the wheels
//   spent     it serves once, was clamped and loosened: it wants a new one
//   measured  it is set by a measure and not by torque
// A reading r against the torque T asked: final from 0.90 T to 1.10 T, of a castle nut to its limit (1.30 T where none
// is given); a pass within 0.10 of an earlier torque of the list; else below or above. The window is wrench, eye and
// hand: assumed.
#pragma once

#include <optional>
#include <span>

#include "work/ledger.h"

namespace trammel::work {

struct Asked {
  std::span<const Torque> passes;  // of the roster or the state that was asked
  bool valid = true;
  std::optional<Torque> limit;
  bool castle = false;
  std::optional<Support> stands;
  bool spent = false;
  bool measured = false;

  std::optional<Torque> torque() const { return passes.empty() ? std::nullopt : std::optional(passes.back()); }
  // Whether its being final wants an entry of what was reached.
  bool wants_entry() const { return measured || !passes.empty(); }
};
Asked asked_of(const Roster& roster, const State& state, std::size_t fastener);

// Whether its end stands as it must for it to be made final.
bool stands_for_final(const Roster& roster, const State& state, std::size_t fastener);
// Whether a step still to come that turns it, the next one in order, brings a new nut or bolt.
bool new_one_to_come(const Roster& roster, const State& state, std::size_t fastener);

enum class TorqueRead : unsigned char { final, pass, below, above };
TorqueRead read_against(const Asked& asked, Torque reached);
Torque lowest(const Asked& asked);  // that counts as final; only where a torque is asked
Torque highest(const Asked& asked);

}  // namespace trammel::work
