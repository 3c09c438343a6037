#include "setup/survey/misread.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "setup/survey/network.h"

namespace trammel::survey {

namespace {

using Set = std::vector<std::size_t>;

constexpr double threshold = 3.29, price = threshold * threshold;
constexpr double least_checked = 0.1;  // redundancy of a reading, and of a set apart from each other
constexpr std::size_t tried = 6;       // sets that are solved again in a round
constexpr int redundancy_left = 3;
constexpr double as_likely = 4.0;  // in chi-square: e^2 times less likely

Set joined(Set a, const Set& b) {
  a.insert(a.end(), b.begin(), b.end());
  std::sort(a.begin(), a.end());
  return a;
}
Set without(Set a, std::size_t x) {
  std::erase(a, x);
  return a;
}

std::vector<Vector3<Length>> places_of(const Solution& s) {
  std::vector<Vector3<Length>> out;
  for (const PlacedPoint& p : s.points) out.push_back(p.at);
  return out;
}

// Residuals in their own u and the redundancy matrix of the readings that take part.
class Linear {
 public:
  Linear(const Survey& survey, const Network& network, const Solution& s) {
    const std::size_t n = network.parameters(), all = 3 * survey.points.size();
    std::vector<std::size_t> coordinate(n);
    for (std::size_t k = 0; k < all; ++k)
      if (const auto p = network.parameter(k / 3, k % 3)) coordinate[*p] = k;
    Eigen::MatrixXd covariance(n, n);
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t b = 0; b < n; ++b)
        covariance(static_cast<long>(a), static_cast<long>(b)) = s.covariance[coordinate[a] * all + coordinate[b]];
    Places at;
    for (const PlacedPoint& p : s.points) at.push_back(bare(p.at));
    for (std::size_t i = 0; i < s.readings.size(); ++i)
      if (!s.readings[i].left_out) numbers_.push_back(i);
    Eigen::MatrixXd slopes(static_cast<long>(numbers_.size()), static_cast<long>(n));
    v_.resize(static_cast<long>(numbers_.size()));
    for (std::size_t i = 0; i < numbers_.size(); ++i) {
      const auto row = network.slopes(numbers_[i], at);
      slopes.row(static_cast<long>(i)) = Eigen::Map<const Eigen::RowVectorXd>(row.data(), static_cast<long>(n));
      v_[static_cast<long>(i)] = s.readings[numbers_[i]].residual.si() / network.readings()[numbers_[i]].u.si();
    }
    r_ = -slopes * covariance * slopes.transpose();
    r_.diagonal().array() += 1.0;
  }

  const Set& numbers() const { return numbers_; }
  // By how much chi-square drops without these (places in numbers()), less their price; nothing where they cannot be
  // told from each other or are not checked.
  std::optional<double> gain(std::span<const std::size_t> set) const {
    if (set.size() == 1) {
      const auto i = static_cast<long>(set[0]);
      if (r_(i, i) < least_checked) return std::nullopt;
      return v_[i] * v_[i] / r_(i, i) - price;
    }
    const auto k = static_cast<long>(set.size());
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3, 3> r(k, k);
    Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 3, 1> v(k);
    for (long a = 0; a < k; ++a) {
      v[a] = v_[static_cast<long>(set[static_cast<std::size_t>(a)])];
      for (long b = 0; b < k; ++b)
        r(a, b) = r_(static_cast<long>(set[static_cast<std::size_t>(a)]),
                     static_cast<long>(set[static_cast<std::size_t>(b)]));
    }
    double apart = r.determinant();
    for (long a = 0; a < k; ++a) apart /= std::max(r(a, a), 1e-12);
    if (apart < least_checked || r.diagonal().minCoeff() < least_checked) return std::nullopt;
    return v.dot(r.ldlt().solve(v)) - price * static_cast<double>(k);
  }

 private:
  Set numbers_;
  Eigen::VectorXd v_;
  Eigen::MatrixXd r_;
};

bool touches(const Survey& survey, const ReadingOf& r, std::size_t point) {
  if (!r.distance) return r.point == point;
  const Distance& d = survey.distances[*r.distance];
  return d.from == point || d.to == point;
}

struct Ranked {
  double gain = 0.0;
  Set set;  // numbers of readings
};

// One, two anywhere, three of one point: the best sets by the linear measure.
std::vector<Ranked> best_sets(const Survey& survey, const Network& network, const Linear& linear, int most) {
  std::vector<Ranked> best;
  const Set& numbers = linear.numbers();
  const auto offer = [&](std::initializer_list<std::size_t> set) {
    if (static_cast<int>(set.size()) > most) return;
    const auto gain = linear.gain({set.begin(), set.size()});
    if (!gain || *gain <= 0.0 || (best.size() == tried && *gain <= best.back().gain)) return;
    Ranked ranked{*gain, {}};
    for (const std::size_t i : set) ranked.set.push_back(numbers[i]);
    const auto place = std::upper_bound(best.begin(), best.end(), ranked,
                                        [](const Ranked& a, const Ranked& b) { return a.gain > b.gain; });
    best.insert(place, std::move(ranked));
    if (best.size() > tried) best.pop_back();
  };
  for (std::size_t i = 0; i < numbers.size(); ++i) offer({i});
  for (std::size_t i = 0; i < numbers.size(); ++i)
    for (std::size_t j = i + 1; j < numbers.size(); ++j) offer({i, j});
  for (std::size_t p = 0; p < survey.points.size(); ++p) {
    Set here;
    for (std::size_t i = 0; i < numbers.size(); ++i)
      if (touches(survey, network.readings()[numbers[i]], p)) here.push_back(i);
    for (std::size_t a = 0; a < here.size(); ++a)
      for (std::size_t b = a + 1; b < here.size(); ++b)
        for (std::size_t c = b + 1; c < here.size(); ++c) offer({here[a], here[b], here[c]});
  }
  return best;
}

double score(const Solution& s, const Set& left_out) {
  return s.sum_of_squares + price * static_cast<double>(left_out.size());
}

// Readings that fit after all come back, the best fitting first.
void take_back(const Survey& survey, Solution& now, Set& left_out) {
  while (!left_out.empty()) {
    const auto fits = std::min_element(left_out.begin(), left_out.end(), [&](std::size_t a, std::size_t b) {
      return std::abs(now.readings[a].standardised) < std::abs(now.readings[b].standardised);
    });
    if (std::abs(now.readings[*fits].standardised) >= threshold) return;
    const Set fewer = without(left_out, *fits);
    Solution again = solve_from(survey, places_of(now), fewer);
    if (!usable(again.outcome) || score(again, fewer) > score(now, left_out)) return;
    now = std::move(again);
    left_out = fewer;
  }
}

// Solves again without each of the sets added to `left_out`; true where one scores better than what is kept.
bool improved(const Survey& survey, const std::vector<Ranked>& sets, const Set& others,
              const std::vector<Vector3<Length>>& from, Solution& kept, Set& left_out) {
  bool better = false;
  for (const Ranked& ranked : sets) {
    const Set tried_set = joined(others, ranked.set);
    if (tried_set == left_out) continue;
    Solution again = solve_from(survey, from, tried_set);
    if (!usable(again.outcome) || score(again, tried_set) > score(kept, left_out) - 1e-6) continue;
    kept = std::move(again);
    left_out = tried_set;
    better = true;
  }
  return better;
}

// Each reading left out is put back in turn, and others are looked for in its place.
bool exchanged(const Survey& survey, const Network& network, Solution& kept, Set& left_out) {
  for (const std::size_t back : Set(left_out)) {
    const Set others = without(left_out, back);
    const Solution with = solve_from(survey, places_of(kept), others);
    if (!usable(with.outcome)) continue;
    const auto sets = best_sets(survey, network, Linear(survey, network, with), with.redundancy - redundancy_left);
    if (improved(survey, sets, others, places_of(with), kept, left_out)) return true;
  }
  return false;
}

// Readings that would explain nearly as much if they were left out in place of this one.
Set alternatives(const Survey& survey, const Network& network, const Solution& kept, const Set& left_out,
                 std::size_t named, std::vector<Solution>& explanations) {
  const Set others = without(left_out, named);
  const Solution with = solve_from(survey, places_of(kept), others);
  if (!usable(with.outcome)) return {};
  const Linear linear(survey, network, with);
  const double best = with.sum_of_squares - kept.sum_of_squares - price;
  Set out;
  for (std::size_t i = 0; i < linear.numbers().size(); ++i) {
    const std::size_t other = linear.numbers()[i];
    const std::size_t alone[] = {i};
    const auto gain = linear.gain(alone);
    if (other == named || !gain || *gain < best - 3.0 * as_likely) continue;
    const Solution instead = solve_from(survey, places_of(kept), joined(others, {other}));
    if (!usable(instead.outcome) || instead.sum_of_squares >= kept.sum_of_squares + as_likely) continue;
    out.push_back(other);
    explanations.push_back(instead);
  }
  return out;
}

// How far each point moves from the first explanation to any other.
std::vector<Length> apart(const std::vector<Solution>& explanations) {
  std::vector<Length> out(explanations.front().points.size());
  for (const Solution& s : explanations)
    for (std::size_t p = 0; p < out.size(); ++p)
      out[p] = std::max(out[p], norm(s.points[p].at - explanations.front().points[p].at));
  return out;
}

// The points as the mixture of all explanations has them.
std::vector<PlacedPoint> weighed(const std::vector<Solution>& explanations) {
  const Solution& best = explanations.front();
  std::vector<PlacedPoint> out = best.points;
  if (explanations.size() == 1) return out;
  std::vector<double> weight;
  double sum = 0.0;
  for (const Solution& s : explanations)
    sum += weight.emplace_back(std::exp(0.5 * (best.sum_of_squares - s.sum_of_squares)));
  const long n = static_cast<long>(3 * out.size());
  for (std::size_t p = 0; p < out.size(); ++p) {
    const auto place = [&](const Solution& s) {
      const Place at = bare(s.points[p].at);
      return Eigen::Vector3d(at.x, at.y, at.z);
    };
    Eigen::Vector3d mean = Eigen::Vector3d::Zero();
    for (std::size_t k = 0; k < weight.size(); ++k) mean += weight[k] / sum * place(explanations[k]);
    Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
    for (std::size_t k = 0; k < weight.size(); ++k) {
      const Eigen::Map<const Eigen::MatrixXd> covariance(explanations[k].covariance.data(), n, n);
      const Eigen::Vector3d off = place(explanations[k]) - mean;
      spread += weight[k] / sum *
                (covariance.block<3, 3>(3 * static_cast<long>(p), 3 * static_cast<long>(p)) + off * off.transpose());
    }
    const auto u = [&](int axis) { return Length::from_si(std::sqrt(std::max(0.0, spread(axis, axis)))); };
    out[p].at = length_of({mean[0], mean[1], mean[2]});
    out[p].u = {u(0), u(1), u(2)};
    out[p].worst_u = Length::from_si(
        std::sqrt(std::max(0.0, Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread).eigenvalues()[2])));
  }
  return out;
}

}  // namespace

Slip slip_of(Length read, Length blunder, Length u) {
  const double mm = blunder.in(units::mm), size = std::abs(mm), within = std::min(2.0 * u.in(units::mm), 4.0);
  // Two digits that stand side by side, exchanged: the difference is nine times theirs.
  const long shown = std::lround(read.in(units::mm));
  for (long tens = 1; tens <= 100; tens *= 10) {
    const long low = shown / tens % 10, high = shown / (10 * tens) % 10;
    const double difference = static_cast<double>((high - low) * 9 * tens);
    if (high != low && std::abs(size) > 15.0 && std::abs(mm - difference) < 0.5 * within) return Slip::digits_exchanged;
  }
  struct Usual {
    Slip slip;
    double mm;
  };
  static constexpr Usual usual[] = {{Slip::tape_hook, 1.5},    {Slip::ten_mm, 10.0}, {Slip::half_inch, 12.7},
                                    {Slip::twenty_mm, 20.0},   {Slip::inch, 25.4},   {Slip::two_inches, 50.8},
                                    {Slip::hundred_mm, 100.0}, {Slip::foot, 304.8}};
  // Nothing is said where two of them fit about as well.
  Slip best = Slip::none;
  double nearest = within, second = 2.0 * within;
  for (const Usual& slip : usual) {
    const double off = std::abs(size - slip.mm);
    if (off < nearest) {
      second = nearest;
      nearest = off;
      best = slip.slip;
    } else {
      second = std::min(second, off);
    }
  }
  if (second < 2.0 * nearest && second < within) best = Slip::none;
  return best;
}

Searched find_misreads(const Survey& survey) {
  Searched out;
  out.all = solve(survey);
  out.kept = out.all;
  out.points = out.all.points;
  out.unsettled.resize(survey.points.size());
  out.searched = usable(out.all.outcome) && out.all.redundancy >= least_redundancy;
  if (!out.searched) return out;

  // Leave out whichever set helps most, as long as one does; then see whether others explain more in their place.
  const Network network(survey);
  Set left_out;
  for (std::size_t round = 0; round < network.readings().size(); ++round) {
    const Set others = left_out;
    const auto from = places_of(out.kept);
    const auto sets =
        best_sets(survey, network, Linear(survey, network, out.kept), out.kept.redundancy - redundancy_left);
    if (!improved(survey, sets, others, from, out.kept, left_out) && !exchanged(survey, network, out.kept, left_out))
      break;
    take_back(survey, out.kept, left_out);
  }

  // What each of them looks like, and what might be misread instead.
  std::vector<Solution> explanations{out.kept};
  for (const std::size_t reading : left_out) {
    const ReadingCheck& check = out.kept.readings[reading];
    const Length u = abs(check.residual / check.standardised);
    out.misread.push_back({reading, check.residual, u, slip_of(network.readings()[reading].read, check.residual, u),
                           alternatives(survey, network, out.kept, left_out, reading, explanations)});
  }
  std::sort(out.misread.begin(), out.misread.end(),
            [](const Misread& a, const Misread& b) { return abs(a.blunder) > abs(b.blunder); });
  out.unsettled = apart(explanations);
  out.points = weighed(explanations);
  for (std::size_t p = 0; p < out.all.points.size(); ++p) {
    out.points[p].mirror = out.all.points[p].mirror;
    out.points[p].told_by = out.all.points[p].told_by;
    out.kept.points[p].mirror = out.all.points[p].mirror;
    out.kept.points[p].told_by = out.all.points[p].told_by;
  }
  return out;
}

}  // namespace trammel::survey
