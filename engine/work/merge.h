// A second kit's steps brought in among the first's, by its anchors, and the fasteners they share.
//
// A step with `after` comes right behind that step (of either kit), with `before` right ahead of it; one without an
// anchor follows the second kit's step before it; with neither, it comes before the first kit's release, or last.
// A fastener of the second with `shares` is the same holes as those instances of the first: its id in steps
// becomes theirs, its spec (longer bolts) takes over, and they are finished only once both kits' parts are on.
// A need that read as a condition is read again with both kits' names. The stricter least state holds. Parts and
// fasteners of equal id in both are a fault. Law 1: each kit's own steps keep their order where anchors allow. Law 2:
// merging with an empty kit changes nothing.
#pragma once

#include <string>
#include <vector>

#include "work/procedure.h"

namespace trammel::work {

enum class MergeFaultKind : unsigned char { duplicate_id, unknown_anchor, anchor_cycle, unknown_shared };
struct MergeFault {
  MergeFaultKind kind{};
  std::string subject;
};
struct Merge {
  Procedure procedure;
  std::vector<MergeFault> faults;
};

Merge merge(const Procedure& first, const Procedure& second);

}  // namespace trammel::work
