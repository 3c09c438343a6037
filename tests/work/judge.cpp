#include "work/judge.h"

#include <cmath>
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
  bool worn = false;  // served its one time and was loosened
};

struct Bench {
  const Procedure& p;
  std::vector<Thing> nuts, parts;
  char front = 'w', rear = 'w';  // w wheels, j jack, s stands
  bool front_chock = false, rear_chock = false;
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

  // A nut goes to the scrap with all that it held.
  bool thrown_away(const Thing& nut) const {
    int held = 0, gone = 0;
    for (const Thing& t : parts)
      for (const std::string& id : nut.fastener->holds)
        if (t.part->id == id && same_place(t.at, nut.at)) ++held, gone += t.where == 's';
    return held > 0 && held == gone;
  }

  bool replaced(const Thing& old) const {
    for (const Thing& t : parts)
      if (t.part->replaces == old.part->id && same_place(t.at, old.at) && t.where == 'c') return true;
    return false;
  }

  // What a nut must reach before this load, from the table in the trade's words.
  static int wanted(const Fastener& f, Load load) {
    static const std::map<Duty, std::vector<int>> table = {{Duty::wheel, {0, 0, 4, 6, 6, 6}},
                                                           {Duty::general, {0, 0, 3, 4, 6, 6}},
                                                           {Duty::body, {0, 0, 0, 0, 6, 6}},
                                                           {Duty::battery, {0, 0, 0, 0, 6, 6}}};
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

bool has_word(const Procedure& p, const std::string& word) {
  for (const Step& s : p.steps)
    for (const auto& c : s.sets)
      if (c == word) return true;
  for (const auto& c : p.given)
    if (c == word) return true;
  return false;
}

// The first number with a space ahead of it, in whatever unit follows: the size of a wrench.
std::optional<double> wrench_millimetres(const std::string& tool) {
  if (tool.find("torque") != std::string::npos) return std::nullopt;
  if (tool.find("wrench") == std::string::npos && tool.find("spanner") == std::string::npos &&
      tool.find("socket") == std::string::npos)
    return std::nullopt;
  // A fraction of an inch.
  if (const std::size_t bar = tool.find('/'); bar != std::string::npos && tool.ends_with(" in"))
    return 25.4 * std::stod(tool.substr(tool.rfind(' ', bar) + 1)) / std::stod(tool.substr(bar + 1));
  if (tool.find(" mm") == std::string::npos) return std::nullopt;
  const std::size_t unit = tool.find(" mm"), from = tool.rfind(' ', unit - 1);
  return std::stod(tool.substr(from == std::string::npos ? 0 : from + 1));
}

std::set<char> hands(Sides s) {
  if (s == Sides::left) return {'l'};
  if (s == Sides::right) return {'r'};
  return {'l', 'r'};
}

}  // namespace

std::optional<std::string> judge(const Procedure& p) {
  Bench b{p, {}, {}, 'w', 'w', false, false, {}, {}, {}};
  // What is not told apart by place is there once.
  const auto each = [](const std::vector<Instance>& told) { return told.empty() ? std::vector<Instance>(1) : told; };
  for (const Part& part : p.parts)
    for (const Instance& i : each(part.instances))
      b.parts.push_back({i, 0, part.source == PartSource::on_cart ? 'c' : 'p', nullptr, &part});
  for (const Fastener& f : p.fasteners)
    for (const Instance& i : each(f.instances)) b.nuts.push_back({i, 6, 'c', &f, nullptr});

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
  for (const auto& c : p.given)
    for (char hand : {'l', 'r'}) b.conditions[c].insert(hand), b.makers[c].insert(hand);
  for (const Step& s : p.steps)
    for (char hand : hands(s.sides)) {
      for (const auto& c : s.sets) b.makers[c].insert(hand);
      for (const Deed& d : s.deeds) b.makers[condition_of(d)].insert(hand);
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
        if (n.kind == K::condition && n.subject.id.ends_with("chocked")) {
          const bool f = n.subject.id.starts_with("rear") || b.front_chock,
                     r = n.subject.id.starts_with("front") || b.rear_chock;
          if ((f && r) == n.absent) return "need " + n.subject.id;
          continue;
        }
        if (n.kind == K::condition && n.absent) {
          if (holds(b.conditions[n.subject.id], b.makers[n.subject.id], false)) return "need not " + n.subject.id;
          continue;
        }
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
            if (b.meant(t, t.part->id, n.subject, n.subject.side == Side::none ? hand : 'o') &&
                (t.where == 'c') != (n.kind == K::part_on))
              return "part " + n.subject.id;
        if (n.kind == K::fastener_at_least)
          for (const Thing& t : b.nuts)
            if (b.meant(t, t.fastener->id, n.subject, n.subject.side == Side::none ? hand : 'o') &&
                t.tight < Bench::height(n.least))
              return "fastener " + n.subject.id;
      }
      if (s.person_under && (b.front == 'j' || b.rear == 'j')) return "under a jack";
      // Loosen.
      for (const auto& x : s.slacken)
        for (Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand)) {
            t.used = true;
            if (Bench::height(x.to) >= t.tight) continue;
            if (t.fastener->new_each_time && t.tight >= 4) t.worn = true;
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
      // What lifts and what shows a torque is on the list; "all" is everything.
      const auto listed = [&](std::initializer_list<const char*> words) {
        for (const auto& tool : s.tools)
          for (const char* w : words)
            if (tool == "all" || tool.find(w) != std::string::npos) return true;
        return s.tools.empty();
      };
      for (const auto& l : s.loads)
        if (l.load == Load::on_stands && !listed({"stand"})) return "no stands in " + s.id;
      for (const auto& c : s.sets)
        if (c.ends_with("chocked") && !listed({"chock"})) return "no chocks in " + s.id;
      // Tighten.
      for (const auto& x : s.tighten)
        for (Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand)) {
            const int to = Bench::height(x.to);
            if (to >= 4 && s.tools.empty()) return "no tool in " + s.id;
            if (x.fresh) t.worn = false;
            if (to >= 6 && t.tight < 6 && t.worn) return "old nut " + t.fastener->id;
            if (to >= 4 && to <= 6 && t.fastener->head) {
              bool sized = false, right = false;
              for (const auto& tool : s.tools)
                if (const auto mm = wrench_millimetres(tool)) {
                  sized = true;
                  right |= std::abs(*mm - t.fastener->head->si() * 1e3) < 0.2;
                }
              if (sized && !right) return "no wrench for " + t.fastener->id;
            }
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
      // Deeds, words and what they mean.
      for (const auto& d : s.deeds) {
        const std::string made = condition_of(d);
        const bool for_good = d.verb == Verb::drill || d.verb == Verb::cut || d.verb == Verb::rivet;
        for (char h : here)
          if (for_good && b.conditions[made].contains(h)) return "twice " + made;
        bool looked = false;
        for (const Need& n : s.needs)
          looked |= n.kind == Need::Kind::condition || n.kind == Need::Kind::proof || n.kind == Need::Kind::step_done;
        if ((d.verb == Verb::drill || d.verb == Verb::cut) && !looked) return "cut unlooked " + d.what;
        b.conditions[made].insert(here.begin(), here.end());
      }
      const auto word = [&](const char* w) { return !b.conditions[w].empty(); };
      const auto isolated = [&] { return word("pack isolated") || word("engine isolated"); };
      const bool petrol = has_word(p, "fuel shut") || has_word(p, "plug lead off") || has_word(p, "start tried");
      const bool off_before = word("negative off") || isolated(), switch_before = word("switch off");
      bool power = false;
      for (const auto& c : s.clears) {
        for (char h : here) b.conditions[c].erase(h);
        if (c.ends_with("chocked")) {
          if (!c.starts_with("rear")) b.front_chock = false;
          if (!c.starts_with("front")) b.rear_chock = false;
        }
        power |= c == "pack isolated" || c == "switch off" || c == "engine isolated" || c == "plug lead off";
      }
      for (const auto& c : s.sets) {
        b.conditions[c].insert(here.begin(), here.end());
        if (c.ends_with("chocked")) {
          if (!c.starts_with("rear")) b.front_chock = true;
          if (!c.starts_with("front")) b.rear_chock = true;
        }
      }
      for (const auto& c : s.sets) {
        if (c == "switch off" && has_word(p, "key out") && !word("key out")) return "key before switch";
        for (const char* later : {"fuel shut", "plug lead off", "negative off"})
          if (c == later && petrol && has_word(p, "key out") && !word("key out")) return "key before " + c;
        if (c == "start tried")
          for (const char* off : {"fuel shut", "plug lead off", "negative off"})
            if (!word(off)) return std::string("tried before ") + off;
        if ((c == "pack isolated" || c == "engine isolated") && petrol && !word("start tried")) return "not tried";
        if (c == "negative off" && !petrol && !word("switch off")) return "switch before negative";
        if (c == "zero measured" && !word("negative off")) return "measured before it was off";
        if ((c == "pack isolated" || c == "engine isolated") && !petrol && has_word(p, "negative off") &&
            !word("zero measured"))
          return "not measured";
      }
      for (const auto& c : s.clears) {
        if (c == "switch off" && word("negative off")) return "switch on before the lead";
        if (c == "fuel shut" && word("negative off")) return "fuel before the lead";
        if (c == "negative off" && has_word(p, "switch off") && !switch_before) return "lead on with the switch on";
      }
      if (power && !(b.front == 'w' && b.front_chock) && !(b.rear == 'w' && b.rear_chock)) {
        const char driven = p.driven == End::front ? b.front : p.driven == End::rear ? b.rear : 'w';
        if (driven == 'w') return "power with free wheels";
      }
      if (power && ((p.driven == End::front && b.front == 'w') || (p.driven == End::rear && b.rear == 'w')))
        return "power with the driven wheels down";
      if (!off_before && !word("negative off") && !isolated()) {
        for (const auto& x : s.slacken)
          for (const Thing& t : b.nuts)
            if (b.meant(t, t.fastener->id, x.fastener, hand) && t.fastener->duty == Duty::battery)
              return "live terminal";
        for (const auto& x : s.tighten)
          for (const Thing& t : b.nuts)
            if (b.meant(t, t.fastener->id, x.fastener, hand) && t.fastener->duty == Duty::battery)
              return "live terminal";
        for (const auto& h : s.hazards)
          if (h == "battery") return "battery work live";
      }
      for (const auto& x : s.removes)
        for (const char* under : {" on jack", " on stand", " on stands"})
          if (word((x.part.id + under).c_str())) return "prop under " + x.part.id;
      for (const auto& c : s.proves) {
        if (s.evidence.empty()) return "no evidence " + c;
        for (const Proof& q : p.proofs)
          for (const Need& n : q.only_while) {
            if (q.id != c) continue;
            if (n.kind == Need::Kind::support) {
              const char want = n.support == Support::on_wheels ? 'w' : n.support == Support::jacked ? 'j' : 's';
              if ((n.subject.end != End::rear && b.front != want) || (n.subject.end != End::front && b.rear != want))
                return "proves nothing " + c;
            } else if (n.kind == Need::Kind::condition && b.conditions[n.subject.id].empty() != n.absent) {
              return "proves nothing " + c;
            }
          }
      }
      for (const Proof& q : p.proofs)
        for (const auto& g : q.guards)
          if (g == s.id && !holds(b.proofs[q.id], b.makers["proof " + q.id], true)) return "too late " + q.id;
      for (const auto& c : s.proves) b.proofs[c].insert(here.begin(), here.end());
      for (char h : here) done.insert(s.id + h);
      // A nut off while the wheels carry its part.
      for (const auto& x : s.slacken)
        for (const Thing& t : b.nuts)
          if (b.meant(t, t.fastener->id, x.fastener, hand) && t.tight < 2 && b.holds_up(t.at.end) == 'w' &&
              b.clamps(t) && t.tight < Bench::wanted(*t.fastener, Load::on_wheels))
            return "pulled under load " + t.fastener->id;
    }
    const char front_was = b.front, rear_was = b.rear;
    // Loads come on when the step is over.
    for (const ApplyLoad& load : s.loads) {
      // Whatever goes up leaves the other end, if that stands on its wheels, to its chocks.
      if (load.load < Load::on_wheels) {
        char f = b.front, r = b.rear;
        if (load.end != End::rear && f == 'w') {
          f = 'x';
          if (r == 'w' && !b.rear_chock) return "rear free to roll";
        }
        if (load.end != End::front && r == 'w' && f == 'w' && !b.front_chock) return "front free to roll";
        if (load.end != End::rear) b.front_chock = false;
        if (load.end != End::front) b.rear_chock = false;
      }
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
      if (load.load >= Load::on_wheels && b.front == 'w' && b.rear == 'w')
        for (const auto& [name, where] : b.conditions)
          if (!where.empty() &&
              (name.ends_with(" on jack") || name.ends_with(" on stand") || name.ends_with(" on stands")))
            return "forgotten " + name;
      for (const ParkingBrake brake : p.brakes)
        if (brake == ParkingBrake::power_off_shaft && load.load >= Load::rolled &&
            (load.load == Load::rolled) == b.conditions["brake released"].empty())
          return "motor brake";
      if (load.load >= Load::rolled) b.front_chock = b.rear_chock = false;
      for (const Proof& q : p.proofs)
        for (const auto& g : q.guards)
          if (read_load(g) == load.load && b.makers.contains("proof " + q.id) &&
              (b.proofs[q.id].empty() || b.proofs[q.id] != b.makers["proof " + q.id]))
            return "too late " + q.id;
      if (load.load == Load::released)
        for (const auto& [name, can] : b.makers)
          if (name.starts_with("proof ") && b.proofs[name.substr(6)] != can) return "released without " + name;
      if (load.load >= Load::driven_capped)
        for (const char* off :
             {"pack isolated", "engine isolated", "negative off", "switch off", "fuel shut", "plug lead off"})
          if (!b.conditions[off].empty()) return std::string("driven with ") + off;
      if (load.load == Load::driven_capped)
        for (const Thing& t : b.nuts)
          if (Bench::wanted(*t.fastener, Load::released) == 7 && t.tight == 6 && t.used && b.clamps(t))
            return "second look too late " + t.fastener->id;
      for (const Thing& t : b.nuts) {
        const bool there =
            load.load > Load::on_wheels || load.end == End::none || t.at.end == End::none || t.at.end == load.end;
        if (there && load.load != Load::released && b.clamps(t) && t.tight < Bench::wanted(*t.fastener, load.load))
          return "loose under load " + t.fastener->id;
        if (load.load == Load::released && !b.thrown_away(t) && t.tight < Bench::wanted(*t.fastener, Load::released))
          return "released below final " + t.fastener->id;
      }
      if (load.load >= Load::on_wheels)
        for (const Thing& t : b.parts)
          if (t.part->kind == PartKind::wheel &&
              (load.load > Load::on_wheels || load.end == End::none || t.at.end == load.end) &&
              (t.where == 'b' || t.where == 's') && !b.replaced(t))
            return "no wheel";
    }
    for (const auto& c : s.sets)
      if (c.ends_with("chocked")) {
        if (!c.starts_with("rear") && front_was != 'w' && b.front != 'w') return "chock in the air";
        if (!c.starts_with("front") && rear_was != 'w' && b.rear != 'w') return "chock in the air";
      }
    if (b.front != 'w') b.front_chock = false;
    if (b.rear != 'w') b.rear_chock = false;
  }
  // At the end: everything final, every proof good, every part somewhere right.
  for (const Thing& t : b.nuts)
    if (!b.thrown_away(t) && t.tight < Bench::wanted(*t.fastener, Load::released))
      return "never final " + t.fastener->id;
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
