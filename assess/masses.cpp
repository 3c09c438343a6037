#include "assess/masses.h"

#include "suspension/geometry/travel.h"
#include "vehicle/ride.h"

namespace trammel {
namespace {

const Mass person_mass = 85.0 * units::kg, person_u = 10.0 * units::kg;

template <class D>
Quantity<D, Un> uncertain(vehicle::Sources& sources, const std::string& name, const Valued<Quantity<D>>& v) {
  return sources.input(name, v.value, v.u.value_or(Quantity<D>{}));
}
Vector3<LengthOf<Un>> uncertain(vehicle::Sources& sources, const std::string& name, const PointValue& p) {
  const Length u = p.u.value_or(Length{});
  return {sources.input(name + " x", p.value.x, u), sources.input(name + " y", p.value.y, u),
          sources.input(name + " z", p.value.z, u)};
}

// The lift from the frame the masses are told in to the cart as it stands.
vehicle::Raise<Un> raise(const CartModel& before, const CartModel& now) {
  const auto rise = [](const std::optional<AxleModel>& a, const std::optional<AxleModel>& b) {
    return a && b ? a->ground() - b->ground() : Length{};
  };
  const auto growth = [](const std::optional<AxleModel>& a, const std::optional<AxleModel>& b) {
    return a && b ? b->radius - a->radius : Length{};
  };
  vehicle::Raise<Un> r;
  const Length front = rise(before.front, now.front), rear = rise(before.rear, now.rear);
  r.body_front = vehicle::as<Un>(before.front && now.front ? front : rear);
  r.body_rear = vehicle::as<Un>(before.rear && now.rear ? rear : front);
  r.front_radius = vehicle::as<Un>(growth(before.front, now.front));
  r.rear_radius = vehicle::as<Un>(growth(before.rear, now.rear));
  r.wheelbase = vehicle::as<Un>(now.wheelbase);
  r.held_height = vehicle::as<Un>(before.front ? Length::from_si(before.front->left_hub.z) : Length{});
  return r;
}

vehicle::Rides rides(const MassItem& item) {
  if (!item.carried_by || item.carried_by->value == "body") return vehicle::Rides::sprung;
  return item.carried_by->value == "front axle" ? vehicle::Rides::front_unsprung : vehicle::Rides::rear_unsprung;
}

}  // namespace

MassModel mass_model(const Cart& cart, const CartModel& before, const CartModel& now, vehicle::Sources& sources) {
  MassModel m;
  for (const MassItem& item : cart.mass) {
    m.empty.push_back({item.name.value, uncertain(sources, item.name.value, item.mass),
                       uncertain(sources, item.name.value, item.at), rides(item)});
    m.inputs.push_back(input("mass." + item.name.value, item.mass));
    m.inputs.push_back(input("mass." + item.name.value + ".at", item.at));
  }
  m.empty = vehicle::raised(std::move(m.empty), raise(before, now));
  return m;
}

std::vector<vehicle::MassItem<Un>> riders(const Job& job, const Cart& cart, const LoadCase& load,
                                          const CartModel& before, const CartModel& now, vehicle::Sources& sources,
                                          std::vector<std::string>& missing) {
  std::vector<vehicle::MassItem<Un>> items;
  const auto place = [&](const std::string& name) -> const Seat* {
    for (const Seat& s : cart.seat)
      if (s.name.value == name) return &s;
    missing.push_back("seat " + name);
    return nullptr;
  };
  const Mass mass = job.person ? job.person->value : person_mass;
  const Mass u = job.person ? job.person->u.value_or(Mass{}) : person_u;
  for (const Text& seat : load.seats)
    if (const Seat* s = place(seat.value))
      items.push_back({seat.value, sources.input("person on " + seat.value, mass, u),
                       uncertain(sources, seat.value, s->at), vehicle::Rides::sprung});
  if (load.cargo && load.cargo_at)
    if (const Seat* s = place(load.cargo_at->value))
      items.push_back({"cargo", uncertain(sources, "cargo", *load.cargo), uncertain(sources, "cargo", s->at),
                       vehicle::Rides::sprung});
  return vehicle::raised(std::move(items), raise(before, now));
}

vehicle::Footprint<Un> footprint(const CartModel& now) {
  const auto track = [](const std::optional<AxleModel>& a) {
    return a && a->half_track ? 2.0 * *a->half_track : Length{};
  };
  return {vehicle::as<Un>(now.wheelbase), vehicle::as<Un>(track(now.front)), vehicle::as<Un>(track(now.rear))};
}

std::optional<RollAxles> roll_axles(const Cart& cart, const CartModel& now, vehicle::Sources& sources) {
  // Rate of one spring: a leaf spring's own, or that of the spring on its arm or axle.
  const auto rate_of = [](const std::optional<Axle>& a) -> const Valued<Stiffness>* {
    if (!a || !a->left) return nullptr;
    if (a->left->leaf && a->left->leaf->rate) return &*a->left->leaf->rate;
    return a->left->spring && a->left->spring->rate ? &*a->left->spring->rate : nullptr;
  };
  const auto *front = rate_of(cart.front), *rear = rate_of(cart.rear);
  if (!front || !rear || !now.front || !now.rear || !now.front->mechanism || !now.rear->mechanism) return std::nullopt;
  RollAxles r;
  const auto stands = [&](const suspension::AxleMechanism& axle, const Axle& given, const Valued<Stiffness>& k,
                          const char* name, vehicle::RollAxle<Un>& out) {
    const suspension::AxlePose pose = axle.pose({});
    if (!pose.ok()) return false;
    const auto rate = uncertain(sources, name, k);
    auto added = vehicle::RollStiffnessOf<Un>{};
    if (given.added_roll_couple) {
      const auto couple = uncertain(sources, std::string(name) + ", added", *given.added_roll_couple);
      added = couple / vehicle::as<Un>(units::radian);
    }
    if (axle.one_body()) {  // the springs where they stand on the axle
      const Corner& left = *given.left;
      if (!left.leaf && !(left.spring && left.spring->axle)) return false;
      const Length apart = 2.0 * abs(left.leaf ? left.leaf->seat.value.y : left.spring->axle->value.y);
      out.stiffness = vehicle::roll_stiffness(rate, vehicle::as<Un>(apart), added);
      out.roll_centre_height = vehicle::as<Un>(pose.body->roll_centre_height);
      return true;
    }
    // The wheel's own rate over the track.
    const auto& g = pose.left.geometry;
    if (!(g.motion_ratio > 0.0)) return false;
    out.stiffness = vehicle::roll_stiffness(vehicle::wheel_rate(rate, Un(g.motion_ratio)),
                                            vehicle::as<Un>(2.0 * abs(g.half_track)), added);
    out.roll_centre_height = vehicle::as<Un>(g.roll_centre_height);
    return true;
  };
  if (!stands(*now.front->mechanism, *cart.front, *front, "front spring rate", r.front) ||
      !stands(*now.rear->mechanism, *cart.rear, *rear, "rear spring rate", r.rear))
    return std::nullopt;
  r.inputs = {input("front spring rate", *front), input("rear spring rate", *rear)};
  return r;
}

namespace {
template <class D>
Number with_u(const Quantity<D, Un>& q) {
  const auto u = vehicle::standard_uncertainty(q);
  return u.si() > 0.0 ? number(vehicle::value_of(q), u) : number(vehicle::value_of(q));
}
}  // namespace
Number number_of(const Quantity<dim::Mass, Un>& q) { return with_u(q); }
Number number_of(const Quantity<dim::Length, Un>& q) { return with_u(q); }
Number number_of(const Quantity<dim::Angle, Un>& q) { return with_u(q); }
Number number_of(const Quantity<dim::Speed, Un>& q) { return with_u(q); }
Number number_of(const Un& q) { return q.u() > 0.0 ? number(q.value(), q.u()) : number(q.value()); }

}  // namespace trammel
