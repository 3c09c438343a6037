#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/travel.h"
#include "suspension/geometry/pose_spread.h"

namespace trammel::cli {
namespace {

using suspension::AxlePose;
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
    case PoseStatus::relay_cannot_reach:
      return "pose-relay";
    case PoseStatus::shackle_cannot_reach:
    case PoseStatus::shackle_over_centre:
      return "pose-shackle";
    case PoseStatus::drag_link_cannot_reach:
      return "pose-drag-link";
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
  Json j = {{"camber_deg", degrees(g.camber)},
            {"toe_deg", degrees(g.toe)},
            {"half_track_m", g.half_track.si()},
            {"roll_centre_height_m", g.roll_centre_height.si()},
            {"camber_rate_deg_per_m", degrees_per_metre(g.camber_rate)},
            {"toe_rate_deg_per_m", degrees_per_metre(g.toe_rate)},
            {"motion_ratio", g.motion_ratio}};
  if (s.wheel.steered) {
    j["caster_deg"] = degrees(g.caster);
    j["steering_axis_inclination_deg"] = degrees(g.steering_axis_inclination);
    j["steering_axis_offset_at_ground_m"] = g.steering_axis_offset_at_ground.si();
    j["caster_trail_m"] = g.caster_trail.si();
  }
  if (s.spring_length) j["spring_length_m"] = s.spring_length->si();
  if (s.damper_length) j["damper_length_m"] = s.damper_length->si();
  for (const auto& p : s.points) j["points"][std::string(p.name)] = point(p.at);
  return j;
}

Json body(const suspension::LiveAxlePose& a, const Asked& asked) {
  if (!a.outcome.ok()) return json_of_outcome(a.outcome, asked.axle);
  return {{"long_shift_m", a.long_shift.si()},
          {"lateral_shift_m", a.lateral_shift.si()},
          {"steer_deg", degrees(a.steer)},
          {"pinion_nose_up_deg", degrees(a.pinion_nose_up)},
          {"roll_centre_height_m", a.roll_centre_height.si()},
          {"max_link_residual_m", a.max_link_residual.si()}};
}

Json document(const std::vector<AxlePose>& travel, const Asked& asked, bool steered) {
  Json j = {{"axle", asked.axle}, {"poses", Json::array()}};
  for (const AxlePose& p : travel) {
    Json pose = {{"rise_m", p.rise.si()}};
    if (steered) pose["rack_m"] = p.steer.si();
    if (asked.rolls_given || p.body) pose["roll_deg"] = degrees(p.roll);
    if (p.body) pose["axle"] = body(*p.body, asked);
    pose["left"] = side(p.left, "left");
    pose["right"] = side(p.right, "right");
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

void print_wheels(const Terminal& t, const std::vector<AxlePose>& travel) {
  std::vector<std::string> missed;
  std::vector<std::vector<std::string>> rows = {{say("travel-side"), say("travel-rise"), say("travel-rack"),
                                                 say("travel-camber"), say("travel-toe"), say("travel-toe-rate"),
                                                 say("travel-caster"), say("travel-half-track"), say("travel-offset"),
                                                 say("travel-trail"), say("travel-roll-centre"), say("travel-motion")}};
  for (const AxlePose& p : travel)
    for (const auto& [name, s] : {std::pair{"left", &p.left}, std::pair{"right", &p.right}}) {
      const auto& g = s->geometry;
      if (!s->outcome.ok()) {
        missed.push_back(word(message_of(s->outcome, name)));
        rows.push_back({say(std::string("side-") + name), mm(p.rise), mm(p.steer), "–"});
        continue;
      }
      // What this wheel does not have is not told: a steering axis, a spring.
      const bool axis = s->wheel.steered;
      const auto of_axis = [&](const std::string& text) { return axis ? text : "–"; };
      rows.push_back({say(std::string("side-") + name), mm(p.rise), of_axis(mm(p.steer)), deg(g.camber), deg(g.toe),
                      fmt::format("{:.1f}", degrees_per_metre(g.toe_rate)), of_axis(deg(g.caster)),
                      mm(abs(g.half_track)), of_axis(mm(g.steering_axis_offset_at_ground)), of_axis(mm(g.caster_trail)),
                      mm(g.roll_centre_height), s->spring_length ? fmt::format("{:.3f}", g.motion_ratio) : "–"});
    }
  fmt::print("{}", table(t, rows, 0));
  for (const std::string& m : missed) fmt::print("{}{}\n", t.mark(Outcome::stop), m);
}
void print_bodies(const Terminal& t, const std::vector<AxlePose>& travel, const std::string& axle) {
  std::vector<std::string> missed;
  std::vector<std::vector<std::string>> rows = {{say("travel-rise"), say("travel-roll"), say("travel-forward"),
                                                 say("travel-leftward"), say("travel-steer"), say("travel-nose-up"),
                                                 say("travel-roll-centre"), say("travel-residual")}};
  for (const AxlePose& p : travel) {
    if (!p.body->outcome.ok()) {
      missed.push_back(word(message_of(p.body->outcome, axle)));
      rows.push_back({mm(p.rise), deg(p.roll), "–"});
      continue;
    }
    rows.push_back({mm(p.rise), deg(p.roll), mm(p.body->long_shift), mm(p.body->lateral_shift),
                    fmt::format("{:.3f}", degrees(p.body->steer)), deg(p.body->pinion_nose_up),
                    mm(p.body->roll_centre_height), mm(p.body->max_link_residual)});
  }
  fmt::print("{}", table(t, rows, 0));
  for (const std::string& m : missed) fmt::print("{}{}\n", t.mark(Outcome::stop), m);
}

// What to set on the bench, each part with its length and how much that is against the old one.
void print_presets(const TravelAnswer& answer) {
  if (answer.presets.parts.empty()) return;
  const Terminal t;
  fmt::print("\n{}\n", t.wrapped(say("travel-presets", {{"camber", number(answer.presets.camber_wanted)},
                                                        {"toe", number(answer.presets.toe_wanted)}}),
                                 0, 0));
  for (const BenchPreset& p : answer.presets.parts)
    fmt::print("  {}\n", say(p.part == "tie_rod"     ? "travel-preset-rod"
                             : p.part == "strut_top" ? "travel-preset-strut"
                                                     : "travel-preset-arm",
                             {{"side", say(p.side == suspension::Side::left ? "side-left" : "side-right")},
                              {"length", mm(p.length)},
                              {"change", fmt::format("{:+.1f}", p.change.in(units::mm))}}));
}
Json presets(const TravelAnswer& answer) {
  Json j = Json::array();
  for (const BenchPreset& p : answer.presets.parts) {
    Json part = {{"side", p.side == suspension::Side::left ? "left" : "right"}, {"part", p.part}};
    if (p.length.si() > 0) part["length_m"] = p.length.si();
    part["change_m"] = p.change.si();
    j.push_back(std::move(part));
  }
  return j;
}

// Standard uncertainties of what is read from each pose, from those of the points.
Json spread_of(const suspension::AxleMechanism& axle, const std::vector<AxlePose>& poses, const Asked& asked,
               const std::vector<Length>& u, std::vector<std::vector<std::string>>& rows) {
  rows = {{say("travel-side"), say("travel-rise"), say("travel-rack"), say("travel-camber"), say("travel-toe"),
           say("travel-toe-rate"), say("travel-caster"), say("travel-half-track"), say("travel-offset"),
           say("travel-trail"), say("travel-roll-centre"), say("travel-motion")}};
  Json all = Json::array();
  for (const AxlePose& p : poses)
    for (const auto side : {suspension::Side::left, suspension::Side::right}) {
      const char* name = side == suspension::Side::left ? "left" : "right";
      const auto s = suspension::pose_spread(axle, side, {p.rise, p.roll, p.steer, asked.changes, asked.held}, u);
      if (!s.outcome.ok()) continue;
      const auto& g = s.u;
      const bool axis = p.side(side).wheel.steered;
      const auto of_axis = [&](const std::string& text) { return axis ? text : "–"; };
      rows.push_back({say(std::string("side-") + name), mm(p.rise), of_axis(mm(p.steer)), deg(g.camber), deg(g.toe),
                      fmt::format("{:.1f}", degrees_per_metre(g.toe_rate)), of_axis(deg(g.caster)), mm(g.half_track),
                      of_axis(mm(g.steering_axis_offset_at_ground)), of_axis(mm(g.caster_trail)),
                      mm(g.roll_centre_height), fmt::format("{:.3f}", g.motion_ratio)});
      all.push_back({{"rise_m", p.rise.si()},
                     {"side", name},
                     {"camber_deg", degrees(g.camber)},
                     {"toe_deg", degrees(g.toe)},
                     {"caster_deg", degrees(g.caster)},
                     {"steering_axis_inclination_deg", degrees(g.steering_axis_inclination)},
                     {"steering_axis_offset_at_ground_m", g.steering_axis_offset_at_ground.si()},
                     {"caster_trail_m", g.caster_trail.si()},
                     {"half_track_m", g.half_track.si()},
                     {"roll_centre_height_m", g.roll_centre_height.si()},
                     {"camber_rate_deg_per_m", degrees_per_metre(g.camber_rate)},
                     {"toe_rate_deg_per_m", degrees_per_metre(g.toe_rate)},
                     {"motion_ratio", g.motion_ratio}});
    }
  return all;
}

int show(const suspension::AxleMechanism& axle, const TravelAnswer& answer, const Asked& asked) {
  const std::vector<AxlePose> poses =
      suspension::travel(axle, {asked.rises, asked.rolls, asked.racks, asked.changes, asked.held});
  std::vector<std::vector<std::string>> spread_rows;
  const Json spread = asked.spread ? spread_of(axle, poses, asked, answer.point_u, spread_rows) : Json();
  if (asked.json) {
    Json j = document(poses, asked, axle.steered());
    if (!answer.presets.parts.empty()) j["bench_presets"] = presets(answer);
    if (asked.spread) j["standard_uncertainties"] = spread;
    print_json(j);
  } else {
    const Terminal t;
    if (axle.one_body()) print_bodies(t, poses, asked.axle);
    if (axle.steered() || !axle.one_body()) print_wheels(t, poses);
    if (asked.spread) fmt::print("\n{}\n{}", t.wrapped(say("travel-spread"), 0, 0), table(t, spread_rows, 0));
    print_presets(answer);
    fmt::print("\n{}\n", t.wrapped(say("travel-signs"), 0, 0));
  }
  for (const AxlePose& p : poses)
    if (!p.ok()) return 1;
  return 0;
}

// The axle at rest with each change alone: what that change does to what the wheel's curves are made of.
int show_each_change(const EachChange& each, const Asked& asked) {
  using What = ChangedAxle::What;
  const Terminal t;
  const Length ground = each.rows.front().ground;
  Json rows = Json::array();
  std::vector<std::vector<std::string>> table_rows = {
      {say("travel-change"), say("travel-body-up"), say("travel-toe-rate"), say("travel-camber-rate"),
       say("travel-caster"), say("travel-half-track"), say("travel-offset"), say("travel-trail"),
       say("travel-roll-centre"), say("travel-motion")}};
  for (const ChangedAxle& r : each.rows) {
    std::string name = r.path + (r.value.empty() ? "" : " " + r.value);
    if (r.what == What::stock) name = say("travel-as-it-stood");
    if (r.what == What::all) name = say("travel-all-changes");
    const double up = (ground - r.ground).si();
    Json j = {{"what", r.what == What::stock    ? "stock"
                       : r.what == What::change ? "change"
                       : r.what == What::kit    ? "kit"
                                                : "all"},
              {"path", r.path},
              {"value", r.value},
              {"body_up_m", up}};
    const AxlePose pose = r.axle ? r.axle->pose({}) : AxlePose{};
    if (!r.axle || !pose.ok()) {
      table_rows.push_back({name, mm(Length::from_si(up)), "–"});
      rows.push_back(std::move(j));
      continue;
    }
    const auto& g = pose.left.geometry;
    j["left"] = side(pose.left, "left");
    const bool steered = pose.left.wheel.steered;
    table_rows.push_back({name, mm(Length::from_si(up)), fmt::format("{:.1f}", degrees_per_metre(g.toe_rate)),
                          fmt::format("{:.1f}", degrees_per_metre(g.camber_rate)), steered ? deg(g.caster) : "–",
                          mm(abs(g.half_track)), steered ? mm(g.steering_axis_offset_at_ground) : "–",
                          steered ? mm(g.caster_trail) : "–", mm(g.roll_centre_height),
                          fmt::format("{:.3f}", g.motion_ratio)});
    rows.push_back(std::move(j));
  }
  if (asked.json)
    print_json({{"axle", asked.axle}, {"changes", rows}});
  else
    fmt::print("{}\n{}\n", table(t, table_rows, 0), t.wrapped(say("travel-each-note"), 0, 0));
  return 0;
}

}  // namespace

int travel(const Asked& asked) {
  if (asked.each_change) {
    const EachChange each = each_change({asked.path, asked.axle, false});
    fmt::print(stderr, "{}", render(each.diagnostics));
    for (const Message& m : each.faults) fmt::print(stderr, "{}: {}\n", asked.path, word(m));
    return each.rows.empty() || !each.faults.empty() ? 2 : show_each_change(each, asked);
  }
  const TravelAnswer answer = axle_to_move({asked.path, asked.axle, asked.stock});
  fmt::print(stderr, "{}", render(answer.diagnostics));
  for (const Message& m : answer.faults) fmt::print(stderr, "{}: {}\n", asked.path, word(m));
  return answer.axle ? show(*answer.axle, answer, asked) : 2;
}

}  // namespace trammel::cli
