#include "assess/rear_alignment.h"
#include "assess/standing.h"

#include <algorithm>
#include <cmath>

namespace trammel {
namespace {

const Length assumed_point_u = 5.0 * units::mm, apart = 0.1 * units::mm;
const Angle usual_thrust = 0.25 * units::degree;
const Length usual_offset = 6.0 * units::mm;

// Steer and shift per metre that one link is longer.
struct LinkRate {
  double steer = 0.0, shift = 0.0;
};
std::optional<LinkRate> rate_of(const suspension::AxleMechanism& axle, std::size_t link) {
  suspension::AxleCoordinates longer, shorter;
  longer.changes.links.resize(link + 1);
  shorter.changes.links.resize(link + 1);
  longer.changes.links[link] = apart;
  shorter.changes.links[link] = -apart;
  const auto a = axle.pose(longer), b = axle.pose(shorter);
  if (!a.ok() || !b.ok() || !a.body || !b.body) return std::nullopt;
  const double step = 2.0 * apart.si();
  return LinkRate{(a.body->steer - b.body->steer).si() / step,
                  (a.body->lateral_shift - b.body->lateral_shift).si() / step};
}

// Standard uncertainties of the same, each coordinate of each point off by u.
LinkRate spread_of(const suspension::AxleMechanism& axle, std::size_t link, Length u) {
  LinkRate sum;
  std::vector<suspension::Hardpoint> points = axle.points();
  const auto nominal = rate_of(axle, link);
  for (suspension::Hardpoint& p : points)
    for (double Vector3<double>::*c : {&Vector3<double>::x, &Vector3<double>::y, &Vector3<double>::z}) {
      const double was = p.at.*c;
      p.at.*c = was + u.si();
      if (const auto moved = rate_of(*axle.with_points(points), link); moved && nominal) {
        sum.steer += std::pow(moved->steer - nominal->steer, 2);
        sum.shift += std::pow(moved->shift - nominal->shift, 2);
      }
      p.at.*c = was;
    }
  return {std::sqrt(sum.steer), std::sqrt(sum.shift)};
}

void add_links(JobRear& r, const Axle& axle, const suspension::AxleMechanism& mechanism) {
  // In the mechanism's order: links as they stand, the track bar last.
  std::vector<const Link*> links;
  for (const Link& link : axle.link)
    if (link.name.value != "track bar") links.push_back(&link);
  for (const Link& link : axle.link)
    if (link.name.value == "track bar") links.push_back(&link);
  for (std::size_t i = 0; i < links.size(); ++i) {
    const auto metres = [](const PointValue& p) {
      return Vector3<double>{p.value.x.si(), p.value.y.si(), p.value.z.si()};
    };
    const Vector3<double> body = metres(links[i]->chassis), end = metres(links[i]->axle);
    const setup::Side side = body.y + end.y > 0.0 ? setup::Side::left : setup::Side::right;
    auto fitted = fitted_adjuster(links[i]->adjuster, "link", side, body, end);
    const auto rate = rate_of(mechanism, i);
    if (!fitted || !rate) continue;
    fitted->part = links[i]->name.value;
    fitted->link = true;
    const Length u =
        std::max(links[i]->chassis.u.value_or(assumed_point_u), links[i]->axle.u.value_or(assumed_point_u));
    const LinkRate spread = spread_of(mechanism, i, u);
    const double turn = fitted->per_turn.si();
    r.task.adjusters.push_back({fitted->part, Angle::from_si(turn * rate->steer), Angle::from_si(turn * spread.steer),
                                Length::from_si(turn * rate->shift), Length::from_si(turn * spread.shift),
                                fitted->law.most_shorter, fitted->law.most_longer, fitted->law.flats_per_turn});
    r.adjusters.push_back(std::move(*fitted));
  }
}

template <class Q>
std::optional<Q> value(const std::optional<Valued<Q>>& given) {
  return given ? std::optional<Q>(given->value) : std::nullopt;
}
setup::RearReading reading(const RearReading& given) {
  setup::RearReading r;
  if (given.left_string_front && given.left_string_rear && given.right_string_front && given.right_string_rear &&
      given.string_diameter) {
    r.left_string = {given.left_string_front->value, given.left_string_rear->value};
    r.right_string = {given.right_string_front->value, given.right_string_rear->value};
    r.string_diameter = given.string_diameter->value;
  }
  if (given.left_length && given.right_length && given.marks_ahead && given.mark_out && given.end_out) {
    r.left_length = value(given.left_length);
    r.right_length = value(given.right_length);
    r.marks_ahead = given.marks_ahead->value;
    r.mark_out = given.mark_out->value;
    r.end_out = given.end_out->value;
    r.crossed = given.crossed && given.crossed->value;
    r.left_mark_above = value(given.left_mark_above).value_or(Length{});
    r.right_mark_above = value(given.right_mark_above).value_or(Length{});
  }
  r.left_to_frame = value(given.left_to_frame);
  r.right_to_frame = value(given.right_to_frame);
  if (given.repeats) r.repeats = given.repeats->value;
  return r;
}

}  // namespace

std::optional<JobRear> job_rear(const Job& job, const Cart& cart, const CartModel& model) {
  const auto tolerance = job.alignment ? job.alignment->tolerance : std::nullopt;
  const std::vector<const Event*> events = standing_events(job);
  const bool read = std::any_of(events.begin(), events.end(), [](const Event* e) {
    return std::holds_alternative<RearReading>(*e) || std::holds_alternative<RearAdjustment>(*e);
  });
  const bool wanted = tolerance && (tolerance->thrust || tolerance->rear_offset);
  if ((!read && !wanted) || !cart.rear) return std::nullopt;
  JobRear r;
  r.task.thrust = {-usual_thrust, usual_thrust};
  r.task.offset = setup::Band<Length>{-usual_offset, usual_offset};
  if (tolerance && tolerance->thrust) r.task.thrust = {tolerance->thrust->low, tolerance->thrust->high};
  if (tolerance && tolerance->rear_offset)
    r.task.offset = setup::Band<Length>{tolerance->rear_offset->low, tolerance->rear_offset->high};
  if (!wanted) r.notes.push_back({"rear-tolerance-assumed", {}});
  if (job.alignment && job.alignment->accept_at) r.task.accept_probability = job.alignment->accept_at->value;
  if (job.alignment && job.alignment->instruments) {
    const Instruments& tools = *job.alignment->instruments;
    if (tools.tape) r.task.instruments.tape.sd = tools.tape->value;
    if (tools.string) r.task.instruments.string.sd = tools.string->value;
    if (tools.turn_error) r.task.turn_error = tools.turn_error->value * units::turn;
  }
  r.leaf_springs = cart.rear->located_by && cart.rear->located_by->value == "leaf springs";
  if (model.rear && model.rear->mechanism && model.rear->mechanism->one_body() && !r.leaf_springs &&
      model.rear->mechanism->check().empty())
    add_links(r, *cart.rear, *model.rear->mechanism);

  // A mark that stands higher on one side only would pass for an axle out of square.
  const bool heights_wanted = std::any_of(events.begin(), events.end(), [](const Event* e) {
    const auto* given = std::get_if<RearReading>(e);
    return given && given->left_length && !given->left_mark_above;
  });
  if (heights_wanted) r.notes.push_back({"rear-heights-assumed", {}});

  r.bolts.resize(r.adjusters.size());
  for (const Event* event : events) {
    if (const auto* given = std::get_if<RearReading>(event)) r.events.emplace_back(reading(*given));
    const auto* turned = std::get_if<RearAdjustment>(event);
    if (!turned) continue;
    const auto at = std::find_if(r.adjusters.begin(), r.adjusters.end(),
                                 [&](const FittedAdjuster& a) { return a.part == turned->link.value; });
    if (at == r.adjusters.end()) {
      r.notes.push_back({"adjustment-of-nothing", {{"key", turned->link.value}}});
      continue;
    }
    const std::size_t j = static_cast<std::size_t>(at - r.adjusters.begin());
    r.events.emplace_back(setup::RearTurn{j, turns_of(turned->move, *at, r.bolts[j])});
  }
  return r;
}

}  // namespace trammel
