#include "fastener/wrench.h"

#include <algorithm>

#include "reference/across_flats.h"

namespace trammel::fastener {
namespace {

constexpr Length slack = 0.15 * units::mm;

Head head(const reference::AcrossFlatsRow& row) {
  return {row.standard, row.kind, row.thread, row.s_mm * units::mm, row.source, row.basis};
}

// Heads are tabled by size: "M10" stands for every pitch, "M10x1.25" for its own.
bool of_size(std::string_view tabled, std::string_view size) {
  return tabled == size || (tabled.starts_with(size) && tabled.substr(size.size()).starts_with('x'));
}

bool turns(Length wrench, Length across_flats) { return abs(wrench - across_flats) <= slack; }

// Flanged and wheel-nut heads differ so much that they would make every wrench doubtful.
bool plain_hexagon(std::string_view kind) {
  return kind.find("flange") == std::string_view::npos && kind != "wheel nut";
}

}  // namespace

std::vector<Head> heads_of(const Thread& thread) {
  const std::string size = size_name(thread);
  std::vector<Head> heads;
  for (const auto& row : reference::across_flats)
    if (of_size(row.thread, size)) heads.push_back(head(row));
  std::ranges::stable_sort(heads, {}, [](const Head& h) { return h.across_flats.si(); });
  return heads;
}

std::vector<Head> heads_for_wrench(Length across_flats) {
  std::vector<Head> heads;
  for (const auto& row : reference::across_flats)
    if (turns(across_flats, row.s_mm * units::mm)) heads.push_back(head(row));
  return heads;
}

WrenchFit wrench_fit(const Thread& thread, Length across_flats) {
  const auto own = heads_of(thread);
  if (own.empty()) return WrenchFit::not_tabled;
  if (std::ranges::none_of(own, [&](const Head& h) { return turns(across_flats, h.across_flats); }))
    return WrenchFit::fits_none;
  // Another thread of the same system of measures makes the wrench doubtful.
  const std::string size = size_name(thread);
  const auto fitting = heads_for_wrench(across_flats);
  const bool other = std::ranges::any_of(fitting, [&](const Head& h) {
    return plain_hexagon(h.kind) && !of_size(h.thread, size) && h.thread.starts_with('M') == is_metric(thread);
  });
  return other ? WrenchFit::ambiguous : WrenchFit::fits;
}

Torque applied_torque(Torque setting, const Extension& e) {
  return setting * ((e.wrench + e.added * cos(e.angle)) / e.wrench);
}

Torque wrench_setting(Torque wanted, const Extension& e) {
  return wanted * (e.wrench / (e.wrench + e.added * cos(e.angle)));
}

WrenchRange wrench_range(const TorqueWrench& wrench, Torque setting) {
  if (setting > wrench.most) return WrenchRange::above_scale;
  if (setting < wrench.least) return WrenchRange::below_scale;
  return setting < 0.2 * wrench.most ? WrenchRange::below_a_fifth : WrenchRange::fits;
}

}  // namespace trammel::fastener
