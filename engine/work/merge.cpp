#include "work/merge.h"

#include <algorithm>
#include <unordered_map>

#include "work/words.h"

namespace trammel::work {
namespace {

// One kit's step in the merged order. `root` names the anchor that it came in by; empty: the first kit's own.
struct Placed {
  Step step;
  std::string root;
};

constexpr const char* unplaced = "before release";

std::optional<std::size_t> index_of(const std::vector<Placed>& steps, const std::string& id) {
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps[i].step.id == id) return i;
  return std::nullopt;
}

bool releases(const Step& s) {
  return std::any_of(s.loads.begin(), s.loads.end(), [](const ApplyLoad& l) { return l.load == Load::released; });
}

// Ahead of the first step that gives the cart back, else last.
std::size_t before_release(const std::vector<Placed>& steps) {
  const auto it = std::find_if(steps.begin(), steps.end(), [](const Placed& p) { return releases(p.step); });
  return static_cast<std::size_t>(it - steps.begin());
}

void put(std::vector<Placed>& steps, std::size_t at, Placed placed) {
  steps.insert(steps.begin() + static_cast<std::ptrdiff_t>(at), std::move(placed));
}

// Tries to place one step; false where its anchor is not there yet.
bool place(std::vector<Placed>& steps, const Step& s, const std::string& previous) {
  if (!s.after.empty()) {
    auto at = index_of(steps, s.after);
    if (!at) return false;
    const std::string root = "after " + s.after;
    for (std::size_t i = 0; i < steps.size(); ++i)
      if (steps[i].root == root) at = std::max(*at, i);
    put(steps, *at + 1, {s, root});
  } else if (!s.before.empty()) {
    const auto at = index_of(steps, s.before);
    if (!at) return false;
    put(steps, *at, {s, "before " + s.before});
  } else if (!previous.empty()) {
    const auto at = index_of(steps, previous);
    if (!at) return false;
    put(steps, *at + 1, {s, steps[*at].root});
    steps[*at + 1].step.any_time = steps[*at].root == unplaced;
  } else {
    // Neither author says where it comes among the other's steps: rehearse.h tries every place.
    put(steps, before_release(steps), {s, unplaced});
    steps[*index_of(steps, s.id)].step.any_time = true;
  }
  return true;
}

struct Merger {
  const Procedure& first;
  const Procedure& second;
  Merge out;
  std::unordered_map<std::string, Selector> renamed;  // the second's fastener id -> the first's instances

  void say(MergeFaultKind kind, std::string subject) { out.faults.push_back({kind, std::move(subject)}); }

  Fastener* fastener(const std::string& id) {
    auto& list = out.procedure.fasteners;
    const auto it = std::find_if(list.begin(), list.end(), [&](const Fastener& f) { return f.id == id; });
    return it == list.end() ? nullptr : &*it;
  }

  void fasteners() {
    for (const Fastener& f : second.fasteners) {
      if (f.shares.id.empty()) {
        if (fastener(f.id)) {
          say(MergeFaultKind::duplicate_id, f.id);
          continue;
        }
        out.procedure.fasteners.push_back(f);
        continue;
      }
      Fastener* host = fastener(f.shares.id);
      if (!host) {
        say(MergeFaultKind::unknown_shared, f.shares.id);
        continue;
      }
      host->shared.push_back({f.shares, f.holds, f.id});
      host->new_each_time |= f.new_each_time;
      if (!host->only_final) host->only_final = f.only_final;
      for (std::size_t i = 0; i < load_count; ++i)
        if (f.least[i] && (!host->least[i] || rung(*host->least[i]) < rung(*f.least[i]))) host->least[i] = f.least[i];
      renamed.emplace(f.id, f.shares);
    }
  }

  void parts() {
    for (const Part& part : second.parts) {
      auto& list = out.procedure.parts;
      const auto it = std::find_if(list.begin(), list.end(), [&](const Part& p) { return p.id == part.id; });
      if (it == list.end())
        list.push_back(part);
      else if (it->source == PartSource::in_pack || part.source == PartSource::in_pack)
        say(MergeFaultKind::duplicate_id, part.id);  // a part of the cart may be named by both
    }
  }

  void proofs() {
    for (const Proof& proof : second.proofs) {
      auto& list = out.procedure.proofs;
      auto it = std::find_if(list.begin(), list.end(), [&](const Proof& p) { return p.id == proof.id; });
      if (it == list.end()) it = list.insert(list.end(), Proof{proof.id});
      it->only_while.insert(it->only_while.end(), proof.only_while.begin(), proof.only_while.end());
      it->guards.insert(it->guards.end(), proof.guards.begin(), proof.guards.end());
      it->voided_by_lifting |= proof.voided_by_lifting;
      for (const Selector& s : proof.voided_by_slackening) it->voided_by_slackening.push_back(rename(s));
      it->voided_by_removing.insert(it->voided_by_removing.end(), proof.voided_by_removing.begin(),
                                    proof.voided_by_removing.end());
    }
    for (const std::string& c : second.given)
      if (std::find(out.procedure.given.begin(), out.procedure.given.end(), c) == out.procedure.given.end())
        out.procedure.given.push_back(c);
  }

  Selector rename(const Selector& s) const {
    const auto it = renamed.find(s.id);
    if (it == renamed.end()) return s;
    Selector to = it->second;
    if (to.side == Side::none) to.side = s.side;
    if (to.end == End::none) to.end = s.end;
    if (to.number == 0) to.number = s.number;
    if (to.word.empty()) to.word = s.word;
    return to;
  }

  Step rename(Step s) const {
    for (Slacken& x : s.slacken) x.fastener = rename(x.fastener);
    for (Tighten& x : s.tighten) x.fastener = rename(x.fastener);
    for (Selector& x : s.undoes_torque) x = rename(x);
    for (Need& n : s.needs)
      if (n.kind == Need::Kind::fastener_at_least) n.subject = rename(n.subject);
    return s;
  }

  void steps() {
    std::vector<Placed> placed;
    for (const Step& s : first.steps) placed.push_back({s, {}});

    struct Waiting {
      Step step;
      std::string previous;
    };
    std::vector<Waiting> waiting;
    std::string previous;
    for (const Step& s : second.steps) {
      if (index_of(placed, s.id)) say(MergeFaultKind::duplicate_id, s.id);
      waiting.push_back({rename(s), previous});
      previous = s.id;
    }
    // An anchor may be a step of the second kit that is not placed yet: go round until nothing moves.
    for (bool moved = true; moved && !waiting.empty();) {
      moved = false;
      for (std::size_t i = 0; i < waiting.size();) {
        if (!place(placed, waiting[i].step, waiting[i].previous)) {
          ++i;
          continue;
        }
        waiting.erase(waiting.begin() + static_cast<std::ptrdiff_t>(i));
        moved = true;
      }
    }
    // What is left has an anchor that is nowhere, or waits for itself; no step is lost.
    for (const Waiting& w : waiting) {
      const std::string& anchor = !w.step.after.empty() ? w.step.after : w.step.before;
      if (anchor.empty()) continue;  // it only follows one that has
      const bool known =
          std::any_of(waiting.begin(), waiting.end(), [&](const Waiting& o) { return o.step.id == anchor; });
      say(known ? MergeFaultKind::anchor_cycle : MergeFaultKind::unknown_anchor, anchor);
    }
    for (const Waiting& w : waiting) put(placed, before_release(placed), {w.step, unplaced});

    out.procedure.steps.clear();
    for (Placed& p : placed) out.procedure.steps.push_back(std::move(p.step));
  }
};

// A need of one kit may speak of the other's parts, steps or fasteners; read alone it looked like a condition.
void read_needs_again(Procedure& p) {
  for (std::size_t i = 0; i < p.steps.size(); ++i)
    for (std::size_t k = 0; k < p.steps[i].needs.size(); ++k)
      if (const Need n = p.steps[i].needs[k]; n.kind == Need::Kind::condition && !n.absent)
        p.steps[i].needs[k] = read_need(n.subject.id, p);
}

}  // namespace

Merge merge(const Procedure& first, const Procedure& second) {
  Merger m{first, second, {first, {}}, {}};
  if (!second.name.empty()) m.out.procedure.name += m.out.procedure.name.empty() ? second.name : " + " + second.name;
  m.fasteners();
  m.parts();
  m.proofs();
  m.steps();
  read_needs_again(m.out.procedure);
  return std::move(m.out);
}

}  // namespace trammel::work
