#include "work/judge_step.h"

#include <algorithm>
#include <utility>

#include "work/judging.h"
#include "work/words.h"

namespace trammel::work {

bool any_on(const State& s, const std::vector<std::size_t>& parts) {
  return std::any_of(parts.begin(), parts.end(), [&](std::size_t p) { return is_on(s, p); });
}

Fault& Judging::say(FaultKind kind, std::string subject) const {
  Fault f;
  f.kind = kind;
  f.at = at;
  f.step = step().id;
  f.side = x.side;
  f.subject = std::move(subject);
  out.push_back(std::move(f));
  return out.back();
}
void Judging::say_fastener(FaultKind kind, std::size_t i, FastenerState state, FastenerState least,
                           std::optional<Load> load) const {
  Fault& f = say(kind, r.fasteners[i].name);
  f.state = state;
  f.least = least;
  f.load = load;
}

std::array<bool, 2> Judging::chocks_placed() const {
  std::array<bool, 2> chocked = before.chocked;
  for (const std::string& c : step().sets)
    if (const Meaning m = meaning_of(c); m.known == Known::chocks)
      for (const End e : {End::front, End::rear})
        if (agree(m.end, e)) chocked[e == End::front ? 0 : 1] = true;
  return chocked;
}

bool Judging::met(const Need& n) const {
  const auto all = [](const std::vector<std::size_t>& list, auto ok) {
    return std::all_of(list.begin(), list.end(), ok);
  };
  switch (n.kind) {
    case Need::Kind::condition: {
      const auto i = r.condition(n.subject.id);
      return !i || condition_holds(r, before, *i, x.side) != n.absent;  // an unknown one is a fault of structure
    }
    case Need::Kind::proof: {
      const auto i = r.proof(n.subject.id);
      return !i || proof_state(r, before, *i) == ProofState::good;
    }
    case Need::Kind::support:
      return all_stand(before, n.support, n.subject.end, n.subject.side);
    case Need::Kind::part_on:
      return all(r.parts_of(n.subject, side_asked(n, x.side)), [&](std::size_t i) { return is_on(before, i); });
    case Need::Kind::part_off:
      return all(r.parts_of(n.subject, side_asked(n, x.side)), [&](std::size_t i) { return !is_on(before, i); });
    case Need::Kind::step_done: {
      const auto i = r.step(n.subject.id);
      if (!i) return true;
      const Mask asked =
          (x.mask & r.step_reach[*i]) != 0 ? static_cast<Mask>(x.mask & r.step_reach[*i]) : r.step_reach[*i];
      return (before.done[*i] & asked) == asked;
    }
    case Need::Kind::fastener_at_least:
      return all(r.fasteners_of(n.subject, side_asked(n, x.side)),
                 [&](std::size_t i) { return !below(before.fasteners[i], n.least); });
  }
  return false;
}

namespace {

struct Asking : Judging {
  void needs() const {
    for (const Need& n : step().needs)
      if (!met(n)) say(FaultKind::need_not_met, words_of(n)).need = n.kind;
  }

  void people() const {
    if (!step().person_under) return;
    for (const End e : {End::front, End::rear})
      if (support_of(before, e) == Support::jacked)
        say(FaultKind::person_under_jack, e == End::front ? "front" : "rear");
    // With wheels on the floor something holds them, be it the chocks that this step puts there first.
    State now = before;
    now.chocked = chocks_placed();
    if ((on_floor(now, End::front) || on_floor(now, End::rear)) && !hold_of(r, now, End::front).any() &&
        !hold_of(r, now, End::rear).any())
      say(FaultKind::person_under_unheld, step().id);
  }
};

}  // namespace

void judge_step(const Roster& r, std::size_t at, const State& before, const State& after, std::vector<Fault>& out) {
  const Judging now{r, r.order[at], at, before, after, out};
  const Asking asking{now};
  asking.needs();
  asking.people();
  judge_fastening(now);
  judge_tools(now);
  judge_proofs(now);
  judge_words(now);
  judge_loads(now);
}

}  // namespace trammel::work
