// Whether a finished job was done on the same kind of cart with the same kits, so that its turns teach this one.
//
// The same: kits of the same names in the same order, the same front layout, the same adjusters by kind and thread, and
// each point of the front axle within `same_within` once the kits are on. Two carts of one make, each with its own
// survey, are the same; a cart of another make is not.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"

namespace trammel {

constexpr Length same_within = 15.0 * units::mm;  // three times what a point is assumed to be known to

// The first thing that tells them apart, as a path or in words; nothing where they are the same.
std::optional<std::string> first_difference(const Job& job, const Cart& changed, const Job& other,
                                            const Cart& other_changed);

}  // namespace trammel
