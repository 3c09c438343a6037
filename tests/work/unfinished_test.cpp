// What the cart may bear, held against what the rehearsal says when a load comes on.
#include "work/unfinished.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "work/hauler.h"
#include "work/walk.h"

namespace trammel::work {
namespace {

// What the judge of loads says of a load that comes on too early, as far as it is of the cart and not of the brake.
bool too_early(FaultKind kind) {
  using enum FaultKind;
  constexpr std::array kinds = {below_least_state, wheel_on_ground_loose, support_forgotten, driven_isolated,
                                second_look_late};
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

struct Seen {
  int allowed = 0, refused = 0;
};

// Every load that comes on with the cart on its wheels: told to be too much where the judge speaks, and only there.
void hold_against(const Procedure& p, bool clean, Seen& seen, const std::string& what) {
  const Walk w = walk(p);
  for (std::size_t i = 0; i < w.steps.size(); ++i) {
    const ExpandedStep& x = w.steps[i].step;
    const State& after = w.steps[i].after;
    if (!x.last_side || !all_stand(after, Support::on_wheels, End::none)) continue;
    for (const ApplyLoad& load : w.roster.procedure.steps[x.step].loads) {
      if (load.load < Load::on_wheels || load.load == Load::released) continue;
      const bool spoken = std::any_of(w.faults.begin(), w.faults.end(), [&](const Fault& f) {
        return f.step == w.roster.procedure.steps[x.step].id && f.load == load.load && too_early(f.kind);
      });
      const Load most = unfinished(w.roster, after).most;
      if (spoken) {
        EXPECT_LT(most, load.load) << what << ": " << w.roster.procedure.steps[x.step].id;
        ++seen.refused;
      } else if (clean) {
        EXPECT_GE(most, load.load) << what << ": " << w.roster.procedure.steps[x.step].id;
        ++seen.allowed;
      }
    }
  }
}

TEST(Unfinished, NeverAllowsWhatTheJudgeOfLoadsRefuses) {
  Seen seen;
  hold_against(hauler(), true, seen, "as it is");
  const std::size_t steps = hauler().steps.size();
  for (std::size_t out = 0; out < steps; ++out) {
    Procedure p = hauler();
    const std::string id = p.steps[out].id;
    p.steps.erase(p.steps.begin() + static_cast<std::ptrdiff_t>(out));
    hold_against(p, false, seen, "without " + id);
  }
  std::cout << seen.allowed << " loads allowed, " << seen.refused << " refused\n";
  EXPECT_GT(seen.allowed, 3);
  EXPECT_GT(seen.refused, 10);
}

// Law 1 and 2: state by state along the work, slackening one more fastener never raises it and is never released.
TEST(Unfinished, SlackeningNeverRaisesIt) {
  const Walk w = walk(hauler());
  for (const WalkedStep& s : w.steps) {
    const Load most = unfinished(w.roster, s.after).most;
    for (std::size_t i = 0; i < w.roster.fasteners.size(); i += 5) {
      State looser = s.after;
      if (!on_ladder(looser.fasteners[i]) || looser.fasteners[i] == FastenerState::out) continue;
      looser.fasteners[i] = FastenerState::slack;
      looser.touched[i] = 1;
      const Unfinished left = unfinished(w.roster, looser);
      EXPECT_LE(left.most, most);
      if (counts(w.roster, looser, i)) { EXPECT_LT(left.most, Load::released); }
    }
  }
  EXPECT_EQ(unfinished(w.roster, w.end()).most, Load::released);
}

// Wheels off: their nuts are listed, their places are empty, and the cart stays where it is.
TEST(Unfinished, WheelsOffAreListedWithTheirNuts) {
  const Walk w = walk(hauler());
  int seen = 0;
  for (const WalkedStep& s : w.steps) {
    for (std::size_t p = 0; p < w.roster.parts.size(); ++p) {
      const bool wheel = w.roster.procedure.parts[w.roster.parts[p].part].kind == PartKind::wheel;
      const auto& instead = w.roster.parts[p].replaced_by;
      const bool off = s.after.parts[p] == PartState::off || s.after.parts[p] == PartState::scrap;
      const bool taken =
          std::any_of(instead.begin(), instead.end(), [&](std::size_t k) { return s.after.parts[k] == PartState::on; });
      if (!wheel || !off || taken) continue;
      const Unfinished left = unfinished(w.roster, s.after);
      EXPECT_NE(std::find(left.places.begin(), left.places.end(), p), left.places.end());
      EXPECT_EQ(left.most, Load::on_stands);
      EXPECT_TRUE(std::any_of(left.loose.begin(), left.loose.end(), [&](const LooseItem& l) {
        const auto& holds = w.roster.fasteners[l.fastener].holds;
        return l.state == FastenerState::out && std::find(holds.begin(), holds.end(), p) != holds.end();
      }));
      ++seen;
    }
  }
  EXPECT_GT(seen, 4);
}

}  // namespace
}  // namespace trammel::work
