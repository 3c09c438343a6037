#include "fastener/thread.h"

#include <cmath>
#include <numbers>
#include <vector>

#include "fastener/scanner.h"
#include "measure/nearest.h"
#include "reference/metric_pitches.h"
#include "reference/unified_stress_areas.h"

namespace trammel::fastener {
namespace {

Thread metric(const reference::MetricPitchRow& row) {
  return {row.series == "coarse" ? Series::metric_coarse : Series::metric_fine, row.d_mm * units::mm,
          row.pitch_mm * units::mm};
}
Thread unified(const reference::UnifiedAreaRow& row) {
  return {row.thread.ends_with("UNC") ? Series::unc : Series::unf, row.d_in * units::inch,
          (1.0 / row.tpi) * units::inch};
}

// "10", "1.25": whole thousandths without trailing zeros.
std::string millimetres(Length l) {
  const long thousandths = std::lround(1000.0 * l.in(units::mm));
  std::string s = std::to_string(thousandths / 1000);
  if (thousandths % 1000 == 0) return s;
  s.append(".").append(std::to_string(1000 + thousandths % 1000), 1);
  return s.substr(0, s.find_last_not_of('0') + 1);
}

// The nearest known name: of the same size where the size is known.
std::string nearest_name(std::string_view text) {
  std::vector<std::string> names;
  for (const auto& row : reference::metric_pitches) names.push_back(name(metric(row)));
  for (const auto& row : reference::unified_stress_areas) names.emplace_back(row.thread);
  return std::string(nearest(text, names));
}

std::variant<Thread, ThreadError> read_metric(Scanner s, std::string_view text) {
  const auto d = s.number();
  std::optional<double> pitch;
  if (d && s.take_times()) {
    pitch = s.number();
    if (!pitch) return ThreadError{ThreadFault::not_a_thread, {}};
  }
  if (!d || !s.done()) return ThreadError{ThreadFault::not_a_thread, {}};

  std::optional<Thread> coarse;
  for (const auto& row : reference::metric_pitches) {
    if (std::abs(row.d_mm - *d) > 1e-9) continue;
    if (pitch ? std::abs(row.pitch_mm - *pitch) < 1e-9 : row.series == "coarse") return metric(row);
    if (row.series == "coarse") coarse = metric(row);
  }
  // Of a known size the nearest thread is the one whose pitch is nearest.
  if (!coarse) return ThreadError{ThreadFault::size_unknown, nearest_name(text)};
  Thread best = *coarse;
  for (const auto& row : reference::metric_pitches)
    if (std::abs(row.d_mm - *d) < 1e-9 && std::abs(row.pitch_mm - *pitch) < std::abs(best.pitch.in(units::mm) - *pitch))
      best = metric(row);
  return ThreadError{ThreadFault::pitch_unknown, name(best)};
}

std::variant<Thread, ThreadError> read_unified(std::string_view text) {
  const std::string wanted = lower(text);
  const bool size_only = wanted.find('-') == std::string::npos;
  bool size_known = false;
  for (const auto& row : reference::unified_stress_areas) {
    const std::string full = lower(row.thread);                          // "3/8-16 unc"
    const std::string short_form = full.substr(0, full.find(' '));       // "3/8-16"
    const std::string size = full.substr(0, full.find('-'));             // "3/8"
    const std::string series_form = size + full.substr(full.find(' '));  // "3/8 unc"
    if (wanted == full || wanted == short_form || wanted == series_form) return unified(row);
    size_known = size_known || wanted.substr(0, wanted.find_first_of("- ")) == size;
  }
  const auto fault = !size_known ? ThreadFault::size_unknown : ThreadFault::pitch_unknown;
  if (size_only && size_known) return ThreadError{fault, wanted.substr(0, wanted.find(' ')) + " UNC"};
  return ThreadError{fault, nearest_name(text)};
}

}  // namespace

std::variant<Thread, ThreadError> read_thread(std::string_view text) {
  text = trimmed(text);
  if (text.size() > 64) return ThreadError{ThreadFault::not_a_thread, {}};
  if (!text.empty() && (text[0] == 'M' || text[0] == 'm')) return read_metric(Scanner(text, 1), text);
  if (text.find('/') != std::string_view::npos && text[0] >= '0' && text[0] <= '9') return read_unified(text);
  return ThreadError{ThreadFault::not_a_thread, nearest_name(text)};
}

std::string size_name(const Thread& thread) {
  if (is_metric(thread)) return std::string("M").append(millimetres(thread.d));
  const std::string full = name(thread);
  return full.substr(0, full.find('-'));
}

std::string name(const Thread& thread) {
  if (thread.series == Series::metric_coarse) return size_name(thread);
  if (thread.series == Series::metric_fine) return size_name(thread) + "x" + millimetres(thread.pitch);
  for (const auto& row : reference::unified_stress_areas) {
    const Thread t = unified(row);
    if (t.series == thread.series && abs(t.d - thread.d) < 1e-6 * units::metre) return std::string(row.thread);
  }
  return {};
}

Length pitch_diameter(const Thread& t) { return t.d - 0.649519 * t.pitch; }

Length root_diameter(const Thread& t) { return t.d - (is_metric(t) ? 1.226869 : 1.299038) * t.pitch; }

Area stress_area(const Thread& t) {
  const Length mean = is_metric(t) ? 0.5 * (pitch_diameter(t) + root_diameter(t)) : t.d - 0.9743 * t.pitch;
  return std::numbers::pi / 4.0 * mean * mean;
}

}  // namespace trammel::fastener
