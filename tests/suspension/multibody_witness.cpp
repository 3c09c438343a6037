#include "suspension/multibody_witness.h"

#include <algorithm>
#include <cmath>

#include "Simbody.h"

namespace witness {
namespace {

SimTK::Vec3 vec(const Point& p) { return SimTK::Vec3(p[0], p[1], p[2]); }
Point point(const SimTK::Vec3& v) { return {v[0], v[1], v[2]}; }

SimTK::Body::Rigid lump(const SimTK::Vec3& at) {
  return SimTK::Body::Rigid(SimTK::MassProperties(1.0, at, SimTK::Inertia(0.1, 0.1, 0.1).shiftFromMassCenter(at, 1.0)));
}

}  // namespace

struct Wishbone::Model {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Pin lower;
  SimTK::MobilizedBody::Slider rack;
  SimTK::MobilizedBody::Ball knuckle;
  SimTK::Constraint::Rod upper_front, upper_rear, tie;
  SimTK::State fitted, state;
  Corner c;
  double uf = 0, ur = 0, t = 0;

  explicit Model(const Corner& corner) : c(corner) {
    using namespace SimTK;
    const Vec3 axis = vec(c.lower_front) - vec(c.lower_rear);
    const Transform pin(Rotation(UnitVec3(axis), ZAxis), vec(c.lower_front));
    lower = MobilizedBody::Pin(matter.Ground(), pin, lump(vec(c.lower_ball)), pin);
    const Transform slide(Rotation(UnitVec3(0, 1, 0), XAxis), vec(c.rack_end));
    rack = MobilizedBody::Slider(matter.Ground(), slide, lump(vec(c.rack_end)), slide);
    knuckle = MobilizedBody::Ball(lower, Transform(vec(c.lower_ball)), lump(vec(c.hub)), Transform(vec(c.lower_ball)));
    uf = (vec(c.upper_ball) - vec(c.upper_front)).norm();
    ur = (vec(c.upper_ball) - vec(c.upper_rear)).norm();
    t = (vec(c.knuckle_end) - vec(c.rack_end)).norm();
    upper_front = Constraint::Rod(matter.Ground(), vec(c.upper_front), knuckle, vec(c.upper_ball), uf);
    upper_rear = Constraint::Rod(matter.Ground(), vec(c.upper_rear), knuckle, vec(c.upper_ball), ur);
    tie = Constraint::Rod(rack, vec(c.rack_end), knuckle, vec(c.knuckle_end), t);
    fitted = system.realizeTopology();
    system.realizeModel(fitted);
    state = fitted;
  }
};

Wishbone::Wishbone(const Corner& corner) : model_(std::make_unique<Model>(corner)) {}
Wishbone::~Wishbone() = default;

void Wishbone::start() { model_->state = model_->fitted; }

void Wishbone::lengthen(double upper_arm, double tie_rod) {
  Model& m = *model_;
  for (SimTK::State* s : {&m.state, &m.fitted}) {
    m.upper_front.setRodLength(*s, m.uf + upper_arm);
    m.upper_rear.setRodLength(*s, m.ur + upper_arm);
    m.tie.setRodLength(*s, m.t + tie_rod);
  }
}

CornerPose Wishbone::at_arm(double angle, double rack, double accuracy) {
  Model& m = *model_;
  CornerPose p;
  try {
    m.lower.lockAt(m.state, angle);
    m.rack.lockAt(m.state, rack);
    m.system.realize(m.state, SimTK::Stage::Position);
    m.system.projectQ(m.state, accuracy);
    m.system.realize(m.state, SimTK::Stage::Position);
  } catch (const std::exception&) { return p; }
  p.lower_ball = point(m.knuckle.findStationLocationInGround(m.state, vec(m.c.lower_ball)));
  p.upper_ball = point(m.knuckle.findStationLocationInGround(m.state, vec(m.c.upper_ball)));
  p.knuckle_end = point(m.knuckle.findStationLocationInGround(m.state, vec(m.c.knuckle_end)));
  p.hub = point(m.knuckle.findStationLocationInGround(m.state, vec(m.c.hub)));
  p.ok = true;
  return p;
}

CornerPose Wishbone::at_rise(double rise, double rack, double accuracy) {
  const double target = model_->c.hub[2] + rise;
  const double reach = std::max(0.05, std::abs(model_->c.lower_ball[1] - model_->c.lower_front[1]));
  double a = 0, b = rise / reach;
  CornerPose p = at_arm(a, rack, accuracy);
  if (!p.ok) return p;
  double fa = p.hub[2] - target;
  p = at_arm(b, rack, accuracy);
  for (int i = 0; i < 40 && p.ok; ++i) {
    const double fb = p.hub[2] - target;
    if (std::abs(fb) < 1e-12 || fb == fa) break;
    const double next = b - fb * (b - a) / (fb - fa);
    a = b;
    fa = fb;
    b = next;
    p = at_arm(b, rack, accuracy);
  }
  p.ok = p.ok && std::abs(p.hub[2] - target) < 1e-10;
  return p;
}

struct ArmLed::Model {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Pin arm;
  SimTK::MobilizedBody::Slider rack;
  SimTK::MobilizedBody knuckle;
  SimTK::State fitted;
  ArmCorner c;
};

ArmLed::ArmLed(const ArmCorner& c) : model_(std::make_unique<Model>()) {
  using namespace SimTK;
  Model& m = *model_;
  m.c = c;
  const Transform pin(Rotation(UnitVec3(vec(c.bush) - vec(c.other_bush)), ZAxis), vec(c.bush));
  m.arm = MobilizedBody::Pin(m.matter.Ground(), pin, lump(vec(c.lower)), pin);
  const Transform slide(Rotation(UnitVec3(0, 1, 0), XAxis), vec(c.rack_end));
  m.rack = MobilizedBody::Slider(m.matter.Ground(), slide, lump(vec(c.rack_end)), slide);
  if (c.kind == ArmCorner::strut) {
    m.knuckle = MobilizedBody::Ball(m.arm, Transform(vec(c.lower)), lump(vec(c.hub)), Transform(vec(c.lower)));
    Constraint::PointOnLine(m.knuckle, UnitVec3(vec(c.top) - vec(c.strut_lower)), vec(c.strut_lower), m.matter.Ground(),
                            vec(c.top));
  } else if (c.kind == ArmCorner::swing_axle) {
    const Transform kingpin(Rotation(UnitVec3(vec(c.top) - vec(c.lower)), ZAxis), vec(c.lower));
    m.knuckle = MobilizedBody::Pin(m.arm, kingpin, lump(vec(c.hub)), kingpin);
  } else {
    m.knuckle = m.arm;
  }
  if (c.kind != ArmCorner::trailing_arm)
    Constraint::Rod(m.rack, vec(c.rack_end), m.knuckle, vec(c.knuckle_end),
                    (vec(c.knuckle_end) - vec(c.rack_end)).norm());
  m.fitted = m.system.realizeTopology();
  m.system.realizeModel(m.fitted);
}
ArmLed::~ArmLed() = default;

ArmCornerPose ArmLed::walk(double angle, double rack) {
  Model& m = *model_;
  SimTK::State s = m.fitted;
  ArmCornerPose p;
  try {
    for (int i = 1; i <= 4; ++i) {
      m.arm.lockAt(s, angle * i / 4);
      m.rack.lockAt(s, rack * i / 4);
      m.system.realize(s, SimTK::Stage::Position);
      m.system.projectQ(s, 1e-13);
      m.system.realize(s, SimTK::Stage::Position);
    }
  } catch (const std::exception&) { return p; }
  const auto at = [&](const Point& a) { return point(m.knuckle.findStationLocationInGround(s, vec(a))); };
  p = {at(m.c.lower), at(m.c.top), at(m.c.knuckle_end), at(m.c.hub), at(m.c.spin), true};
  return p;
}

struct Axle::Model {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Slider z, x, y;
  SimTK::MobilizedBody::Pin yaw, pitch, roll;
  SimTK::State fitted;
};

Axle::Axle(const Point& centre, const std::array<Rod, 4>& rods) : model_(std::make_unique<Model>()) {
  using namespace SimTK;
  Model& m = *model_;
  const Vec3 c = vec(centre);
  const auto slide = [&](const Vec3& along) { return Transform(Rotation(UnitVec3(along), XAxis), c); };
  const auto pin = [&](const Vec3& about) { return Transform(Rotation(UnitVec3(about), ZAxis), c); };
  const Vec3 ex(1, 0, 0), ey(0, 1, 0), ez(0, 0, 1);
  m.z = MobilizedBody::Slider(m.matter.Ground(), slide(ez), lump(c), slide(ez));
  m.x = MobilizedBody::Slider(m.z, slide(ex), lump(c), slide(ex));
  m.y = MobilizedBody::Slider(m.x, slide(ey), lump(c), slide(ey));
  m.yaw = MobilizedBody::Pin(m.y, pin(ez), lump(c), pin(ez));
  m.pitch = MobilizedBody::Pin(m.yaw, pin(ey), lump(c), pin(ey));
  m.roll = MobilizedBody::Pin(m.pitch, pin(ex), lump(c), pin(ex));
  for (const Rod& r : rods)
    Constraint::Rod(m.matter.Ground(), vec(r.chassis), m.roll, vec(r.axle), (vec(r.axle) - vec(r.chassis)).norm());
  m.fitted = m.system.realizeTopology();
  m.system.realizeModel(m.fitted);
}
Axle::~Axle() = default;

AxlePlace Axle::at(double rise, double roll) {
  Model& m = *model_;
  SimTK::State s = m.fitted;
  AxlePlace p;
  try {
    for (int i = 1; i <= 4; ++i) {
      m.z.lockAt(s, rise * i / 4);
      m.roll.lockAt(s, roll * i / 4);
      m.system.realize(s, SimTK::Stage::Position);
      m.system.projectQ(s, 1e-13);
    }
  } catch (const std::exception&) { return p; }
  return {m.x.getOneQ(s, 0), m.y.getOneQ(s, 0), m.yaw.getOneQ(s, 0), m.pitch.getOneQ(s, 0), true};
}

struct Beam::Model {
  SimTK::MultibodySystem system;
  SimTK::SimbodyMatterSubsystem matter{system};
  SimTK::MobilizedBody::Slider z, x, y, block;
  SimTK::MobilizedBody::Pin yaw, pitch, roll, knuckle[2], arm;
  SimTK::Constraint::Rod tie, drag;
  SimTK::State fitted;
  Steering s;
  double tie_length = 0, drag_length = 0;
  bool slides = false;
};

Beam::Beam(const Point& centre, const std::array<Rod, 4>& rods, const Steering& steering)
    : model_(std::make_unique<Model>()) {
  using namespace SimTK;
  Model& m = *model_;
  m.s = steering;
  const Vec3 c = vec(centre);
  const auto slide = [&](const Vec3& along) { return Transform(Rotation(UnitVec3(along), XAxis), c); };
  const auto pin = [&](const Vec3& about, const Vec3& at) { return Transform(Rotation(UnitVec3(about), ZAxis), at); };
  const Vec3 ex(1, 0, 0), ey(0, 1, 0), ez(0, 0, 1);
  m.z = MobilizedBody::Slider(m.matter.Ground(), slide(ez), lump(c), slide(ez));
  m.x = MobilizedBody::Slider(m.z, slide(ex), lump(c), slide(ex));
  m.y = MobilizedBody::Slider(m.x, slide(ey), lump(c), slide(ey));
  m.yaw = MobilizedBody::Pin(m.y, pin(ez, c), lump(c), pin(ez, c));
  m.pitch = MobilizedBody::Pin(m.yaw, pin(ey, c), lump(c), pin(ey, c));
  m.roll = MobilizedBody::Pin(m.pitch, pin(ex, c), lump(c), pin(ex, c));
  for (const Rod& r : rods)
    Constraint::Rod(m.matter.Ground(), vec(r.chassis), m.roll, vec(r.axle), (vec(r.axle) - vec(r.chassis)).norm());
  for (int i = 0; i < 2; ++i) {
    const Vec3 bottom = vec(steering.king_pin_bottom[i]);
    const Transform t = pin(vec(steering.king_pin_top[i]) - bottom, bottom);
    m.knuckle[i] = MobilizedBody::Pin(m.roll, t, lump(vec(steering.hub[i])), t);
  }
  const Vec3 end = vec(steering.frame_end), shaft = vec(steering.shaft);
  m.slides = shaft.norm() == 0;
  m.tie_length = (vec(steering.tie_rod_end[0]) - vec(steering.tie_rod_end[1])).norm();
  m.drag_length = (vec(steering.ball) - end).norm();
  m.tie = Constraint::Rod(m.knuckle[0], vec(steering.tie_rod_end[0]), m.knuckle[1], vec(steering.tie_rod_end[1]),
                          m.tie_length);
  if (m.slides) {
    const Transform t(Rotation(UnitVec3(ey), XAxis), end);
    m.block = MobilizedBody::Slider(m.matter.Ground(), t, lump(end), t);
    m.drag = Constraint::Rod(m.block, end, m.knuckle[0], vec(steering.ball), m.drag_length);
  } else {
    const Transform t = pin(shaft, vec(steering.pivot));
    m.arm = MobilizedBody::Pin(m.matter.Ground(), t, lump(end), t);
    m.drag = Constraint::Rod(m.arm, end, m.knuckle[0], vec(steering.ball), m.drag_length);
  }
  m.fitted = m.system.realizeTopology();
  m.system.realizeModel(m.fitted);
}
Beam::~Beam() = default;

void Beam::lengthen(double tie_rod, double drag_link) {
  Model& m = *model_;
  m.tie.setRodLength(m.fitted, m.tie_length + tie_rod);
  m.drag.setRodLength(m.fitted, m.drag_length + drag_link);
}

SteeredPlace Beam::at(double rise, double roll, double steer) {
  Model& m = *model_;
  SimTK::State s = m.fitted;
  SteeredPlace p;
  try {
    for (int i = 1; i <= 6; ++i) {
      m.z.lockAt(s, rise * i / 6);
      m.roll.lockAt(s, roll * i / 6);
      if (m.slides)
        m.block.lockAt(s, steer * i / 6);
      else
        m.arm.lockAt(s, steer * i / 6);
      m.system.realize(s, SimTK::Stage::Position);
      m.system.projectQ(s, 1e-13);
    }
    m.system.realize(s, SimTK::Stage::Position);
  } catch (const std::exception&) { return p; }
  for (int i = 0; i < 2; ++i) {
    p.tie_rod_end[i] = point(m.knuckle[i].findStationLocationInGround(s, vec(m.s.tie_rod_end[i])));
    p.hub[i] = point(m.knuckle[i].findStationLocationInGround(s, vec(m.s.hub[i])));
  }
  p.ball = point(m.knuckle[0].findStationLocationInGround(s, vec(m.s.ball)));
  p.ok = true;
  return p;
}

LeafPlace leaf_at(const Leaf& leaf, double rise) {
  using namespace SimTK;
  MultibodySystem system;
  SimbodyMatterSubsystem matter(system);
  const auto pin = [&](const Point& at) { return Transform(Rotation(UnitVec3(0, -1, 0), ZAxis), vec(at)); };
  MobilizedBody::Pin link(matter.Ground(), pin(leaf.fixed_eye), lump(vec(leaf.pin)), pin(leaf.fixed_eye));
  MobilizedBody::Pin seat(link, pin(leaf.pin), lump(vec(leaf.seat)), pin(leaf.pin));
  MobilizedBody::Pin other(seat, pin(leaf.other_pin), lump(vec(leaf.shackled_eye)), pin(leaf.other_pin));
  Constraint::Rod(matter.Ground(), vec(leaf.shackle_pivot), other, vec(leaf.shackled_eye),
                  (vec(leaf.shackled_eye) - vec(leaf.shackle_pivot)).norm());
  Vector coefficients(3);
  coefficients[0] = leaf.other_half;
  coefficients[1] = -leaf.half;
  coefficients[2] = 0;
  Array_<MobilizedBodyIndex> bodies;
  bodies.push_back(seat.getMobilizedBodyIndex());
  bodies.push_back(other.getMobilizedBodyIndex());
  Array_<MobilizerQIndex> coordinates(2, MobilizerQIndex(0));
  Constraint::CoordinateCoupler(matter, new Function::Linear(coefficients), bodies, coordinates);
  State state = system.realizeTopology();
  system.realizeModel(state);

  LeafPlace p;
  const auto height = [&](double angle) {
    link.lockAt(state, angle);
    system.realize(state, Stage::Position);
    system.projectQ(state, 1e-13);
    system.realize(state, Stage::Position);
    return seat.findStationLocationInGround(state, vec(leaf.seat))[2] - leaf.seat[2];
  };
  try {
    for (int step = 1; step <= 4; ++step) {
      const double wanted = rise * step / 4;
      double a = link.getOneQ(state, 0), b = a + 1e-3;
      double fa = height(a) - wanted, fb = height(b) - wanted;
      for (int i = 0; i < 60 && std::abs(fb) > 1e-14 && fa != fb; ++i) {
        const double next = b - fb * (b - a) / (fb - fa);
        a = b;
        fa = fb;
        b = next;
        fb = height(b) - wanted;
      }
      if (std::abs(fb) > 1e-12) return p;
    }
  } catch (const std::exception&) { return p; }
  p.seat = point(seat.findStationLocationInGround(state, vec(leaf.seat)));
  p.shackled_eye = point(other.findStationLocationInGround(state, vec(leaf.shackled_eye)));
  p.ok = true;
  return p;
}

}  // namespace witness
