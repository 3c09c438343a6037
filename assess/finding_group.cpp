#include "assess/finding_group.h"

#include <algorithm>
#include <cmath>

namespace trammel {
namespace {

double margin_share(const Finding& f) {
  if (!f.margin || !f.limit || f.limit->si == 0.0) return 0.0;
  return f.margin->si / std::abs(f.limit->si);
}

void put(std::vector<FindingGroup>& groups, const Finding& f) {
  const auto like = std::find_if(groups.begin(), groups.end(),
                                 [&](const FindingGroup& g) { return g.worst->message.code == f.message.code; });
  if (like == groups.end()) {
    groups.push_back({&f, {}});
    return;
  }
  like->others.push_back(&f);
  if (margin_share(f) < margin_share(*like->worst)) std::swap(like->worst, like->others.back());
}

}  // namespace

bool says_not_computed(const Finding& f) {
  return f.message.code == "not-computed" || f.message.code == "layout-not-computed";
}

std::vector<FindingGroup> to_act_on(const std::vector<Finding>& findings) {
  std::vector<FindingGroup> all;
  for (const Outcome outcome : {Outcome::stop, Outcome::condition}) {
    std::vector<FindingGroup> groups;
    for (const Finding& f : findings)
      if (f.outcome == outcome) put(groups, f);
    all.insert(all.end(), groups.begin(), groups.end());
  }
  for (const Finding& f : findings)
    if (f.outcome == Outcome::note && says_not_computed(f)) all.push_back({&f, {}});
  return all;
}

}  // namespace trammel
