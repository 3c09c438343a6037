#include "setup/survey/network.h"

#include <algorithm>

namespace trammel::survey {

std::vector<ReadingOf> readings_of(const Survey& survey) {
  std::vector<ReadingOf> all;
  for (std::size_t i = 0; i < survey.distances.size(); ++i)
    all.push_back({i, 0, 0, survey.distances[i].read, survey.distances[i].u});
  for (std::size_t p = 0; p < survey.points.size(); ++p)
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (const auto& read = survey.points[p].read[axis]; read && read->u.si() > 0.0)
        all.push_back({std::nullopt, p, axis, read->value, read->u});
  return all;
}

Network::Network(const Survey& survey) : survey_(survey), readings_(readings_of(survey)) {
  for (const Point& point : survey.points) {
    auto& index = index_.emplace_back();
    Place& held = held_.emplace_back();
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto& read = point.read[axis];
      if (read) part(held, axis) = read->value.si();
      if (!read || read->u.si() > 0.0) index[axis] = parameters_++;
    }
  }
}

Places Network::places(std::span<const double> x) const {
  Places at = held_;
  for (std::size_t p = 0; p < at.size(); ++p)
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (index_[p][axis]) part(at[p], axis) = x[*index_[p][axis]];
  return at;
}

double Network::fitted(std::size_t reading, const Places& at) const {
  const ReadingOf& r = readings_[reading];
  if (!r.distance) return part(at[r.point], r.axis);
  const Distance& d = survey_.distances[*r.distance];
  return norm(at[d.from] - at[d.to]);
}

void Network::fill_slopes(std::size_t reading, const Places& at, std::span<double> row) const {
  const ReadingOf& r = readings_[reading];
  const auto slope = [&](std::size_t point, std::size_t axis, double value) {
    if (index_[point][axis]) row[*index_[point][axis]] = value / r.u.si();
  };
  if (!r.distance) return slope(r.point, r.axis, 1.0);
  const Distance& d = survey_.distances[*r.distance];
  const Place along = at[d.from] - at[d.to];
  const double length = std::max(norm(along), 1e-9);
  for (std::size_t axis = 0; axis < 3; ++axis) {
    slope(d.from, axis, part(along, axis) / length);
    slope(d.to, axis, -part(along, axis) / length);
  }
}

std::vector<double> Network::slopes(std::size_t reading, const Places& at) const {
  std::vector<double> row(parameters_, 0.0);
  fill_slopes(reading, at, row);
  return row;
}

Fit Network::solve(const Places& start, const std::vector<bool>& takes_part, bool covariance) const {
  std::vector<double> x(parameters_);
  for (std::size_t p = 0; p < start.size(); ++p)
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (index_[p][axis]) x[*index_[p][axis]] = part(start[p], axis);

  const Residuals residuals = [&](std::span<const double> now, std::span<double> r, std::span<double> slopes) {
    const Places at = places(now);
    for (std::size_t i = 0; i < readings_.size(); ++i) {
      if (!takes_part[i]) continue;
      r[i] = (fitted(i, at) - readings_[i].read.si()) / readings_[i].u.si();
      fill_slopes(i, at, slopes.subspan(i * parameters_, parameters_));
    }
  };
  FitLimits limits;
  limits.covariance = covariance;
  return fit(residuals, readings_.size(), std::move(x), limits);
}

}  // namespace trammel::survey
