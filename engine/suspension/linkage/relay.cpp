#include "suspension/linkage/relay.h"

#include <cmath>

#include "suspension/linkage/circle.h"

namespace trammel::suspension {
namespace {

using V = Vector3<double>;
V flat(const V& a) { return {a.x, a.y, 0.0}; }

}  // namespace

std::optional<RelayMove> relay_move(const RelayPoints& r, const V& left_end, const V& right_end, Length steer) {
  // The pitman arm's end: on its circle, at the y asked for, on the side of its shaft where it was.
  const V arm = flat(r.pitman_end - r.pitman_pivot);
  const double radius2 = dot(arm, arm), across = arm.y + steer.si();
  const double left = radius2 - across * across;
  if (!(left > 0.03 * radius2)) return std::nullopt;
  const V pitman = flat(r.pitman_pivot) + V{std::copysign(std::sqrt(left), arm.x), across, 0.0};

  // The idler's: its circle met by the relay.
  const V fitted = flat(r.idler_end - r.pitman_end), idler_arm = flat(r.idler_end - r.idler_pivot);
  const Circle<double> circle{flat(r.idler_pivot), {0.0, 0.0, 1.0}, norm(idler_arm)};
  const V w = flat(r.pitman_end) - circle.centre;
  const double branch = cross(w, idler_arm).z < 0.0 ? -1.0 : 1.0;
  const Meeting<double> idler = meet(circle, pitman, norm(fitted), branch);
  if (!(idler.reach > 1e-4)) return std::nullopt;

  // The relay's turn carries what is fast to it.
  const V now = idler.point - pitman;
  const double size = dot(fitted, fitted), c = dot(fitted, now) / size, s = cross(fitted, now).z / size;
  const auto moved = [&](const V& end) {
    const V a = end - r.pitman_end;
    return V{pitman.x + c * a.x - s * a.y - end.x, pitman.y + s * a.x + c * a.y - end.y, 0.0};
  };
  return RelayMove{moved(left_end), moved(right_end)};
}

}  // namespace trammel::suspension
