#include "fastener/joint.h"

#include "fastener/spellings.h"
#include "fastener/stack_reader.h"
#include "fastener/strength.h"

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
    if (s.at() == begin) return unknown_word(s);
  }
  joint.pieces.emplace_back(nut);
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

Fault read_piece(Scanner s, bool first, Joint& joint) {
  if (threaded_part_next(s)) return first ? read_bolt(s, joint) : Fault(here(s, StackFault::second_threaded_part));
  Scanner after_nut = s;
  if (const auto kind = take_spelling<NutKind>(after_nut, nut_spellings))
    return read_nut(after_nut, *kind, first, joint);
  if (first) return unknown_word(s, StackFault::no_threaded_part);
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
