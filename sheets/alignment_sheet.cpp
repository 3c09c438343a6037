// The alignment sheet: one block an adjuster with what the hands see, then the strip of passes.
#include <algorithm>
#include <array>
#include <cmath>

#include "sheets/alignment_drawing.h"
#include "sheets/places.h"
#include "sheets/room.h"

namespace trammel::sheets {
namespace {

// The chance in words a person would use.
std::string chance(const Given& given, double p) {
  if (p < 0.05) return given.words("sheet-chance-hardly");
  if (p > 0.95) return given.words("sheet-chance-nearly");
  return given.words("sheet-chance", {{"n", std::to_string(std::clamp(static_cast<int>(std::lround(p * 10)), 1, 9))}});
}

std::string angle_text(const Given& given, const AlignValue& v) {
  return given.marked(Number{Kind::angle, v.value, v.u}, Basis::computed);
}
std::string toe_text(const Given& given, const AlignValue& v) {
  return given.line(v.value < 0 ? "sheet-toe-out" : "sheet-toe-in") + " " +
         given.marked(Number{Kind::length, std::abs(v.value), v.u}, Basis::computed);
}

std::string lean_text(const Given& given, const char* side, const AlignValue& v) {
  return begun(given.line(v.value < 0 ? "sheet-align-leans-in" : "sheet-align-leans-out",
                          {{"side", given.words.of("side", side)}})) +
         " " + bold(given.marked(Number{Kind::angle, std::abs(v.value), v.u}, Basis::computed));
}

// To the quarter flat that hands can turn.
long quarters_of(double flats) { return std::lround(4 * std::abs(flats)); }

std::string flats_text(double flats) {
  const long quarters = quarters_of(flats);
  constexpr std::array<const char*, 4> part = {"", "¼", "½", "¾"};
  const std::string whole = quarters >= 4 || quarters == 0 ? std::to_string(quarters / 4) : "";
  const std::string rest = part[quarters % 4];
  return whole + (whole.empty() || rest.empty() ? "" : " ") + rest;
}

std::string turn_sentence(const Given& given, const AlignTurn& turn) {
  if (!turn.sentence.code.empty()) return given.words.say(turn.sentence);
  return given.words(turn.flats < 0 ? "sheet-align-turn-shorter" : "sheet-align-turn-longer",
                     {{"side", given.words.of("side", turn.side)},
                      {"adjuster", given.words.of("adjuster", turn.adjuster)},
                      {"flats", given.words(quarters_of(turn.flats) > 4 ? "flats-many" : "flats-one",
                                            {{"count", flats_text(turn.flats)}})}});
}

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
  if (!align.why.code.empty())
    y += canvas.text({room.x, y}, room.w, escape(given.words.say(align.why)) + ".", {9.2}) + 1 * mm;
  int rank = 1;
  for (const AlignSuspect& suspect : align.suspects) {
    if (rank > 4) break;
    y += canvas.text({room.x, y}, room.w,
                     bold(std::to_string(rank++) + "  " + escape(given.words.say(suspect.cause))) + ". " +
                         escape(given.words.say(suspect.test)) + ".",
                     {8.8}) +
         1 * mm;
  }
  for (const Message& note : align.notes) {
    draw_gate(canvas, {room.x, y + 0.6 * mm}, 4.5 * mm, Outcome::note);
    y += std::max(5 * mm,
                  canvas.text({room.x + 7 * mm, y}, room.w - 7 * mm,
                              bold(given.line("sheet-outcome-note")) + "  " + escape(given.words.say(note)), {8.5})) +
         1 * mm;
  }
  for (const auto* list : {&align.coach, &align.handling})
    for (const Message& m : *list) {
      draw_tick_box(canvas, {room.x, y + 0.4 * mm}, 4 * mm);
      y += std::max(4.8 * mm,
                    canvas.text({room.x + 6 * mm, y}, room.w - 6 * mm, escape(given.words.say(m)) + ".", {8.5})) +
           0.6 * mm;
    }
  return y - room.y;
}

double draw_turn(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align, const AlignTurn& turn,
                 int number) {
  canvas.rule(room, 0.7);
  double y = room.y + 2 * mm;
  canvas.text({room.x, y - 1 * mm}, 11 * mm, std::to_string(number), {20, true});
  draw_tick_box(canvas, {room.x + room.w - tick_size, y});
  y += std::max(tick_size, canvas.text({room.x + 12 * mm, y}, room.w - 24 * mm, escape(turn_sentence(given, turn)),
                                       {12.5, true})) +
       1 * mm;
  for (const Message& check : turn.checks)
    y += canvas.text({room.x + 12 * mm, y}, room.w - 24 * mm, escape(given.words.say(check)) + ".", {8.5}) + 0.5 * mm;
  y += 0.5 * mm;
  const double left = 58 * mm, x = room.x + left + 4 * mm, w = room.w - left - 4 * mm;
  double a = 0;
  if (turn.flats != 0.0) {
    a = draw_flats(canvas, {room.x, y, left, 0}, turn, std::max(2, turn.flats_per_turn), flats_text(turn.flats));
    if (turn.lettering.empty()) {
      draw_tick_box(canvas, {room.x, y + a}, 5 * mm);
      canvas.text({room.x + 6.5 * mm, y + a + 0.8 * mm}, 22 * mm, given.line("sheet-flats-up"), {7.6});
      draw_tick_box(canvas, {room.x + 30 * mm, y + a}, 5 * mm);
      canvas.text({room.x + 36.5 * mm, y + a + 0.8 * mm}, 22 * mm, given.line("sheet-flats-down"), {7.6});
      a += 6 * mm;
    } else {
      // The side that is seen, with the lettering's way.
      const bool up = turn.lettering == "up";
      const double x0 = room.x + left - 9 * mm, y0 = y + a - 26 * mm, l = 16 * mm;
      canvas.line({x0, up ? y0 + l : y0}, {x0, up ? y0 : y0 + l}, {1.6});
      canvas.arrow_head({x0, up ? y0 : y0 + l}, up ? -M_PI / 2 : M_PI / 2, 3.2 * mm);
      a +=
          canvas.text({room.x, y + a}, left, given.line(up ? "sheet-lettering-up" : "sheet-lettering-down"), {9, true});
    }
  }
  double b = 0;
  if (turn.square_gap_after)
    b += draw_square(canvas, given, {x, y + b, w, 0}, turn.side, *turn.square_gap_after, turn.over) + 2 * mm;
  if (turn.toe_after) b += draw_tape(canvas, given, {x, y + b, w, 0}, align, *turn.toe_after) + 1 * mm;
  b += draw_write_line(canvas, {x, y + b - 2 * mm}, w * 0.6, given.words("sheet-write-read-now")) - 2 * mm;
  return y + std::max(a, b) + 1 * mm - room.y;
}

// Passes as a chain of cards, each telling what was read, what was turned and how likely it then was.
void lay_passes(const Given& given, Book& book, const AlignResult& align) {
  const std::size_t across = 3, rows = (align.passes.size() + across) / across;
  for (std::size_t row = 0; row < rows; ++row)
    book.block(
        [&given, &align, row](Canvas& c, const Box& room) {
          double y = room.y;
          if (row == 0) y += c.text({room.x, y}, room.w, given.line("sheet-align-passes"), {9.5, true}) + 1.5 * mm;
          const double gap = 7 * mm, w = (room.w - 2 * gap) / 3, pad = 2 * mm;
          double h = 30 * mm;
          const auto card = [&](std::size_t i, double x, bool draw) {
            double cy = y + 1.5 * mm;
            const auto put = [&](const std::string& text, const TextStyle& style) {
              cy += draw ? c.text({x + pad, cy}, w - 2 * pad, text, style) : c.text_height(w - 2 * pad, text, style);
            };
            put(given.line("sheet-align-pass", {{"number", std::to_string(i + 1)}}), {9, true});
            if (i < align.passes.size()) {
              const AlignPass& pass = align.passes[i];
              put(lean_text(given, "left", pass.state.left_camber), {7.6});
              put(lean_text(given, "right", pass.state.right_camber), {7.6});
              put(toe_text(given, pass.state.total_toe), {7.6});
              put(given.line("sheet-align-chance-short", {{"chance", chance(given, pass.probability)}}), {7.6, true});
              for (const AlignTurn& turn : pass.turned) put(escape(turn_sentence(given, turn)), {7.2});
            } else {
              put(given.line("sheet-align-next-pass"), {7.6});
            }
            return cy + 1.5 * mm - y;
          };
          const std::size_t from = row * 3, to = std::min(align.passes.size() + 1, from + 3);
          for (std::size_t i = from; i < to; ++i) h = std::max(h, card(i, 0, false));
          for (std::size_t i = from; i < to; ++i) {
            const double x = room.x + (i - from) * (w + gap);
            c.rect({x, y, w, h}, i < align.passes.size() ? Pen{0.8} : Pen{0.6, 0.0, 2.5});
            if (i > from)
              c.line({x - gap, y + h / 2}, {x - 1 * mm, y + h / 2}, {0.8}),
                  c.arrow_head({x - 0.5 * mm, y + h / 2}, 0, 2.4 * mm);
            card(i, x, true);
          }
          return y + h - room.y;
        },
        4 * mm);
}

// Where nothing is computed: what to read and where to write it.
double draw_to_measure(Canvas& canvas, const Given& given, const Box& room) {
  double y = room.y;
  y += canvas.text({room.x, y}, room.w - 62 * mm, given.line("sheet-align-not-computed"), {14, true}) + 1 * mm;
  y += canvas.text({room.x, y}, room.w - 62 * mm, escape(given.words.help("sheet-align-not-computed")), {9.5});
  draw_true_bar(canvas, {room.x + room.w - 56 * mm, room.y + 4 * mm}, 50 * mm, 10 * mm, given.line("sheet-true-bar"));
  y = std::max(y, room.y + 16 * mm) + 6 * mm;

  // The axle from the front with a square at each wheel, and a wheel from its side with the tape's two places.
  const double k = 26 * mm, floor = y + 2 * k;
  const auto number = [&](Point p, int n) {
    canvas.disc(p, 2.6 * mm);
    canvas.label(p, std::to_string(n), {8, true, Align::left, 1.0});
  };
  const double left_wheel = room.x + 80 * mm, right_wheel = room.x + 16 * mm;
  canvas.line({room.x, floor}, {room.x + 100 * mm, floor}, {1.0});
  canvas.line({right_wheel + 5 * mm, floor - k * 0.9}, {left_wheel - 5 * mm, floor - k * 0.9}, {0.8});
  for (const double x : {left_wheel, right_wheel}) {
    const double out = x == left_wheel ? 1 : -1;
    canvas.rect({x - 5 * mm, floor - 1.8 * k, 10 * mm, 1.8 * k}, {1.0});
    canvas.line({x + out * 6 * mm, floor}, {x + out * 6 * mm, floor - 1.5 * k}, {1.2});
    canvas.line({x + out * 6 * mm, floor - 0.5 * mm}, {x + out * 14 * mm, floor - 0.5 * mm}, {1.2});
    number({x + out * 12 * mm, floor - 1.1 * k}, out > 0 ? 1 : 2);
  }
  const Point hub{room.x + 142 * mm, floor - 0.9 * k};
  canvas.line({room.x + 108 * mm, floor}, {room.x + room.w, floor}, {1.0});
  canvas.circle(hub, 0.9 * k, {1.0});
  canvas.circle(hub, 0.5 * k, {0.5});
  canvas.line({hub.x - 1.25 * k, hub.y}, {hub.x + 1.25 * k, hub.y}, {0.4, 0.3, 3});
  canvas.disc({hub.x - 0.9 * k, hub.y}, 1 * mm);
  canvas.disc({hub.x + 0.9 * k, hub.y}, 1 * mm);
  number({hub.x - 0.9 * k - 6 * mm, hub.y - 4 * mm}, 3);
  number({hub.x + 0.9 * k + 6 * mm, hub.y - 4 * mm}, 4);
  draw_dimension(canvas, {hub.x - 0.9 * k, hub.y + 5 * mm}, {hub.x + 0.9 * k, hub.y + 5 * mm}, "");
  number({hub.x, hub.y + 5 * mm}, 5);
  y = floor + 5 * mm;

  int n = 1;
  for (const char* code : {"sheet-measure-left-gap", "sheet-measure-right-gap", "sheet-measure-toe-front",
                           "sheet-measure-toe-rear", "sheet-measure-diameter", "sheet-measure-steering-wheel"}) {
    number({room.x + 3 * mm, y + 5 * mm}, n++);
    const double h = canvas.text({room.x + 9 * mm, y + 2.5 * mm}, 92 * mm, given.line(code), {9});
    for (const double x : {108.0, 146.0})
      canvas.line({room.x + x * mm, y + 8 * mm}, {room.x + x * mm + 32 * mm, y + 8 * mm}, {0.5});
    y += std::max(h + 3 * mm, 10.5 * mm);
  }
  y += canvas.text({room.x + 108 * mm, y}, room.w - 108 * mm, given.line("sheet-measure-twice"), {7.2});
  return y - room.y;
}

}  // namespace

void lay_alignment_sheet(const Given& given, Book& book) {
  if (!given.assessment.align) {
    book.block([&given](Canvas& c, const Box& room) { return draw_to_measure(c, given, room); });
    return;
  }
  const AlignResult& align = *given.assessment.align;
  book.block([&given, &align](Canvas& c, const Box& room) { return draw_opening(c, given, room, align); });
  int number = 1;
  for (const AlignTurn& turn : align.turns) {
    book.block([&given, &align, &turn, number](Canvas& c, const Box& room) {
      return draw_turn(c, given, room, align, turn, number);
    });
    ++number;
  }
  lay_passes(given, book, align);
}

}  // namespace trammel::sheets
