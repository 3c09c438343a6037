#include "assess/standing.h"

namespace trammel {

std::vector<unsigned char> struck_entries(const Job& job) {
  std::vector<unsigned char> struck(job.events.size(), 0);
  for (std::size_t n = job.events.size(); n-- > 0;) {
    const auto* u = std::get_if<Undo>(&job.events[n]);
    if (u && !struck[n] && u->entry.value >= 1 && static_cast<std::size_t>(u->entry.value) <= n)
      struck[static_cast<std::size_t>(u->entry.value) - 1] = 1;
  }
  return struck;
}

std::vector<const Event*> standing_events(const Job& job) {
  const std::vector<unsigned char> struck = struck_entries(job);
  std::vector<const Event*> out;
  for (std::size_t n = 0; n < job.events.size(); ++n)
    if (!struck[n]) out.push_back(&job.events[n]);
  return out;
}

}  // namespace trammel
