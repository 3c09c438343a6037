#include "assess/survey_decisions.h"

#include <algorithm>
#include <cmath>

#include "assess/accessories.h"
#include "assess/fitted_cart.h"
#include "assess/front_adjusters.h"
#include "assess/models.h"
#include "job/overlay.h"
#include "suspension/geometry/bump_steer.h"

namespace trammel {
namespace {

const double wanders = (20.0 * units::degree / units::metre).si(), steers = (50.0 * units::degree / units::metre).si();
constexpr double good_turn = 0.05, step = 2e-4;
const Length usual_travel = 40.0 * units::mm, over = 50.0 * units::mm;

// What the job decides, as numbers: bump steer first, then a turn of each left adjuster.
struct Worked {
  std::vector<double> values;
  std::vector<std::string> names;  // of the adjusters
  bool ok = false;
};

class ForJob {
 public:
  ForJob(const SurveyReport& report, const Job& job) : r_(report), job_(as_fitted(job)) {}

  SurveyForJob run() {
    SurveyForJob out;
    if (!usable(r_.searched.kept.outcome) || !job_.cart.front) return out;
    for (std::size_t p = r_.datums; p < r_.survey.points.size(); ++p)
      if (r_.becomes[p] && !r_.searched.points[p].loose) used_.push_back(p);
    const Worked now = worked(0, 0, 0.0);
    if (!now.ok || used_.empty()) return out;

    // Slopes of every decision by every coordinate.
    const std::size_t n = 3 * r_.survey.points.size();
    std::vector<std::vector<double>> slope(now.values.size(), std::vector<double>(n, 0.0));
    for (const std::size_t p : used_)
      for (std::size_t axis = 0; axis < 3; ++axis) {
        const Worked more = worked(p, axis, step), less = worked(p, axis, -step);
        for (std::size_t d = 0; more.ok && less.ok && d < now.values.size(); ++d)
          slope[d][3 * p + axis] = (more.values[d] - less.values[d]) / (2.0 * step);
      }

    // How sure each is, and which is furthest from being settled.
    double worst = 0.0;
    std::size_t which = 0;
    for (std::size_t d = 0; d < now.values.size(); ++d) {
      const double u = std::sqrt(spread(slope[d], slope[d])), value = now.values[d];
      // By how many times too unsure.
      double lacking = u / (good_turn * std::abs(value));
      if (d == 0) {
        lacking = 0.0;
        for (const double limit : {wanders, steers})
          lacking = std::max(lacking, 2.0 * u / std::abs(std::abs(value) - limit));
      }
      out.decisions.push_back({told(d, now, u), lacking < 1.0});
      if (lacking > worst) worst = lacking, which = d;
    }
    out.enough = worst < 1.0;
    if (!out.enough) out.next = next(slope[which], std::sqrt(spread(slope[which], slope[which])), which, now);
    return out;
  }

 private:
  // The job's cart with the surveyed points in, one coordinate moved, and its kits on.
  Worked worked(std::size_t moved, std::size_t axis, double by) const {
    std::vector<Change> changes;
    for (const std::size_t p : used_) {
      Vector3<Length> at = r_.searched.points[p].at;
      if (p == moved && by != 0.0) (axis == 0 ? at.x : axis == 1 ? at.y : at.z) += Length::from_si(by);
      Change change;
      change.path = *r_.becomes[p];
      change.value = PointValue{at, r_.searched.points[p].worst_u, Basis::measured, {}};
      change.mirror = change.path.starts_with("front.left.") && !job_.cart.front->right;
      changes.push_back(std::move(change));
    }
    const Cart cart = with_kits(trammel::apply(job_.cart, changes).cart, job_.kits);
    Worked w;
    const CartModel model = cart_model(cart);
    if (!model.front || !model.front->mechanism || !model.front->mechanism->check().empty()) return w;
    const Length up = cart.front->bump ? cart.front->bump->value : usual_travel,
                 down = cart.front->droop ? cart.front->droop->value : usual_travel;
    const auto steer = suspension::bump_steer(*model.front->mechanism, suspension::Side::left, -down, up);
    if (!steer.outcome.ok()) return w;
    w.values.push_back(steer.worst.si());
    const auto rates = model.front->mechanism->adjuster_rates(suspension::Side::left);
    const auto add = [&](const char* name, bool there, double rate) {
      if (there && rates.outcome.ok() && std::abs(rate) > 1e-6) w.values.push_back(rate), w.names.emplace_back(name);
    };
    const std::optional<Corner>& corner = cart.front->left;
    if (corner) {
      add("left-upper-arm", corner->upper_arm && corner->upper_arm->adjuster, rates.upper_arm.camber.si());
      add("left-strut-top", corner->strut && corner->strut->adjuster, rates.strut_top.camber.si());
      add("left-tie-rod", corner->tie_rod && corner->tie_rod->adjuster, rates.tie_rod.toe.si());
    }
    w.ok = true;
    return w;
  }

  double spread(const std::vector<double>& a, const std::vector<double>& b) const {
    const std::vector<double>& c = r_.searched.kept.covariance;
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
      for (std::size_t j = 0; a[i] != 0.0 && j < b.size(); ++j) sum += a[i] * c[i * a.size() + j] * b[j];
    return sum;
  }

  Message told(std::size_t d, const Worked& now, double u) const {
    if (d == 0) {
      const double rate = std::abs(now.values[0]);
      const auto angle = [&](double x, std::optional<double> spread = {}) {
        return Number{Kind::angle, x * over.si(), spread ? std::optional(*spread * over.si()) : std::nullopt};
      };
      return {"survey-decides-bump-steer",
              {{"value", angle(rate, u)},
               {"limit", angle(rate < 0.5 * (wanders + steers) ? wanders : steers)},
               {"over", number(over)}}};
    }
    return {"survey-decides-turn",
            {{"part", "@part-" + now.names[d - 1]},
             {"share", std::to_string(std::lround(1000.0 * u / std::abs(now.values[d])) / 10) + "." +
                           std::to_string(std::lround(1000.0 * u / std::abs(now.values[d])) % 10)},
             {"wanted", std::to_string(std::lround(100.0 * good_turn))}}};
  }

  Message next(const std::vector<double>& slope, double u, std::size_t d, const Worked& now) const {
    const auto& points = r_.survey.points;
    double most = 0.0;
    std::size_t from = 0, to = 1;
    for (std::size_t p = 0; p < points.size(); ++p)
      for (std::size_t q = p + 1; q < points.size(); ++q) {
        if (q < r_.datums) continue;
        const Vector3<Length> between = r_.searched.points[q].at - r_.searched.points[p].at;
        const double length = norm(between).si();
        if (length < 0.02) continue;
        std::vector<double> a(slope.size(), 0.0);
        const double unit[3] = {between.x.si() / length, between.y.si() / length, between.z.si() / length};
        for (std::size_t k = 0; k < 3; ++k) a[3 * p + k] = -unit[k], a[3 * q + k] = unit[k];
        const double along = spread(slope, a), gain = along * along / (r_.tape.si() * r_.tape.si() + spread(a, a));
        if (gain > most) most = gain, from = p, to = q;
      }
    const double after = std::sqrt(std::max(0.0, u * u - most));
    return {"survey-decides-next",
            {{"from", points[from].name},
             {"to", points[to].name},
             {"what", d == 0 ? std::string("@survey-bump-steer") : "@part-" + now.names[d - 1]},
             {"less", std::to_string(std::lround(100.0 * (1.0 - after / u)))}}};
  }

  const SurveyReport& r_;
  const Job job_;
  std::vector<std::size_t> used_;
};

}  // namespace

SurveyForJob survey_for_job(const SurveyReport& report, const Job& job) { return ForJob(report, job).run(); }

}  // namespace trammel
