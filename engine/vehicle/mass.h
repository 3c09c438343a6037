// What a cart weighs, where its weight sits, and how a lift moves it.
//
// Model: point masses m_i at r_i, summed: m = sum m_i, r = sum m_i r_i / m. Each item rides on the springs
// (sprung) or with an axle (unsprung). A load case is a list of items that come on top of the empty cart.
// Raised: unsprung items rise with their axle's loaded radius; sprung items turn and rise as one body, by
// `rise` of the body over each axle, pitching about the point of the front axle's plane at `held_height`
// (where the links hold the body fore and aft; the axle's height is a fair value):
//   pitch p = atan((front rise - rear rise) / wheelbase), nose up positive.
// Frame: the cart's (x forward, y left, z up), origin on the ground under the middle of the front axle;
// the rear axle is at x = -wheelbase. Heights are over the ground that the cart stands on: a lifted cart that is told
// in its body's frame, its ground below zero, is brought here by `raised`. Ignores: the items' own spread (no inertia
// here), fuel and water that move.
//
// Law 1: raising by zero moves nothing. Law 2: an even rise moves z of the sprung items alone.
// Law 3: a mass added below the centre of gravity lowers it. Law 4: the sum over parts is the sum over the whole.
// Source: statics; Gillespie, Fundamentals of Vehicle Dynamics (SAE 1992), ch. 1 (from memory).
#pragma once

#include <span>
#include <string>
#include <vector>

#include "vehicle/uncertain.h"

namespace trammel::vehicle {

enum class Rides { sprung, front_unsprung, rear_unsprung };

template <class R = double>
struct MassItem {
  std::string name;
  MassOf<R> mass;
  Vector3<LengthOf<R>> at;
  Rides rides = Rides::sprung;
};

template <class R = double>
struct LumpedMass {
  MassOf<R> mass;
  Vector3<LengthOf<R>> at;  // centre of gravity; zero where the mass is zero
};

template <class R = double>
struct MassSum {
  LumpedMass<R> whole, sprung, front_unsprung, rear_unsprung;
};

template <class R>
MassSum<R> sum(std::span<const MassItem<R>> items);
template <class R>
MassSum<R> sum(const std::vector<MassItem<R>>& items) {
  return sum(std::span<const MassItem<R>>(items));
}

enum class Load { empty, driver, all_seats, rear_seats_and_luggage, fully_laden };

// Who and what may ride on the cart.
enum class Place { driver, front_seat, rear_seat, cargo };
template <class R = double>
struct Rider {
  MassItem<R> item;
  Place place = Place::cargo;
};

template <class R = double>
struct LoadCase {
  Load load = Load::empty;
  std::vector<MassItem<R>> items;
};

// The cases that differ for these riders, in the order of the enum: `driver` where there is a driver, `all_seats`
// where there are more people, `rear_seats_and_luggage` (the driver, the rear seats and all cargo) where something
// sits behind, `fully_laden` where cargo comes on top of full seats.
template <class R>
std::vector<LoadCase<R>> load_cases(const std::vector<Rider<R>>& riders);

// The empty cart and a case together.
template <class R>
std::vector<MassItem<R>> loaded(std::vector<MassItem<R>> empty, const LoadCase<R>& load) {
  empty.insert(empty.end(), load.items.begin(), load.items.end());
  return empty;
}

template <class R = double>
struct Raise {
  LengthOf<R> body_front, body_rear;      // rise of the body over each axle
  LengthOf<R> front_radius, rear_radius;  // change of the tyres' loaded radii
  LengthOf<R> wheelbase, held_height;
};

template <class R>
std::vector<MassItem<R>> raised(std::vector<MassItem<R>> items, const Raise<R>& raise);

}  // namespace trammel::vehicle
