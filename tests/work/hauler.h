// The hauler: an invented load cart raised by lift blocks at the rear and drop spindles in front. All of it is our own.
#pragma once

#include "work/procedure.h"

namespace trammel::work {

Procedure hauler();

}  // namespace trammel::work
