#include "work/judge.h"

#include <map>
#include <set>

namespace trammel::work {
namespace {

struct Thing {
  Instance at;
  int tight = 6;     // 0 out … 6 final, 7 checked; for fasteners
  char where = 'c';  // c on the cart, p in the pack, b on the bench, s scrap; for parts
  const Fastener* fastener = nullptr;
  const Part* part = nullptr;
  bool used = false;
};

struct Bench {
  const Procedure& p;
  std::vector<Thing> nuts, parts;
  char front = 'w', rear = 'w';  // w wheels, j jack, s stands
  std::map<std::string, std::set<char>> conditions, proofs;
  std::map<std::string, std::set<char>> makers;  // who can set a condition or make a proof, by side

  static int height(FastenerState s) { return s == FastenerState::locked ? 7 : static_cast<int>(s); }

  static bool same_place(const Instance& a, const Instance& b) {
    const bool sides = a.side == b.side || a.side == Side::none || b.side == Side::none;
    const bool ends = a.end == b.end || a.end == End::none || b.end == End::none;
    return sides && ends;
  }

  static bool meant(const Thing& t, const std::string& id, const Selector& s, char hand) {
    if (s.id != id) return false;
    if (s.side != Side::none && t.at.side != Side::none && s.side != t.at.side) return false;
    if (s.end != End::none && t.at.end != End::none && s.end != t.at.end) return false;
    if (s.number && s.number != t.at.number) return false;
    if (!s.word.empty() && s.word != t.at.word) return false;
    if (hand == 'l' && t.at.side == Side::right) return false;
    if (hand == 'r' && t.at.side == Side::left) return false;
    return true;
  }

  char holds_up(End e) const {
    return e == End::front ? front : e == End::rear ? rear : front == rear ? front : front == 'w' ? rear : front;
  }

  // Whether any part that the nut clamps is on the cart there.
  bool clamps(const Thing& nut) const {
    if (nut.fastener->holds.empty()) return nut.used || nut.tight > 0;
    for (const Thing& t : parts)
      for (const std::string& id : nut.fastener->holds)
        if (t.part->id == id && same_place(t.at, nut.at) && t.where == 'c') return true;
    return false;
  }

  bool replaced(const Thing& old) const {
    for (const Thing& t : parts)
      if (t.part->replaces == old.part->id && same_place(t.at, old.at) && t.where == 'c') return true;
    return false;
  }

  // What a nut must reach before this load, from the table in the trade's words.
  static int wanted(const Fastener& f, Load load) {
    static const std::map<Duty, std::vector<int>> table = {
        {Duty::wheel, {0, 0, 4, 6, 6, 6}}, {Duty::general, {0, 0, 3, 4, 6, 6}}, {Duty::body, {0, 0, 0, 0, 6, 6}}};
    int most = 0;
    for (int l = 0; l <= static_cast<int>(load); ++l) {
      const int own = f.least[l] ? height(*f.least[l]) : table.at(f.duty)[l];
      if (l <= 2)
        most = l == static_cast<int>(load) || l == 2 ? own : 0;
      else
        most = std::max(most, own);
    }
    return most;
  }
};

std::set<char> hands(Sides s) {
  if (s == Sides::left) return {'l'};
  if (s == Sides::right) return {'r'};
  return {'l', 'r'};
}

}  // namespace

std::optional<std::string> judge(const Procedure& p) {
  Bench b{p, {}, {}, 'w', 'w', {}, {}, {}};
  for (const Part& part : p.parts)
    for (const Instance& i : part.instances)
      b.parts.push_back({i, 0, part.source == PartSource::on_cart ? 'c' : 'p', nullptr, &part});
  for (const Fastener& f : p.fasteners)
    for (const Instance& i : f.instances) b.nuts.push_back({i, 6, 'c', &f, nullptr});

  // New fasteners: those that hold nothing of the cart's and that the work tightens before it loosens them.
  for (Thing& nut : b.nuts) {
    int first = 0;
    for (const Step& s : p.steps)
      for (char hand : hands(s.sides)) {
        if (first) continue;
        for (const auto& x : s.slacken)
          if (!first && b.meant(nut, nut.fastener->id, x.fastener, hand)) first = 1;
        for (const auto& x : s.tighten)
          if (!first && b.meant(nut, nut.fastener->id, x.fastener, hand)) first = Bench::height(x.to) > 6 ? 1 : 2;
      }
    for (const Thing& t : b.parts)
      for (const auto& id : nut.fastener->holds)
        if (id == t.part->id && t.where == 'c' && Bench::same_place(t.at, nut.at)) first = 1;
    nut.tight = first == 1 ? 6 : 0;
    if (nut.fastener->as_found) nut.tight = Bench::height(*nut.fastener->as_found);
  }
  for (const Step& s : p.steps)
    for (char hand : hands(s.sides)) {
      for (const auto& c : s.sets) b.makers[c].insert(hand);
      for (const auto& c : s.proves) b.makers["proof " + c].insert(hand);
    }

  std::set<std::string> done;
  for (const Step& s : p.steps) {
    std::vector<char> turns;
    if (s.sides == Sides::once)
      turns = {'o'};
    else
      for (char hand : hands(s.sides)) turns.push_back(hand);
    for (char hand : turns) {
      const std::set<char> here = hand == 'o' ? std::set<char>{'l', 'r'} : std::set<char>{hand};
      const auto holds = [&](const std::set<char>& have, const std::set<char>& can, bool both) {
        for (char h : both ? std::set<char>{'l', 'r'} : here)
          if (can.contains(h) && !have.contains(h)) return false;
        return !can.empty() && !have.empty();
      };
      // Needs.
      for (const Need& n : s.needs) {
        using K = Need::Kind;
        if (n.kind == K::condition && !holds(b.conditions[n.subject.id], b.makers[n.subject.id], false))
          return "need " + n.subject.id;
        if (n.kind == K::proof && !holds(b.proofs[n.subject.id], b.makers["proof " + n.subject.id], true))
          return "need " + n.subject.id;
        if (n.kind == K::step_done && !done.contains(n.subject.id + "l") && !done.contains(n.subject.id + "r"))
          return "need " + n.subject.id;
        if (n.kind == K::support) {
          const char want = n.support == Support::on_wheels ? 'w' : n.support == Support::jacked ? 'j' : 's';
          if (n.subject.end != End::rear && b.front != want) return "front support";
          if (n.subject.end != End::front && b.rear != want) return "rear support";
        }
        if (n.kind == K::part_on || n.kind == K::part_off)
          for (const Thing& t : b.parts)
            if (b.meant(t, t.part->id, n.subject, hand) && (t.where == 'c') != (n.kind == K::part_on))
              return "part " + n.subject.id;
        if (n.kind == K::fastener_at_least)
          for (const Thing& t : b.nuts)
            if (b.meant(t, t.fastener->id, n.subject, hand) && t.tight < Bench::height(n.least))
              return "fastener " + n.subject.id;
      }
      if (s.person_under && (b.front == 'j' || b.rear == 'j')) return "under a jack";
      // Loosen.
      for (const auto& x : s.slacken)
        for (Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand)) {
            t.used = true;
            if (Bench::height(x.to) >= t.tight) continue;
            t.tight = Bench::height(x.to);
            for (const Proof& q : p.proofs)
              for (const Selector& v : q.voided_by_slackening)
                if (b.meant(t, t.fastener->id, v, 'o')) b.proofs[q.id].clear();
          }
      // Take off.
      for (const auto& x : s.removes)
        for (Thing& t : b.parts)
          if (b.meant(t, t.part->id, x.part, hand)) {
            if (t.where != 'c') return "already off " + t.part->id;
            if (t.part->kind != PartKind::body && b.holds_up(t.at.end) != 's') return "no stands for " + t.part->id;
            for (const Thing& nut : b.nuts)
              for (const auto& id : nut.fastener->holds)
                if (id == t.part->id && Bench::same_place(nut.at, t.at) && nut.tight > 1)
                  return "still fastened " + t.part->id;
            t.where = x.scrap ? 's' : 'b';
            for (const Proof& q : p.proofs)
              for (const Selector& v : q.voided_by_removing)
                if (b.meant(t, t.part->id, v, 'o')) b.proofs[q.id].clear();
          }
      // Put on.
      for (const auto& x : s.fits)
        for (Thing& t : b.parts)
          if (b.meant(t, t.part->id, x, hand)) {
            if (t.where == 'c' || t.where == 's') return "cannot fit " + t.part->id;
            for (const Thing& old : b.parts)
              if (old.part->id == t.part->replaces && Bench::same_place(old.at, t.at) && old.where == 'c')
                return "old one is on " + old.part->id;
            t.where = 'c';
          }
      // Tighten.
      for (const auto& x : s.tighten)
        for (Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand)) {
            const int to = Bench::height(x.to);
            if (to >= 4 && s.tools.empty()) return "no tool in " + s.id;
            if (to > 6 && t.tight < 6) return "checked before final " + t.fastener->id;
            t.used = true;
            if (to >= 3 && !t.fastener->holds.empty() && !b.clamps(t)) return "nothing to clamp " + t.fastener->id;
            if (to >= 6 && t.fastener->only_final == Support::on_wheels && b.holds_up(t.at.end) != 'w')
              return "hanging " + t.fastener->id;
            if (to > t.tight) t.tight = to;
          }
      for (const auto& u : s.undoes_torque)
        for (Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, u, hand) && t.tight >= 6) t.tight = 5;
      for (const auto& u : s.undoes)
        for (char h : here) b.proofs[u].erase(h), b.makers["proof " + u];
      for (const auto& c : s.clears)
        for (char h : here) b.conditions[c].erase(h);
      for (const auto& c : s.sets) b.conditions[c].insert(here.begin(), here.end());
      for (const auto& c : s.proves) b.proofs[c].insert(here.begin(), here.end());
      for (char h : here) done.insert(s.id + h);
      // A nut off while the wheels carry its part.
      for (const auto& x : s.slacken)
        for (const Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand) && t.tight < 2 && b.holds_up(t.at.end) == 'w' &&
              b.clamps(t) && t.tight < Bench::wanted(*t.fastener, Load::on_wheels))
            return "pulled under load " + t.fastener->id;
    }
    // Loads come on when the step is over.
    for (const ApplyLoad& load : s.loads) {
      const char to = load.load == Load::jacked ? 'j' : load.load == Load::on_stands ? 's' : 'w';
      if (load.load <= Load::on_wheels) {
        bool lifted = false;
        if (load.end != End::rear) {
          lifted |= b.front == 'w' && to != 'w';
          b.front = to;
        }
        if (load.end != End::front) {
          lifted |= b.rear == 'w' && to != 'w';
          b.rear = to;
        }
        for (const Proof& q : p.proofs)
          if (lifted && q.voided_by_lifting) b.proofs[q.id].clear();
      } else if (b.front != 'w' || b.rear != 'w') {
        return "moved off its wheels";
      }
      for (const Thing& t : b.nuts) {
        const bool there =
            load.load > Load::on_wheels || load.end == End::none || t.at.end == End::none || t.at.end == load.end;
        if (there && load.load != Load::released && b.clamps(t) && t.tight < Bench::wanted(*t.fastener, load.load))
          return "loose under load " + t.fastener->id;
        if (load.load == Load::released && t.tight < Bench::wanted(*t.fastener, Load::released))
          return "released below final " + t.fastener->id;
      }
      if (load.load >= Load::on_wheels)
        for (const Thing& t : b.parts)
          if (t.part->kind == PartKind::wheel &&
              (load.load > Load::on_wheels || load.end == End::none || t.at.end == load.end) &&
              (t.where == 'b' || t.where == 's') && !b.replaced(t))
            return "no wheel";
    }
  }
  // At the end: everything final, every proof good, every part somewhere right.
  for (const Thing& t : b.nuts)
    if (t.tight < Bench::wanted(*t.fastener, Load::released)) return "never final " + t.fastener->id;
  for (const Thing& t : b.parts) {
    if (t.where == 'p') return "left in the pack " + t.part->id;
    if (t.where == 'b' && !b.replaced(t)) return "never back " + t.part->id;
  }
  for (const Proof& q : p.proofs) b.makers["proof " + q.id];
  for (const auto& [name, can] : b.makers)
    if (name.starts_with("proof ") && (can.size() != 2 || b.proofs[name.substr(6)] != can)) return "open " + name;
  if (b.front != 'w' || b.rear != 'w') return "left in the air";
  return std::nullopt;
}

}  // namespace trammel::work
