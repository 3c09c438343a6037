// What cannot be taken back, checks, and what waits for them.
#include <algorithm>

#include "work/judging.h"
#include "work/words.h"

namespace trammel::work {
namespace {

struct Proving : Judging {
  // Drilled, cut or riveted twice, or with nothing looked at or measured first.
  void deeds() const {
    for (const Deed& d : step().deeds) {
      if (!irreversible(d.verb)) continue;
      const auto c = r.condition(condition_of(d));
      if (c && (before.conditions[*c] & x.mask) != 0) say(FaultKind::done_twice, condition_of(d));
      // How the cart stands or is isolated is no look at what lies behind.
      const bool looked = std::any_of(step().needs.begin(), step().needs.end(), [](const Need& n) {
        const std::string& id = n.subject.id;
        if (n.kind == Need::Kind::condition) return meaning_of(id).known == Known::word && id != floor_level;
        return n.kind == Need::Kind::proof || n.kind == Need::Kind::step_done;
      });
      if (!looked && d.verb != Verb::rivet) say(FaultKind::cut_before_look, d.what);
    }
  }

  // A check proves something only where it says what is met, and in the state in which it can be made.
  void proofs() const {
    std::string unlevel;  // what is read with nothing said of the floor
    for (const std::string& id : step().proves) {
      if (step().evidence.empty()) say(FaultKind::check_proves_nothing, id);
      for (const Proof& p : r.procedure.proofs)
        if (p.id == id)
          for (const Need& n : p.only_while)
            if (!holds(n)) {
              if (n.kind == Need::Kind::condition && n.subject.id == floor_level)
                unlevel += (unlevel.empty() ? "" : ", ") + id;
              else
                say(FaultKind::check_in_wrong_state, id).other = words_of(n);
            }
    }
    for (const std::string& id : step().proves)
      if (known_reading(id) && all_stand(before, Support::on_wheels, End::none) && !settled(before, End::none) &&
          !settled(after, End::none))
        say(FaultKind::not_settled, id);
    if (!unlevel.empty()) say(FaultKind::floor_unknown, unlevel);
    // A check that some step makes is made before the step that waits for it.
    for (const Proof& p : r.procedure.proofs)
      if (std::find(p.guards.begin(), p.guards.end(), step().id) != p.guards.end())
        if (const auto i = r.proof(p.id);
            i && r.proofs[*i].reach != 0 && proof_state(r, before, *i) != ProofState::good)
          say(FaultKind::check_too_late, p.id);
  }
  // What nothing gives does not hold.
  bool holds(const Need& n) const {
    if (n.kind == Need::Kind::condition && !r.condition(n.subject.id)) return n.absent;
    return met(n);
  }
};

}  // namespace

void judge_proofs(const Judging& judging) {
  const Proving now{judging};
  now.deeds();
  now.proofs();
}

}  // namespace trammel::work
