#include "fastener/preload.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fastener/spellings.h"
#include "reference/prevailing_torque.h"
#include "reference/surface_friction.h"
#include "reference/tightening_methods.h"

namespace trammel::fastener {
namespace {

static_assert(reference::tightening_methods.size() == static_cast<std::size_t>(Method::hand_spanner) + 1);
static_assert(reference::tightening_methods.front().method == "torque wrench");
static_assert(reference::tightening_methods.back().method == "hand spanner");
static_assert(reference::surface_friction.size() == static_cast<std::size_t>(Surface::thread_locker) + 1);
static_assert(reference::surface_friction.front().state == "dry steel");
static_assert(reference::surface_friction.back().state == "thread locker");

const reference::MethodRow& row(Method method) {
  return reference::tightening_methods[static_cast<std::size_t>(method)];
}

}  // namespace

Scatter scatter(Method method) {
  const auto& r = row(method);
  return {r.low, r.used, r.high, r.source, r.basis};
}

std::string_view name(Method method) { return row(method).method; }

std::optional<Method> read_method(std::string_view text) {
  Scanner s(text);
  const auto found = take_spelling<Method>(s, method_spellings);
  return found && s.done() ? found : std::nullopt;
}

std::vector<std::string_view> method_names() {
  std::vector<std::string_view> names;
  for (const auto& r : reference::tightening_methods) names.push_back(r.method);
  return names;
}

std::optional<RunningTorque> running_torque(const Thread& thread, std::string_view nut_class) {
  // Fine pitches carry the values of the coarse size (ISO 2320).
  const std::string size = size_name(thread);
  const std::string_view wanted = nut_class == "10" ? "10" : "8";
  for (const auto& r : reference::prevailing_torque) {
    if (!r.standard.starts_with("ISO 2320") || r.thread != size || r.class_or_state != wanted) continue;
    const Torque low = *r.first_off_min_nm * units::Nm, high = *r.first_on_max_nm * units::Nm;
    return RunningTorque{low, 0.5 * (low + high), high, false, r.source, r.basis};
  }
  return std::nullopt;
}

std::optional<ReuseLimit> reuse_limit(const Thread& thread, std::string_view nut_class) {
  // Metric rows are told by size and class; inch rows by size, or by size and threads an inch.
  const std::string size = size_name(thread), full = name(thread), pitched = full.substr(0, full.find(' '));
  const std::string_view wanted = nut_class == "10" ? "10" : "8";
  std::optional<ReuseLimit> most;
  for (const auto& r : reference::prevailing_torque) {
    if (!r.reused_min_nm || (r.thread != size && r.thread != pitched)) continue;
    if (is_metric(thread) && r.class_or_state != wanted) continue;
    const Torque least = *r.reused_min_nm * units::Nm;
    if (!most || least > most->least) most = ReuseLimit{least, r.standard, r.source, r.basis};
  }
  return most;
}

PreloadWindow preload(Torque torque, const Thread& thread, const NutFactor& k, const Scatter& method,
                      const std::optional<RunningTorque>& running) {
  // What is left to clamp once the nut's own drag is overcome, divided by K d.
  const auto clamp = [&](Torque drag) { return std::max(torque - drag, Torque{}) / (k.nominal * thread.d); };
  const RunningTorque drag = running.value_or(RunningTorque{});
  const double t = method.half_width();
  const double down = std::hypot(t, 1.0 - k.nominal / k.high), up = std::hypot(t, k.nominal / k.low - 1.0);
  return {std::max(0.0, 1.0 - down) * clamp(drag.high), clamp(drag.nominal), (1.0 + up) * clamp(drag.low)};
}

Torque torque_for(Force preload, const Thread& thread, const NutFactor& k) { return k.nominal * thread.d * preload; }

Length mean_bearing_diameter(Length washer_face, Length hole) { return 0.5 * (washer_face + hole); }

Torque long_torque(Force preload, const Thread& thread, const Friction& friction) {
  const Length arm = 0.16 * thread.pitch + 0.58 * friction.thread * pitch_diameter(thread) +
                     0.5 * friction.face * friction.bearing_diameter;
  return preload * arm;
}

NutFactor long_factor(const Thread& thread, Surface surface, Length bearing_diameter) {
  const auto& mu = reference::surface_friction[static_cast<std::size_t>(surface)];
  const auto k = [&](double m) {
    return long_torque(units::newton, thread, {m, m, bearing_diameter}) / (units::newton * thread.d);
  };
  return {k(mu.mu_low), k(mu.mu_nominal), k(mu.mu_high), mu.source, mu.basis};
}

double long_nut_factor(const Thread& thread, double thread_friction, double collar_friction) {
  const Length minor = thread.d - 1.299038 * thread.pitch;
  const Length mean = 0.5 * (thread.d + minor);
  const double lead = thread.pitch / (std::numbers::pi * mean);
  const double sec = 1.0 / std::cos(std::numbers::pi / 6.0);
  return mean / (2.0 * thread.d) * (lead + thread_friction * sec) / (1.0 - thread_friction * lead * sec) +
         0.625 * collar_friction;
}

Force preload_at_yield_share(double share, Pressure yield, const Thread& thread, double thread_friction) {
  const Length d2 = pitch_diameter(thread), d0 = 0.5 * (d2 + root_diameter(thread));
  const double twist = 1.5 * (d2 / d0) * (thread.pitch / (std::numbers::pi * d2) + 1.155 * thread_friction);
  return share / std::sqrt(1.0 + 3.0 * twist * twist) * (yield * stress_area(thread));
}

}  // namespace trammel::fastener
