#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "setup/survey/network.h"

namespace trammel::survey {

namespace {

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr double noncentrality = 4.13;  // Baarda: false alarm 1 in 1000, found 4 in 5
constexpr double as_good = 25.0;        // of two solutions: more than this worse in chi-square is told apart

std::vector<bool> taking_part(std::size_t readings, const std::vector<std::size_t>& left_out) {
  std::vector<bool> takes_part(readings, true);
  for (const std::size_t i : left_out) takes_part[i] = false;
  return takes_part;
}

double against_all(const Survey& survey, const Places& at) {
  double sum = 0.0;
  for (std::size_t p = 0; p < at.size(); ++p) sum += against(survey.points[p], at[p]);
  return sum;
}

// Points that stand wrong because they were placed from a misread distance, or on the mirrored side, are tried at the
// best place that the others leave them.
void move_misplaced(const Survey& survey, const Network& network, const std::vector<bool>& takes_part, Places& at,
                    Fit& best) {
  const auto free_readings = static_cast<double>(std::count(takes_part.begin(), takes_part.end(), true)) -
                             static_cast<double>(network.parameters());
  const std::vector<bool> known(at.size(), true);
  for (int round = 0; round < 2; ++round)
    for (std::size_t p = 0; p < at.size(); ++p) {
      if (best.sum_of_squares <= free_readings + 4.0 * std::sqrt(2.0 * std::max(1.0, free_readings))) return;
      if (!network.parameter(p, 0) && !network.parameter(p, 1) && !network.parameter(p, 2)) continue;
      Places other = at;
      other[p] = best_place(survey, p, at, known, takes_part, std::nullopt);
      if (norm(other[p] - at[p]) < 0.02) continue;
      const Fit moved = network.solve(other, takes_part, false);
      if (!usable(moved.outcome) || moved.sum_of_squares >= best.sum_of_squares - 1.0) continue;
      best = moved;
      at = network.places(best.x);
    }
}

// Whether all readings but one or two agree with these places: then what is left of the misfit is misread.
bool most_agree(const Network& network, const std::vector<bool>& takes_part, const Places& at) {
  constexpr double agrees = 0.02;
  int off = 0;
  for (std::size_t i = 0; i < takes_part.size(); ++i) {
    if (!takes_part[i]) continue;
    const ReadingOf& reading = network.readings()[i];
    off += std::abs(network.fitted(i, at) - reading.read.si()) > agrees + 4.0 * reading.u.si();
  }
  return off <= 2;
}

// One point placed wrong early can draw all others along: where the fit is far beyond what small misreads do, the
// survey is placed anew from the rough places, then with one or two points left to the end.
void begin_again(const Survey& survey, const Network& network, const std::vector<bool>& takes_part, Places& at,
                 Fit& best) {
  const auto more = std::count(takes_part.begin(), takes_part.end(), true) - static_cast<long>(network.parameters());
  const std::vector<bool> known(at.size(), true);
  std::vector<std::size_t> free;
  for (std::size_t p = 0; p < at.size(); ++p)
    if (network.parameter(p, 0) || network.parameter(p, 1) || network.parameter(p, 2)) free.push_back(p);
  bool found = false;
  const auto hopeless = [&] { return !found && best.sum_of_squares > 50.0 * static_cast<double>(std::max(1L, more)); };
  const auto offer = [&](Places start) {
    // Each where most of its own readings put it, before all readings pull at once.
    for (int round = 0; round < 3; ++round)
      for (const std::size_t p : free) start[p] = best_place(survey, p, start, known, takes_part, start[p]);
    found = most_agree(network, takes_part, start);
    Fit again = network.solve(start, takes_part, false);
    start = network.places(again.x);
    if (!found) move_misplaced(survey, network, takes_part, start, again);
    if (again.sum_of_squares >= best.sum_of_squares) return;
    best = std::move(again);
    at = std::move(start);
  };
  if (!hopeless()) return;
  Places rough = at;
  for (const std::size_t p : free)
    if (survey.points[p].near) rough[p] = bare(*survey.points[p].near);
  offer(rough);
  for (const std::size_t p : free)
    if (hopeless()) offer(starting_places(survey, takes_part, {p}));
  for (const std::size_t p : free)
    for (const std::size_t q : free)
      if (q > p && hopeless()) offer(starting_places(survey, takes_part, {p, q}));
}

// The whole survey mirrored in the plane of its datums, where that fits as well and agrees better with the hints.
void turn_to_hints(const Survey& survey, const Network& network, const std::vector<bool>& takes_part, Places& at,
                   Fit& best) {
  Place centre;
  Places datums;
  for (std::size_t p = 0; p < at.size(); ++p) {
    const auto& read = survey.points[p].read;
    if (std::count_if(read.begin(), read.end(), [](const auto& r) { return r.has_value(); }) >= 1)
      datums.push_back(at[p]);
  }
  if (datums.size() < 3 || datums.size() == at.size()) return;
  for (const Place& d : datums) centre += d / static_cast<double>(datums.size());
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (const Place& d : datums) {
    const Eigen::Vector3d v(d.x - centre.x, d.y - centre.y, d.z - centre.z);
    spread += v * v.transpose();
  }
  const Eigen::Vector3d e = Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread).eigenvectors().col(0);
  const Place normal{e[0], e[1], e[2]};
  Places image = at;
  for (Place& p : image) p = p - 2.0 * dot(p - centre, normal) * normal;
  if (against_all(survey, image) >= against_all(survey, at)) return;
  const Fit mirrored = network.solve(image, takes_part, false);
  if (!usable(mirrored.outcome) || mirrored.sum_of_squares > best.sum_of_squares + as_good) return;
  const Places there = network.places(mirrored.x);
  if (against_all(survey, there) >= against_all(survey, at)) return;
  best = mirrored;
  at = there;
}

MirrorToldBy told_by(const Point& point, const Place& at, const Place& image) {
  if (point.side && (at.y < 0.0) != (image.y < 0.0)) return MirrorToldBy::side;
  if (point.near && norm(image - bare(*point.near)) > 1.5 * norm(at - bare(*point.near))) return MirrorToldBy::near;
  if (image.z < -0.002 && at.z >= -0.002) return MirrorToldBy::floor;
  return MirrorToldBy::nothing;
}

// What hints say against a place in the measure of chi-square; a rough place is good to 100 mm.
double unlikely(const Point& point, const Place& at) {
  double sum = at.z < -0.002 ? 9.0 : 0.0;
  if (point.side && (at.y < 0.0) == (*point.side == Side::left)) sum += 1e3;
  if (point.near) sum += dot(at - bare(*point.near), at - bare(*point.near)) / 0.01;
  return sum;
}

// One point may stand on the other side of those it was measured from.
void find_mirrors(const Survey& survey, const Network& network, const std::vector<bool>& takes_part, Places& at,
                  Fit& best, Solution& s) {
  for (std::size_t p = 0; p < at.size(); ++p) {
    if (!network.parameter(p, 0) || !network.parameter(p, 1) || !network.parameter(p, 2)) continue;
    const auto image = mirrored_place(survey, p, at, takes_part);
    if (!image) continue;
    Places other = at;
    other[p] = *image;
    const Fit there = network.solve(other, takes_part, false);
    const Places moved = network.places(there.x);
    if (!usable(there.outcome) || norm(moved[p] - at[p]) < 0.02 || there.sum_of_squares > best.sum_of_squares + as_good)
      continue;
    const Place before = at[p];
    const bool better = there.sum_of_squares + unlikely(survey.points[p], moved[p]) <
                        best.sum_of_squares + unlikely(survey.points[p], before);
    if (better) {
      at = moved;
      best = there;
    }
    s.points[p].mirror = length_of(better ? before : moved[p]);
    s.points[p].told_by = told_by(survey.points[p], better ? moved[p] : before, better ? before : moved[p]);
  }
}

// Residuals with what they can show, from the slopes and the covariance.
void check_readings(const Network& network, const std::vector<bool>& takes_part, const Fit& fitted, const Places& at,
                    Solution& s) {
  const auto n = static_cast<Eigen::Index>(network.parameters());
  const Eigen::Map<const Matrix> covariance(fitted.covariance.data(), n, n);
  for (std::size_t i = 0; i < takes_part.size(); ++i) {
    ReadingCheck& check = s.readings[i];
    const ReadingOf& reading = network.readings()[i];
    const double u = reading.u.si();
    const std::vector<double> row = network.slopes(i, at);
    const Eigen::Map<const Eigen::VectorXd> slope(row.data(), n);
    const double of_fitted = slope.dot(covariance * slope);  // in squares of u
    check.left_out = !takes_part[i];
    check.residual = Length::from_si(reading.read.si() - network.fitted(i, at));
    check.redundancy = check.left_out ? 1.0 / (1.0 + of_fitted) : std::clamp(1.0 - of_fitted, 0.0, 1.0);
    if (check.redundancy > 1e-6) {
      const double spread = check.left_out ? u * std::sqrt(1.0 + of_fitted) : u * std::sqrt(check.redundancy);
      check.standardised = check.residual.si() / spread;
      check.least_seen = Length::from_si(noncentrality * u / std::sqrt(check.redundancy));
    }
  }
}

Solution told(const Network& network, const std::vector<bool>& takes_part, Places at, Solution s) {
  const Fit last = network.solve(at, takes_part, true);
  at = network.places(last.x);
  s.sum_of_squares = last.sum_of_squares;
  s.redundancy =
      static_cast<int>(std::count(takes_part.begin(), takes_part.end(), true)) - static_cast<int>(network.parameters());
  s.outcome = last.outcome == FitOutcome::converged        ? Outcome::solved
              : last.outcome == FitOutcome::not_determined ? Outcome::loose
                                                           : Outcome::not_converged;
  const std::size_t n = 3 * at.size();
  s.covariance.assign(n * n, 0.0);
  const auto index = [&](std::size_t k) { return network.parameter(k / 3, k % 3); };
  for (std::size_t a = 0; a < n && !last.covariance.empty(); ++a)
    for (std::size_t b = 0; b < n; ++b)
      if (index(a) && index(b)) s.covariance[a * n + b] = last.covariance[*index(a) * network.parameters() + *index(b)];
  for (std::size_t p = 0; p < at.size(); ++p) {
    PlacedPoint& placed = s.points[p];
    placed.at = length_of(at[p]);
    Eigen::Matrix3d block;
    for (int a = 0; a < 3; ++a)
      for (int b = 0; b < 3; ++b)
        block(a, b) = s.covariance[(3 * p + static_cast<std::size_t>(a)) * n + 3 * p + static_cast<std::size_t>(b)];
    const auto u = [&](int a) { return Length::from_si(std::sqrt(std::max(0.0, block(a, a)))); };
    placed.u = {u(0), u(1), u(2)};
    placed.worst_u = Length::from_si(
        std::sqrt(std::max(0.0, Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(block).eigenvalues()[2])));
    for (std::size_t axis = 0; axis < 3 && !last.loose.empty(); ++axis)
      if (const auto k = network.parameter(p, axis)) placed.loose = placed.loose || last.loose[*k] > 1e-6;
  }
  if (!last.covariance.empty()) check_readings(network, takes_part, last, at, s);
  return s;
}

Solution empty_solution(const Survey& survey, const Network& network) {
  Solution s;
  s.points.resize(survey.points.size());
  s.readings.resize(network.readings().size());
  return s;
}

}  // namespace

double Solution::spread() const { return redundancy > 0 ? std::sqrt(sum_of_squares / redundancy) : 1.0; }

Solution solve(const Survey& survey, const std::vector<std::size_t>& left_out) {
  const Network network(survey);
  const auto takes_part = taking_part(network.readings().size(), left_out);
  Solution s = empty_solution(survey, network);

  // Places from the distances one point after another, then all together.
  Places at = starting_places(survey, takes_part);
  Fit best = network.solve(at, takes_part, false);
  at = network.places(best.x);

  // Points that fell on the wrong side, and those that could as well stand there.
  move_misplaced(survey, network, takes_part, at, best);
  begin_again(survey, network, takes_part, at, best);
  turn_to_hints(survey, network, takes_part, at, best);
  find_mirrors(survey, network, takes_part, at, best, s);
  return told(network, takes_part, at, std::move(s));
}

Solution solve_from(const Survey& survey, const std::vector<Vector3<Length>>& start,
                    const std::vector<std::size_t>& left_out) {
  const Network network(survey);
  Places at;
  for (const auto& p : start) at.push_back(bare(p));
  const auto takes_part = taking_part(network.readings().size(), left_out);
  return told(network, takes_part, at, empty_solution(survey, network));
}

}  // namespace trammel::survey
