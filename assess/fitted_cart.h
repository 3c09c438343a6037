// A cart with its kits on, in their order. A change that does not fit is left out here; `check` makes a finding of it.
#pragma once

#include <span>

#include "job/job.h"

namespace trammel {

Cart with_kits(Cart cart, std::span<const KitUse> kits);
// A job's own cart, with what its kits and the accessories that it names change (accessories.h).
Cart fitted_cart(const Job& job);

}  // namespace trammel
