// The alignment sheet: what comes next, one block an adjuster with what the hands see, the strip of passes, the rear
// axle, and room for the next readings.
#include <algorithm>
#include <cmath>

#include "sheets/alignment_parts.h"

namespace trammel::sheets {
namespace {

// The state as sentences: how each wheel leans, how the two stand together, what is wanted.
std::string state_sentences(const Given& given, const AlignResult& align) {
  const auto length = [&](const AlignValue& v) {
    return bold(given.marked(Number{Kind::length, v.value, v.u}, Basis::computed));
  };
  const auto lean = [&](const char* side, const AlignValue& v) { return lean_text(given, side, v) + ". "; };
  const auto band = [&](const Number& low, const Number& high) {
    return escape(given.words.print(low, Systems::metric)) + " " + given.line("sheet-align-to") + " " +
           escape(given.words.print(high, Systems::metric));
  };
  return lean("left", align.state.left_camber) + lean("right", align.state.right_camber) +
         given.line(align.state.total_toe.value < 0 ? "sheet-align-together-out" : "sheet-align-together-in") + " " +
         length({std::abs(align.state.total_toe.value), align.state.total_toe.u}) + " " +
         given.line("sheet-align-at-diameter", {{"diameter", given.words.print(align.toe_diameter)}}) + ". " +
         (!align.wants_difference
              ? std::string()
              : given.line("sheet-align-toe-difference") + " " + length(align.state.toe_difference) + ". " +
                    given.line("sheet-align-steering-wheel") + " " +
                    bold(angle_text(given, align.state.steering_wheel_angle)) + ".") +
         "\n" + given.line("sheet-align-wanted-camber") + " " +
         band(number(align.camber_wanted.low), number(align.camber_wanted.high)) + "; " +
         given.line("sheet-align-wanted-toe") + " " +
         band(number(align.total_toe_wanted.low), number(align.total_toe_wanted.high)) +
         (!align.wants_difference
              ? std::string()
              : "; " + given.line("sheet-align-wanted-difference") + " " +
                    band(number(align.toe_difference_wanted.low), number(align.toe_difference_wanted.high))) +
         ".";
}

// What comes next, in one large line, and the proof that the printer kept the size.
double draw_opening(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align) {
  const double bar_x = room.x + room.w - 56 * mm;
  draw_true_bar(canvas, {bar_x, room.y + 4 * mm}, 50 * mm, 10 * mm, given.line("sheet-true-bar"));
  double y = room.y;
  const Arguments more = {{"count", std::to_string(align.more_readings)}};
  const std::string heading = given.words.has("align-verdict", align.verdict)
                                  ? given.words("sheet-align-verdict-" + align.verdict, more)
                                  : align.verdict;
  y += canvas.text({room.x, y}, room.w - 62 * mm, escape(heading), {14, true}) + 1 * mm;
  y += canvas.text({room.x, y}, room.w - 62 * mm,
                   given.line("sheet-align-chance-now", {{"chance", chance(given, align.probability)}}), {10});
  if (!align.turns.empty())
    y += canvas.text({room.x, y}, room.w - 62 * mm,
                     given.line("sheet-align-chance-after", {{"chance", chance(given, align.probability_after)}}),
                     {10, true});
  y = std::max(y, room.y + 13 * mm) + 2 * mm;
  y += canvas.text({room.x, y}, room.w, state_sentences(given, align), {9.2}) + 1.5 * mm;
  if (!align.why.code.empty()) y += canvas.text({room.x, y}, room.w, given.sentence(align.why), {9.2}) + 1 * mm;
  for (const Message& note : align.notes) {
    draw_gate(canvas, {room.x, y + 0.6 * mm}, 4.5 * mm, Outcome::note);
    y += std::max(5 * mm, canvas.text({room.x + 7 * mm, y}, room.w - 7 * mm,
                                      bold(given.line("sheet-outcome-note")) + "  " + given.sentence(note), {8.5})) +
         1 * mm;
  }
  return y - room.y;
}

void lay_list(const Given& given, Book& book, const char* code, const std::vector<Message>& messages) {
  if (messages.empty()) return;
  book.block([&given, code, messages](Canvas& c, const Box& room) {
    double y = room.y + c.text({room.x, room.y}, room.w, given.line(code), {11, true}) + 1 * mm;
    for (const Message& m : messages) y += draw_to_tick(c, given, {room.x, y, room.w, 0}, m);
    return y - room.y;
  });
}

// What the signs may come from, the likeliest first, each with a test of five minutes and what it then is.
void lay_suspects(const Given& given, Book& book, const AlignResult& align) {
  if (align.suspects.empty()) return;
  book.heading([&given](Canvas& c, const Box& room) {
    return c.text({room.x, room.y}, room.w, given.line("align-look-for"), {11, true});
  });
  for (std::size_t i = 0; i < std::min<std::size_t>(align.suspects.size(), 4); ++i)
    book.block(
        [&given, &align, i](Canvas& c, const Box& room) {
          const AlignSuspect& s = align.suspects[i];
          const double x = room.x + 12 * mm, w = room.w - 24 * mm;
          c.text({room.x, room.y - 0.8 * mm}, 11 * mm, std::to_string(i + 1), {17, true});
          draw_tick_box(c, {room.x + room.w - tick_size, room.y});
          double y = room.y + c.text({x, room.y}, w, given.sentence(s.cause), {10.5, true}) + 0.5 * mm;
          y += c.text({x, y}, w, small(bold(given.line("sheet-align-test"))) + "  " + given.sentence(s.test), {9}) +
               0.5 * mm;
          if (!s.otherwise.code.empty())
            y += c.text({x, y}, w,
                        small(bold(given.line("sheet-align-otherwise"))) + "  " + given.sentence(s.otherwise), {9});
          return std::max(y - room.y, tick_size);
        },
        2.5 * mm);
}

void lay_caster(const Given& given, Book& book, const AlignResult& align) {
  if (align.caster.empty()) return;
  book.block([&given, &align](Canvas& c, const Box& room) {
    double y = room.y + c.text({room.x, room.y}, room.w, given.line("align-caster"), {11, true}) + 1 * mm;
    for (const AlignCaster& caster : align.caster) {
      const std::string side = given.words.of("side", caster.side);
      std::string text;
      if (caster.found) {
        text = given.words("caster-found",
                           {{"side", side},
                            {"caster", Number{Kind::angle, caster.caster.value, caster.caster.u}},
                            {"inclination", Number{Kind::angle, caster.inclination.value, caster.inclination.u}},
                            {"rule", Number{Kind::angle, caster.rule_of_thumb, {}}}});
        if (caster.by_geometry)
          text += given.words("caster-by-geometry", {{"caster", Number{Kind::angle, *caster.by_geometry, {}}}});
      } else {
        text = given.words("caster-not-found", {{"side", side}});
      }
      y += c.text({room.x, y}, room.w, escape(begun(text)) + ".", {9.2}) + 0.6 * mm;
    }
    return y - room.y;
  });
}

void lay_readings(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_readings(c, given, room); });
}

// Where nothing is computed: what to read and where to write it.
void lay_unread(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) {
    double y = room.y + c.text({room.x, room.y}, room.w - 62 * mm, given.line("sheet-align-not-computed"), {14, true}) +
               1 * mm;
    y += c.text({room.x, y}, room.w - 62 * mm, escape(given.words.help("sheet-align-not-computed")), {9.5});
    draw_true_bar(c, {room.x + room.w - 56 * mm, room.y + 4 * mm}, 50 * mm, 10 * mm, given.line("sheet-true-bar"));
    return std::max(y, room.y + 16 * mm) - room.y;
  });
  lay_readings(given, book);
}

void lay_front(const Given& given, Book& book, const AlignResult& align) {
  book.block([&given, &align](Canvas& c, const Box& room) { return draw_opening(c, given, room, align); });
  std::vector<Message> before, after;
  for (const Message& m : align.handling) (comes_after(m) ? after : before).push_back(m);
  lay_list(given, book, align.passes.empty() ? "align-coach" : "align-at-this-stop", align.coach);
  lay_list(given, book, "align-before", before);
  int number = 1;
  for (const AlignTurn& turn : align.turns) {
    book.block([&given, &align, &turn, number](Canvas& c, const Box& room) {
      return draw_turn(c, given, room, align, turn, number);
    });
    ++number;
  }
  lay_list(given, book, "align-then", after);
  lay_suspects(given, book, align);
  lay_caster(given, book, align);
  lay_passes(given, book, align);
}

}  // namespace

void lay_alignment_sheet(const Given& given, Book& book) {
  const Assessment& a = given.assessment;
  if (a.align)
    lay_front(given, book, *a.align);
  else if (!a.rear)
    lay_unread(given, book);
  if (a.rear) lay_rear_axle(given, book, *a.rear);
  if (!a.align || a.align->verdict == "accept") return;
  book.heading(
      [&given](Canvas& c, const Box& room) {
        c.rule(room, 0.7);
        return 2 * mm + c.text({room.x, room.y + 2 * mm}, room.w, given.line("sheet-align-read-next"), {13, true});
      },
      2 * mm);
  lay_readings(given, book);
}

}  // namespace trammel::sheets
