#include "sheets/support_drawing.h"

#include <algorithm>
#include <cmath>

#include "sheets/loose_list.h"
#include "sheets/places.h"

namespace trammel::sheets {
namespace {

constexpr double drawing_w = 34 * mm, drawing_h = 30 * mm;

// The corners of what it stands on, in order round their middle; the weight must lie inside.
std::vector<Point> outline(const std::vector<Point>& points) {
  Point middle;
  for (const Point& p : points) middle = {middle.x + p.x / points.size(), middle.y + p.y / points.size()};
  std::vector<Point> ring = points;
  std::sort(ring.begin(), ring.end(), [&](const Point& a, const Point& b) {
    return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
  });
  return ring;
}

void draw_polygon(Canvas& canvas, const Given& given, const Box& room, const SupportView& view) {
  double front = view.cg_x.si(), rear = front, wide = 0.2;
  for (const Foothold& f : view.points) {
    front = std::max(front, f.x.si());
    rear = std::min(rear, f.x.si());
    wide = std::max(wide, std::abs(f.y.si()));
  }
  const double scale = std::min((room.h - 8 * mm) / std::max(0.5, front - rear), (room.w - 20 * mm) / (2 * wide));
  const auto at = [&](double x, double y) {
    return Point{room.x + room.w / 2 - y * scale, room.y + 3.5 * mm + (front - x) * scale};
  };
  std::vector<Point> corners;
  for (const Foothold& f : view.points) corners.push_back(at(f.x.si(), f.y.si()));
  const std::vector<Point> ring = outline(corners);
  canvas.hatch(ring, 2.2 * mm, {0.3, 0.6});
  canvas.polyline(ring, true, {0.6});
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Foothold& f = view.points[i];
    const bool stand = f.what.find("wheel") == std::string::npos;
    if (stand)
      canvas.rect({corners[i].x - 1.3 * mm, corners[i].y - 1.3 * mm, 2.6 * mm, 2.6 * mm}, {1.2});
    else
      canvas.circle(corners[i], 1.3 * mm, {0.8});
    // Beside the point, outward; a jack in the middle has it below.
    const std::string load = given.words.print(number(Mass::from_si(std::round(f.load.si))), Systems::metric);
    const double out = f.y.si() > 0.0 ? -7.0 * mm : f.y.si() < 0.0 ? 7.0 * mm : 0.0;
    canvas.label({corners[i].x + out, corners[i].y + (out == 0.0 ? 3.1 * mm : 0.0)}, escape(load), {6.6, stand});
  }
  // The weight: a cross in a ring.
  const Point g = at(view.cg_x.si(), view.cg_y.si());
  canvas.circle(g, 1.6 * mm, {0.8});
  canvas.line({g.x - 2.2 * mm, g.y}, {g.x + 2.2 * mm, g.y}, {0.8});
  canvas.line({g.x, g.y - 2.2 * mm}, {g.x, g.y + 2.2 * mm}, {0.8});
}

}  // namespace

double draw_support(Canvas& canvas, const Given& given, const Box& room, const SupportView& view) {
  draw_polygon(canvas, given, {room.x, room.y + 1 * mm, drawing_w, drawing_h}, view);
  const double x = room.x + drawing_w + 2 * mm, w = room.w - drawing_w - 2 * mm;
  double y = room.y;
  const auto force = [&](Force f) { return given.words.print(number(f), Systems::metric); };
  y += canvas.text({x, y}, w, small(bold(given.line("sheet-support-head"))), {8.2}) + 0.4 * mm;
  std::vector<std::string> lines;
  for (const Foothold& f : view.points)
    if (f.what.ends_with("left stand")) {
      const auto size = [&](double metres) { return given.words.brief(number(Length::from_si(std::abs(metres)))); };
      lines.push_back(given.line("sheet-support-at", {{"x", size(f.x.si())}, {"y", size(f.y.si())}}));
    }
  if (view.jack)
    lines.push_back(given.line("sheet-support-jack", {{"load", given.words.print(*view.jack, Systems::metric)}}));
  // Of four points no statics tells the loads: the drawing has them as they give alike.
  const auto most = std::max_element(view.points.begin(), view.points.end(), [](const Foothold& a, const Foothold& b) {
    return (a.range ? a.range->most.si : 0.0) < (b.range ? b.range->most.si : 0.0);
  });
  if (most != view.points.end() && most->range)
    lines.push_back(
        given.line("sheet-support-four", {{"most", given.words.print(most->range->most, Systems::metric)}}));
  lines.push_back(given.line("sheet-support-tip",
                             {{"tip", force(view.tip)}, {"bar", force(view.bar)}, {"slip", force(view.slip)}}));
  // The brake's part and the chocks', and what the load counts as off.
  if (view.up != "both")
    lines.push_back(given.line(view.brake_holds && view.chocked ? "plan-support-both"
                               : view.brake_holds               ? "plan-support-brake"
                               : view.chocked                   ? "plan-support-chocks"
                                                                : "plan-support-free",
                               {{"roll", force(view.roll)}}));
  if (!view.propped.empty())
    lines.push_back(given.line("plan-support-propped", {{"parts", joined(view.propped, ", ")}}));
  if (!view.off.empty()) lines.push_back(given.line("plan-support-off", {{"parts", joined(view.off, ", ")}}));
  if (!view.off_unweighed.empty())
    lines.push_back(given.line("plan-support-unweighed", {{"parts", joined(view.off_unweighed, ", ")}}));
  for (const std::string& line : lines) y += canvas.text({x, y}, w, line, {7.8}) + 0.6 * mm;
  return std::max(y - room.y, drawing_h + 1 * mm) + 1 * mm;
}

void lay_resume_card(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) {
    const ResumeCard& card = *given.assessment.resume;
    const Words& words = given.words;
    double y = room.y;
    const auto row = [&](const char* code, const std::string& text) {
      c.text({room.x, y}, 34 * mm, small(bold(given.line(code))), {9});
      y += c.text({room.x + 36 * mm, y}, room.w - 36 * mm, escape(text.empty() ? "–" : text), {11}) + 2 * mm;
    };
    for (const RecordLine& l : card.last_done)
      row("sheet-resume-last",
          words("sheet-resume-entry",
                {{"number", std::to_string(l.number)}, {"what", l.what}, {"who", l.who}, {"when", l.when}}));
    row("sheet-resume-stands", words(given.assessment.unfinished.up ? "sheet-resume-ends" : "sheet-resume-down",
                                     {{"front", words.of("load", card.front)}, {"rear", words.of("load", card.rear)}}));
    row("sheet-resume-holds", joined(card.conditions, " · "));
    row("sheet-resume-off", joined(card.parts_off, " · "));
    row("sheet-resume-open", joined(card.proofs_open, " · "));
    // How it stands now: that of the first step still to do.
    for (const int n : card.next) {
      const StepLine& step = given.assessment.steps[static_cast<std::size_t>(n) - 1];
      row("sheet-resume-next",
          std::to_string(n) + "  " + step.act + (step.side.empty() ? "" : ", " + words.of("side", step.side)));
      break;
    }
    c.line({room.x, y}, {room.x + room.w, y}, {1.2});
    y += 3 * mm;
    y += draw_loose_list(c, given, {room.x, y, room.w, 0}, given.assessment.unfinished, nullptr) + 4 * mm;
    y += c.text({room.x, y}, room.w, given.line("sheet-resume-check"), {9, true}) + 3 * mm;
    const double h = draw_write_line(c, {room.x, y}, room.w * 0.45, words("sheet-write-technician"));
    draw_write_line(c, {room.x + room.w * 0.5, y}, room.w * 0.45, words("sheet-write-date"));
    return y + h - room.y;
  });
}

}  // namespace trammel::sheets
