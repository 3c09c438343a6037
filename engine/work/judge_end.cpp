// What only the end of the work shows.
#include <algorithm>
#include <utility>

#include "work/judge_step.h"
#include "work/release.h"

namespace trammel::work {
namespace {

// What every step does to each instance, to compare a left one with its mirror image.
using Done = std::pair<int, int>;
std::vector<std::vector<Done>> deeds_of_fasteners(const Roster& r) {
  std::vector<std::vector<Done>> deeds(r.fasteners.size());
  for (const ExpandedStep& x : r.order) {
    const Step& s = r.procedure.steps[x.step];
    for (const Slacken& d : s.slacken)
      for (std::size_t i : r.fasteners_of(d.fastener, x.side)) deeds[i].push_back({0, static_cast<int>(d.to)});
    for (const Tighten& d : s.tighten)
      for (std::size_t i : r.fasteners_of(d.fastener, x.side)) deeds[i].push_back({1, static_cast<int>(d.to)});
    for (const Selector& d : s.undoes_torque)
      for (std::size_t i : r.fasteners_of(d, x.side)) deeds[i].push_back({2, 0});
  }
  return deeds;
}
std::vector<std::vector<Done>> deeds_of_parts(const Roster& r) {
  std::vector<std::vector<Done>> deeds(r.parts.size());
  for (const ExpandedStep& x : r.order) {
    const Step& s = r.procedure.steps[x.step];
    for (const Remove& d : s.removes)
      for (std::size_t i : r.parts_of(d.part, x.side)) deeds[i].push_back({0, d.scrap ? 1 : 0});
    for (const Selector& d : s.fits)
      for (std::size_t i : r.parts_of(d, x.side)) deeds[i].push_back({1, 0});
  }
  return deeds;
}

template <class Entries>
void compare_sides(const Entries& entries, std::vector<std::vector<Done>> deeds, std::vector<Fault>& out) {
  for (auto& d : deeds) std::sort(d.begin(), d.end());
  for (std::size_t a = 0; a < entries.size(); ++a) {
    if (entries[a].instance.side != Side::left) continue;
    Instance mirror = entries[a].instance;
    mirror.side = Side::right;
    for (std::size_t b = 0; b < entries.size(); ++b)
      if (entries[b].instance == mirror && deeds[a] != deeds[b]) {
        Fault f;
        f.kind = FaultKind::side_missed;
        f.subject = entries[deeds[a].size() < deeds[b].size() ? a : b].name;
        f.side = deeds[a].size() < deeds[b].size() ? Side::left : Side::right;
        out.push_back(std::move(f));
      }
  }
}

bool slackens(const Roster& r, std::size_t fastener) {
  for (const ExpandedStep& x : r.order)
    for (const Slacken& s : r.procedure.steps[x.step].slacken)
      for (std::size_t i : r.fasteners_of(s.fastener, x.side))
        if (i == fastener) return true;
  return false;
}

}  // namespace

void judge_end(const Roster& r, const State& end, std::vector<Fault>& out) {
  const auto say = [&](FaultKind kind, std::string subject) -> Fault& {
    Fault f;
    f.kind = kind;
    f.subject = std::move(subject);
    out.push_back(std::move(f));
    return out.back();
  };
  compare_sides(r.fasteners, deeds_of_fasteners(r), out);
  compare_sides(r.parts, deeds_of_parts(r), out);
  for (const NamedMask& p : r.proofs)
    if (p.reach == left_bit || p.reach == right_bit)
      say(FaultKind::side_missed, p.name).side = p.reach == left_bit ? Side::right : Side::left;
  for (const RefusedBy& why : release(r, end).refused_by) switch (why.why) {
      case Refusal::fastener_not_checked: {
        say(FaultKind::never_checked, why.subject).state = why.state;
        break;
      }
      case Refusal::fastener_below_final:
      case Refusal::fastener_off_ladder: {
        Fault& f = say(slackens(r, *r.fastener(why.subject)) ? FaultKind::slackened_never_finished
                                                             : FaultKind::fastener_never_final,
                       why.subject);
        f.state = why.state;
        f.least = least_for(r.fasteners[*r.fastener(why.subject)].least, Load::released);
        break;
      }
      case Refusal::proof_voided:
      case Refusal::proof_disputed:
        if (r.proofs[*r.proof(why.subject)].reach != 0) say(FaultKind::proof_voided_not_repeated, why.subject);
        break;
      case Refusal::proof_never_made:
        // One that no step makes: structure.cpp.
        if (r.proofs[*r.proof(why.subject)].reach != 0) say(FaultKind::proof_never_made, why.subject);
        break;
      case Refusal::part_off:
        say(FaultKind::part_off_never_refitted, why.subject);
        break;
      case Refusal::part_not_fitted:
        say(FaultKind::part_never_fitted, why.subject);
        break;
      case Refusal::end_not_on_wheels:
        say(FaultKind::end_off_wheels, why.subject);
        break;
      case Refusal::step_not_done:
        break;
    }
}

}  // namespace trammel::work
