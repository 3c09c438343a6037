// The ledger: the state of every fastener instance, part, end, proof and condition, as a fold over entries.
//
//   ledger_n = apply(roster, ledger_{n-1}, event_n)
// Law 1: folding all entries at once equals applying them one by one.
// Law 2: striking the last entry gives the state before it. Law 3: an `each` step touches mirrored instances alike.
// Law 4: an entry that names nothing known, repeats or lowers a sequence changes no state; it is kept, with the reason.
// A shared fastener (procedure.h) tightened before every kit's part is on goes no further than snug. A torque entry
// makes nothing final that may not be made final then (asked.h): it goes to part-tight. Lifting a wheel voids the
// proofs that say so, and that end stands settled again once the cart is rolled or driven; with both wheels of an end
// up its chocks hold nothing; rolling leaves chocks and parking brake behind. Slackening and removing void likewise.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "work/event.h"
#include "work/roster.h"

namespace trammel::work {

enum class PartState : unsigned char { on, off, in_pack, scrap };
enum class ProofState : unsigned char { never, good, voided, disputed };

struct ProofLedger {
  Mask good = 0;        // sides on which it holds
  bool voided = false;  // was good on some side and is not now
  bool disputed = false;
  bool open = false;  // work has voided it, as lifting does not, and it has not been made since
  friend bool operator==(const ProofLedger&, const ProofLedger&) = default;
};

// A torque asked of one fastener in place of the kit's; none: what was asked is not valid.
struct TorqueInstead {
  std::size_t fastener = 0;
  std::optional<Torque> torque;
  friend bool operator==(const TorqueInstead&, const TorqueInstead&) = default;
};

struct State {
  std::vector<FastenerState> fasteners;
  std::vector<unsigned char> touched;  // by fastener entry
  std::vector<unsigned char> spent;    // serves once, has been clamped and loosened: needs a new one
  std::vector<PartState> parts;
  std::array<Support, 4> corners{};  // front left, front right, rear left, rear right
  std::vector<ProofLedger> proofs;
  std::vector<Mask> conditions;
  std::array<bool, 2> chocked{};               // front, rear; the chock words of known.h read these
  std::array<bool, 2> settled = {true, true};  // front, rear: rolled or driven since it came down
  std::vector<Mask> done;                      // by step index
  std::optional<Load> last_load;
  std::vector<TorqueInstead> instead;  // in the order decided, the last of a fastener holds
  friend bool operator==(const State&, const State&) = default;
};

State starting_state(const Roster& roster);
// What one step on one side does. Nothing is judged here: walk.h does that.
State do_step(const Roster& roster, State state, const ExpandedStep& step);
ProofState proof_state(const Roster& roster, const State& state, std::size_t proof);
// Whether a proof that some step makes is not good and the load waits for it: where the kit says so, or, of steering
// and brakes before a drive, where work has opened it.
bool holds_back(const Roster& roster, const State& state, Load load, std::size_t proof);
bool condition_holds(const Roster& roster, const State& state, std::size_t condition, Side side);
// The corners picked, none: both. The worst held of them (jacked, then stands, then wheels); all alike; any on its
// wheel.
Support support_of(const State& state, End end, Side side = Side::none);
bool all_stand(const State& state, Support so, End end, Side side = Side::none);
bool on_floor(const State& state, End end);
// Whether the fastener carries anything: a part it holds is on, or, holding none, it has been touched or is not out.
bool counts(const Roster& roster, const State& state, std::size_t fastener);
// Whether it went to scrap with everything that it held: nothing is left for it to make final.
bool scrapped(const Roster& roster, const State& state, std::size_t fastener);

enum class EntryFault : unsigned char {
  none,
  unknown_step,
  wrong_side,
  unknown_instance,
  unknown_proof,
  no_such_entry,
  sequence
};

struct Entry {
  Event event;
  EntryFault fault = EntryFault::none;
};

struct Ledger {
  State state;
  std::vector<Entry> entries;
};

Ledger open_ledger(const Roster& roster);
Ledger apply(const Roster& roster, Ledger ledger, const Event& event);
Ledger fold(const Roster& roster, std::span<const Event> events);
// Entry indices that stand: valid, not struck, and no undo itself; in order.
std::vector<std::size_t> standing(const Ledger& ledger);

}  // namespace trammel::work
