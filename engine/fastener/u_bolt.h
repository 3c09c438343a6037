// U-bolts: bent rods with cold-formed threads that clamp an axle to its spring.
//
// Two suppliers' charts (reference/ubolt_torque.csv) print a greatest torque by size and grade, less for a plated rod:
// its thread is slipperier. Where the size stands in the charts that number is used. For others the lowest K that the
// charts imply, K = T/(0.75 Fp d), gives T = K d 0.75 Fp, marked derived.
// The charts hold for the first tightening of a new U-bolt; it is checked again after the first 50 to 100 miles and not
// used a second time. Nuts go up in diagonal order, in passes, all tails alike.
// Range: 3/8 to 3/4 UNF grades 5 and 8 as printed; others derived. Ignores: bending of the legs over a narrow seat.
#pragma once

#include <optional>
#include <string_view>

#include "fastener/strength.h"

namespace trammel::fastener {

struct UBoltLimit {
  Torque most;
  std::string_view source;
  Basis basis{};  // derived where the size is not in the charts
};
// Nothing where the class gives no proof load.
std::optional<UBoltLimit> u_bolt_limit(const Thread& thread, std::string_view bolt_class, bool plated);

}  // namespace trammel::fastener
