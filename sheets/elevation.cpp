#include "sheets/elevation.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "sheets/axle_strokes.h"
#include "sheets/marks.h"

namespace trammel::sheets {
namespace {

constexpr double caption = 6 * mm, key_room = 30 * mm, side_room = 8 * mm;
constexpr TextStyle head{9.5, true}, plain{8}, tag{7, true};

struct Extent {
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;  // metres on the paper, to the right and up
  double wide() const { return right - left; }
  double tall() const { return high - low; }
};

std::string scale_of(const Words& words, double one_to) {
  return "1 : " + words.print(Number{Kind::ratio, one_to, {}});
}

bool seen(const View& view, int side) { return view.from != SeenFrom::left || side >= 0; }
bool seen_wheel(const View& view, int index) { return view.from != SeenFrom::left || index == 0; }

void widen(Extent& e, const View& view, const AxleOutline& axle) {
  const auto take = [&](Point p) {
    e.left = std::min(e.left, p.x), e.right = std::max(e.right, p.x);
    e.low = std::min(e.low, -p.y), e.high = std::max(e.high, -p.y);
  };
  for (const OutlinePart& part : axle.parts)
    if (seen(view, part.side))
      for (const auto& p : part.line) take(view.at(p));
  for (int i = 0; i < 2; ++i)
    if (seen_wheel(view, i))
      for (const Point p : wheel_outline(view, axle, axle.wheels[static_cast<std::size_t>(i)])) take(p);
  e.low = std::min(e.low, axle.ground.si());
}

std::vector<SeenFrom> views_of(const AxleOutline& axle) {
  return {axle.axle == "rear" ? SeenFrom::behind : SeenFrom::ahead, SeenFrom::left};
}

// The body near the wheels, thin, no further than the view goes.
void draw_body(Canvas& canvas, const View& view, const Box& box, const AxleOutline& axle) {
  canvas.begin_window(box);
  for (const auto& line : axle.body) {
    if (view.from == SeenFrom::left && line.front().y < 0 && line.back().y < 0) continue;
    const Point a = view.at(line.front()), b = view.at(line.back());
    canvas.line(a, b, {0.5});
    if (line.front() == line.back())
      for (const double turn : {1.0, -1.0})
        canvas.line({a.x - 1 * mm, a.y - turn * mm}, {a.x + 1 * mm, a.y + turn * mm}, {0.5});
  }
  canvas.end_window();
}

void draw_ghost(Canvas& canvas, const View& view, const AxleOutline& axle) {
  for (int i = 0; i < 2; ++i)
    if (seen_wheel(view, i))
      canvas.polyline(wheel_outline(view, axle, axle.wheels[static_cast<std::size_t>(i)]), true, ghost_pen);
  for (const OutlinePart& part : axle.parts)
    if (seen(view, part.side)) draw_part_as_ghost(canvas, view, part);
}

void draw_axle(Canvas& canvas, const View& view, const AxleOutline& axle) {
  for (int i = 0; i < 2; ++i) {
    const OutlineWheel& wheel = axle.wheels[static_cast<std::size_t>(i)];
    if (!seen_wheel(view, i)) continue;
    canvas.polyline(wheel_outline(view, axle, wheel), true, {1.2});
    if (wheel.steered) canvas.polyline(steering_axis(view, axle, wheel), false, axis_pen);
    const Point hub = view.at(wheel.hub);
    canvas.line({hub.x - 1.6 * mm, hub.y}, {hub.x + 1.6 * mm, hub.y}, {0.4});
    canvas.line({hub.x, hub.y - 1.6 * mm}, {hub.x, hub.y + 1.6 * mm}, {0.4});
  }
  for (const OutlinePart& part : axle.parts)
    if (seen(view, part.side)) draw_part(canvas, view, part);
  const auto shown = [&](const Vector3<double>& p) { return view.from != SeenFrom::left || p.y > -0.02; };
  for (const auto& p : axle.pivots)
    if (shown(p)) draw_pivot(canvas, view.at(p));
  for (const auto& p : axle.joints)
    if (shown(p)) draw_joint(canvas, view.at(p));
}

// The ground now with its hatching, the ground before as a dashed line, and how far they are apart.
void draw_ground(Canvas& canvas, const Words& words, const View& view, const Box& box, const AxleOutline& now,
                 const std::optional<AxleOutline>& stock) {
  const double x0 = box.x, x1 = box.x + box.w, y = view.at({0, 0, now.ground.si()}).y;
  canvas.line({x0, y}, {x1, y}, {1.2});
  for (int i = 1; x0 + i * 2 * mm < x1; ++i) {
    const double x = x0 + i * 2 * mm;
    canvas.line({x, y}, {x - 1.4 * mm, y + 1.4 * mm}, {0.35});
  }
  if (!stock) return;
  const Length up = stock->ground - now.ground;
  if (abs(up) < 0.5 * units::mm) return;
  const double was = view.at({0, 0, stock->ground.si()}).y;
  canvas.line({x0, was}, {x1, was}, ghost_pen);
  const double x = x0 + 3 * mm;
  draw_dimension(canvas, {x, was}, {x, y}, "");
  // Beside the arrow; below the lines where there is no room between them.
  canvas.text({x + 1.5 * mm, y + 2 * mm}, -1,
              escape(words(up.si() > 0 ? "drawing-body-up" : "drawing-body-down", {{"up", words.print(abs(up))}})),
              {7.2});
}

// What is numbered: each kind of part once, in the order in which they are told.
struct Named {
  const OutlinePart* part;
  std::string text;
};
std::vector<Named> named_parts(const Words& words, const AxleOutline& axle) {
  std::vector<Named> all;
  for (const OutlinePart& part : axle.parts) {
    if (!is_named(part)) continue;
    const std::string text = part.name.empty() ? words("drawing-part-" + part.what) : part.name;
    const auto same = std::find_if(all.begin(), all.end(), [&](const Named& n) { return n.text == text; });
    if (same == all.end())
      all.push_back({&part, text});
    else if (part.side > same->part->side)
      same->part = &part;
  }
  return all;
}

double distance(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dy = b.y - a.y, l2 = dx * dx + dy * dy;
  const double t = l2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / l2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

// A number beside each named part where most room is, with a short line to it.
void draw_tags(Canvas& canvas, const View& view, const Box& box, const AxleOutline& axle,
               const std::vector<Named>& named, const std::vector<bool>& wanted) {
  constexpr double radius = 2.1 * mm;
  std::vector<std::pair<Point, Point>> lines;
  for (const OutlinePart& part : axle.parts)
    if (seen(view, part.side))
      for (std::size_t i = 1; i < part.line.size(); ++i)
        lines.emplace_back(view.at(part.line[i - 1]), view.at(part.line[i]));
  for (int i = 0; i < 2; ++i)
    if (seen_wheel(view, i)) {
      const auto outline = wheel_outline(view, axle, axle.wheels[static_cast<std::size_t>(i)]);
      for (std::size_t k = 1; k < outline.size(); ++k) lines.emplace_back(outline[k - 1], outline[k]);
    }
  std::vector<Point> tags;
  for (std::size_t n = 0; n < named.size(); ++n) {
    if (!wanted[n]) continue;
    const auto& line = named[n].part->line;
    Point best, best_from;
    double best_room = -1e9;
    for (std::size_t i = 1; i < line.size(); ++i)
      for (const double along : {0.5, 0.35, 0.65, 0.2, 0.8})
        for (int turn = 0; turn < 16; ++turn)
          for (const double off : {4.5 * mm, 7 * mm, 11 * mm}) {
            const Point a = view.at(line[i - 1]), b = view.at(line[i]);
            const Point from{a.x + along * (b.x - a.x), a.y + along * (b.y - a.y)};
            const double way = 2 * M_PI * turn / 16;
            const Point at{from.x + off * std::cos(way), from.y + off * std::sin(way)};
            if (at.x < box.x + radius || at.x > box.x + box.w - radius || at.y < box.y + radius ||
                at.y > box.y + box.h - radius)
              continue;
            double room = 6 * mm;
            for (const auto& [p, q] : lines) room = std::min(room, distance(at, p, q) - radius);
            for (const Point t : tags) {
              room = std::min(room, std::hypot(at.x - t.x, at.y - t.y) - 2.3 * radius);
              room = std::min(room, distance(t, from, at) - 1.3 * radius);
            }
            const double worth = std::min(room, 1.5 * mm) - 0.12 * off - 0.4 * std::abs(along - 0.5) * mm;
            if (worth > best_room) best_room = worth, best = at, best_from = from;
          }
    if (best_room < -1e8) continue;
    const double l = std::hypot(best.x - best_from.x, best.y - best_from.y);
    canvas.line(best_from, {best.x + radius / l * (best_from.x - best.x), best.y + radius / l * (best_from.y - best.y)},
                {0.4});
    canvas.disc(best, radius, 1.0);
    canvas.circle(best, radius, {0.5});
    canvas.label(best, std::to_string(n + 1), tag);
    tags.push_back(best);
  }
}

// The bar of a true length on the cart, and what each kind of line is.
double draw_key(Canvas& canvas, const Box& room, const Words& words, const Elevations& placed, const AxleOutline& now,
                const std::vector<Named>& named, bool ghost) {
  double x = room.x, y = room.y;
  const auto item = [&](const char* code, const std::function<void(Point, Point)>& sample) {
    const std::string text = escape(words(code));
    const double w = 9 * mm + canvas.text_width(text, plain);
    if (x + w > room.x + room.w && x > room.x) x = room.x, y += 4.6 * mm;
    sample({x, y + 1.7 * mm}, {x + 7 * mm, y + 1.7 * mm});
    canvas.text({x + 8.5 * mm, y}, -1, text, plain);
    x += w + 2.5 * mm;
  };
  if (ghost) {
    item("drawing-key-now", [&](Point a, Point b) { canvas.line(a, b, {1.5}); });
    item("drawing-key-stock", [&](Point a, Point b) { canvas.line(a, b, ghost_pen); });
  }
  if (now.wheels[0].steered) item("drawing-key-axis", [&](Point a, Point b) { canvas.line(a, b, axis_pen); });
  item("drawing-key-pivot", [&](Point a, Point b) { draw_pivot(canvas, {(a.x + b.x) / 2, a.y}); });
  item("drawing-key-joint", [&](Point a, Point b) { draw_joint(canvas, {(a.x + b.x) / 2, a.y}); });
  if (!now.body.empty()) item("drawing-key-body", [&](Point a, Point b) { canvas.line(a, b, {0.5}); });
  y += 5.4 * mm;

  // The numbers of the parts.
  std::string key;
  for (std::size_t n = 0; n < named.size(); ++n)
    key += (n ? " \u2002 " : "") + bold(std::to_string(n + 1)) + "\u00a0" + [&] {
      std::string text = escape(named[n].text);
      for (std::size_t at; (at = text.find(' ')) != std::string::npos;) text.replace(at, 1, "\u00a0");
      return text;
    }();
  y += canvas.text({room.x, y}, room.w, key, plain) + 4 * mm;

  // As long as fits: 100 mm at a scale of one to five or more, else 200 mm.
  const Length long_ = (placed.one_to <= 5 ? 100.0 : 200.0) * units::mm;
  const double k = placed.views.front().points_per_metre;
  draw_true_bar(canvas, {room.x, y}, long_.si() * k, 0.05 * k, "");
  canvas.text({room.x + long_.si() * k + 3 * mm, y - 1.6 * mm}, -1,
              escape(words("drawing-scale-bar", {{"scale", scale_of(words, placed.one_to)},
                                                 {"length", words.print(number(long_), Systems::metric)}})),
              plain);
  y += 4 * mm;
  if (!now.tyre) y += canvas.text({room.x, y}, room.w, escape(words("drawing-no-tyre")), {7.2}) + 1 * mm;
  return y - room.y;
}

}  // namespace

Elevations place_elevations(const Box& room, const AxleOutline& now, const std::optional<AxleOutline>& stock) {
  std::vector<Extent> extents;
  for (const SeenFrom from : views_of(now)) {
    Extent e;
    const View bare{from, 1.0, {0, 0}};
    widen(e, bare, now);
    if (stock) widen(e, bare, *stock);
    extents.push_back(e);
  }
  const double wide = std::max(extents[0].wide(), extents[1].wide()), tall = extents[0].tall() + extents[1].tall();
  const double room_wide = room.w - 2 * side_room;
  const double room_tall = room.h - key_room - 2 * (caption + 2 * 7 * mm);
  Elevations placed;
  for (const double one_to : {2.0, 2.5, 4.0, 5.0, 6.0, 7.5, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0}) {
    placed.one_to = one_to;
    const double k = 1000 * mm / one_to;
    if (wide * k <= room_wide && tall * k <= room_tall) break;
  }
  const double k = 1000 * mm / placed.one_to;
  double y = room.y;
  for (std::size_t i = 0; i < extents.size(); ++i) {
    const Extent& e = extents[i];
    const double above = 4 * mm, below = 7 * mm;
    y += caption;
    const Box box{room.x, y, room.w, e.tall() * k + above + below};
    const double middle = room.x + room.w / 2 - 0.5 * (e.left + e.right) * k;
    placed.views.push_back({views_of(now)[i], k, {middle, y + above + e.high * k}});
    placed.boxes.push_back(box);
    y += box.h + 2 * mm;
  }
  return placed;
}

double draw_elevations(Canvas& canvas, const Box& room, const Words& words, const AxleOutline& now,
                       const std::optional<AxleOutline>& stock) {
  const Elevations placed = place_elevations(room, now, stock);
  const std::vector<Named> named = named_parts(words, now);
  const char* captions[] = {"drawing-from-ahead", "drawing-from-behind", "drawing-from-left"};
  std::vector<bool> told(named.size(), false);
  for (std::size_t i = 0; i < placed.views.size(); ++i) {
    const View& view = placed.views[i];
    const Box& box = placed.boxes[i];
    canvas.text({room.x, box.y - caption}, room.w,
                escape(words(captions[static_cast<int>(view.from)],
                             {{"axle", words("drawing-axle-" + now.axle)}, {"scale", scale_of(words, placed.one_to)}})),
                head);
    if (view.from != SeenFrom::left)
      canvas.line({view.origin.x, box.y}, {view.origin.x, view.at({0, 0, now.ground.si()}).y}, axis_pen);
    draw_body(canvas, view, box, now);
    if (stock) draw_ghost(canvas, view, *stock);
    draw_ground(canvas, words, view, box, now, stock);
    draw_axle(canvas, view, now);
    // A part gets its number where it is seen at length; seen on end in both views, in the last.
    std::vector<bool> wanted(named.size(), false);
    for (std::size_t n = 0; n < named.size(); ++n) {
      const auto& line = named[n].part->line;
      const Point a = view.at(line.front()), b = view.at(line[line.size() / 2]);
      const bool at_length = std::hypot(b.x - a.x, b.y - a.y) > 4 * mm;
      wanted[n] = seen(view, named[n].part->side) && (at_length || (i + 1 == placed.views.size() && !told[n]));
      told[n] = told[n] || wanted[n];
    }
    draw_tags(canvas, view, box, now, named, wanted);
  }
  double y = placed.boxes.back().y + placed.boxes.back().h + 3 * mm;
  y += draw_key(canvas, {room.x, y, room.w, 0}, words, placed, now, named, stock.has_value());
  return y - room.y;
}

std::string elevations_told(const Elevations& placed) {
  std::string text = fmt::format("1 : {:g}", placed.one_to);
  const char* names[] = {"ahead", "behind", "left"};
  for (const View& v : placed.views)
    text += fmt::format("; from {}: x = {:.4f}, y = {:.4f}, {:.6f} points a metre", names[static_cast<int>(v.from)],
                        v.origin.x, v.origin.y, v.points_per_metre);
  return text;
}

}  // namespace trammel::sheets
