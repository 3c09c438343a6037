// A cart, kit or job as one JSON document. Values are in SI with their kind, basis and place.
#pragma once

#include <string>

#include "job/job.h"

namespace trammel {

std::string to_json(const Cart& cart);
std::string to_json(const Kit& kit);
std::string to_json(const Job& job);

}  // namespace trammel
