#include "vehicle/axle_load.h"

namespace trammel::vehicle {

template <class R>
WheelLoads<R> wheel_loads(const MassSum<R>& mass, const Footprint<R>& footprint, R front_share) {
  const AxleLoads<R> axle = axle_loads(mass.whole, footprint.wheelbase);
  const auto sprung_moment = mass.sprung.mass * mass.sprung.at.y;
  const auto front_moment = front_share * sprung_moment + mass.front_unsprung.mass * mass.front_unsprung.at.y;
  const auto rear_moment = (R(1.0) - front_share) * sprung_moment + mass.rear_unsprung.mass * mass.rear_unsprung.at.y;
  const MassOf<R> front = front_moment / footprint.front_track, rear = rear_moment / footprint.rear_track;
  return {0.5 * axle.front + front, 0.5 * axle.front - front, 0.5 * axle.rear + rear, 0.5 * axle.rear - rear};
}

template <class R>
std::vector<RatingUse<R>> against_ratings(const WheelLoads<R>& w, const Ratings& ratings, Speed top_speed) {
  std::vector<RatingUse<R>> rows;
  const auto row = [&](Rated rated, const MassOf<R>& load, Mass rating) {
    rows.push_back({rated, load, rating, as<R>(rating) - load});
  };
  const MassOf<R> front = w.front_left + w.front_right, rear = w.rear_left + w.rear_right;
  if (ratings.gross) row(Rated::gross, front + rear, *ratings.gross);
  if (ratings.front_axle) row(Rated::front_axle, front, *ratings.front_axle);
  if (ratings.rear_axle) row(Rated::rear_axle, rear, *ratings.rear_axle);
  if (ratings.front_tyre && top_speed <= ratings.front_tyre->up_to) {
    row(Rated::front_left_tyre, w.front_left, ratings.front_tyre->load);
    row(Rated::front_right_tyre, w.front_right, ratings.front_tyre->load);
  }
  if (ratings.rear_tyre && top_speed <= ratings.rear_tyre->up_to) {
    row(Rated::rear_left_tyre, w.rear_left, ratings.rear_tyre->load);
    row(Rated::rear_right_tyre, w.rear_right, ratings.rear_tyre->load);
  }
  return rows;
}

#define TRAMMEL_AXLE_LOAD_IN(R)                                                  \
  template WheelLoads<R> wheel_loads(const MassSum<R>&, const Footprint<R>&, R); \
  template std::vector<RatingUse<R>> against_ratings(const WheelLoads<R>&, const Ratings&, Speed);
TRAMMEL_AXLE_LOAD_IN(double)
TRAMMEL_AXLE_LOAD_IN(Uncertain)
#undef TRAMMEL_AXLE_LOAD_IN

}  // namespace trammel::vehicle
