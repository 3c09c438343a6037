// How long one answer of the alignment takes, and its parts beside plain ways of doing the same: a Kalman update with
// dense Eigen matrices, and the chance of being in tolerance by drawing.
#include <benchmark/benchmark.h>

#include <Eigen/Cholesky>

#include "measure/box_probability.h"
#include "measure/gaussian.h"
#include "setup/blunder.h"
#include "setup/population.h"
#include "setup/study.h"
#include "setup/verdict.h"

namespace trammel::setup {
namespace {

// A cart of the study after two stops with four adjusters turned between.
struct Met {
  AlignmentTask task;
  std::vector<Event> events;
};
Met after_two_stops() {
  Generator g(1);
  const Population population({}, g);
  Met met{population.task(), {}};
  SimulatedCart cart(met.task, population.draw(g));
  met.events.emplace_back(cart.read({}, g));
  Adjustment turns = prescribe(met.task, fold(met.task, met.events)).as_adjustment();
  cart.turn(turns, g);
  met.events.emplace_back(turns);
  met.events.emplace_back(cart.read({}, g));
  return met;
}

// From the job's entries to the answer: slips looked for, flats to turn, what to do next. Wanted: under 20 ms.
void one_answer(benchmark::State& state) {
  const Met met = after_two_stops();
  for (auto _ : state) benchmark::DoNotOptimize(align(met.task, met.events).probability_in_tolerance);
}
BENCHMARK(one_answer)->Unit(benchmark::kMillisecond);

void one_prescription(benchmark::State& state) {
  const Met met = after_two_stops();
  const Belief belief = fold(met.task, met.events);
  for (auto _ : state) benchmark::DoNotOptimize(prescribe(met.task, belief).after.probability_in_tolerance);
}
BENCHMARK(one_prescription)->Unit(benchmark::kMillisecond);

// Every slip of every entry tried.
void slips_of_three_stops(benchmark::State& state) {
  Met met = after_two_stops();
  // A gap at the wrong edge, so that it is looked for at all.
  auto& first = std::get<Reading>(met.events.front());
  first.left_camber_gap->at = first.left_camber_gap->at == GapAt::top ? GapAt::bottom : GapAt::top;
  met.events.push_back(met.events.back());
  for (auto _ : state) benchmark::DoNotOptimize(find_blunders(met.task, met.events).sound);
}
BENCHMARK(slips_of_three_stops)->Unit(benchmark::kMillisecond);

// Of the fleet with nominal geometry on the bare floor: 1000 carts are a thousand times this on one core.
void one_cart_of_the_study(benchmark::State& state) {
  Generator g(1);
  const Population population({}, g);
  const Way way = usual_way(Floor::bare);
  std::uint64_t i = 0;
  for (auto _ : state) {
    Generator own(1000003 + i++);
    benchmark::DoNotOptimize(align_as_told(population.task(), way, population.draw(own), own).passes);
  }
}
BENCHMARK(one_cart_of_the_study)->Unit(benchmark::kMillisecond);

constexpr int unknowns = 28;
Eigen::MatrixXd some_covariance() {
  Eigen::MatrixXd a(unknowns, unknowns);
  for (int i = 0; i < unknowns; ++i)
    for (int j = 0; j < unknowns; ++j) a(i, j) = std::sin(1.0 + i * 7 + j * 3);
  return a * a.transpose() + Eigen::MatrixXd::Identity(unknowns, unknowns);
}

// One reading taken in: ours in Joseph's form, and the short form with plain Eigen.
void one_reading_in(benchmark::State& state) {
  const std::vector<std::string> names = [] {
    std::vector<std::string> n;
    for (int i = 0; i < unknowns; ++i) n.push_back(std::to_string(i));
    return n;
  }();
  const Gaussian joint(names, Eigen::VectorXd::Zero(unknowns), some_covariance());
  const Eigen::RowVectorXd h = Eigen::RowVectorXd::LinSpaced(unknowns, -1.0, 1.0);
  const auto one = [](double v) { return Eigen::VectorXd::Constant(1, v); };
  for (auto _ : state) {
    Gaussian now = joint;
    benchmark::DoNotOptimize(now.observe(h, one(0.0), one(0.1), one(0.01)).chi_squared);
  }
}
BENCHMARK(one_reading_in)->Unit(benchmark::kMicrosecond);

void one_reading_by_plain_eigen(benchmark::State& state) {
  const Eigen::MatrixXd covariance = some_covariance();
  const Eigen::RowVectorXd h = Eigen::RowVectorXd::LinSpaced(unknowns, -1.0, 1.0);
  for (auto _ : state) {
    const Eigen::VectorXd seen = covariance * h.transpose();
    const Eigen::VectorXd gain = seen / (h.dot(seen) + 0.01);
    Eigen::MatrixXd now = covariance - gain * seen.transpose();
    benchmark::DoNotOptimize(now.data());
  }
}
BENCHMARK(one_reading_by_plain_eigen)->Unit(benchmark::kMicrosecond);

// The chance of four aims at once; drawn with as many points as give the same three standard errors of 2e-4.
struct Box {
  Eigen::Vector4d mean{0.05, -0.04, 0.1, 0.0}, low{-0.25, -0.25, -1.5, -1.0}, high{0.25, 0.25, 1.5, 1.0};
  Eigen::Matrix4d covariance = [] {
    Eigen::Matrix4d c = Eigen::Vector4d(0.01, 0.012, 0.4, 0.2).asDiagonal();
    c(0, 2) = c(2, 0) = 0.02;
    c(2, 3) = c(3, 2) = 0.1;
    return c;
  }();
};

void chance_by_lattice(benchmark::State& state) {
  const Box b;
  double p = 0.0;
  for (auto _ : state) benchmark::DoNotOptimize(p = probability_in_box(b.mean, b.covariance, b.low, b.high, 61).value);
  state.counters["p"] = p;
}
BENCHMARK(chance_by_lattice)->Unit(benchmark::kMicrosecond);

void chance_by_drawing(benchmark::State& state) {
  const Box b;
  const Eigen::Matrix4d root = b.covariance.llt().matrixL();
  constexpr int draws = 1000000;
  double p = 0.0;
  for (auto _ : state) {
    Generator g(1);
    int in = 0;
    for (int i = 0; i < draws; ++i) {
      const Eigen::Vector4d z(normal(g), normal(g), normal(g), normal(g));
      const Eigen::Vector4d x = b.mean + root * z;
      in += (x.array() >= b.low.array()).all() && (x.array() <= b.high.array()).all();
    }
    benchmark::DoNotOptimize(p = static_cast<double>(in) / draws);
  }
  state.counters["p"] = p;
}
BENCHMARK(chance_by_drawing)->Iterations(3)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace trammel::setup
