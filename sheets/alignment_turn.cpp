// One adjuster of the alignment sheet: what to turn, and what the hands and eyes should find.
#include <algorithm>
#include <cmath>

#include "sheets/alignment_drawing.h"
#include "sheets/alignment_parts.h"

namespace trammel::sheets {

double draw_turn(Canvas& canvas, const Given& given, const Box& room, const AlignResult& align, const AlignTurn& turn,
                 int number) {
  canvas.rule(room, 0.7);
  double y = room.y + 2 * mm;
  canvas.text({room.x, y - 1 * mm}, 11 * mm, std::to_string(number), {20, true});
  draw_tick_box(canvas, {room.x + room.w - tick_size, y});
  y += std::max(tick_size, canvas.text({room.x + 12 * mm, y}, room.w - 24 * mm,
                                       escape(begun(turn_sentence(given, turn)) + "."), {12.5, true})) +
       1 * mm;
  for (const Message& check : turn.checks)
    y += canvas.text({room.x + 12 * mm, y}, room.w - 24 * mm, given.sentence(check), {8.8}) + 0.5 * mm;
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
  // Camber is seen at the square, toe at the tape; on slip plates first as it should be when the turning stops.
  double b = 0;
  const bool by_tape = turn.adjuster == "tie_rod";
  const bool by_square = !by_tape && turn.adjuster != "drag_link";
  const auto titled = [&](const char* code) {
    b += canvas.text({x, y + b}, w, given.line(code), {9.5, true}) + 0.8 * mm;
  };
  const auto square = [&](const char* code, Length gap) {
    titled(code);
    b += draw_square(canvas, given, {x, y + b, w, 0}, turn.side, gap, turn.over) + 2 * mm;
  };
  const auto tape = [&](const char* code, Length toe) {
    titled(code);
    b += draw_tape(canvas, given, {x, y + b, w, 0}, align, toe) + 1 * mm;
  };
  if (by_square && turn.gap_at_stop) square("sheet-align-at-stop", *turn.gap_at_stop);
  if (by_square && turn.square_gap_after) square("sheet-align-once-rolled", *turn.square_gap_after);
  if (by_tape && turn.toe_at_stop) tape("sheet-align-at-stop", *turn.toe_at_stop);
  if (by_tape && turn.toe_after) tape("sheet-align-once-rolled", *turn.toe_after);
  b += draw_write_line(canvas, {x, y + b - 2 * mm}, w * 0.6, given.words("sheet-write-read-now")) - 2 * mm;
  return y + std::max(a, b) + 1 * mm - room.y;
}

}  // namespace trammel::sheets
