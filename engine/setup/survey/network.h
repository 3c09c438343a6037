// The survey as a least-squares problem: which coordinate is which parameter, residuals and their slopes.
// Inside the survey only; bare numbers are metres.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "setup/survey/least_squares.h"
#include "setup/survey/survey.h"

namespace trammel::survey {

using Place = Vector3<double>;
using Places = std::vector<Place>;

inline double& part(Place& p, std::size_t axis) { return axis == 0 ? p.x : axis == 1 ? p.y : p.z; }
inline double part(const Place& p, std::size_t axis) { return axis == 0 ? p.x : axis == 1 ? p.y : p.z; }
inline Place bare(const Vector3<Length>& v) { return {v.x.si(), v.y.si(), v.z.si()}; }
inline Vector3<Length> length_of(const Place& p) {
  return {Length::from_si(p.x), Length::from_si(p.y), Length::from_si(p.z)};
}

class Network {
 public:
  explicit Network(const Survey& survey);

  std::size_t parameters() const { return parameters_; }
  const std::vector<ReadingOf>& readings() const { return readings_; }
  // The parameter of a point's coordinate; nothing where it is held.
  std::optional<std::size_t> parameter(std::size_t point, std::size_t axis) const { return index_[point][axis]; }

  // Least squares from these places; `takes_part` by number of reading.
  Fit solve(const Places& start, const std::vector<bool>& takes_part, bool covariance) const;
  Places places(std::span<const double> x) const;
  // What these places make of one reading.
  double fitted(std::size_t reading, const Places& at) const;
  // Slopes of that by the parameters, divided by the reading's u.
  std::vector<double> slopes(std::size_t reading, const Places& at) const;

 private:
  void fill_slopes(std::size_t reading, const Places& at, std::span<double> row) const;
  const Survey& survey_;
  std::vector<ReadingOf> readings_;
  std::vector<std::array<std::optional<std::size_t>, 3>> index_;
  Places held_;
  std::size_t parameters_ = 0;
};

// Starting places: point by point from those placed before, by whichever three distances agree with most of the rest.
// `last`: points that wait until all others stand.
Places starting_places(const Survey& survey, const std::vector<bool>& takes_part,
                       const std::vector<std::size_t>& last = {});

// The best place of one point where all others stand, `now` included among the candidates.
Place best_place(const Survey& survey, std::size_t point, const Places& at, const std::vector<bool>& known,
                 const std::vector<bool>& takes_part, const std::optional<Place>& now);

// The mirrored place of one point that fits its own readings nearly as well, where there is one.
std::optional<Place> mirrored_place(const Survey& survey, std::size_t point, const Places& at,
                                    const std::vector<bool>& takes_part);

// What hints say against a place: 0 where nothing does. Only to tell mirrored places apart.
double against(const Point& point, const Place& at);

}  // namespace trammel::survey
