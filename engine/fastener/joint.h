// A joint as a stack, read from head to nut (or to the thread it is screwed into).
//
// Text form: pieces with commas between, each in the trade's own words:
//   bolt M10x40 8.8 zinc [AF 16] | screw … | stud … | u-bolt M10 8.8   the threaded part
//   washer [2 mm] | NAME 10 mm [material] | box NAME 40 mm wall 3 mm [width 50 mm] | sleeve [NAME] 34 mm [outside 16
//   mm] taper NAME 14 mm                                                   a ball stud's seat, drawn in by its nut …
//   hole 11 mm, edge 20 mm (hole's middle to the part's edge), seat cone 60 deg | seat ball | seat flat (a wheel) nut
//   [8] | prevailing-torque nut 8 | jam nut | castle nut | flange nut | wheel nut cone 60 deg | wheel nut ball NAME
//   thread 18 mm [material] [blind] [drill 8.5 mm]                a tapped part
// The threaded part comes first; a nut or a tapped part ends the grip, and only nuts come behind a nut. A piece that
// cannot be read is an error with its place in the text; nothing is skipped. A part's name is the trade's own, but none
// is one slip away from a word that opens a piece ("wahser"), and a hole belongs to the part before its comma.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fastener/thread.h"

namespace trammel::fastener {

enum class BoltKind { bolt, screw, stud, u_bolt };
enum class Finish { not_stated, plain, black, zinc, cadmium, stainless };
enum class Material { steel, cast_iron, ductile_iron, aluminium, stainless, plastic, rubber };
enum class NutKind { plain, prevailing, jam, castle, flange, wheel };
enum class SeatShape { flat, cone, ball };
struct Seat {
  SeatShape shape = SeatShape::flat;
  std::optional<Angle> cone;  // whole angle
};

struct Bolt {
  BoltKind kind = BoltKind::bolt;
  Thread thread;
  std::optional<Length> length;  // under the head
  bool of_wheel = false;         // "wheel stud", "wheel bolt"
  std::string bolt_class;        // "8.8", "grade 5", empty where not stated
  Finish finish = Finish::not_stated;
  std::optional<Length> across_flats;
};
struct Washer {
  std::optional<Length> thickness;  // the standard's where not stated
};
struct Member {
  std::string name;
  Length thickness;
  std::optional<Material> material;
  std::optional<Length> wall, width;  // of a box section; as wide as it is high where not stated
  bool sleeve = false;                // stands inside a box: takes the clamp load, adds no grip
  bool taper = false;
  std::optional<Length> outside;  // of a sleeve
  std::optional<Length> hole, edge;
  std::optional<Seat> seat;  // of a wheel's disc
};
struct TappedPart {
  std::string name;
  Length depth;  // of full thread
  std::optional<Material> material;
  bool blind = false;
  std::optional<Length> drill;
};
struct Nut {
  NutKind kind = NutKind::plain;
  std::string nut_class;  // "8", empty where not stated
  std::optional<Length> across_flats;
  std::optional<Seat> seat;  // of a wheel nut
};
using Piece = std::variant<Washer, Member, TappedPart, Nut>;

struct Joint {
  std::optional<Bolt> bolt;  // a lone nut (on a ball joint's stud, say) has its thread below
  Thread thread;
  std::vector<Piece> pieces;  // from the head outward
};

enum class StackFault {
  empty,
  empty_piece,
  no_threaded_part,
  thread_unknown,
  class_unknown,
  second_threaded_part,
  word_unknown,
  thickness_missing,
  bad_length,
  not_positive,
  nothing_after_thread,
  behind_the_nut,
  belongs_to_piece  // "hole 14 mm" behind a comma of its own
};
struct StackError {
  StackFault fault{};
  std::size_t at = 0, length = 0;  // place in the text
  std::string nearest;             // nearest known word or thread, empty where none is near
};
std::variant<Joint, StackError> read_stack(std::string_view text);

std::string_view name(StackFault fault);  // "class_unknown"
std::string_view name(Material material);
std::optional<Material> read_material(std::string_view text);

// Lengths along the bolt. Nuts and washers without a stated height take the standard's (from memory).
struct StackLength {
  Length grip;  // head to nut or tapped thread
  std::optional<Length> nut_height;
  std::optional<Length> protrusion;         // past the nut or the tapped part; negative where it does not reach
  std::optional<Length> engagement;         // thread in the nut or tapped part
  std::optional<Length> shortest, longest;  // length that leaves one thread out, and five
};
// Nothing where a thickness is neither stated nor tabled, or nothing closes the stack.
std::optional<StackLength> stack_length(const Joint& joint);

const TappedPart* tapped_part(const Joint& joint);
const Nut* clamping_nut(const Joint& joint);  // the first nut that is no jam nut, else the jam nut
const Nut* jam_nut(const Joint& joint);

}  // namespace trammel::fastener
