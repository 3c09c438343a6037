// Torque to preload and back, with its spread.
//
// Short form   T = K d F                                  (Shigley, 9th ed., Eq. 8-27)
// Long forms   T = F [0.16 P + 0.58 d2 muG + (DKm/2) muK] (VDI 2230)
//              K = (dm/2d)(tan l + f sec a)/(1 - f tan l sec a) + 0.625 fc (Shigley Eq. 8-26, collar 1.25 d)
// d nominal diameter, d2 pitch diameter, P pitch, l lead angle, a = 30 deg, muG = f thread and muK = fc face
// friction, DKm mean bearing diameter.
//
// Spread: the tightening method scatters preload by alphaA = Fmax/Fmin, a half width t = (alphaA-1)/(alphaA+1)
// of the nominal; K is uncertain between K.low and K.high. The two are taken as independent and joined on
// each side as the root of the sum of squares:
//   F.low  = F (1 - sqrt(t^2 + (1 - K/K.high)^2)),  F.high = F (1 + sqrt(t^2 + (K/K.low - 1)^2)).
// alphaA for an estimated friction already holds part of K's spread, so the window errs on the wide side.
// Running torque of a prevailing-torque nut is taken off the torque first where the torque includes it: most
// at the low end, least at the high end.
//
// Ignores: embedding and settling (5 to 10 % is common), bending, cone seats (more friction than a flat face),
// soft or plastic parts in the grip. Law 1: F.low <= F.nominal <= F.high. Law 2: more torque, more preload.
// Law 3: twice the K, half the preload.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "fastener/surface.h"
#include "fastener/thread.h"

namespace trammel::fastener {

enum class Method { torque_wrench, torque_wrench_tested, angle, impact_then_wrench, hand_spanner };

struct Scatter {
  double alpha_low = 1.0, alpha = 1.0, alpha_high = 1.0;  // Fmax/Fmin: published range and the value used
  std::string_view source;
  reference::Basis basis{};
  double half_width() const { return (alpha - 1.0) / (alpha + 1.0); }
};
Scatter scatter(Method method);
std::string_view name(Method method);
std::optional<Method> read_method(std::string_view text);
std::vector<std::string_view> method_names();

// Running torque of the nut: what turns it before anything is clamped.
struct RunningTorque {
  Torque low, nominal, high;
  bool measured = false;
  std::string_view source;
  reference::Basis basis{};
};
// Published range of a new prevailing-torque nut (ISO 2320); nothing where the size is not tabled.
std::optional<RunningTorque> running_torque(const Thread& thread, std::string_view nut_class);
// The least running torque at which a used nut may go on again: fifth removal of ISO 2320, or the US Army's and FAA's
// tables for used inch nuts, the greatest of those that print the size.
struct ReuseLimit {
  Torque least;
  std::string_view standard, source;
  reference::Basis basis{};
};
std::optional<ReuseLimit> reuse_limit(const Thread& thread, std::string_view nut_class);

struct PreloadWindow {
  Force low, nominal, high;
};

// Preload from a torque. `running` is taken off the torque where it is given.
PreloadWindow preload(Torque torque, const Thread& thread, const NutFactor& k, const Scatter& method,
                      const std::optional<RunningTorque>& running = std::nullopt);
// The torque that gives a preload at the nominal K.
Torque torque_for(Force preload, const Thread& thread, const NutFactor& k);

// Friction of thread and face, and the mean diameter of the bearing face.
struct Friction {
  double thread = 0.0, face = 0.0;  // coefficients, pure numbers
  Length bearing_diameter;          // DKm
};
// Mean bearing diameter of a hex head on a round hole: half of washer-face diameter plus hole diameter.
Length mean_bearing_diameter(Length washer_face, Length hole);
Torque long_torque(Force preload, const Thread& thread, const Friction& friction);
// The nut factor that the long form gives for a surface state on a face of mean diameter DKm, with the state's spread.
NutFactor long_factor(const Thread& thread, Surface surface, Length bearing_diameter);
// Nut factor by Shigley's long form (collar 1.25 d).
double long_nut_factor(const Thread& thread, double thread_friction, double collar_friction);
// The preload at which the shank reaches `share` of yield while still being twisted (VDI 2230).
Force preload_at_yield_share(double share, Pressure yield, const Thread& thread, double thread_friction);

}  // namespace trammel::fastener
