// The rear axle on the alignment sheet: where its wheels point, where its middle stands, and the links that turn it.
#include <algorithm>
#include <cmath>

#include "sheets/alignment_drawing.h"
#include "sheets/alignment_parts.h"

namespace trammel::sheets {
namespace {

std::string way(const Given& given, const char* code, const AlignValue& v, Kind kind) {
  const char* side = v.value < 0 ? "right" : "left";
  return given.line(code, {{"side", given.words.of("side", side)}}) + " " +
         bold(given.marked(Number{kind, std::abs(v.value), v.u}, Basis::computed)) + ".";
}

double draw_state(Canvas& canvas, const Given& given, const Box& room, const RearResult& rear) {
  canvas.rule(room, 1.4);
  double y = room.y + 2.5 * mm;
  y += canvas.text({room.x, y}, room.w, given.line("align-rear"), {14, true}) + 1 * mm;
  if (rear.why.code != "rear-never-read") {
    std::string state = way(given, "sheet-rear-points", rear.thrust, Kind::angle);
    if (rear.offset_known) state += " " + way(given, "sheet-rear-middle", rear.offset, Kind::length);
    y += canvas.text({room.x, y}, room.w, state, {9.5}) + 0.5 * mm;
    y += canvas.text({room.x, y}, room.w,
                     given.line("sheet-align-chance-now", {{"chance", chance(given, rear.probability)}}), {9.5}) +
         0.5 * mm;
    if (!rear.turns.empty())
      y += canvas.text({room.x, y}, room.w,
                       given.line("sheet-align-chance-after", {{"chance", chance(given, rear.probability_after)}}),
                       {9.5, true}) +
           0.5 * mm;
  }
  y += canvas.text({room.x, y}, room.w, given.sentence(rear.why), {9.5}) + 1 * mm;
  if (rear.verdict == "diagnose") {
    // No turn cures it: what to look at.
    const std::string help = given.words.help(rear.why.code);
    y += canvas.text({room.x, y}, room.w, escape(help), {9}) + 1 * mm;
  }
  return y - room.y;
}

double draw_rear_turn(Canvas& canvas, const Given& given, const Box& room, const RearTurn& turn, int number) {
  canvas.rule(room, 0.7);
  double y = room.y + 2 * mm;
  canvas.text({room.x, y - 1 * mm}, 11 * mm, std::to_string(number), {20, true});
  draw_tick_box(canvas, {room.x + room.w - tick_size, y});
  y += std::max(tick_size,
                canvas.text({room.x + 12 * mm, y}, room.w - 24 * mm, given.sentence(turn.sentence), {12.5, true})) +
       1 * mm;
  if (turn.flats == 0.0) return y - room.y;
  AlignTurn drawn;
  drawn.flats = turn.flats;
  return y + draw_flats(canvas, {room.x, y, 58 * mm, 0}, drawn, drawn.flats_per_turn, flats_text(turn.flats)) - room.y;
}

}  // namespace

void lay_rear_axle(const Given& given, Book& book, const RearResult& rear) {
  book.block([&given, &rear](Canvas& c, const Box& room) { return draw_state(c, given, room, rear); }, 1.5 * mm);
  int number = 1;
  for (const RearTurn& turn : rear.turns) {
    book.block(
        [&given, &turn, number](Canvas& c, const Box& room) { return draw_rear_turn(c, given, room, turn, number); });
    ++number;
  }
  for (const auto* list : {&rear.coach, &rear.notes})
    for (const Message& m : *list)
      book.block([&given, m](Canvas& c, const Box& room) { return draw_to_tick(c, given, room, m); }, 0.6 * mm);
  if (rear.turns.empty()) return;
  book.block([&given, &rear](Canvas& c, const Box& room) {
    std::string text =
        bold(given.line("align-expected")) + "  " + way(given, "sheet-rear-points", rear.thrust_after, Kind::angle);
    if (rear.offset_known) text += " " + way(given, "sheet-rear-middle", rear.offset_after, Kind::length);
    return c.text({room.x, room.y}, room.w, text, {9.2});
  });
}

}  // namespace trammel::sheets
