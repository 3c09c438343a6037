#include "sheets/pack.h"

#include <algorithm>
#include <cstdlib>

#include "sheets/marks.h"
#include "sheets/places.h"

namespace trammel::sheets {
namespace {

bool one_each_side(const Part& part) { return part.at && part.at->value.find("left,right") != std::string::npos; }

// "M10x1.25" to 10; nothing for inch sizes and plain pins.
double thread_mm(const std::string& thread) {
  return thread.starts_with('M') ? std::strtod(thread.c_str() + 1, nullptr) : 0;
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
  const std::string count = "×" + std::to_string(pieces(f));
  const double cw = canvas.text_width(count, {15, true}) + 1.5 * mm;
  canvas.text({x + 14 * mm, box.y + 1.5 * mm}, w - 24 * mm, count, {15, true});
  const char* note = f.reuse == "new" ? "booklet-new" : f.from_pack == 0 ? "booklet-from-cart" : nullptr;
  if (note)
    canvas.text({x + 14 * mm + cw, box.y + 1.2 * mm}, w - 25 * mm - cw, given.line(note), {7, f.reuse == "new"});
  const double across = f.wrench_head ? f.wrench_head->si * 1000 : f.wrench_nut ? f.wrench_nut->si * 1000 : 0;
  const bool drawn = across > 0 && across <= 24;
  const double left = drawn ? w - (across + 3) * mm : w;
  const double y = box.y + 10 * mm;
  const double h = canvas.text({x, y}, left, bold(escape(f.id)) + "  " + escape(f.thread), {10});
  canvas.text({x, y + h + 0.3 * mm}, left, escape(f.at), {7.5});
  if (!drawn) return;
  const Point middle{box.x + box.w - 2 * mm - across * mm / 2, box.y + 23 * mm};
  canvas.polyline(nut_outline(middle, across * mm), true, {0.8});
  if (const double d = thread_mm(f.thread); d > 0) canvas.circle(middle, d * mm / 2, {0.5});
}

}  // namespace

double draw_heading(Canvas& canvas, const Given& given, const Box& room, const char* code) {
  double y = room.y + canvas.text({room.x, room.y}, room.w, given.line(code), {17, true}) + 0.5 * mm;
  const std::string help = given.words.help(code);
  y += canvas.text({room.x, y}, room.w, escape(help), {8.8}) + 1.5 * mm;
  return y - room.y;
}

void lay_heading(const Given& given, Book& book, const char* code) {
  book.heading([&given, code](Canvas& c, const Box& room) { return draw_heading(c, given, room, code); });
}

// The cart's own, that the work slackens and never takes out.
bool stays_in_place(const Assessment& assessment, const FastenerLine& f) {
  bool slackened = false;
  for (const StepLine& s : assessment.steps)
    for (const FastenerMove& m : s.slacken)
      if (m.id == f.id) {
        if (m.state != "slack") return false;
        slackened = true;
      }
  return slackened && f.from_pack == 0;
}

std::vector<Laid> laid_on_the_mat(const Given& given) {
  std::vector<Laid> all;
  for (const KitUse& use : given.job.kits)
    for (const Part& part : use.kit.part) {
      const bool pack = part.source ? part.source->value == "pack" : part.count.has_value();
      if (pack) all.push_back({&part, nullptr});
    }
  for (const FastenerLine& f : given.assessment.fasteners)
    if (!stays_in_place(given.assessment, f)) all.push_back({nullptr, &f});
  return all;
}

std::size_t pieces(const FastenerLine& f) { return std::max<std::size_t>(1, f.instances.size()); }

int how_many(const Part& part) { return part.count ? part.count->value : one_each_side(part) ? 2 : 1; }

void lay_mat(const Given& given, Book& book) {
  lay_heading(given, book, "booklet-mat");
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

void lay_pack_check(const Given& given, Book& book) {
  book.block([](Canvas&, const Box&) { return 4 * mm; }, 0);
  lay_heading(given, book, "booklet-check");
  int number = 0;
  for (const Laid& laid : laid_on_the_mat(given)) {
    ++number;
    if (laid.fastener && laid.fastener->from_pack == 0) continue;
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
            count = f.from_pack;
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

}  // namespace trammel::sheets
