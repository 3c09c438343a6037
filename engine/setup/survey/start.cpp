#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "setup/survey/network.h"

namespace trammel::survey {

namespace {

// While places are found one from another their own errors add up: readings count as this sure, and one that is
// farther off than three times that counts no more than so.
constexpr double rough = 0.005, cap = 9.0;
constexpr std::size_t most_anchors = 9;

struct Anchor {
  Place at;
  double length = 0.0;
};

// What is known of one point: distances to points that stand, and its own coordinates.
struct Known {
  std::vector<Anchor> anchors;
  std::array<std::optional<double>, 3> read;
  std::array<double, 3> u{};
  std::size_t count() const {
    return anchors.size() +
           static_cast<std::size_t>(std::count_if(read.begin(), read.end(), [](auto& r) { return r.has_value(); }));
  }
};

Known known_of(const Survey& survey, std::size_t point, const Places& at, const std::vector<bool>& known,
               const std::vector<bool>& takes_part) {
  Known k;
  for (std::size_t i = 0; i < survey.distances.size(); ++i) {
    const Distance& d = survey.distances[i];
    if (!takes_part[i] || (d.from != point && d.to != point)) continue;
    const std::size_t other = d.from == point ? d.to : d.from;
    if (known[other] && other != point) k.anchors.push_back({at[other], d.read.si()});
  }
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (const auto& read = survey.points[point].read[axis]) k.read[axis] = read->value.si(), k.u[axis] = read->u.si();
  return k;
}

double misfit(const Known& k, const Place& p, double most) {
  double sum = 0.0;
  for (const Anchor& a : k.anchors) sum += std::min(most, std::pow((norm(p - a.at) - a.length) / rough, 2));
  for (std::size_t axis = 0; axis < 3; ++axis)
    if (k.read[axis])
      sum += std::min(most, std::pow((part(p, axis) - *k.read[axis]) / std::hypot(rough, k.u[axis]), 2));
  return sum;
}

// Where three spheres meet: two places, or the nearest one where they just miss.
void add_meeting_places(const Anchor& a, const Anchor& b, const Anchor& c, Places& out) {
  const Place ab = b.at - a.at, ac = c.at - a.at;
  const double i_length = norm(ab);
  const Place normal = cross(ab, ac);
  const double area = norm(normal);
  if (i_length < 1e-3 || area < 0.02 * i_length * norm(ac)) return;  // nearly on one line
  const Place ex = ab / i_length, ez = normal / area, ey = cross(ez, ex);
  const double i = dot(ex, ac), j = dot(ey, ac);
  const double x = (a.length * a.length - b.length * b.length + i_length * i_length) / (2.0 * i_length);
  const double y = (a.length * a.length - c.length * c.length + i * i + j * j - 2.0 * i * x) / (2.0 * j);
  const double z = std::sqrt(std::max(0.0, a.length * a.length - x * x - y * y));
  const Place foot = a.at + x * ex + y * ey;
  out.push_back(foot + z * ez);
  if (z > 0.0) out.push_back(foot - z * ez);
}

// A few steps of least squares on what agrees with the place.
Place polished(const Known& k, Place p) {
  const std::size_t n = k.anchors.size();
  std::vector<bool> agrees(n);
  for (std::size_t i = 0; i < n; ++i)
    agrees[i] = std::abs(norm(p - k.anchors[i].at) - k.anchors[i].length) < 4.0 * rough;
  if (std::count(agrees.begin(), agrees.end(), true) < 3) agrees.assign(n, true);
  FitLimits limits;
  limits.most_iterations = 12;
  limits.covariance = false;
  const Fit local = fit(
      [&](std::span<const double> x, std::span<double> r, std::span<double> slopes) {
        const Place q{x[0], x[1], x[2]};
        for (std::size_t i = 0; i < n; ++i) {
          if (!agrees[i]) continue;
          const Place along = q - k.anchors[i].at;
          const double length = std::max(norm(along), 1e-9);
          r[i] = (length - k.anchors[i].length) / rough;
          for (std::size_t axis = 0; axis < 3; ++axis) slopes[3 * i + axis] = part(along, axis) / length / rough;
        }
        for (std::size_t axis = 0; axis < 3; ++axis)
          if (k.read[axis]) {
            const double u = std::max(k.u[axis], 1e-5);
            r[n + axis] = (x[axis] - *k.read[axis]) / u;
            slopes[3 * (n + axis) + axis] = 1.0 / u;
          }
      },
      n + 3, {p.x, p.y, p.z}, limits);
  return {local.x[0], local.x[1], local.x[2]};
}

Place middle(const std::vector<Anchor>& anchors) {
  Place sum;
  for (const Anchor& a : anchors) sum += a.at;
  return anchors.empty() ? sum : sum / static_cast<double>(anchors.size());
}

Place best_of(const Survey& survey, std::size_t point, const Known& k, Places candidates) {
  // Three spheres at a time, and eight places around where too few are there.
  const std::size_t n = std::min(k.anchors.size(), most_anchors);
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = a + 1; b < n; ++b)
      for (std::size_t c = b + 1; c < n; ++c) add_meeting_places(k.anchors[a], k.anchors[b], k.anchors[c], candidates);
  if (candidates.size() < 2 || k.anchors.size() < 4) {
    double reach = 0.3;
    for (const Anchor& a : k.anchors) reach = std::max(reach, a.length);
    Place from = middle(k.anchors);
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (k.read[axis]) part(from, axis) = *k.read[axis];
    for (int corner = 0; corner < 8; ++corner) {
      Place p = from;
      for (std::size_t axis = 0; axis < 3; ++axis)
        if (!k.read[axis]) part(p, axis) += (corner >> axis & 1 ? 0.6 : -0.55) * reach;
      candidates.push_back(polished(k, p));
    }
  }
  if (survey.points[point].near) candidates.push_back(polished(k, bare(*survey.points[point].near)));

  Place best = candidates.front();
  double least = std::numeric_limits<double>::infinity();
  for (const Place& p : candidates) {
    const double cost = misfit(k, p, cap) + against(survey.points[point], p);
    if (cost < least) least = cost, best = p;
  }
  return polished(k, best);
}

}  // namespace

double against(const Point& point, const Place& at) {
  double sum = at.z < -0.002 ? 4.0 : 0.0;  // points lie above the floor
  if (point.side && (at.y < 0.0) == (*point.side == Side::left)) sum += 1e3;
  // Never so much as one reading that does not fit.
  if (point.near) {
    const Place from = at - bare(*point.near);
    sum += 4.0 * dot(from, from) / (dot(from, from) + 0.04);
  }
  return sum;
}

Place best_place(const Survey& survey, std::size_t point, const Places& at, const std::vector<bool>& known,
                 const std::vector<bool>& takes_part, const std::optional<Place>& now) {
  const Known k = known_of(survey, point, at, known, takes_part);
  return best_of(survey, point, k, now ? Places{*now} : Places{});
}

Places starting_places(const Survey& survey, const std::vector<bool>& takes_part,
                       const std::vector<std::size_t>& last) {
  const std::size_t n = survey.points.size();
  Places at(n);
  std::vector<bool> known(n, false);
  for (std::size_t p = 0; p < n; ++p) {
    const auto& read = survey.points[p].read;
    known[p] = read[0] && read[1] && read[2];
    for (std::size_t axis = 0; axis < 3 && known[p]; ++axis) part(at[p], axis) = read[axis]->value.si();
  }
  // Always the point of which most is known; a rough place counts where nothing else does.
  for (std::size_t left = static_cast<std::size_t>(std::count(known.begin(), known.end(), false)); left > 0; --left) {
    std::size_t next = n, most = 0;
    for (std::size_t p = 0; p < n; ++p) {
      if (known[p] || (left > last.size() && std::find(last.begin(), last.end(), p) != last.end())) continue;
      const std::size_t count =
          2 * known_of(survey, p, at, known, takes_part).count() + (survey.points[p].near ? 1 : 0);
      if (next == n || count > most) next = p, most = count;
    }
    at[next] = best_place(survey, next, at, known, takes_part, std::nullopt);
    known[next] = true;
  }
  return at;
}

std::optional<Place> mirrored_place(const Survey& survey, std::size_t point, const Places& at,
                                    const std::vector<bool>& takes_part) {
  const Known k = known_of(survey, point, at, std::vector<bool>(at.size(), true), takes_part);
  if (k.anchors.size() < 3) return std::nullopt;
  const Place centre = middle(k.anchors);
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (const Anchor& a : k.anchors) {
    const Place d = a.at - centre;
    const Eigen::Vector3d v(d.x, d.y, d.z);
    spread += v * v.transpose();
  }
  const Eigen::Vector3d e = Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread).eigenvectors().col(0);
  const Place normal{e[0], e[1], e[2]};
  const Place image = polished(k, at[point] - 2.0 * dot(at[point] - centre, normal) * normal);
  // Another place, and one that the readings do not speak against: 5 mm a distance is within reach of a solve.
  if (norm(image - at[point]) < 4.0 * rough) return std::nullopt;
  const double worse = misfit(k, image, 1e9) - misfit(k, at[point], 1e9);
  if (worse > 4.0) return std::nullopt;
  return image;
}

}  // namespace trammel::survey
