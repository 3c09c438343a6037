#include "sheets/alignment_words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace trammel::sheets {

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

namespace {
long quarters_of(double flats) { return std::lround(4 * std::abs(flats)); }
}  // namespace

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

double draw_to_tick(Canvas& canvas, const Given& given, const Box& room, const Message& message) {
  draw_tick_box(canvas, {room.x, room.y + 0.4 * mm}, 4 * mm);
  return std::max(4.8 * mm, canvas.text({room.x + 6 * mm, room.y}, room.w - 6 * mm, given.sentence(message), {8.8})) +
         0.6 * mm;
}

}  // namespace trammel::sheets
