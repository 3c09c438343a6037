// The fitting booklet of a kit: what it is and its limits, the parts mat, the pack check, the steps, the torque table.
#include "sheets/booklet.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "sheets/marks.h"
#include "sheets/places.h"

namespace trammel::sheets {
namespace {

double draw_heading(Canvas& canvas, const Given& given, const Box& room, const char* code) {
  double y = room.y + canvas.text({room.x, room.y}, room.w, given.line(code), {17, true}) + 0.5 * mm;
  const std::string help = given.words.help(code);
  y += canvas.text({room.x, y}, room.w, escape(help), {8.8}) + 1.5 * mm;
  return y - room.y;
}

void heading(const Given& given, Book& book, const char* code) {
  book.heading([&given, code](Canvas& c, const Box& room) { return draw_heading(c, given, room, code); });
}

struct Laid {
  const Part* part = nullptr;
  const FastenerLine* fastener = nullptr;
};

// What the pack holds: parts that are not the cart's own, then fasteners.
std::vector<Laid> laid_on_the_mat(const Given& given) {
  std::vector<Laid> all;
  for (const KitUse& use : given.job.kits)
    for (const Part& part : use.kit.part) {
      const bool pack = part.source ? part.source->value == "pack" : part.count.has_value();
      if (pack) all.push_back({&part, nullptr});
    }
  for (const FastenerLine& f : given.assessment.fasteners) all.push_back({nullptr, &f});
  return all;
}

std::size_t pieces(const FastenerLine& f) { return std::max<std::size_t>(1, f.instances.size()); }

bool one_each_side(const Part& part);

// As many as the kit counts; where it does not, one, or one on each side.
int how_many(const Part& part) { return part.count ? part.count->value : one_each_side(part) ? 2 : 1; }

bool one_each_side(const Part& part) { return part.at && part.at->value.find("left,right") != std::string::npos; }

// "M10x1.25" to 10; nothing for inch sizes and plain pins.
double thread_mm(const std::string& thread) {
  return thread.starts_with('M') ? std::strtod(thread.c_str() + 1, nullptr) : 0;
}

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

constexpr int mat_columns = 3;
constexpr double mat_height = 37 * mm;

// One numbered place of the mat: what lies there and how many; a fastener's head and shank in full size to lay it on.
void draw_place(Canvas& canvas, const Given& given, const Box& box, const Laid& laid, int number) {
  canvas.rect(box, {0.7});
  canvas.text({box.x + 1.5 * mm, box.y + 0.5 * mm}, 16 * mm, std::to_string(number), {20, true});
  draw_tick_box(canvas, {box.x + box.w - tick_size - 1.5 * mm, box.y + 1.5 * mm});
  const double x = box.x + 1.5 * mm, w = box.w - 3 * mm;
  if (laid.part) {
    const Part& part = *laid.part;
    const bool sides = one_each_side(part);
    canvas.text({x + 14 * mm, box.y + 1.5 * mm}, w - 24 * mm, "×" + std::to_string(how_many(part)), {15, true});
    canvas.text({x, box.y + 10 * mm}, w, bold(escape(part.name.value)) + "  " + small(escape(part.id.value)), {8.5});
    if (sides) {
      // A place of its own for each side, so that two left ones show.
      const double y = box.y + 19 * mm, half = w / 2 - 0.7 * mm;
      canvas.rect({x, y, half, box.h - 20.5 * mm}, {0.4, 0.3, 2.0});
      canvas.rect({x + half + 1.4 * mm, y, half, box.h - 20.5 * mm}, {0.4, 0.3, 2.0});
      canvas.label({x + half / 2, y + 8 * mm}, given.line("booklet-left"), {11, true});
      canvas.label({x + half * 1.5 + 1.4 * mm, y + 8 * mm}, given.line("booklet-right"), {11, true});
    }
    return;
  }
  const FastenerLine& f = *laid.fastener;
  canvas.text({x + 14 * mm, box.y + 1.5 * mm}, w - 24 * mm, "×" + std::to_string(pieces(f)), {15, true});
  const double across = f.wrench_head ? f.wrench_head->si * 1000 : f.wrench_nut ? f.wrench_nut->si * 1000 : 0;
  const bool drawn = across > 0 && across <= 24;
  const double left = drawn ? w - (across + 3) * mm : w;
  double y = box.y + 10 * mm;
  y += canvas.text({x, y}, left, bold(escape(f.id)) + "  " + escape(f.thread), {10}) + 0.3 * mm;
  y += canvas.text({x, y}, left, escape(f.at), {7.5});
  if (f.reuse == "new") canvas.text({x, y + 0.5 * mm}, left, given.line("booklet-new"), {8, true});
  if (!drawn) return;
  const Point middle{box.x + box.w - 2 * mm - across * mm / 2, box.y + 23 * mm};
  canvas.polyline(nut_outline(middle, across * mm), true, {0.8});
  if (const double d = thread_mm(f.thread); d > 0) canvas.circle(middle, d * mm / 2, {0.5});
}

void lay_mat(const Given& given, Book& book) {
  heading(given, book, "booklet-mat");
  const std::vector<Laid> all = laid_on_the_mat(given);
  for (std::size_t row = 0; row < all.size(); row += mat_columns)
    book.block(
        [&given, all, row](Canvas& c, const Box& room) {
          const double w = room.w / mat_columns;
          for (std::size_t i = row; i < std::min(row + mat_columns, all.size()); ++i)
            draw_place(c, given, {room.x + static_cast<double>(i - row) * w, room.y, w, mat_height}, all[i],
                       static_cast<int>(i) + 1);
          return mat_height;
        },
        0);
}

// What to count and measure before the cart is touched.
void lay_pack_check(const Given& given, Book& book) {
  book.block([](Canvas&, const Box&) { return 4 * mm; }, 0);
  heading(given, book, "booklet-check");
  int number = 0;
  for (const Laid& laid : laid_on_the_mat(given)) {
    ++number;
    book.block(
        [&given, laid, number](Canvas& c, const Box& room) {
          c.line({room.x, room.y}, {room.x + room.w, room.y}, {0.4});
          draw_tick_box(c, {room.x, room.y + 1 * mm});
          c.text({room.x + 11 * mm, room.y + 1.2 * mm}, 12 * mm, std::to_string(number), {14, true});
          std::string what, measure;
          std::size_t count = 1;
          if (laid.part) {
            what = bold(escape(laid.part->name.value));
            count = static_cast<std::size_t>(how_many(*laid.part));
            if (one_each_side(*laid.part)) measure = given.line("booklet-both-sides");
          } else {
            const FastenerLine& f = *laid.fastener;
            what = bold(escape(f.id)) + "  " + escape(f.stack);
            count = pieces(f);
            if (!f.thread.empty()) measure = given.line("booklet-gauge", {{"thread", f.thread}});
          }
          c.text({room.x + 23 * mm, room.y + 1.2 * mm}, 14 * mm, "×" + std::to_string(count), {12, true});
          const double w = room.w - 38 * mm - 46 * mm;
          double h = c.text({room.x + 38 * mm, room.y + 1.2 * mm}, w, what, {8.5});
          h += c.text({room.x + 38 * mm, room.y + 1.2 * mm + h}, w, measure, {7.2});
          const double line = draw_write_line(c, {room.x + room.w - 43 * mm, room.y - 0.5 * mm}, 43 * mm,
                                              given.words("booklet-counted"));
          return std::max({h + 2 * mm, line, tick_size + 2 * mm});
        },
        0.6 * mm);
  }
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
    heading(given, book, "booklet-steps");
    lay_booklet_steps(given, book);
  }
  if (given.assessment.fasteners.empty()) return;
  book.new_page();
  heading(given, book, "booklet-torques");
  for (const FastenerLine& f : given.assessment.fasteners)
    book.block([&given, &f](Canvas& c, const Box& room) { return draw_torque_row(c, given, room, f); }, 0.8 * mm);
}

}  // namespace trammel::sheets
