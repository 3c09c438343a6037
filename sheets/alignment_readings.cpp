// What to read at the wheels and where to write it.
#include <algorithm>

#include "sheets/alignment_parts.h"

namespace trammel::sheets {

double draw_readings(Canvas& canvas, const Given& given, const Box& room) {
  double y = room.y;
  // The two words that the sheet cannot do without.
  for (const char* code : {"sheet-word-camber", "sheet-word-toe"})
    y += canvas.text({room.x, y}, room.w, bold(given.line(code)) + "  " + escape(given.words.help(code)), {9}) + 1 * mm;
  y += 5 * mm;

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

}  // namespace trammel::sheets
