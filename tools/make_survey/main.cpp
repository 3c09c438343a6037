// Makes the survey that ships with an example cart, by simulation: its distances are never typed in.
//
//   make_survey CART.toml SEED > front-survey.toml
//
// The truth is the left front of the cart file. Four datums are read with a standard uncertainty of 1 mm a coordinate,
// every point is taped from each of them and some from each other, with 1.5 mm and to the whole millimetre. One reading
// is then an inch too long and one 10 mm too short.
#include <fmt/core.h>

#include <cmath>
#include <cstdlib>
#include <vector>

#include "setup/chance.h"
#include "shop/files.h"
#include "shop/open.h"

using namespace trammel;

namespace {

struct Mark {
  std::string name, becomes;
  Vector3<Length> at;
};

Vector3<Length> mm(double x, double y, double z) { return {x * units::mm, y * units::mm, z * units::mm}; }

std::vector<Mark> points_of(const Corner& c) {
  const std::string left = "front.left.";
  return {{"lower arm, front bush", left + "lower_arm.front_bush", c.lower_arm->front_bush.value},
          {"lower arm, rear bush", left + "lower_arm.rear_bush", c.lower_arm->rear_bush.value},
          {"lower ball joint", left + "lower_arm.ball_joint", c.lower_arm->ball_joint.value},
          {"upper arm, front bush", left + "upper_arm.front_bush", c.upper_arm->front_bush.value},
          {"upper arm, rear bush", left + "upper_arm.rear_bush", c.upper_arm->rear_bush.value},
          {"upper ball joint", left + "upper_arm.ball_joint", c.upper_arm->ball_joint.value},
          {"tie rod, rack end", left + "tie_rod.rack_end", c.tie_rod->rack_end.value},
          {"tie rod, knuckle end", left + "tie_rod.knuckle_end", c.tie_rod->knuckle_end.value},
          {"hub", left + "hub.centre", c.hub->centre.value},
          {"spring, top", left + "spring.chassis", c.spring->chassis.value}};
}

// Of a steered beam on leaf springs what alignment and the springs' path need: few points, near each other.
std::vector<Mark> points_of_beam(const Axle& a) {
  const std::string left = "front.left.";
  return {{"king pin, top", left + "kingpin.top", a.left->kingpin->top.value},
          {"king pin, bottom", left + "kingpin.bottom", a.left->kingpin->bottom.value},
          {"tie rod, left end", "front.tie_rod.left_end", a.tie_rod->left_end.value},
          {"drag link, axle end", "front.drag_link.axle_end", a.drag_link->axle_end.value},
          {"leaf, fixed eye", left + "leaf.fixed_eye", a.left->leaf->fixed_eye.value},
          {"leaf, shackled eye", left + "leaf.shackled_eye", a.left->leaf->shackled_eye.value}};
}

// Which points one tapes from each other: the ends of a part, and across from one part to the next.
using Pairs = std::vector<std::pair<int, int>>;
const Pairs of_beam = {{0, 1}, {0, 2}, {1, 2}, {0, 3}, {2, 3}, {1, 3}, {4, 5}, {0, 4},
                       {0, 5}, {1, 4}, {1, 5}, {2, 5}, {2, 4}, {3, 4}, {3, 5}};
const Pairs of_arms = {{0, 1}, {0, 2}, {1, 2}, {3, 4}, {3, 5}, {4, 5}, {6, 7}, {2, 5}, {2, 7}, {5, 7},
                       {2, 8}, {5, 8}, {7, 8}, {0, 3}, {1, 4}, {9, 2}, {9, 5}, {6, 1}, {6, 4}};

std::string whole_mm(Length l) { return fmt::format("{:.0f}", std::round(l.in(units::mm))); }
std::string place(const Vector3<Length>& p) {
  return whole_mm(p.x) + " " + whole_mm(p.y) + " " + whole_mm(p.z) + " mm";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    fmt::print(stderr, "make_survey CART.toml SEED\n");
    return 2;
  }
  const Loaded<Cart> cart = open_cart(argv[1], true);
  fmt::print(stderr, "{}", render(cart.diagnostics));
  if (!cart.value || !cart.value->front || !cart.value->front->left) return 2;
  const Corner& corner = *cart.value->front->left;
  const Axle& axle = *cart.value->front;
  const bool beam = corner.kingpin && corner.leaf && axle.tie_rod && axle.drag_link;
  if (!beam && (!corner.lower_arm || !corner.upper_arm || !corner.tie_rod || !corner.hub || !corner.spring)) return 2;

  const std::vector<Mark> datums = {{"floor mark ahead", "", mm(420, 620, 0)},
                                    {"floor mark behind", "", mm(-430, 640, 0)},
                                    {"frame, front crossmember", "", mm(330, 60, 395)},
                                    {"frame, rear crossmember", "", mm(-340, 70, 410)}};
  const std::vector<Mark> points = beam ? points_of_beam(axle) : points_of(corner);
  setup::Generator g(static_cast<std::uint64_t>(std::strtoull(argv[2], nullptr, 10)));

  fmt::print(
      "# The left front of {}, taped. Made by simulation from the points of the cart file (seed {}): every\n"
      "# distance with an error of 1.5 mm standard deviation, read to the millimetre; two of them misread on\n"
      "# purpose, one an inch too long and one 10 mm too short. `trammel survey` finds them.\n"
      "format = \"trammel survey 1\"\nname = \"{}, left front\"\nwanted = \"2 mm\"\n[tools]\ntape = \"1.5 mm\"\n",
      cart.value->name.value, argv[2], cart.value->name.value);
  fmt::print(
      "\n# Marks on floor and frame, each by square and plumb line from the floor and the cart's centre line.\n");
  for (const Mark& d : datums) {
    const Vector3<Length> error{setup::normal(g, 1.0 * units::mm), setup::normal(g, 1.0 * units::mm),
                                d.at.z.si() == 0.0 ? Length{} : setup::normal(g, 1.0 * units::mm)};
    fmt::print("[[datum]]\nname = \"{}\"\nat = \"{} ± 1 mm\"\n", d.name, place(d.at + error));
  }
  fmt::print("\n# Points to be found, and what they are in the cart file.\n");
  for (const Mark& p : points)
    fmt::print("[[point]]\nname = \"{}\"\nside = \"left\"\nbecomes = \"{}\"\n", p.name, p.becomes);

  // What the tape reads, and the two misreads.
  struct Read {
    const Mark *from, *to;
    Length length;
  };
  std::vector<Read> reads;
  const auto read = [&](const Mark& a, const Mark& b) {
    reads.push_back({&a, &b, norm(a.at - b.at) + setup::normal(g, 1.5 * units::mm)});
  };
  for (const Mark& p : points)
    for (const Mark& d : datums) read(d, p);
  for (const auto& [from, to] : beam ? of_beam : of_arms)
    read(points[static_cast<std::size_t>(from)], points[static_cast<std::size_t>(to)]);
  const std::size_t first = g() % reads.size();
  const std::size_t second = (first + 1 + g() % (reads.size() - 1)) % reads.size();
  reads[first].length += units::inch;
  reads[second].length -= 10.0 * units::mm;
  fmt::print("\n# Read on the tape, middle to middle.\n");
  for (const Read& r : reads)
    fmt::print("[[distance]]\nfrom = \"{}\"\nto = \"{}\"\nlength = \"{} mm\"\n", r.from->name, r.to->name,
               whole_mm(r.length));
  fmt::print(stderr, "misread: {} to {} by an inch, {} to {} by -10 mm\n", reads[first].from->name,
             reads[first].to->name, reads[second].from->name, reads[second].to->name);
  return 0;
}
