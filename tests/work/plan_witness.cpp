#include "work/plan_witness.h"

#include <algorithm>
#include <cmath>
#include <gecode/int.hh>
#include <gecode/minimodel.hh>
#include <gecode/search.hh>
#include <memory>
#include <set>

namespace trammel::work {
namespace {

namespace gc = Gecode;

class TwoTechnicians : public gc::IntMinimizeSpace {
 public:
  explicit TwoTechnicians(const PlanAsked& asked) {
    int horizon = 0;
    const int n = static_cast<int>(asked.tasks.size());
    gc::IntArgs time(n), width(n);
    std::set<int> tools;
    for (int i = 0; i < n; ++i) {
      const PlanTask& t = asked.tasks[static_cast<std::size_t>(i)];
      time[i] = static_cast<int>(std::llround(t.time.in(units::minute)));
      width[i] = t.alone || t.people > 1 ? 2 : 1;
      horizon += time[i];
      tools.insert(t.tools.begin(), t.tools.end());
    }
    starts_ = gc::IntVarArray(*this, n, 0, horizon);
    end_ = gc::IntVar(*this, 0, horizon);
    for (int i = 0; i < n; ++i) gc::rel(*this, starts_[i] + time[i] <= end_);
    for (const Precedence& e : asked.before)
      gc::rel(*this, starts_[static_cast<int>(e.first)] + time[static_cast<int>(e.first)] <=
                         starts_[static_cast<int>(e.then)]);
    gc::cumulative(*this, 2, starts_, time, width);
    int work = 0;
    for (int i = 0; i < n; ++i) work += time[i] * width[i];
    gc::rel(*this, end_ >= (work + 1) / 2);
    for (int tool : tools) {
      gc::IntVarArgs starts;
      gc::IntArgs times;
      for (int i = 0; i < n; ++i) {
        const auto& of = asked.tasks[static_cast<std::size_t>(i)].tools;
        if (std::find(of.begin(), of.end(), tool) == of.end()) continue;
        starts << starts_[i];
        times << time[i];
      }
      if (starts.size() > 1) gc::unary(*this, starts, times);
    }
    // Which of two goes first, where the pairs do not say: decided for those that share a technician or a tool.
    gc::BoolVarArgs decisions;
    gc::IntVarArgs who(*this, n, 0, 1);
    gc::rel(*this, who[0] == 0);
    for (int i = 0; i < n; ++i) decisions << gc::expr(*this, who[i] == 0);
    const auto paired = [&](int a, int b) {
      return std::any_of(asked.before.begin(), asked.before.end(), [&](const Precedence& e) {
        return (static_cast<int>(e.first) == a && static_cast<int>(e.then) == b) ||
               (static_cast<int>(e.first) == b && static_cast<int>(e.then) == a);
      });
    };
    for (int a = 0; a < n; ++a)
      for (int b = a + 1; b < n; ++b) {
        if (paired(a, b)) continue;
        const auto &x = asked.tasks[static_cast<std::size_t>(a)].tools,
                   &y = asked.tasks[static_cast<std::size_t>(b)].tools;
        const bool tool =
            std::any_of(x.begin(), x.end(), [&](int t) { return std::find(y.begin(), y.end(), t) != y.end(); });
        const bool never_at_once = tool || width[a] == 2 || width[b] == 2;
        const gc::BoolVar first = gc::expr(*this, starts_[a] + time[a] <= starts_[b]);
        const gc::BoolVar second = gc::expr(*this, starts_[b] + time[b] <= starts_[a]);
        if (never_at_once)
          gc::rel(*this, first || second);
        else
          gc::rel(*this, who[a] != who[b] || first || second);
        decisions << first << second;
      }
    gc::branch(*this, decisions, gc::BOOL_VAR_AFC_MAX(0.95), gc::BOOL_VAL_MAX());
    gc::branch(*this, end_, gc::INT_VAL_MIN());
    gc::branch(*this, starts_, gc::INT_VAR_MIN_MIN(), gc::INT_VAL_MIN());
  }
  TwoTechnicians(TwoTechnicians& other) : gc::IntMinimizeSpace(other) {
    starts_.update(*this, other.starts_);
    end_.update(*this, other.end_);
  }
  gc::Space* copy() override { return new TwoTechnicians(*this); }
  gc::IntVar cost() const override { return end_; }

 private:
  gc::IntVarArray starts_;
  gc::IntVar end_;
};

class OneTechnician : public gc::IntMinimizeSpace {
 public:
  OneTechnician(const PlanAsked& asked, int end_weight) {
    const int n = static_cast<int>(asked.tasks.size());
    gc::IntArgs first(n), cost(n * n);
    for (int a = 0; a < n; ++a) {
      const PlanTask& x = asked.tasks[static_cast<std::size_t>(a)];
      first[a] = static_cast<int>(std::set<int>(x.tools.begin(), x.tools.end()).size());
      for (int b = 0; b < n; ++b) {
        const PlanTask& y = asked.tasks[static_cast<std::size_t>(b)];
        std::set<int> more(y.tools.begin(), y.tools.end());
        for (int t : x.tools) more.erase(t);
        cost[a * n + b] = static_cast<int>(more.size()) + (x.place != y.place ? end_weight : 0);
      }
    }
    order_ = gc::IntVarArray(*this, n, 0, n - 1);  // task at each position
    gc::IntVarArgs at(*this, n, 0, n - 1);         // position of each task
    gc::channel(*this, order_, at);
    for (const Precedence& e : asked.before)
      gc::rel(*this, at[static_cast<int>(e.first)] < at[static_cast<int>(e.then)]);
    gc::IntVarArgs costs(*this, n, 0, 1000000);
    gc::element(*this, first, order_[0], costs[0]);
    for (int k = 1; k < n; ++k) gc::rel(*this, costs[k] == gc::element(cost, order_[k - 1] * n + order_[k]));
    sum_ = gc::IntVar(*this, 0, 1000000);
    gc::linear(*this, costs, gc::IRT_EQ, sum_);
    gc::branch(*this, order_, gc::INT_VAR_NONE(), gc::INT_VAL_MIN());
  }
  OneTechnician(OneTechnician& other) : gc::IntMinimizeSpace(other) {
    order_.update(*this, other.order_);
    sum_.update(*this, other.sum_);
  }
  gc::Space* copy() override { return new OneTechnician(*this); }
  gc::IntVar cost() const override { return sum_; }

 private:
  gc::IntVarArray order_;
  gc::IntVar sum_;
};

template <class Model>
std::optional<long long> best(Model& model, double time_limit_s) {
  gc::Search::Options options;
  gc::Search::TimeStop stop(time_limit_s * 1000);
  options.stop = &stop;
  options.threads = 1;
  gc::BAB<Model> search(&model, options);
  std::optional<long long> least;
  while (std::unique_ptr<Model> found{search.next()}) least = found->cost().val();
  if (search.stopped()) return std::nullopt;
  return least;
}

}  // namespace

std::optional<long long> least_seconds_for_two(const PlanAsked& asked, double time_limit_s) {
  TwoTechnicians model(asked);  // in whole minutes
  auto least = best(model, time_limit_s);
  if (least) *least *= 60;
  return least;
}

std::optional<long long> least_weighted_changes(const PlanAsked& asked, int end_weight, double time_limit_s) {
  OneTechnician model(asked, end_weight);
  return best(model, time_limit_s);
}

}  // namespace trammel::work
