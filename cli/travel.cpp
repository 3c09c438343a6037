#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/travel.h"

namespace trammel::cli {
namespace {

using suspension::PoseOutcome;
using suspension::PoseStatus;

double degrees(Angle a) { return a.in(units::degree); }
double degrees_per_metre(AnglePerLength a) { return a.in(units::degree / units::metre); }

const char* code_of(PoseStatus status) {
  switch (status) {
    case PoseStatus::ok:
      return "pose-ok";
    case PoseStatus::lower_arm_cannot_reach:
      return "pose-lower-arm";
    case PoseStatus::upper_arm_cannot_reach:
      return "pose-upper-arm";
    case PoseStatus::tie_rod_cannot_reach:
      return "pose-tie-rod";
    case PoseStatus::link_cannot_reach:
      return "pose-link";
    case PoseStatus::length_too_short:
      return "pose-length-too-short";
    case PoseStatus::not_converged:
      return "pose-not-converged";
    case PoseStatus::bad_geometry:
      return "pose-bad-geometry";
  }
  return "pose-bad-geometry";
}

Message message_of(const PoseOutcome& o, const std::string& side) {
  Message m{code_of(o.status), {{"side", side}}};
  if (o.rise_limit)
    m.arguments.emplace_back("limit", number(*o.rise_limit));
  else if (o.rack_limit)
    m.arguments.emplace_back("limit", number(*o.rack_limit));
  else
    m.arguments.emplace_back("limit", say("limit-not-known"));
  return m;
}

Json point(const Vector3<double>& p) { return {p.x, p.y, p.z}; }

Json json_of_outcome(const PoseOutcome& o, const std::string& side) {
  Json j = {{"outcome", code_of(o.status)}, {"text", word(message_of(o, side))}};
  if (o.rise_limit) j["rise_limit_m"] = o.rise_limit->si();
  if (o.rack_limit) j["rack_limit_m"] = o.rack_limit->si();
  return j;
}

Json side(const suspension::SidePose& s, const char* name) {
  if (!s.outcome.ok()) return json_of_outcome(s.outcome, name);
  const auto& g = s.geometry;
  return {{"camber_deg", degrees(g.camber)},
          {"toe_deg", degrees(g.toe)},
          {"caster_deg", degrees(g.caster)},
          {"steering_axis_inclination_deg", degrees(g.steering_axis_inclination)},
          {"steering_axis_offset_at_ground_m", g.steering_axis_offset_at_ground.si()},
          {"caster_trail_m", g.caster_trail.si()},
          {"half_track_m", g.half_track.si()},
          {"roll_centre_height_m", g.roll_centre_height.si()},
          {"camber_rate_deg_per_m", degrees_per_metre(g.camber_rate)},
          {"toe_rate_deg_per_m", degrees_per_metre(g.toe_rate)},
          {"motion_ratio", g.motion_ratio},
          {"points",
           {{"lower_arm.ball_joint", point(s.points.lower_ball_joint)},
            {"upper_arm.ball_joint", point(s.points.upper_ball_joint)},
            {"tie_rod.knuckle_end", point(s.points.tie_rod_knuckle_end)},
            {"hub.centre", point(s.points.hub_centre)}}}};
}

Json document(const suspension::Travel& travel, const Asked& asked) {
  Json j = {{"axle", asked.axle}, {"poses", Json::array()}};
  for (const auto& p : travel.poses) {
    Json pose = {{"rise_m", p.rise.si()}, {"rack_m", p.rack.si()}};
    if (asked.rolls_given) pose["roll_deg"] = degrees(p.roll);
    pose["left"] = side(p.left, "left");
    pose["right"] = side(p.right, "right");
    j["poses"].push_back(std::move(pose));
  }
  return j;
}
Json document(const suspension::AxleTravel& travel, const Asked& asked) {
  Json j = {{"axle", asked.axle}, {"poses", Json::array()}};
  for (const auto& p : travel.poses) {
    Json pose = {{"rise_m", p.rise.si()}, {"roll_deg", degrees(p.roll)}};
    if (p.axle.outcome.ok())
      pose["axle"] = {{"long_shift_m", p.axle.long_shift.si()},
                      {"lateral_shift_m", p.axle.lateral_shift.si()},
                      {"steer_deg", degrees(p.axle.steer)},
                      {"pinion_nose_up_deg", degrees(p.axle.pinion_nose_up)},
                      {"roll_centre_height_m", p.axle.roll_centre_height.si()},
                      {"max_link_residual_m", p.axle.max_link_residual.si()}};
    else
      pose["axle"] = json_of_outcome(p.axle.outcome, asked.axle);
    j["poses"].push_back(std::move(pose));
  }
  return j;
}

// A rounded nought has no sign.
std::string plain(const std::string& text) {
  return text.find_first_of("123456789") == std::string::npos && text.starts_with('-') ? text.substr(1) : text;
}
std::string mm(Length l) { return plain(fmt::format("{:.1f}", l.in(units::mm))); }
std::string deg(Angle a) { return plain(fmt::format("{:.2f}", degrees(a))); }

void print_table(const Terminal& t, const suspension::Travel& travel) {
  std::vector<std::string> missed;
  std::vector<std::vector<std::string>> rows = {{say("travel-side"), say("travel-rise"), say("travel-rack"),
                                                 say("travel-camber"), say("travel-toe"), say("travel-toe-rate"),
                                                 say("travel-caster"), say("travel-half-track"), say("travel-offset"),
                                                 say("travel-trail"), say("travel-roll-centre"), say("travel-motion")}};
  for (const auto& p : travel.poses)
    for (const auto& [name, s] : {std::pair{"left", &p.left}, std::pair{"right", &p.right}}) {
      const auto& g = s->geometry;
      if (!s->outcome.ok()) {
        missed.push_back(word(message_of(s->outcome, name)));
        rows.push_back({say(std::string("side-") + name), mm(p.rise), mm(p.rack), "–"});
        continue;
      }
      rows.push_back({say(std::string("side-") + name), mm(p.rise), mm(p.rack), deg(g.camber), deg(g.toe),
                      fmt::format("{:.1f}", degrees_per_metre(g.toe_rate)), deg(g.caster), mm(abs(g.half_track)),
                      mm(g.steering_axis_offset_at_ground), mm(g.caster_trail), mm(g.roll_centre_height),
                      fmt::format("{:.3f}", g.motion_ratio)});
    }
  fmt::print("{}", table(t, rows, 0));
  for (const std::string& m : missed) fmt::print("{}{}\n", t.mark(Outcome::stop), m);
}
void print_table(const Terminal& t, const suspension::AxleTravel& travel) {
  std::vector<std::string> missed;
  std::vector<std::vector<std::string>> rows = {{say("travel-rise"), say("travel-roll"), say("travel-forward"),
                                                 say("travel-leftward"), say("travel-steer"), say("travel-nose-up"),
                                                 say("travel-roll-centre"), say("travel-residual")}};
  for (const auto& p : travel.poses) {
    if (!p.axle.outcome.ok()) {
      missed.push_back(word(message_of(p.axle.outcome, "rear")));
      rows.push_back({mm(p.rise), deg(p.roll), "–"});
      continue;
    }
    rows.push_back({mm(p.rise), deg(p.roll), mm(p.axle.long_shift), mm(p.axle.lateral_shift),
                    fmt::format("{:.3f}", degrees(p.axle.steer)), deg(p.axle.pinion_nose_up),
                    mm(p.axle.roll_centre_height), mm(p.axle.max_link_residual)});
  }
  fmt::print("{}", table(t, rows, 0));
  for (const std::string& m : missed) fmt::print("{}{}\n", t.mark(Outcome::stop), m);
}

bool all_reached(const suspension::Travel& travel) {
  for (const auto& p : travel.poses)
    if (!p.left.outcome.ok() || !p.right.outcome.ok()) return false;
  return true;
}
bool all_reached(const suspension::AxleTravel& travel) {
  for (const auto& p : travel.poses)
    if (!p.axle.outcome.ok()) return false;
  return true;
}

template <class T>
int show(const T& travel, const Asked& asked) {
  if (asked.json)
    print_json(document(travel, asked));
  else {
    const Terminal t;
    print_table(t, travel);
    fmt::print("\n{}\n", t.wrapped(say("travel-signs"), 0, 0));
  }
  return all_reached(travel) ? 0 : 1;
}

}  // namespace

int travel(const Asked& asked) {
  const TravelAnswer answer = move_axle(
      {asked.path, asked.axle, asked.stock, asked.rises, asked.racks, asked.rolls, asked.changes, asked.held});
  fmt::print(stderr, "{}", render(answer.diagnostics));
  for (const Message& m : answer.faults) fmt::print(stderr, "{}: {}\n", asked.path, word(m));
  if (const auto* t = std::get_if<suspension::Travel>(&answer.travel)) return show(*t, asked);
  if (const auto* t = std::get_if<suspension::AxleTravel>(&answer.travel)) return show(*t, asked);
  return 2;
}

}  // namespace trammel::cli
