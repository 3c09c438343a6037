#include "work/conflict.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace trammel::work {
namespace {

enum class Thing : unsigned char { fastener, part, end, condition, proof, done, load, chocks, room };
enum class Use : unsigned char { read = 1, strike = 2, write = 4 };  // strike: void a proof

// What one step on one side touches.
class Touched {
 public:
  Touched(const Roster& r, const ExpandedStep& x) : r_(r) {
    const Step& s = r.procedure.steps[x.step];
    for (const Need& n : s.needs) need(n, x.side);
    for (const Slacken& d : s.slacken)
      for (std::size_t i : r.fasteners_of(d.fastener, x.side)) slacken(i);
    for (const Remove& m : s.removes)
      for (std::size_t p : r.parts_of(m.part, x.side)) remove(p);
    for (const Selector& f : s.fits)
      for (std::size_t p : r.parts_of(f, x.side)) fit(p);
    for (const Tighten& t : s.tighten)
      for (std::size_t i : r.fasteners_of(t.fastener, x.side)) tighten(i);
    for (const Selector& u : s.undoes_torque)
      for (std::size_t i : r.fasteners_of(u, x.side)) touch(Thing::fastener, i, Use::write);
    for (const std::string& u : s.undoes)
      if (const auto i = r.proof(u)) touch(Thing::proof, *i, Use::strike);
    for (const std::string& c : s.clears) condition(c, Use::write);
    for (const std::string& c : s.sets) condition(c, Use::write);
    for (const Deed& d : s.deeds) condition(condition_of(d), Use::write);
    for (const std::string& c : s.proves)
      if (const auto i = r.proof(c)) touch(Thing::proof, *i, Use::write);
    known_words(s, x.side);
    declares_ = !uses_.empty();
    for (const ApplyLoad& load : s.loads) bring_on(load);
    touch(Thing::done, x.step, Use::write);
    if (s.person_under) held();
  }

  bool declares() const { return declares_; }
  bool conflicts(const Touched& other) const {
    for (auto a = uses_.begin(), b = other.uses_.begin(); a != uses_.end() && b != other.uses_.end();) {
      if (a->first < b->first)
        ++a;
      else if (b->first < a->first)
        ++b;
      else {
        const int both = a->second | b->second;
        if ((both & static_cast<int>(Use::write)) != 0) return true;
        if (both == (static_cast<int>(Use::read) | static_cast<int>(Use::strike))) return true;
        ++a, ++b;
      }
    }
    return false;
  }

 private:
  void touch(Thing thing, std::size_t i, Use use) { uses_[{thing, i}] |= static_cast<int>(use); }
  void both_ends() {
    touch(Thing::end, 0, Use::read);
    touch(Thing::end, 1, Use::read);
  }
  // What holds the cart where it stands: ends, chocks, brakes, and the wheels that a shaft's brake works through.
  void held() {
    both_ends();
    read_known();
    chocks(End::none, Use::read);
    for (std::size_t p = 0; p < r_.parts.size(); ++p)
      if (r_.procedure.parts[r_.parts[p].part].kind == PartKind::wheel) touch(Thing::part, p, Use::read);
  }
  void end_of(End end, Use use) {
    if (end != End::rear) touch(Thing::end, 0, use);
    if (end != End::front) touch(Thing::end, 1, use);
  }
  void counted(std::size_t fastener) {  // whether it carries anything hangs on the parts it holds
    touch(Thing::fastener, fastener, Use::read);
    for (std::size_t p : r_.fasteners[fastener].holds) touch(Thing::part, p, Use::read);
  }

  // What the words of known.h say of chocks is told of the ends; a load may clear it.
  void condition(const std::string& name, Use use) {
    const auto i = r_.condition(name);
    if (!i) return;
    touch(Thing::condition, *i, use);
    if (r_.conditions[*i].meaning.known == Known::chocks) chocks(r_.conditions[*i].meaning.end, use);
  }
  void chocks(End end, Use use) {
    if (end != End::rear) touch(Thing::chocks, 0, use);
    if (end != End::front) touch(Thing::chocks, 1, use);
  }

  void need(const Need& n, Side side) {
    switch (n.kind) {
      case Need::Kind::condition:
        condition(n.subject.id, Use::read);
        break;
      case Need::Kind::proof:
        if (const auto i = r_.proof(n.subject.id)) touch(Thing::proof, *i, Use::read);
        break;
      case Need::Kind::support:
        end_of(n.subject.end, Use::read);
        break;
      case Need::Kind::part_on:
      case Need::Kind::part_off:
        for (std::size_t p : r_.parts_of(n.subject, side_asked(n, side))) touch(Thing::part, p, Use::read);
        break;
      case Need::Kind::step_done:
        if (const auto i = r_.step(n.subject.id)) touch(Thing::done, *i, Use::read);
        break;
      case Need::Kind::fastener_at_least:
        for (std::size_t i : r_.fasteners_of(n.subject, side_asked(n, side))) touch(Thing::fastener, i, Use::read);
        break;
    }
  }
  void voided(const std::vector<Selector> Proof::*rule, const Instance& by) {
    for (const Proof& proof : r_.procedure.proofs)
      for (const Selector& s : proof.*rule)
        if (s.id == by.group && picks(s, by)) touch(Thing::proof, *r_.proof(proof.id), Use::strike);
  }
  // Words that the rules themselves read (known.h): chocks and isolation hang on one another, and props on parts.
  void known_words(const Step& s, Side side) {
    const auto knows = [&](const std::string& c) {
      const auto i = r_.condition(c);
      return i && r_.conditions[*i].meaning.known != Known::word;
    };
    bool reads = std::any_of(s.sets.begin(), s.sets.end(), knows) ||
                 std::any_of(s.clears.begin(), s.clears.end(), knows) || !s.removes.empty() ||
                 std::find(s.hazards.begin(), s.hazards.end(), "battery") != s.hazards.end();
    const auto battery = [&](const Selector& f) {
      for (std::size_t i : r_.fasteners_of(f, side))
        if (r_.procedure.fasteners[r_.fasteners[i].fastener].duty == Duty::battery) return true;
      return false;
    };
    for (const Slacken& d : s.slacken) reads = reads || battery(d.fastener);
    for (const Tighten& d : s.tighten) reads = reads || battery(d.fastener);
    if (reads) read_known();
    for (const std::string& p : s.proves)
      for (const Proof& proof : r_.procedure.proofs)
        if (proof.id == p)
          for (const Need& n : proof.only_while) need(n, side);
  }
  void read_known() {
    for (std::size_t c = 0; c < r_.conditions.size(); ++c)
      if (r_.conditions[c].meaning.known != Known::word) touch(Thing::condition, c, Use::read);
  }
  // A wheel that is off gives room for what is done at its corner; what is not told apart lies at all that agree.
  void room(const Instance& at, Use use) {
    for (std::size_t corner = 0; corner < 4; ++corner)
      if (agree(at.end, corner < 2 ? End::front : End::rear) &&
          agree(at.side, corner % 2 == 0 ? Side::left : Side::right))
        touch(Thing::room, corner, use);
  }
  Use room_use(std::size_t part) const {
    return r_.procedure.parts[r_.parts[part].part].kind == PartKind::wheel ? Use::write : Use::read;
  }
  void slacken(std::size_t i) {
    room(r_.fasteners[i].instance, Use::read);
    touch(Thing::fastener, i, Use::write);
    counted(i);
    end_of(r_.fasteners[i].instance.end, Use::read);
    voided(&Proof::voided_by_slackening, r_.fasteners[i].instance);
  }
  void remove(std::size_t p) {
    room(r_.parts[p].instance, room_use(p));
    touch(Thing::part, p, Use::write);
    end_of(r_.parts[p].instance.end, Use::read);
    for (std::size_t i = 0; i < r_.fasteners.size(); ++i) {
      const auto& holds = r_.fasteners[i].holds;
      if (std::find(holds.begin(), holds.end(), p) != holds.end()) touch(Thing::fastener, i, Use::read);
    }
    voided(&Proof::voided_by_removing, r_.parts[p].instance);
  }
  void fit(std::size_t p) {
    room(r_.parts[p].instance, room_use(p));
    touch(Thing::part, p, Use::write);
    for (std::size_t old = 0; old < r_.parts.size(); ++old) {
      const auto& by = r_.parts[old].replaced_by;
      if (std::find(by.begin(), by.end(), p) != by.end()) touch(Thing::part, old, Use::read);
    }
  }
  void tighten(std::size_t i) {
    room(r_.fasteners[i].instance, Use::read);
    touch(Thing::fastener, i, Use::write);
    counted(i);
    for (std::size_t p : r_.fasteners[i].waits_for) touch(Thing::part, p, Use::read);
    if (r_.procedure.fasteners[r_.fasteners[i].fastener].only_final) end_of(r_.fasteners[i].instance.end, Use::read);
  }
  static bool asks(const ApplyLoad& load, const FastenerEntry& f) {
    if (load.load <= Load::on_wheels && !agree(load.end, f.instance.end)) return false;
    const bool looked_at =
        load.load == Load::driven_capped && rung(least_for(f.least, Load::released)) > rung(FastenerState::final);
    return looked_at || least_for(f.least, load.load) != FastenerState::out;
  }
  void bring_on(const ApplyLoad& load) {
    touch(Thing::load, 0, Use::write);
    chocks(End::none, Use::write);
    for (std::size_t i = 0; i < r_.conditions.size(); ++i)
      if (r_.conditions[i].meaning.known != Known::word) touch(Thing::condition, i, Use::write);
    end_of(load.load <= Load::on_wheels ? load.end : End::none, Use::write);  // rolling settles both
    both_ends();
    for (const Proof& proof : r_.procedure.proofs)
      if (proof.voided_by_lifting) touch(Thing::proof, *r_.proof(proof.id), Use::strike);
    for (std::size_t i = 0; i < r_.proofs.size(); ++i)
      if (r_.guarded(load.load, i)) touch(Thing::proof, i, Use::read);
    // A load looks at the fasteners that it asks something of and at the wheels; the release at everything.
    for (std::size_t i = 0; i < r_.fasteners.size(); ++i)
      if (asks(load, r_.fasteners[i])) counted(i);
    for (std::size_t p = 0; p < r_.parts.size(); ++p)
      if (load.load == Load::released || r_.procedure.parts[r_.parts[p].part].kind == PartKind::wheel)
        touch(Thing::part, p, Use::read);
    if (load.load != Load::released) return;
    for (std::size_t i = 0; i < r_.proofs.size(); ++i) touch(Thing::proof, i, Use::read);
    for (std::size_t i = 0; i < r_.procedure.steps.size(); ++i) touch(Thing::done, i, Use::read);
  }

  const Roster& r_;
  std::map<std::pair<Thing, std::size_t>, int> uses_;
  bool declares_ = false;
};

std::vector<Touched> touched_by_each(const Roster& r) {
  std::vector<Touched> touched;
  for (const ExpandedStep& x : r.order) touched.emplace_back(r, x);
  return touched;
}

}  // namespace

std::vector<std::vector<unsigned char>> conflicts(const Roster& r) {
  const std::size_t n = r.order.size();
  const std::vector<Touched> touched = touched_by_each(r);
  std::vector<std::vector<unsigned char>> out(n, std::vector<unsigned char>(n, 0));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < i; ++j) out[i][j] = out[j][i] = touched[i].conflicts(touched[j]) ? 1 : 0;
  return out;
}

std::vector<Precedence> kept_order(const Roster& r) {
  const std::size_t n = r.order.size();
  const std::vector<Touched> touched = touched_by_each(r);

  const auto stays = [&](std::size_t i) {
    const Step& s = r.procedure.steps[r.order[i].step];
    return s.hold_point || !s.loads.empty() || !s.proves.empty() || !touched[i].declares();
  };
  // before[j]: the places that come ahead of j, completed as j's forerunners are.
  std::vector<std::vector<unsigned char>> before(n, std::vector<unsigned char>(n, 0));
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = j; i-- > 0;) {
      if (before[j][i]) continue;
      const Step &a = r.procedure.steps[r.order[i].step], &b = r.procedure.steps[r.order[j].step];
      if (a.stage == b.stage && b.evidence.empty() && !stays(i) && !stays(j) && r.order[i].step != r.order[j].step &&
          !touched[i].conflicts(touched[j]))
        continue;
      before[j][i] = 1;
      for (std::size_t k = 0; k < i; ++k) before[j][k] |= before[i][k];
    }
  std::vector<Precedence> out;
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = 0; i < j; ++i)
      if (before[j][i]) out.push_back({i, j});
  return out;
}

std::vector<Precedence> direct_only(const std::vector<Precedence>& complete, std::size_t count) {
  std::vector<std::vector<unsigned char>> before(count, std::vector<unsigned char>(count, 0));
  for (const Precedence& e : complete) before[e.then][e.first] = 1;
  std::vector<Precedence> out;
  for (const Precedence& e : complete) {
    bool implied = false;
    for (std::size_t k = 0; k < count && !implied; ++k) implied = before[e.then][k] && before[k][e.first];
    if (!implied) out.push_back(e);
  }
  return out;
}

Roster reordered(Roster r, const std::vector<std::size_t>& order) {
  std::vector<ExpandedStep> steps;
  for (std::size_t i : order) steps.push_back(r.order[i]);
  // A load of an `each` step comes on after whichever side is done last.
  for (std::size_t i = 0; i < steps.size(); ++i)
    steps[i].last_side = std::none_of(steps.begin() + static_cast<std::ptrdiff_t>(i) + 1, steps.end(),
                                      [&](const ExpandedStep& x) { return x.step == steps[i].step; });
  r.order = std::move(steps);
  return r;
}

}  // namespace trammel::work
