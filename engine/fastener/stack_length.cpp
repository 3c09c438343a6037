#include <algorithm>

#include "fastener/joint.h"
#include "reference/nut_heights.h"
#include "reference/washer_thickness.h"

namespace trammel::fastener {
namespace {

std::string_view table_name(NutKind kind) {
  switch (kind) {
    case NutKind::prevailing:
      return "prevailing-torque nut";
    case NutKind::jam:
      return "jam nut";
    case NutKind::castle:
      return "castle nut";
    case NutKind::flange:
      return "flange nut";
    case NutKind::plain:
      return "nut";
    case NutKind::wheel:
      return {};  // no standard height: measured
  }
  return {};
}

std::optional<Length> nut_height(NutKind kind, std::string_view size) {
  for (const auto& row : reference::nut_heights)
    if (row.kind == table_name(kind) && row.thread == size) return row.height_mm * units::mm;
  return std::nullopt;
}

std::optional<Length> washer_thickness(const Washer& washer, std::string_view size) {
  if (washer.thickness) return washer.thickness;
  for (const auto& row : reference::washer_thickness)
    if (row.thread == size) return row.thickness_mm * units::mm;
  return std::nullopt;
}

}  // namespace

std::optional<StackLength> stack_length(const Joint& joint) {
  const std::string size = size_name(joint.thread);
  StackLength out;
  std::optional<Length> nuts;
  bool closed = false;
  const TappedPart* tapped = nullptr;

  // Sum what is clamped, then what holds it.
  for (const Piece& piece : joint.pieces) {
    if (const auto* washer = std::get_if<Washer>(&piece)) {
      const auto t = washer_thickness(*washer, size);
      if (!t) return std::nullopt;
      out.grip += *t;
    } else if (const auto* member = std::get_if<Member>(&piece)) {
      if (!member->sleeve) out.grip += member->thickness;
    } else if (const auto* nut = std::get_if<Nut>(&piece)) {
      const auto h = nut_height(nut->kind, size);
      nuts = !closed ? h : nuts && h ? std::optional(*nuts + *h) : std::nullopt;
      closed = true;
    } else {
      tapped = &std::get<TappedPart>(piece);
      closed = true;
    }
  }
  if (!closed) return std::nullopt;
  out.nut_height = nuts;

  const Length* length = joint.bolt && joint.bolt->length ? &*joint.bolt->length : nullptr;
  const Length pitch = joint.thread.pitch;
  if (tapped) {
    out.longest = out.grip + tapped->depth + (tapped->blind ? 0.0 : 5.0) * pitch;
    if (length) {
      out.engagement = std::clamp(*length - out.grip, Length{}, tapped->depth);
      out.protrusion = *length - out.grip - tapped->depth;
    }
  } else if (nuts) {
    out.shortest = out.grip + *nuts + pitch;
    out.longest = out.grip + *nuts + 5.0 * pitch;
    if (length) {
      out.engagement = std::clamp(*length - out.grip, Length{}, *nuts);
      out.protrusion = *length - out.grip - *nuts;
    }
  }
  return out;
}

}  // namespace trammel::fastener
