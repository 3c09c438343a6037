#include "assess/travel_curves.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>

#include "assess/geometry.h"
#include "assess/point_uncertainty.h"

namespace trammel {
namespace {

using suspension::AxleMechanism;
using suspension::AxlePose;
using suspension::Hardpoint;
using suspension::LiveAxlePose;
using suspension::SidePose;
using V = Vector3<double>;

enum class Of { wheel, steered_wheel, sprung_wheel, body };
struct ReadOut {
  const char* name;
  Kind kind;
  Of of;
  double (*wheel)(const SidePose&);
  double (*body)(const LiveAxlePose&);
};
const std::array read_outs = {
    ReadOut{"camber", Kind::angle, Of::wheel, [](const SidePose& s) { return s.geometry.camber.si(); }, nullptr},
    ReadOut{"toe", Kind::angle, Of::wheel, [](const SidePose& s) { return s.geometry.toe.si(); }, nullptr},
    ReadOut{"caster", Kind::angle, Of::steered_wheel, [](const SidePose& s) { return s.geometry.caster.si(); },
            nullptr},
    ReadOut{"inclination", Kind::angle, Of::steered_wheel,
            [](const SidePose& s) { return s.geometry.steering_axis_inclination.si(); }, nullptr},
    ReadOut{"half-track", Kind::length, Of::wheel,
            [](const SidePose& s) { return std::abs(s.geometry.half_track.si()); }, nullptr},
    ReadOut{"offset", Kind::length, Of::steered_wheel,
            [](const SidePose& s) { return s.geometry.steering_axis_offset_at_ground.si(); }, nullptr},
    ReadOut{"trail", Kind::length, Of::steered_wheel, [](const SidePose& s) { return s.geometry.caster_trail.si(); },
            nullptr},
    ReadOut{"roll-centre", Kind::length, Of::wheel,
            [](const SidePose& s) { return s.geometry.roll_centre_height.si(); }, nullptr},
    ReadOut{"motion-ratio", Kind::ratio, Of::sprung_wheel, [](const SidePose& s) { return s.geometry.motion_ratio; },
            nullptr},
    ReadOut{"side-shift", Kind::length, Of::body, nullptr, [](const LiveAxlePose& b) { return b.lateral_shift.si(); }},
    ReadOut{"forward-shift", Kind::length, Of::body, nullptr, [](const LiveAxlePose& b) { return b.long_shift.si(); }},
    ReadOut{"axle-steer", Kind::angle, Of::body, nullptr, [](const LiveAxlePose& b) { return b.steer.si(); }},
    ReadOut{"nose-up", Kind::angle, Of::body, nullptr, [](const LiveAxlePose& b) { return b.pinion_nose_up.si(); }}};

// Of one side, or of the body; a rigid axle that does not steer is told by its body and its roll centre alone.
struct Wanted {
  const ReadOut* reading;
  suspension::Side side;
};
bool has(const ReadOut& r, const AxleMechanism& axle, const AxlePose& rest) {
  const bool steered = rest.left.wheel.steered, rigid = axle.one_body();
  switch (r.of) {
    case Of::body:
      return rigid && !(steered && std::string_view(r.name) == "axle-steer");
    case Of::steered_wheel:
      return steered;
    case Of::sprung_wheel:
      return rest.left.spring_length.has_value();
    case Of::wheel:
      return !rigid || steered || std::string_view(r.name) == "roll-centre";
  }
  return false;
}

double read(const Wanted& w, const AxlePose& pose) {
  return w.reading->wheel ? w.reading->wheel(pose.side(w.side)) : w.reading->body(*pose.body);
}

// Every wanted number at every rise, row by row; not a number where the axle does not reach.
using Table = std::vector<double>;
Table table(const AxleMechanism& axle, const std::vector<Wanted>& wanted, const std::vector<Length>& rises) {
  Table t;
  for (const Length rise : rises) {
    const AxlePose pose = axle.pose({rise});
    for (const Wanted& w : wanted) t.push_back(pose.ok() ? read(w, pose) : NAN);
  }
  return t;
}

struct Known {
  std::shared_ptr<const AxleMechanism> axle;
  std::vector<Hardpoint> points;
  std::vector<Length> u;
  TravelRange range;
};
std::optional<Known> known(const Cart& cart, const std::string& name) {
  const auto& axle = name == "front" ? cart.front : cart.rear;
  const auto model = axle_model(axle, name == "front");
  if (!model || !model->mechanism || !model->check().empty()) return std::nullopt;
  return Known{model->mechanism, model->mechanism->points(), point_uncertainties(*axle, *model->mechanism),
               travel_range(*axle, name)};
}

// The change of every number by one standard uncertainty of one coordinate.
Table share(const Known& k, std::size_t point, double V::*coordinate, const std::vector<Wanted>& wanted,
            const std::vector<Length>& rises) {
  const double step = 0.1 * k.u[point].si();
  std::vector<Hardpoint> moved = k.points;
  moved[point].at.*coordinate += step;
  Table up = table(*k.axle->with_points(moved), wanted, rises);
  moved[point].at.*coordinate = k.points[point].at.*coordinate - step;
  const Table down = table(*k.axle->with_points(moved), wanted, rises);
  for (std::size_t i = 0; i < up.size(); ++i) up[i] = 5.0 * (up[i] - down[i]);
  return up;
}

struct Squares {
  Table now, stock, difference;
};
void add(Squares& sum, const Table* now, const Table* stock) {
  for (std::size_t i = 0; i < sum.now.size(); ++i) {
    const double n = now && std::isfinite((*now)[i]) ? (*now)[i] : 0.0;
    const double s = stock && std::isfinite((*stock)[i]) ? (*stock)[i] : 0.0;
    sum.now[i] += n * n, sum.stock[i] += s * s, sum.difference[i] += (n - s) * (n - s);
  }
}

Squares spread(const Known& now, const std::optional<Known>& stock, const std::vector<Wanted>& wanted,
               const std::vector<Length>& rises, bool left_only) {
  const Table nought(wanted.size() * rises.size(), 0.0);
  Squares sum{nought, nought, nought};
  constexpr std::array coordinates = {&V::x, &V::y, &V::z};
  const auto counts = [&](const Known& k, std::size_t i) {
    return k.u[i].si() > 0.0 && !(left_only && k.points[i].name.starts_with("right."));
  };
  std::vector<bool> shared(stock ? stock->points.size() : 0, false);
  for (std::size_t i = 0; i < now.points.size(); ++i) {
    if (!counts(now, i)) continue;
    // The same point in the stock cart, where no kit has moved it.
    std::size_t same = shared.size();
    for (std::size_t j = 0; j < shared.size(); ++j)
      if (stock->points[j].name == now.points[i].name && norm(stock->points[j].at - now.points[i].at) < 1e-6 &&
          stock->u[j] == now.u[i])
        same = j;
    if (same < shared.size()) shared[same] = true;
    for (const auto coordinate : coordinates) {
      const Table n = share(now, i, coordinate, wanted, rises);
      if (same == shared.size()) {
        add(sum, &n, nullptr);
        continue;
      }
      const Table s = share(*stock, same, coordinate, wanted, rises);
      add(sum, &n, &s);
    }
  }
  for (std::size_t j = 0; j < shared.size(); ++j)
    if (!shared[j] && counts(*stock, j))
      for (const auto coordinate : coordinates) {
        const Table s = share(*stock, j, coordinate, wanted, rises);
        add(sum, nullptr, &s);
      }
  return sum;
}

// Round steps of rise, the rest and both ends of the travel among them.
std::vector<Length> round_rises(const TravelRange& range) {
  const double step = range.highest - range.lowest > 100.0 * units::mm ? 0.005 : 0.0025;
  std::vector<Length> rises{range.lowest};
  for (int i = static_cast<int>(std::floor(range.lowest.si() / step)); i * step < range.highest.si(); ++i)
    if (i * step > range.lowest.si() + 1e-9) rises.push_back(Length::from_si(i * step));
  rises.push_back(range.highest);
  return rises;
}

}  // namespace

std::vector<std::string> curve_names() {
  std::vector<std::string> names;
  for (const ReadOut& r : read_outs) names.emplace_back(r.name);
  return names;
}

std::vector<TravelCurve> travel_curves(const Cart& stock_cart, const Cart& now_cart, const std::string& axle) {
  const auto now = known(now_cart, axle);
  if (!now) return {};
  auto stock = known(stock_cart, axle);
  if (stock && stock->axle->one_body() != now->axle->one_body()) stock.reset();
  const AxlePose rest = now->axle->pose({});
  if (!rest.ok()) return {};
  const std::vector<Length> rises = round_rises(now->range);

  // The right side only where it is not the left one's mirror image.
  std::vector<Wanted> wanted;
  for (const ReadOut& r : read_outs)
    if (has(r, *now->axle, rest)) wanted.push_back({&r, suspension::Side::left});
  const std::size_t lefts = wanted.size();
  for (std::size_t i = 0; i < lefts; ++i)
    if (wanted[i].reading->wheel && std::string_view(wanted[i].reading->name) != "roll-centre")
      wanted.push_back({wanted[i].reading, suspension::Side::right});
  const auto same = [&](const Table& t, std::size_t left, std::size_t right) {
    for (std::size_t r = 0; r < rises.size(); ++r)
      if (std::abs(t[r * wanted.size() + left] - t[r * wanted.size() + right]) > 1e-9) return false;
    return true;
  };
  const Table both = table(*now->axle, wanted, rises);
  bool mirror = true;
  for (std::size_t i = lefts; i < wanted.size(); ++i)
    for (std::size_t l = 0; l < lefts; ++l)
      if (wanted[l].reading == wanted[i].reading) mirror &= same(both, l, i);
  if (mirror) wanted.resize(lefts);

  const Table values = table(*now->axle, wanted, rises);
  const Table were = stock ? table(*stock->axle, wanted, rises) : Table(values.size(), NAN);
  const Squares squares = spread(*now, stock, wanted, rises, mirror && !now->axle->one_body());

  std::vector<TravelCurve> all;
  for (std::size_t w = 0; w < wanted.size(); ++w) {
    const ReadOut& r = *wanted[w].reading;
    TravelCurve c{r.name, r.body ? "axle" : wanted[w].side == suspension::Side::left ? "left" : "right", r.kind, {}, {},
                  {}};
    for (std::size_t i = 0; i < rises.size(); ++i) {
      const std::size_t k = i * wanted.size() + w;
      if (!std::isfinite(values[k])) continue;
      c.now.push_back({rises[i], values[k], std::sqrt(squares.now[k])});
      if (!std::isfinite(were[k])) continue;
      c.stock.push_back({rises[i], were[k], std::sqrt(squares.stock[k])});
      c.difference.push_back({rises[i], values[k] - were[k], std::sqrt(squares.difference[k])});
    }
    if (!c.now.empty()) all.push_back(std::move(c));
  }
  return all;
}

}  // namespace trammel
