#include "assess/support.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "assess/masses.h"
#include "assess/procedure.h"
#include "vehicle/rolling_hold.h"
#include "vehicle/support.h"
#include "work/conflict.h"
#include "work/hold.h"
#include "work/walk.h"

namespace trammel {
namespace {

using vehicle::value_of;
using Lump = vehicle::LumpedMass<Un>;

// assumed, where the shop does not say
const Mass usual_stand = 1000.0 * units::kg, usual_jack = 1500.0 * units::kg;
const Length usual_height = 500.0 * units::mm, usual_base = 250.0 * units::mm, usual_bar = 500.0 * units::mm;
const Torque seized = 200.0 * units::Nm;
constexpr double slipping = 1.5, friction = 0.5;
// common practice, no source: a stand's rating half again its load; half again the bar's pull before it tips or rolls.
constexpr double in_hand = 1.5;

const char* statics =
    "statics; what is lifted is blocked at once: 29 CFR 1910.244(a) (from memory); in hand: common practice, no source";

struct End {
  std::string name;
  const std::optional<Axle>* axle;
  Length x, half_track;  // wheels on the floor
  vehicle::Rides rides;
};

// The worst of a kind over all steps, and where it is met.
struct Worst {
  std::optional<Number> value;
  Number limit;
  std::string step;

  void take(Number v, bool worse, const std::string& at) {
    if (value && !worse) return;
    value = v;
    step = at;
  }
  void most(Number v, const std::string& at) { take(v, value && v.si > value->si, at); }
  void least(Number v, const std::string& at) { take(v, value && v.si < value->si, at); }
};

class Stage {
 public:
  explicit Stage(Context& c) : c_(c) {
    const auto half = [](const std::optional<AxleModel>& m) { return m && m->half_track ? *m->half_track : Length{}; };
    ends_ = {End{"front", &c.before.front, Length{}, half(c.model_before.front), vehicle::Rides::front_unsprung},
             End{"rear", &c.before.rear, -1.0 * c.model_before.wheelbase, half(c.model_before.rear),
                 vehicle::Rides::rear_unsprung}};
    const MassModel model = mass_model(c.before, c.model_before, c.model_before, sources_);
    items_ = model.empty;
    inputs_ = model.inputs;
    for (const KitUse& use : c.job.kits)
      for (const Part& p : use.kit.part)
        if (p.mass) part_mass_[p.id.value] = &*p.mass;
    const auto taken = [&](const auto& v, auto usual, const char* name) {
      if (v)
        inputs_.push_back(input(std::string("shop.") + name, *v));
      else
        inputs_.push_back(assumed(std::string("shop.") + name, number(usual)));
      return v ? v->value : usual;
    };
    const Shop none, &shop = c.job.shop ? *c.job.shop : none;
    stand_ = taken(shop.stand_rating, usual_stand, "stand_rating");
    jack_ = taken(shop.jack_rating, usual_jack, "jack_rating");
    height_ = taken(shop.stand_height, usual_height, "stand_height");
    base_ = taken(shop.stand_base, usual_base, "stand_base");
    bar_ = vehicle::bar_pull(seized, taken(shop.bar, usual_bar, "bar"));
  }

  bool can(std::size_t end) const { return ends_[end].axle->has_value() && (*ends_[end].axle)->stand.has_value(); }

  // The cart at this state: nothing where it stands on its wheels. `step` is where the worst of each kind is told.
  std::optional<SupportView> view(const work::Roster& r, const work::State& s, const std::string& step) {
    step_ = step;
    const auto up = [&](std::size_t corner) { return s.corners[corner] != work::Support::on_wheels; };
    const bool front = up(0) || up(1), rear = up(2) || up(3);
    if (!front && !rear) return std::nullopt;
    SupportView v;
    v.up = front && rear ? "both" : front ? "front" : "rear";
    const vehicle::MassSum<Un> sum = all(r, s, v);
    Lump whole = sum.whole;
    for (std::size_t e : {std::size_t{0}, std::size_t{1}})
      if ((e == 0 ? front : rear) && axle_on_jack(r, s, e)) {
        const Lump axle = e == 0 ? sum.front_unsprung : sum.rear_unsprung;
        v.jack = number_of(axle.mass);
        jack_most_.most(number_of(axle.mass), step_);
        alignment(whole, axle, e, front && rear);
        whole = vehicle::without(whole, axle);
      }
    v.propped = other_props(r, s);
    v.cg_x = value_of(whole.at.x);
    v.cg_y = value_of(whole.at.y);
    stand_on(v, whole, s);
    if (v.up != "both") rolling(v, r, s);
    return v;
  }

  void worst() {
    const auto add = [&](const char* code, const char* subject, const Worst& worst, Number limit,
                         Finding::Sense sense) {
      if (!worst.value) return;
      LimitCheck check{code, subject, sense};
      check.value = *worst.value;
      check.limit = limit;
      check.source = statics;
      check.inputs = inputs_;
      Finding f = held_against(std::move(check));
      f.message.arguments.emplace_back("step", worst.step);
      c_.add(std::move(f));
    };
    using enum Finding::Sense;
    add("support-stand-load", "stand", most_, number((1.0 / in_hand) * stand_), at_most);
    add("support-jack-load", "jack", jack_most_, number((1.0 / in_hand) * jack_), at_most);
    add("support-jack-unloads", "jack", aligned_, aligned_.limit, at_most);
    if (least_load_.value && least_load_.value->si < 0.0)
      add("support-lifts-off", "stand", least_load_, number(Mass{}), at_least);
    add("support-tip", "whole cart", least_tip_, number(in_hand * slipping * bar_), at_least);
    add("support-roll", "whole cart", least_roll_, number(slipping * bar_), at_least);
  }

 private:
  // The empty cart with the kits' weighed parts off or on.
  vehicle::MassSum<Un> all(const work::Roster& r, const work::State& s, SupportView& v) {
    std::vector<vehicle::MassItem<Un>> items = items_;
    for (std::size_t i = 0; i < r.parts.size(); ++i) {
      const work::PartEntry& e = r.parts[i];
      const auto found = part_mass_.find(e.instance.group);
      const bool from_pack = r.procedure.parts[e.part].source == work::PartSource::in_pack;
      const bool on = s.parts[i] == work::PartState::on;
      const bool replaced = std::any_of(e.replaced_by.begin(), e.replaced_by.end(),
                                        [&](std::size_t p) { return s.parts[p] == work::PartState::on; });
      const bool here = e.instance.end == work::End::none || v.up == "both" ||
                        v.up == (e.instance.end == work::End::rear ? "rear" : "front");
      if (!from_pack && !on && !replaced && here) {
        auto& off = found == part_mass_.end() ? v.off_unweighed : v.off;
        if (off.empty() || off.back() != e.instance.group) off.push_back(e.instance.group);
      }
      if (found == part_mass_.end() || from_pack == !on) continue;
      const std::size_t end = e.instance.end == work::End::rear ? 1 : 0;
      const double side = e.instance.side == work::Side::left ? 1.0 : e.instance.side == work::Side::right ? -1.0 : 0.0;
      const Mass mass = found->second->value, u = found->second->u.value_or(Mass{});
      vehicle::MassItem<Un> item{e.name,
                                 sources_.input(e.name, mass, u),
                                 {vehicle::as<Un>(ends_[end].x), vehicle::as<Un>(side * ends_[end].half_track),
                                  items.empty() ? LengthOf<Un>{} : items.front().at.z},
                                 ends_[end].rides};
      if (!on) item.mass = Un(-1.0) * item.mass;
      items.push_back(std::move(item));
    }
    return vehicle::sum(items);
  }
  // "axle on jack", "rear axle on jack": that end's own weight is off the stands.
  bool axle_on_jack(const work::Roster& r, const work::State& s, std::size_t end) const {
    return std::any_of(r.conditions.begin(), r.conditions.end(), [&](const auto& c) {
      return c.name.ends_with("on jack") && (c.meaning.prop == "axle" || c.meaning.prop == ends_[end].name + " axle") &&
             work::condition_holds(r, s, static_cast<std::size_t>(&c - r.conditions.data()), work::Side::none);
    });
  }
  // Anything else on a jack or stand takes some of the weight too; how much is not told.
  std::vector<std::string> other_props(const work::Roster& r, const work::State& s) const {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < r.conditions.size(); ++i) {
      const std::string& prop = r.conditions[i].meaning.prop;
      if (!prop.empty() && !prop.ends_with("axle") && work::condition_holds(r, s, i, work::Side::none))
        out.push_back(prop);
    }
    return out;
  }

  Vector3<Length> stand(std::size_t end, double side) const {
    const auto& at = (*ends_[end].axle)->stand->value;
    return {at.x, side * at.y, Length{}};
  }

  // What one end of the cart stands on: its axle, a jack in its middle, stands, or a wheel and a stand or jack.
  struct Foot {
    enum class Kind { axle, wheel, jack, stand } kind = Kind::axle;
    std::string what;
    Vector3<Length> at;
  };
  std::vector<Foot> feet(std::size_t e, const work::State& s, bool other_up) const {
    const auto held = [&](std::size_t k) { return s.corners[2 * e + k]; };
    const End& end = ends_[e];
    const Vector3<Length> middle{end.x, Length{}, Length{}};
    if (held(0) == work::Support::on_wheels && held(1) == work::Support::on_wheels)
      return {{Foot::Kind::axle, end.name, middle}};
    const std::string before = other_up ? end.name + " " : "";
    if (held(0) == work::Support::jacked && held(1) == work::Support::jacked)
      return {{Foot::Kind::jack, before + "jack", middle}};
    std::vector<Foot> out;
    for (std::size_t k : {std::size_t{0}, std::size_t{1}}) {
      const std::string side = k == 0 ? "left" : "right";
      const double y = k == 0 ? 1.0 : -1.0;
      if (held(k) == work::Support::on_wheels)
        out.push_back({Foot::Kind::wheel, end.name + " " + side + " wheel", {end.x, y * end.half_track, Length{}}});
      else if (held(k) == work::Support::jacked)
        out.push_back({Foot::Kind::jack, before + "jack", stand(e, y)});
      else
        out.push_back({Foot::Kind::stand, before + side + " stand", stand(e, y)});
    }
    return out;
  }

  void stand_on(SupportView& v, const Lump& whole, const work::State& s) {
    const auto off_floor = [&](std::size_t e) {
      return s.corners[2 * e] != work::Support::on_wheels || s.corners[2 * e + 1] != work::Support::on_wheels;
    };
    std::vector<Foot> all = feet(0, s, off_floor(1));
    for (Foot& f : feet(1, s, off_floor(0))) all.push_back(std::move(f));
    std::vector<Vector3<LengthOf<Un>>> points;
    for (const Foot& f : all) points.push_back({vehicle::as<Un>(f.at.x), vehicle::as<Un>(f.at.y), {}});
    const auto loads = vehicle::loads_on<Un>(whole, points);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Foot& f = all[i];
      if (f.kind == Foot::Kind::axle) {
        const Length half = f.what == ends_[0].name ? ends_[0].half_track : ends_[1].half_track;
        const Number each = number_of(Un(0.5) * loads[i].even);
        v.points.push_back({f.what + " left wheel", f.at.x, half, each, {}});
        v.points.push_back({f.what + " right wheel", f.at.x, -1.0 * half, each, {}});
        continue;
      }
      Foothold hold{f.what, f.at.x, f.at.y, number_of(loads[i].even), {}};
      if (loads[i].least != loads[i].most) hold.range = LoadRange{number_of(loads[i].least), number_of(loads[i].most)};
      v.points.push_back(hold);
      if (f.kind == Foot::Kind::jack) jack_most_.most(number_of(loads[i].most), step_);
      if (f.kind != Foot::Kind::stand) continue;
      most_.most(number_of(loads[i].most), step_);
      least_load_.least(number_of(loads[i].least), step_);
    }
    // What the jack in an end's middle lifts before the stands are under it.
    for (std::size_t e : {std::size_t{0}, std::size_t{1}})
      if (s.corners[2 * e] != work::Support::on_wheels && s.corners[2 * e + 1] != work::Support::on_wheels)
        jack_most_.most(number(borne_alone(whole, e, off_floor(1 - e))), step_);
    pulls(v, whole);
  }
  // The load on one end, held in the middle of its axle: by moments about what the other end stands on.
  Mass borne_alone(const Lump& whole, std::size_t e, bool other_up) const {
    const Length other = other_up ? stand(1 - e, 1.0).x : ends_[1 - e].x;
    return value_of(whole.mass * ((whole.at.x - vehicle::as<Un>(other)) / vehicle::as<Un>(ends_[e].x - other)));
  }
  // Chocks and brake on the wheels that are on the floor, as the steps have them.
  void rolling(SupportView& v, const work::Roster& r, const work::State& s) {
    Force all{};
    for (std::size_t e : {std::size_t{0}, std::size_t{1}}) {
      const work::Hold hold = work::hold_of(r, s, e == 0 ? work::End::front : work::End::rear);
      std::array<vehicle::MassOf<Un>, 2> wheels{};
      for (const Foothold& f : v.points)
        for (std::size_t k : {std::size_t{0}, std::size_t{1}})
          if (f.what == ends_[e].name + (k == 0 ? " left wheel" : " right wheel"))
            wheels[k] = vehicle::as<Un>(Mass::from_si(f.load.si));
      const vehicle::AxleHold axle{hold.braked ? brake(e) : vehicle::BrakeReach::none, hold.chocked, hold.chocked};
      all = all + value_of(vehicle::axle_hold<Un>(axle, wheels[0], wheels[1], Un(friction)));
      v.chocked = v.chocked || hold.chocked;
      v.brake_holds = v.brake_holds || hold.braked;
    }
    v.roll = all;
    least_roll_.least(number(v.roll), step_);
  }
  // A jack under the axle, pumped on, ends with the stands bare: their load by moments about the other support.
  void alignment(const Lump& whole, const Lump& axle, std::size_t e, bool both_up) {
    const Mass bare = borne_alone(whole, e, both_up);
    const Number held = number_of(axle.mass), most = number((1.0 / in_hand) * bare);
    const bool worse = !aligned_.value || held.si * aligned_.limit.si > aligned_.value->si * most.si;
    aligned_.take(held, worse, step_);
    if (worse) aligned_.limit = most;
  }
  void pulls(SupportView& v, const Lump& whole) {
    v.bar = bar_;
    v.slip = slipping * bar_;
    v.tip = value_of(vehicle::pull_to_tip(whole.mass, vehicle::as<Un>(0.5 * base_), vehicle::as<Un>(height_)));
    std::vector<Vector3<LengthOf<Un>>> points;
    for (const Foothold& f : v.points) points.push_back({vehicle::as<Un>(f.x), vehicle::as<Un>(f.y), {}});
    const auto hold = vehicle::hold_on<Un>(whole, points);
    v.tip = std::min(v.tip, value_of(vehicle::pull_to_tip(whole, hold, vehicle::as<Un>(height_))));
    least_tip_.least(number(v.tip), step_);
  }
  vehicle::BrakeReach brake(std::size_t end) const {
    const auto& axle = *ends_[end].axle;
    if (!axle || !axle->brake || axle->brake->value == "none") return vehicle::BrakeReach::none;
    return axle->brake->value == "wheels" ? vehicle::BrakeReach::wheels : vehicle::BrakeReach::motor_shaft;
  }

  Context& c_;
  vehicle::Sources sources_;
  std::array<End, 2> ends_;
  std::vector<vehicle::MassItem<Un>> items_;
  std::vector<Input> inputs_;
  std::map<std::string, const Valued<Mass>*> part_mass_;
  Mass stand_, jack_;
  Length height_, base_;
  Force bar_;
  std::string step_;
  Worst most_, least_load_, jack_most_, least_tip_, least_roll_;
  Worst aligned_;  // a jack under an axle: what it bears, and what it may
};

bool alike(const SupportView& a, const SupportView& b) {
  if (a.up != b.up || a.points.size() != b.points.size() || a.jack.has_value() != b.jack.has_value() ||
      a.propped != b.propped)
    return false;
  for (std::size_t i = 0; i < a.points.size(); ++i)
    if (a.points[i].what != b.points[i].what || std::abs(a.points[i].load.si - b.points[i].load.si) > 0.5) return false;
  return true;
}

}  // namespace

void judge_support(Context& c) {
  if (c.out.steps.empty() || c.before.mass.empty() || !(c.model_before.wheelbase.si() > 0.0)) return;
  const work::Roster roster = work::make_roster(job_procedure(c.job).procedure);
  if (roster.order.size() != c.out.steps.size() || c.out.order.size() != c.out.steps.size()) return;
  std::vector<std::size_t> order;
  for (const StepInOrder& s : c.out.order) order.push_back(s.step);
  const work::Walk walk = work::walk(work::reordered(roster, order));
  Stage stage(c);

  // Where no place for stands is told there is nothing to compute.
  std::vector<std::string> missing;
  for (std::size_t e : {std::size_t{0}, std::size_t{1}})
    if (!stage.can(e) && std::any_of(walk.steps.begin(), walk.steps.end(), [&](const work::WalkedStep& s) {
          return work::support_of(s.after, e == 0 ? work::End::front : work::End::rear) != work::Support::on_wheels;
        }))
      missing.push_back(e == 0 ? "front.stand" : "rear.stand");
  if (!missing.empty()) return c.add(not_computed("loads on stands", missing));

  std::optional<SupportView> last;
  for (std::size_t i = 0; i < walk.steps.size(); ++i) {
    StepLine& line = c.out.steps[order[i]];
    // A step that lowers is told as it begins, any other as it ends.
    std::optional<SupportView> v = stage.view(walk.roster, walk.steps[i].after, line.id);
    if (!v) v = stage.view(walk.roster, walk.before(i), line.id);
    if (v) v->changed = !last || !alike(*v, *last);
    last = v;
    line.support = std::move(v);
  }
  stage.worst();
}

}  // namespace trammel
