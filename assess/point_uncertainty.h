// How sure each point of an axle is: as given, else by what it stands on.
//
// measured 2 mm, kit (a drawing) 1 mm, computed 2 mm, assumed 5 mm: standard uncertainties of each coordinate, assumed
// (docs/limits.md).
#pragma once

#include <vector>

#include "assess/models.h"

namespace trammel {

Length default_point_u(Basis basis);
// One a point, in the order of mechanism.points(). A side that is not given has the other side's.
std::vector<Length> point_uncertainties(const Axle& axle, const suspension::AxleMechanism& mechanism);

}  // namespace trammel
