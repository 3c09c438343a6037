#include "assess/additions.h"

#include "assess/entry_terms.h"
#include "assess/standing.h"

namespace trammel {
namespace {

// The places of one entry that an addition may fill; none where it has no such place.
struct Places {
  std::optional<Text>*evidence = nullptr, *second = nullptr, *instead = nullptr, *wrench = nullptr, *who = nullptr,
  *when = nullptr;
};
Places places_of(Event& event) {
  Places p;
  if (auto* s = std::get_if<Signed>(&event)) return {&s->evidence, &s->second, &s->instead, nullptr, nullptr, &s->when};
  if (auto* t = std::get_if<TorqueEntry>(&event)) p.wrench = &t->wrench, p.who = &t->who, p.when = &t->when;
  if (auto* d = std::get_if<Decision>(&event)) p.when = &d->when;
  if (auto* f = std::get_if<FoundSo>(&event)) p.when = &f->when;
  if (auto* u = std::get_if<Undo>(&event)) p.when = &u->when;
  const auto measured = [&](auto* e) {
    if (e) p.who = &e->who, p.when = &e->when;
  };
  measured(std::get_if<Reading>(&event));
  measured(std::get_if<Adjustment>(&event));
  measured(std::get_if<RearReading>(&event));
  measured(std::get_if<RearAdjustment>(&event));
  return p;
}

}  // namespace

CompletedEvents completed_events(const Job& job) {
  CompletedEvents out{job.events, {}};
  const std::vector<unsigned char> struck = struck_entries(job);
  for (std::size_t n = 0; n < job.events.size(); ++n) {
    const auto* a = std::get_if<Addition>(&job.events[n]);
    if (!a || struck[n]) continue;
    const int number = static_cast<int>(n) + 1;
    const bool earlier = a->entry.value >= 1 && a->entry.value < number;
    if (!earlier || std::holds_alternative<Addition>(job.events[static_cast<std::size_t>(a->entry.value) - 1])) {
      out.faults.push_back({number, "record-addition-to-nothing", std::to_string(a->entry.value)});
      continue;
    }
    const Places to = places_of(out.events[static_cast<std::size_t>(a->entry.value) - 1]);
    const auto put = [&](const std::optional<Text>& given, std::optional<Text>* place, const char* key) {
      if (!given) return;
      if (!place)
        out.faults.push_back({number, "record-addition-wrong", key});
      else if (says(*place) && (place != to.when || read_when((*place)->value)))  // no date may be put right
        out.faults.push_back({number, "record-addition-taken", key});
      else
        *place = given;
    };
    put(a->evidence, to.evidence, "evidence");
    put(a->second, to.second, "second");
    put(a->instead, to.instead, "instead");
    put(a->wrench, to.wrench, "wrench");
    put(a->done_by, to.who, "done_by");
    put(a->done_when, to.when, "done_when");
  }
  return out;
}

}  // namespace trammel
