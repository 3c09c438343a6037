// What happened in the shop, one entry each. Entries are the truth; the ledger is a fold over them.
//
// An undo is an entry: it strikes the entry whose sequence it names, also another undo. Sequences rise.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "measure/quantity.h"
#include "work/fastener_state.h"
#include "work/place.h"

namespace trammel::work {

struct StepDone {
  std::string step;
  Side side = Side::none;
};                      // side none: a step done once
struct TorqueReached {  // one instance, by its name
  std::string instance;
  FastenerState state = FastenerState::final;
  Torque reached;
  std::string wrench;
  bool fresh = false;  // with a new nut or bolt
};
struct Found {
  std::string instance;
  FastenerState state = FastenerState::seized;
};  // seen so, whatever was thought
struct Disputed {
  std::string instance;
};
struct Decided {
  std::string instance;
  FastenerState state = FastenerState::out;
};  // ends a dispute
struct Substituted {
  std::string instance, by;
};
struct TorqueDecided {  // asked from here on in place of the kit's; none: nothing valid is asked
  std::string instance;
  std::optional<Torque> torque;
};
struct ProofDisputed {
  std::string proof;
};
struct Undone {
  std::uint64_t sequence = 0;
};

struct Event {
  std::uint64_t sequence = 0;
  std::string who, when;  // opaque here
  std::variant<StepDone, TorqueReached, Found, Disputed, Decided, Substituted, TorqueDecided, ProofDisputed, Undone>
      what;
};

}  // namespace trammel::work
