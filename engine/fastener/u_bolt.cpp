#include "fastener/u_bolt.h"

#include <algorithm>

#include "reference/ubolt_torque.h"

namespace trammel::fastener {

std::optional<UBoltLimit> u_bolt_limit(const Thread& thread, std::string_view bolt_class, bool plated) {
  const std::string full = name(thread), size = full.substr(0, full.find(' '));
  double k = 1.0;
  for (const auto& row : reference::ubolt_torque) {
    const Torque printed = (plated ? row.plated_lbfft : row.unplated_lbfft) * units::lbf_ft;
    const bool grade = bolt_class.starts_with("grade ") && bolt_class.substr(6) == row.grade;
    if (grade && row.thread == size) return UBoltLimit{printed, row.source, row.basis};
    k = std::min(k, plated ? row.k_plated : row.k_unplated);
  }
  const auto proof = proof_load(bolt_class, thread);
  if (!proof) return std::nullopt;
  return UBoltLimit{k * thread.d * (0.75 * proof->value), reference::ubolt_torque.front().source, Basis::derived};
}

}  // namespace trammel::fastener
