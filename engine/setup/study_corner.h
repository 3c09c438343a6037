// The invented corner that the studies disturb. For this room's own sources.
#pragma once

#include "setup/chance.h"
#include "suspension/linkage/corner_linkage.h"

namespace trammel::setup {

suspension::CornerPoints<double> study_corner();
// Each coordinate of each point off by a normal error.
suspension::CornerPoints<double> disturbed(suspension::CornerPoints<double> p, Length sd, Generator& g);

}  // namespace trammel::setup
