// The fitting booklet of a kit: what it is and its limits, the parts mat, the pack check, the steps, the torque table.
#include "sheets/booklet.h"

#include <algorithm>
#include <cmath>

#include "sheets/marks.h"
#include "sheets/pack.h"
#include "sheets/places.h"

namespace trammel::sheets {
namespace {

double draw_cover(Canvas& canvas, const Given& given, const Box& room) {
  double y = room.y;
  for (const KitUse& use : given.job.kits) {
    y += canvas.text({room.x, y}, room.w, escape(use.kit.name.value), {26, true});
    if (use.kit.maker_note) y += canvas.text({room.x, y}, room.w, escape(use.kit.maker_note->value), {10.5});
    y += 2 * mm;
  }
  // Four numbers, as big as they matter.
  std::size_t parts = 0, types = given.assessment.fasteners.size(), count = 0;
  for (const Laid& laid : laid_on_the_mat(given))
    if (laid.part) parts += static_cast<std::size_t>(how_many(*laid.part));
  for (const FastenerLine& f : given.assessment.fasteners) count += pieces(f);
  double minutes = 0;
  std::set<std::string> steps;
  for (const StepLine& s : given.assessment.steps) {
    steps.insert(s.kit + "/" + s.id);
    if (s.minutes) minutes += s.minutes->in(units::minute);
  }
  const double w = room.w / 4;
  const auto number = [&](int column, const std::string& n, const char* code, const Arguments& arguments = {}) {
    const double x = room.x + w * column;
    canvas.text({x, y}, w, n, {30, true});
    return 12 * mm + canvas.text({x, y + 12 * mm}, w - 3 * mm, given.line(code, arguments), {8.8});
  };
  double h = number(0, std::to_string(parts), parts == 1 ? "booklet-parts-one" : "booklet-parts-in-pack");
  const char* kinds = count == 1   ? "booklet-fasteners-one"
                      : types == 1 ? "booklet-fasteners-alike"
                                   : "booklet-fasteners";
  h = std::max(h, number(1, std::to_string(count), kinds, {{"types", std::to_string(types)}}));
  h = std::max(
      h, number(2, std::to_string(steps.size()), steps.size() == 1 ? "booklet-steps-one" : "booklet-steps-count"));
  if (minutes > 0) h = std::max(h, number(3, std::to_string(std::lround(minutes)), "booklet-minutes-count"));
  return y + h + 3 * mm - room.y;
}

// Limits: what must not be mixed, what is held or disputed, and every caution of the steps once.
double draw_limits(Canvas& canvas, const Given& given, const Box& room) {
  double y = room.y + draw_heading(canvas, given, room, "booklet-limits");
  const auto item = [&](Outcome outcome, const std::string& markup) {
    draw_gate(canvas, {room.x, y + 0.4 * mm}, 4.2 * mm, outcome);
    y += std::max(canvas.text({room.x + 7 * mm, y}, room.w - 7 * mm, markup, {9}), 4.6 * mm) + 1.2 * mm;
  };
  for (const KitUse& use : given.job.kits)
    for (const Text& other : use.kit.conflicts)
      item(Outcome::stop, given.line("booklet-conflict", {{"kit", other.value}}));
  for (const Finding& f : given.assessment.findings) {
    const bool of_fastener = std::any_of(given.assessment.fasteners.begin(), given.assessment.fasteners.end(),
                                         [&](const FastenerLine& l) { return l.id == f.subject; });
    if (of_fastener && (f.outcome == Outcome::stop || f.outcome == Outcome::condition))
      item(f.outcome, escape(given.words.say(f.message)));
  }
  std::vector<std::string> cautions;
  for (const StepLine& s : given.assessment.steps)
    for (const std::string& c : s.cautions)
      if (std::find(cautions.begin(), cautions.end(), c) == cautions.end()) cautions.push_back(c);
  for (const std::string& c : cautions) {
    const std::string help = given.words.help_of("caution", c);
    item(Outcome::condition, bold(escape(given.words.of("caution", c))) + "  " + escape(help));
  }
  y += canvas.text({room.x, y + 1 * mm}, room.w, given.line("sheet-standing"), {8.8, true}) + 2 * mm;
  return y - room.y;
}

double draw_torque_row(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f) {
  canvas.line({room.x, room.y}, {room.x + room.w, room.y}, {0.4});
  const double top = room.y + 1 * mm, where = 52 * mm, torque = 62 * mm;
  double a =
      top + canvas.text({room.x, top}, where, bold(escape(f.id)) + small(" ×" + std::to_string(pieces(f))), {14});
  a += canvas.text({room.x, a}, where - 2 * mm, escape(f.at), {8.2});
  a +=
      canvas.text({room.x, a}, where - 2 * mm, escape(f.thread + (f.strength.empty() ? "" : "  " + f.strength)), {8.2});

  const double x = room.x + where;
  double b = top + draw_big_torque(canvas, given, {x, top, torque, 0}, f, 16);
  if (f.passes.size() > 1) {
    std::string passes;
    for (const Number& p : f.passes) passes += (passes.empty() ? "" : " – ") + given.words.print(p, Systems::metric);
    b += canvas.text({x, b}, torque, small(bold(given.line("booklet-passes"))) + "  " + escape(passes), {8.2});
  }
  if (f.torque_limit)
    b += canvas.text({x, b}, torque,
                     given.line("booklet-slot", {{"limit", given.words.print(*f.torque_limit, Systems::both)}}), {8.2});

  // What must be known beside the number.
  const double rx = x + torque + 2 * mm, rw = room.x + room.w - rx;
  double c = top;
  const auto say = [&](const std::string& markup) { c += canvas.text({rx, c}, rw, markup, {8.2}); };
  const auto size = [&](const Number& n) { return given.words.print(n, Systems::metric); };
  if (f.wrench_head || f.wrench_nut) {
    std::string sizes = f.wrench_head ? size(*f.wrench_head) : "";
    if (f.wrench_nut) sizes += (sizes.empty() ? "" : " / ") + size(*f.wrench_nut);
    say(given.line("booklet-wrench", {{"sizes", sizes}}));
  }
  if (!f.surface.empty() && f.set_by.empty())
    say(given.line("booklet-surface", {{"surface", given.words.of("surface", f.surface)}}));
  if (!f.set_by.empty()) say(given.line("booklet-set-by", {{"measure", f.set_by}}));
  if (!f.only_on.empty()) say(given.line("booklet-only", {{"load", given.words.of("load", f.only_on)}}));
  if (f.reuse == "new") say(bold(given.line("booklet-new")));
  if (!f.bolt_kept.empty()) say(given.line("booklet-bolt-kept", {{"place", given.words.of("kept", f.bolt_kept)}}));
  if (!f.nut_kept.empty()) say(given.line("booklet-nut-kept", {{"place", given.words.of("kept", f.nut_kept)}}));
  if (f.cure) say(given.line("booklet-cure", {{"time", given.words.print(*f.cure)}}));
  if (!f.grease.empty()) say(given.line("booklet-grease", {{"place", f.grease}}));
  if (f.second_person) say(given.line("booklet-second"));
  if (!f.retorque.empty()) say(given.line("booklet-again", {{"when", f.retorque}}));
  if (!f.note.empty()) say(escape(f.note));
  return std::max({a, b, c}) + 1 * mm - room.y;
}

}  // namespace

double draw_big_torque(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f, double size) {
  const std::optional<Number>& torque = f.torque_asked ? f.torque_asked : f.torque_computed;
  if (!torque || !f.set_by.empty())
    return f.set_by.empty() ? canvas.text({room.x, room.y}, room.w, given.line("booklet-no-torque"), {9.5, true}) : 0;
  const Basis basis = f.torque_asked ? Basis::kit : Basis::computed;
  double h = canvas.text({room.x, room.y}, room.w, given.marked(*torque, basis), {size, true});
  if (!f.torque_asked) h += canvas.text({room.x, room.y + h}, room.w, given.line("booklet-computed"), {8.2});
  return h;
}

void lay_booklet(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_cover(c, given, room); });
  book.block([&given](Canvas& c, const Box& room) { return draw_limits(c, given, room); });
  book.new_page();
  lay_mat(given, book);
  lay_pack_check(given, book);
  if (!given.assessment.steps.empty()) {
    book.new_page();
    lay_heading(given, book, "booklet-steps");
    lay_booklet_steps(given, book);
  }
  if (given.assessment.fasteners.empty()) return;
  book.new_page();
  lay_heading(given, book, "booklet-torques");
  for (const FastenerLine& f : given.assessment.fasteners)
    book.block([&given, &f](Canvas& c, const Box& room) { return draw_torque_row(c, given, room, f); }, 0.8 * mm);
}

}  // namespace trammel::sheets
