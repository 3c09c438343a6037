#include "work/order.h"

#include <algorithm>
#include <set>
#include <unordered_map>

namespace trammel::work {

std::vector<Precedence> precedences(const Procedure& p) {
  // Where each step, condition and part from the pack first comes about.
  std::unordered_map<std::string, std::size_t> step, condition, part, proof;
  std::set<std::string> pack;
  for (const Part& x : p.parts)
    if (x.source == PartSource::in_pack) pack.insert(x.id);
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    step.emplace(p.steps[i].id, i);
    for (const std::string& c : p.steps[i].sets) condition.emplace(c, i);
    for (const Deed& d : p.steps[i].deeds) condition.emplace(condition_of(d), i);
    for (const std::string& c : p.steps[i].proves) proof.emplace(c, i);
    for (const Selector& f : p.steps[i].fits)
      if (pack.contains(f.id)) part.emplace(f.id, i);
  }
  for (const std::string& c : p.given) condition.erase(c);

  std::vector<Precedence> out;
  const auto edge = [&](std::size_t first, std::size_t then) {
    if (std::find(out.begin(), out.end(), Precedence{first, then}) == out.end()) out.push_back({first, then});
  };
  const auto from = [&](const auto& map, const std::string& key, std::size_t then) {
    if (const auto it = map.find(key); it != map.end()) edge(it->second, then);
  };
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const Step& s = p.steps[i];
    for (const Need& n : s.needs) switch (n.kind) {
        case Need::Kind::step_done:
          from(step, n.subject.id, i);
          break;
        case Need::Kind::condition:
          if (!n.absent) from(condition, n.subject.id, i);
          break;
        case Need::Kind::proof:
          from(proof, n.subject.id, i);
          break;
        case Need::Kind::part_on:
          from(part, n.subject.id, i);
          break;
        case Need::Kind::part_off:
        case Need::Kind::fastener_at_least:
        case Need::Kind::support:
          break;
      }
    if (!s.after.empty()) from(step, s.after, i);
    if (const auto it = step.find(s.before); !s.before.empty() && it != step.end()) edge(i, it->second);
  }
  return out;
}

std::vector<Precedence> broken_precedences(const Procedure& p) {
  std::vector<Precedence> out = precedences(p);
  std::erase_if(out, [](const Precedence& e) { return e.first < e.then; });
  return out;
}

TopologicalOrder topological_order(const Procedure& p) {
  const std::size_t n = p.steps.size();
  const std::vector<Precedence> edges = precedences(p);
  std::vector<std::size_t> waits(n, 0);
  std::vector<unsigned char> done(n, 0);
  for (const Precedence& e : edges) ++waits[e.then];

  // Always the earliest step that waits for nothing.
  TopologicalOrder out;
  std::set<std::size_t> ready;
  for (std::size_t i = 0; i < n; ++i)
    if (waits[i] == 0) ready.insert(i);
  while (!ready.empty()) {
    const std::size_t i = *ready.begin();
    ready.erase(ready.begin());
    done[i] = 1;
    out.order.push_back(i);
    for (const Precedence& e : edges)
      if (e.first == i && --waits[e.then] == 0) ready.insert(e.then);
  }

  // Each step left waits for another that is left: follow that back until a step comes again.
  std::vector<unsigned char> reported(n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    if (done[i] || reported[i]) continue;
    std::vector<std::size_t> chain;
    std::size_t at = i;
    while (std::find(chain.begin(), chain.end(), at) == chain.end() && !reported[at]) {
      chain.push_back(at);
      at = std::find_if(edges.begin(), edges.end(), [&](const Precedence& e) {
             return e.then == at && !done[e.first];
           })->first;
    }
    const auto begin = std::find(chain.begin(), chain.end(), at);
    if (begin != chain.end()) {
      std::vector<std::size_t> cycle(begin, chain.end());
      std::reverse(cycle.begin(), cycle.end());
      std::rotate(cycle.begin(), std::min_element(cycle.begin(), cycle.end()), cycle.end());
      out.cycles.push_back(std::move(cycle));
    }
    for (std::size_t s : chain) reported[s] = 1;
  }
  return out;
}

}  // namespace trammel::work
