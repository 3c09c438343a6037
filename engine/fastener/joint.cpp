#include "fastener/joint.h"

#include <array>
#include <cmath>

#include "fastener/spellings.h"
#include "fastener/stack_reader.h"
#include "fastener/strength.h"
#include "measure/nearest.h"

namespace trammel::fastener {
namespace {

using Fault = std::optional<StackError>;

StackError here(const Scanner& s, StackFault fault) { return {fault, s.at(), s.word().size(), {}}; }

// "AF 16", "AF 9/16 in": a bare number is millimetres.
Fault take_across_flats(Scanner& s, std::optional<Length>& across_flats) {
  if (!s.take("af")) return std::nullopt;
  across_flats = s.length(true);
  if (!across_flats) return here(s, StackFault::bad_length);
  return *across_flats > Length{} ? Fault{} : here(s, StackFault::not_positive);
}

Fault take_thickness(Scanner& s, Length& thickness) {
  const std::size_t begin = s.at();
  const auto l = s.length();
  if (!l) return here(s, StackFault::bad_length);
  if (*l <= Length{}) return StackError{StackFault::not_positive, begin, s.since(begin).size(), {}};
  thickness = *l;
  return std::nullopt;
}

bool seat_next(Scanner s) { return s.take("cone") || s.take("ball") || s.take("flat"); }

// "cone 60 deg", "ball", "flat".
Fault take_seat(Scanner& s, std::optional<Seat>& seat) {
  if (s.take("ball")) return seat = Seat{SeatShape::ball, {}}, std::nullopt;
  if (s.take("flat")) return seat = Seat{SeatShape::flat, {}}, std::nullopt;
  if (!s.take("cone")) return unknown_word(s);
  Seat cone{SeatShape::cone, s.angle()};
  if (!cone.cone) return here(s, StackFault::bad_length);
  if (*cone.cone <= Angle{}) return here(s, StackFault::not_positive);
  seat = cone;
  return std::nullopt;
}

Fault read_bolt(Scanner s, Joint& joint) {
  Bolt bolt;
  if (auto e = take_bolt(s, bolt)) return e;
  if (auto e = take_across_flats(s, bolt.across_flats)) return e;
  take_bolt_words(s, bolt);
  if (!s.done() && bolt.bolt_class.empty())
    if (auto e = unknown_class(s)) return e;
  if (!s.done()) return unknown_word(s);
  joint.thread = bolt.thread;
  joint.bolt = bolt;
  return std::nullopt;
}

Fault read_washer(Scanner s, Joint& joint) {
  Washer washer;
  if (s.digit_next()) {
    Length t;
    if (auto e = take_thickness(s, t)) return e;
    washer.thickness = t;
  }
  if (!s.done()) return unknown_word(s);
  joint.pieces.emplace_back(washer);
  return std::nullopt;
}

// The nut class nearest by its number.
std::string nearest_nut(std::string_view number) {
  const double asked = Scanner(number).number().value_or(0.0);
  std::string best;
  double apart = 0.0;
  for (const std::string_view c : {"12", "10", "9", "8", "6", "5", "4"}) {
    const double off = std::abs(Scanner(c).number().value_or(0.0) - asked);
    if (best.empty() || off < apart) best = c, apart = off;
  }
  return best;
}

// `lone`: no bolt stands before, the nut brings its own thread ("castle nut M10").
Fault read_nut(Scanner s, NutKind kind, bool lone, Joint& joint) {
  Nut nut;
  nut.kind = kind;
  if (lone) {
    std::optional<Length> none;
    if (auto e = take_thread(s, joint.thread, none)) return e;
  }
  while (!s.done()) {
    const std::size_t begin = s.at();
    if (!nut.seat && seat_next(s)) {
      if (auto e = take_seat(s, nut.seat)) return e;
    } else if (Scanner grade = s; grade.take("grade") && read_nut_grade(grade.word())) {
      if (!nut.nut_class.empty()) return unknown_word(s);
      nut.nut_class = *read_nut_grade(grade.word());
      grade.skip_word();
      s = grade;
    } else if (s.take("class") || read_nut_class(s.word())) {
      const auto c = read_nut_class(s.word());
      if (!c || !nut.nut_class.empty()) return unknown_word(s);
      nut.nut_class = *c;
      s.skip_word();
    } else if (auto e = take_across_flats(s, nut.across_flats)) {
      return e;
    }
    if (s.at() == begin) {
      const std::string_view w = s.word();
      const bool number = w.find_first_not_of("0123456789.") == std::string_view::npos;
      if (number && nut.nut_class.empty())
        return StackError{StackFault::class_unknown, begin, w.size(), nearest_nut(w)};
      return unknown_word(s);
    }
  }
  joint.pieces.emplace_back(nut);
  return std::nullopt;
}

// A name that is none: what belongs to the part before it, a nut of no known kind, a slip of a word that opens a piece.
Fault not_a_name(const Scanner& opening, std::string_view named) {
  for (std::string_view of_a_part : {"hole", "edge", "wall", "width", "outside", "drill"})
    if (lower(named) == of_a_part) return StackError{StackFault::belongs_to_piece, opening.at(), named.size(), {}};
  if (lower(named) == "nut" || lower(named).ends_with(" nut")) {
    std::vector<std::string_view> kinds;
    for (const auto& k : nut_spellings) kinds.push_back(k.text);
    return StackError{StackFault::word_unknown, opening.at(), named.size(), std::string(nearest(lower(named), kinds))};
  }
  for (Scanner s = opening; s.at() < opening.at() + named.size(); s.skip_word())
    for (std::string_view opener : {"washer", "sleeve", "taper", "thread", "screw", "bolt"})
      if (one_slip_from(lower(s.word()), opener))
        return StackError{StackFault::word_unknown, s.at(), s.word().size(), std::string(opener)};
  return std::nullopt;
}

// "arm 10 mm steel", "box rail 40 mm wall 3 mm", "sleeve 34 mm", "knuckle thread 18 mm steel blind".
Fault read_member(Scanner s, Joint& joint) {
  Scanner opening = s;
  Member m;
  const bool box = s.take("box");
  m.sleeve = !box && s.take("sleeve");
  m.taper = !box && !m.sleeve && s.take("taper");

  // The name runs to the first number; a name that ends in "thread" is tapped.
  const std::size_t name_at = s.at();
  while (!s.done() && !s.digit_next()) {
    if (s.peek() == ';') return StackError{StackFault::word_unknown, s.at(), 1, {}};
    s.skip_word();
  }
  if (s.done()) return unknown_word(opening, StackFault::thickness_missing);
  std::string_view named = trimmed(s.since(name_at));
  if (auto e = not_a_name(opening, named)) return e;
  const bool tapped = named == "thread" || lower(named).ends_with(" thread");
  if (tapped) named = trimmed(named.substr(0, named.size() - 6));
  Length thickness;
  if (auto e = take_thickness(s, thickness)) return e;

  TappedPart part{std::string(named), thickness, {}, false, {}};
  m.name = named;
  m.thickness = thickness;
  // A size behind its word, once.
  const auto sized = [&](std::string_view word, bool here_only, std::optional<Length>& slot) -> std::optional<Fault> {
    if (!here_only || slot || !s.take(word)) return std::nullopt;
    Length l;
    if (auto e = take_thickness(s, l)) return Fault(e);
    slot = l;
    return Fault{};
  };
  while (!s.done()) {
    std::optional<Fault> taken;
    if ((taken = sized("wall", box, m.wall)) || (taken = sized("width", box, m.width)) ||
        (taken = sized("outside", m.sleeve, m.outside)) || (taken = sized("hole", !tapped, m.hole)) ||
        (taken = sized("edge", !tapped, m.edge)) || (taken = sized("drill", tapped, part.drill))) {
      if (*taken) return *taken;
    } else if (!tapped && !m.seat && s.take("seat")) {
      if (auto e = take_seat(s, m.seat)) return e;
    } else if (tapped && !part.blind && s.take("blind")) {
      part.blind = true;
    } else if (const auto known = m.material ? std::nullopt : take_spelling<Material>(s, material_spellings)) {
      m.material = part.material = known;
    } else {
      return unknown_word(s);
    }
  }
  if (tapped)
    joint.pieces.emplace_back(std::move(part));
  else
    joint.pieces.emplace_back(std::move(m));
  return std::nullopt;
}

// A first piece without a thread is a pin, a clip or a terminal; one that has a thread in it, or is a slip of a bolt's
// word, is a bolt that cannot be read.
StackError no_thread(const Scanner& opening) {
  const std::string first = lower(opening.word());
  bool thread = false;
  Scanner behind = opening;
  for (behind.skip_word(); !behind.done() && !thread; behind.skip_word()) {
    Scanner at = behind;
    Thread read;
    std::optional<Length> length;
    thread = !bolt_word_next(at) && threaded_part_next(at) && !take_thread(at, read, length);
  }
  for (std::string_view bolt : {"bolt", "screw", "stud", "u-bolt"})
    if (one_slip_from(first, bolt) || (thread && edit_distance_quarters(first, bolt) <= 8))
      return {StackFault::word_unknown, opening.at(), first.size(), std::string(bolt)};
  return unknown_word(opening, thread ? StackFault::word_unknown : StackFault::no_threaded_part);
}

Fault read_piece(Scanner s, bool first, Joint& joint) {
  if (threaded_part_next(s)) return first ? read_bolt(s, joint) : Fault(here(s, StackFault::second_threaded_part));
  // Behind a bolt's nut only nuts come.
  const Nut* nut = joint.bolt ? clamping_nut(joint) : nullptr;
  Scanner after_nut = s;
  if (nut && !take_spelling<NutKind>(after_nut, nut_spellings)) return here(s, StackFault::behind_the_nut);
  after_nut = s;
  if (const auto kind = take_spelling<NutKind>(after_nut, nut_spellings))
    return read_nut(after_nut, *kind, first, joint);
  if (first) return no_thread(s);
  if (tapped_part(joint)) return here(s, StackFault::nothing_after_thread);
  for (std::string_view washer : {"washer", "flat washer", "plain washer"})
    if (s.take(washer)) return read_washer(s, joint);
  return read_member(s, joint);
}

template <class T>
const T* first_of(const Joint& joint) {
  for (const Piece& p : joint.pieces)
    if (const T* t = std::get_if<T>(&p)) return t;
  return nullptr;
}

}  // namespace

std::variant<Joint, StackError> read_stack(std::string_view text) {
  if (trimmed(text).empty()) return StackError{StackFault::empty, 0, text.size(), {}};
  Joint joint;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    const Scanner piece(text.substr(0, end), begin);
    if (piece.done()) return StackError{StackFault::empty_piece, begin, end - begin, {}};
    if (const auto e = read_piece(piece, begin == 0, joint)) return *e;
    begin = end + 1;
  }
  return joint;
}

const TappedPart* tapped_part(const Joint& joint) { return first_of<TappedPart>(joint); }

const Nut* jam_nut(const Joint& joint) {
  for (const Piece& p : joint.pieces)
    if (const Nut* n = std::get_if<Nut>(&p); n && n->kind == NutKind::jam) return n;
  return nullptr;
}

const Nut* clamping_nut(const Joint& joint) {
  for (const Piece& p : joint.pieces)
    if (const Nut* n = std::get_if<Nut>(&p); n && n->kind != NutKind::jam) return n;
  return jam_nut(joint);
}

}  // namespace trammel::fastener
