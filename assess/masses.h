// The cart's masses and springs handed to the vehicle room, before and after the kits, with their uncertainty.
#pragma once

#include "assess/context.h"
#include "vehicle/mass.h"
#include "vehicle/stability.h"

namespace trammel {

using Un = vehicle::Uncertain;

struct MassModel {
  std::vector<vehicle::MassItem<Un>> empty;
  std::vector<Input> inputs;
};

// The empty cart as it stands on the ground. `before` and `after` are models of the cart whose frame the masses
// are told in and of the cart as it stands now; the body rises by the difference of their grounds.
MassModel mass_model(const Cart& cart, const CartModel& before, const CartModel& now, vehicle::Sources& sources);

// People and cargo of a case, sitting in the cart as it stands now.
std::vector<vehicle::MassItem<Un>> riders(const Job& job, const Cart& cart, const LoadCase& load,
                                          const CartModel& before, const CartModel& now, vehicle::Sources& sources,
                                          std::vector<std::string>& missing);

vehicle::Footprint<Un> footprint(const CartModel& now);

// Nothing where a spring rate is not given.
struct RollAxles {
  vehicle::RollAxle<Un> front, rear;
  std::vector<Input> inputs;
};
std::optional<RollAxles> roll_axles(const Cart& cart, const CartModel& now, vehicle::Sources& sources);

Number number_of(const Quantity<dim::Mass, Un>& q);
Number number_of(const Quantity<dim::Length, Un>& q);
Number number_of(const Quantity<dim::Angle, Un>& q);
Number number_of(const Quantity<dim::Speed, Un>& q);
Number number_of(const Un& q);

}  // namespace trammel
