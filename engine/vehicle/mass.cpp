#include "vehicle/mass.h"

#include <algorithm>

namespace trammel::vehicle {
namespace {

// Running totals of mass and mass moment.
template <class R>
struct Total {
  MassOf<R> mass;
  Vector3<decltype(MassOf<R>() * LengthOf<R>())> moment;

  void add(const MassItem<R>& item) {
    mass += item.mass;
    moment += item.mass * item.at;
  }
  LumpedMass<R> lumped() const {
    if (value_of(mass.si()) == 0.0) return {};
    return {mass, moment / mass};
  }
};

}  // namespace

template <class R>
MassSum<R> sum(std::span<const MassItem<R>> items) {
  Total<R> whole, sprung, front, rear;
  for (const MassItem<R>& item : items) {
    whole.add(item);
    (item.rides == Rides::sprung ? sprung : item.rides == Rides::front_unsprung ? front : rear).add(item);
  }
  return {whole.lumped(), sprung.lumped(), front.lumped(), rear.lumped()};
}

template <class R>
std::vector<LoadCase<R>> load_cases(const std::vector<Rider<R>>& riders) {
  const auto with = [&](Load load, auto&& wanted) {
    LoadCase<R> c{load, {}};
    for (const Rider<R>& r : riders)
      if (wanted(r.place)) c.items.push_back(r.item);
    return c;
  };
  const auto any = [&](Place p) {
    return std::any_of(riders.begin(), riders.end(), [p](const Rider<R>& r) { return r.place == p; });
  };
  const bool others = any(Place::front_seat) || any(Place::rear_seat);

  std::vector<LoadCase<R>> cases{{Load::empty, {}}};
  if (any(Place::driver)) cases.push_back(with(Load::driver, [](Place p) { return p == Place::driver; }));
  if (others) cases.push_back(with(Load::all_seats, [](Place p) { return p != Place::cargo; }));
  if (any(Place::rear_seat))
    cases.push_back(with(Load::rear_seats_and_luggage, [](Place p) { return p != Place::front_seat; }));
  if (any(Place::cargo)) cases.push_back(with(Load::fully_laden, [](Place) { return true; }));
  return cases;
}

template <class R>
std::vector<MassItem<R>> raised(std::vector<MassItem<R>> items, const Raise<R>& raise) {
  const AngleOf<R> pitch = atan2(raise.body_front - raise.body_rear, raise.wheelbase);
  const R s = sin(pitch), c = cos(pitch);
  for (MassItem<R>& item : items) {
    if (item.rides == Rides::front_unsprung) {
      item.at.z += raise.front_radius;
    } else if (item.rides == Rides::rear_unsprung) {
      item.at.z += raise.rear_radius;
    } else {
      // Nose up: what stands above the held point goes rearward, what lies ahead of it goes up.
      const LengthOf<R> x = item.at.x, z = item.at.z - raise.held_height;
      item.at.x = x * c - z * s;
      item.at.z = raise.held_height + x * s + z * c + raise.body_front;
    }
  }
  return items;
}

#define TRAMMEL_MASS_IN(R)                                                    \
  template MassSum<R> sum(std::span<const MassItem<R>>);                      \
  template std::vector<LoadCase<R>> load_cases(const std::vector<Rider<R>>&); \
  template std::vector<MassItem<R>> raised(std::vector<MassItem<R>>, const Raise<R>&);
TRAMMEL_MASS_IN(double)
TRAMMEL_MASS_IN(Uncertain)
#undef TRAMMEL_MASS_IN

}  // namespace trammel::vehicle
