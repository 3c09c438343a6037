// The shapes that the sheets speak with, all our own.
//   finding      a gate: shut for stop, ajar for condition, open for note
//   hold point   a wheel between two chocks
//   fastener     a bolt over its plate, the gap closing from out to final; a stroke of paint once verified
//   basis        a small raised letter: m measured, k kit, a assumed, c computed
#pragma once

#include "assess/finding.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

inline constexpr double tick_size = 8 * mm;

void draw_gate(Canvas& canvas, Point at, double size, Outcome outcome);
void draw_chocked_wheel(Canvas& canvas, Point centre, double radius);
void draw_bolt_state(Canvas& canvas, Point at, double height, const std::string& state);
void draw_tick_box(Canvas& canvas, Point at, double size = tick_size);
// A line to write on, with its name under it; returns the height of both.
double draw_write_line(Canvas& canvas, Point at, double width, const std::string& name);
// A ruler of a true length on the paper, with a tick each `every`.
void draw_true_bar(Canvas& canvas, Point at, double length, double every, const std::string& name);
// A polygon with its flats upright left and right, as a hexagon lies under a spanner.
std::vector<Point> nut_outline(Point centre, double across_flats, int flats = 6);
// An arrow along a ladder of dimension lines: a line with a head at each end and its text in the middle.
void draw_dimension(Canvas& canvas, Point a, Point b, const std::string& name, double size = 7);

std::string basis_mark(const Words& words, Basis basis);

}  // namespace trammel::sheets
