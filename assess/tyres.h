// A tyre as the job gives it: sizes measured where they are, else read off its size text; its rating by index.
#pragma once

#include <optional>

#include "assess/finding.h"
#include "job/cart.h"
#include "vehicle/axle_load.h"

namespace trammel {

struct TyreModel {
  Length radius{}, width{};  // outside, unloaded
  Length u{};                // standard uncertainty of the radius
  std::vector<Input> inputs;
};
// Nothing where neither a diameter and width nor a size that tells them is given.
std::optional<TyreModel> tyre_model(const std::optional<Axle>& axle, const std::string& axle_name);

struct TyreLimit {
  vehicle::TyreRating rating;
  std::string source;
  std::vector<Input> inputs;
};
// By the load on the sidewall, or by load index; the speed by its symbol, none where it is not given.
std::optional<TyreLimit> tyre_limit(const std::optional<Axle>& axle, const std::string& axle_name);

}  // namespace trammel
