#include "sheets/picture.h"

#include <fmt/core.h>

#include "sheets/curve_drawing.h"
#include "sheets/elevation.h"
#include "sheets/gap_map.h"

namespace trammel::sheets {
namespace {

// Whether both lie alike, so that a ghost would be hidden behind what it is the ghost of.
bool alike(const AxleOutline& a, const AxleOutline& b) {
  if (a.parts.size() != b.parts.size() || a.ground != b.ground || a.loaded_radius != b.loaded_radius) return false;
  for (std::size_t i = 0; i < a.parts.size(); ++i)
    if (a.parts[i].what != b.parts[i].what || a.parts[i].line != b.parts[i].line) return false;
  const auto size = [](const AxleOutline& o) {
    return o.tyre ? std::pair(o.tyre->radius, o.tyre->width) : std::pair(Length{}, Length{});
  };
  return size(a) == size(b);
}

// A wheel's map with the pose of its least gap in words below it.
double draw_map_told(Canvas& canvas, const Words& words, const Box& room, const GapMap& map, Length wanted) {
  double h = draw_gap_map(canvas, words, room, map, wanted);
  const int worst = worst_cell(map);
  if (worst < 0) return h;
  const auto& cell = map.cells[static_cast<std::size_t>(worst)];
  const std::size_t columns = map.steers.size();
  const Length rise = map.rises[static_cast<std::size_t>(worst) / columns];
  const Angle steer = map.steers[static_cast<std::size_t>(worst) % columns];
  const char* code = rise.si() < 0 ? "drawing-map-least-below" : "drawing-map-least";
  h += canvas.text({room.x, room.y + h}, room.w,
                   escape(words(code, {{"gap", words.print(*cell.gap)},
                                       {"what", map.features[static_cast<std::size_t>(cell.feature)]},
                                       {"rise", words.brief(number(abs(rise)))},
                                       {"steer", words.brief(number(abs(steer)))},
                                       {"way", words.of("side", steer.si() < 0 ? "right" : "left")},
                                       {"wanted", words.print(wanted)}})),
                   {8.5});
  return h + 5 * mm;
}

}  // namespace

std::optional<AxleShown> axle_shown(const Job& job, const Cart& now, const Assessment& assessment,
                                    const std::string& axle) {
  const auto outline = axle_outline(now, axle);
  if (!outline) return std::nullopt;
  AxleShown shown{axle, *outline, axle_outline(job.cart, axle), travel_curves(job.cart, now, axle), nullptr};
  if (shown.stock && alike(shown.now, *shown.stock)) shown.stock.reset();
  if (!shown.stock)
    for (TravelCurve& c : shown.curves) c.stock.clear(), c.difference.clear();
  for (const AxleClearance& c : assessment.clearance)
    if (c.axle == axle && c.steers && !c.maps.empty()) shown.clearance = &c;
  return shown;
}

Picture elevation_picture(const AxleShown& shown, const Words& words) {
  return {"elevation", words("drawing-elevation", {{"axle", words("drawing-axle-" + shown.axle)}}),
          [&words, now = shown.now, stock = shown.stock](Canvas& canvas, const Box& room) {
            return draw_elevations(canvas, room, words, now, stock);
          },
          [now = shown.now, stock = shown.stock](const Box& room) {
            return elevations_told(place_elevations(room, now, stock));
          }};
}

Picture curve_picture(const TravelCurve& curve, const Words& words) {
  return {curve.name, curve_title(words, curve),
          [&words, curve](Canvas& canvas, const Box& room) { return draw_curve(canvas, room, words, curve); },
          [curve](const Box& room) { return curve_told(place_curve(room, curve), curve); }};
}

std::optional<Picture> map_picture(const AxleShown& shown, const Words& words) {
  if (!shown.clearance) return std::nullopt;
  const AxleClearance& clearance = *shown.clearance;
  return Picture{"map", words("drawing-map", {{"axle", words("drawing-axle-" + shown.axle)}}),
                 [&words, maps = clearance.maps, wanted = clearance.wanted](Canvas& canvas, const Box& room) {
                   double y = room.y;
                   for (const GapMap& map : maps)
                     y += draw_map_told(canvas, words, {room.x, y, room.w, room.h}, map, wanted);
                   return y - room.y;
                 },
                 [maps = clearance.maps, wanted = clearance.wanted](const Box&) {
                   std::string text = fmt::format("gap in mm, wanted {:.6g}", wanted.in(units::mm));
                   for (const GapMap& map : maps)
                     text += fmt::format("; {} wheel, rise {:.6g} to {:.6g} mm", map.side,
                                         map.rises.front().in(units::mm), map.rises.back().in(units::mm));
                   return text;
                 }};
}

}  // namespace trammel::sheets
