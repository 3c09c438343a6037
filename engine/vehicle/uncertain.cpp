#include "vehicle/uncertain.h"

#include <cmath>

#include "measure/normal.h"

namespace trammel::vehicle {

double Uncertain::u() const {
  double sum = 0.0;
  for (const Share& s : shares_) sum += s.amount * s.amount;
  return std::sqrt(sum);
}

Uncertain Uncertain::chain(double f, double d) const {
  Uncertain r(f);
  r.shares_ = shares_;
  for (Share& s : r.shares_) s.amount *= d;
  return r;
}

Uncertain Uncertain::combined(double f, const Uncertain& a, double da, const Uncertain& b, double db) {
  Uncertain r(f);
  r.shares_.reserve(a.shares_.size() + b.shares_.size());
  auto i = a.shares_.begin();
  auto j = b.shares_.begin();
  while (i != a.shares_.end() || j != b.shares_.end()) {
    if (j == b.shares_.end() || (i != a.shares_.end() && i->source < j->source)) {
      r.shares_.push_back({i->source, da * i->amount});
      ++i;
    } else if (i == a.shares_.end() || j->source < i->source) {
      r.shares_.push_back({j->source, db * j->amount});
      ++j;
    } else {
      r.shares_.push_back({i->source, da * i->amount + db * j->amount});
      ++i, ++j;
    }
  }
  return r;
}

double covariance(const Uncertain& a, const Uncertain& b) {
  double sum = 0.0;
  auto j = b.shares().begin();
  for (const Uncertain::Share& s : a.shares()) {
    while (j != b.shares().end() && j->source < s.source) ++j;
    if (j == b.shares().end()) break;
    if (j->source == s.source) sum += s.amount * j->amount;
  }
  return sum;
}

double chance_above_zero(const Uncertain& margin) {
  const double u = margin.u();
  if (u == 0.0) return margin.value() > 0.0 ? 1.0 : 0.0;
  return normal_cdf(margin.value() / u);
}

Uncertain sqrt(const Uncertain& a) {
  const double s = std::sqrt(a.value());
  return a.chain(s, 0.5 / s);
}
Uncertain sin(const Uncertain& a) { return a.chain(std::sin(a.value()), std::cos(a.value())); }
Uncertain cos(const Uncertain& a) { return a.chain(std::cos(a.value()), -std::sin(a.value())); }
Uncertain tan(const Uncertain& a) {
  const double t = std::tan(a.value());
  return a.chain(t, 1.0 + t * t);
}
Uncertain asin(const Uncertain& a) {
  return a.chain(std::asin(a.value()), 1.0 / std::sqrt(1.0 - a.value() * a.value()));
}
Uncertain atan(const Uncertain& a) { return a.chain(std::atan(a.value()), 1.0 / (1.0 + a.value() * a.value())); }
Uncertain atan2(const Uncertain& y, const Uncertain& x) {
  const double r2 = x.value() * x.value() + y.value() * y.value();
  return Uncertain::combined(std::atan2(y.value(), x.value()), y, x.value() / r2, x, -y.value() / r2);
}

std::string Sources::largest_in(const Uncertain& result) const {
  const Uncertain::Share* largest = nullptr;
  for (const Uncertain::Share& s : result.shares())
    if (!largest || std::abs(s.amount) > std::abs(largest->amount)) largest = &s;
  return largest ? names_[largest->source] : std::string();
}

}  // namespace trammel::vehicle
