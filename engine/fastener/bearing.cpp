#include "fastener/bearing.h"

#include <algorithm>
#include <numbers>

#include "reference/bearing_faces.h"
#include "reference/member_faces.h"

namespace trammel::fastener {
namespace {

const reference::BearingFaceRow* faces(const Thread& thread) {
  const std::string size = size_name(thread);
  for (const auto& row : reference::bearing_faces)
    if (row.thread == size) return &row;
  return nullptr;
}

Area ring(Length outside, Length inside) { return std::numbers::pi / 4.0 * (outside * outside - inside * inside); }

}  // namespace

std::optional<FaceStrength> face_strength(Material material) {
  for (const auto& row : reference::member_faces) {
    if (row.material != name(material)) continue;
    std::optional<Pressure> yield;
    if (row.yield_mpa) yield = *row.yield_mpa * units::MPa;
    return FaceStrength{yield, row.face_pressure_mpa * units::MPa, row.source, row.basis};
  }
  return std::nullopt;
}

Length head_face(const Thread& thread) {
  const auto* row = faces(thread);
  return row ? row->head_mm * units::mm : 1.5 * thread.d;
}

Length washer_face(const Thread& thread) {
  const auto* row = faces(thread);
  return row ? row->washer_mm * units::mm : head_face(thread);
}

Pressure face_pressure(Force clamp, Length face, Length hole) {
  // A hole wider than the face leaves a sliver; the head is then all but through it.
  return clamp / ring(face, std::min(hole, 0.99 * face));
}

Force wall_limit(Length wall, Length box_width, Length face, Pressure yield) {
  const Force m = yield * wall * wall / 4.0;  // plastic moment per length of hinge
  const Length edge = 0.5 * box_width, disc = std::min(0.5 * face, 0.9 * edge);
  return 4.0 * std::numbers::pi * (edge / (edge - disc)) * m;
}

Force sleeve_limit(Length outside, Length inside, Pressure yield) {
  return outside > inside ? yield * ring(outside, inside) : Force{};
}

}  // namespace trammel::fastener
