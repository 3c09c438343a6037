// What the judges of one step share: the step on one side, the state that it meets and the one that it leaves. Private
// to the room; the rules stand in walk.h.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "work/fault.h"
#include "work/hold.h"

namespace trammel::work {

struct Judging {
  const Roster& r;
  const ExpandedStep& x;
  std::size_t at;  // in Roster::order
  const State& before;
  const State& after;
  std::vector<Fault>& out;

  const Step& step() const { return r.procedure.steps[x.step]; }
  Fault& say(FaultKind kind, std::string subject) const;
  void say_fastener(FaultKind kind, std::size_t fastener, FastenerState state, FastenerState least,
                    std::optional<Load> load = std::nullopt) const;
  bool met(const Need& need) const;
  // Chocks of the state that it meets and those that the step itself puts, by end.
  std::array<bool, 2> chocks_placed() const;
};

inline bool is_on(const State& s, std::size_t part) { return s.parts[part] == PartState::on; }
inline bool settled(const State& s, End end) {
  return (end == End::rear || s.settled[0]) && (end == End::front || s.settled[1]);
}
bool any_on(const State& s, const std::vector<std::size_t>& parts);

void judge_fastening(const Judging& judging);  // parts off and on, fasteners made fast
void judge_tools(const Judging& judging);      // wrenches and ranges against what they turn
void judge_proofs(const Judging& judging);     // deeds that cannot be taken back, checks, what waits for them
void judge_words(const Judging& judging);      // chocks in the air, isolation, live work
void judge_loads(const Judging& judging);      // what a load may not come on

}  // namespace trammel::work
