// The torque record: one block a fastener group, a write-in box for each instance.
#include <algorithm>
#include <cmath>

#include "sheets/findings.h"
#include "sheets/places.h"
#include "sheets/room.h"

namespace trammel::sheets {
namespace {

constexpr double id_column = 42 * mm, torque_column = 66 * mm;

// A ruler of the proof load with the preload's span hatched on it and its nominal value as a tall stroke.
double draw_proof_ruler(Canvas& canvas, const Given& given, const Box& room, const std::array<double, 3>& of_proof) {
  const double full = std::max(1.1, std::ceil(of_proof[2] * 10 + 0.5) / 10);
  const auto at = [&](double fraction) { return room.x + room.w * std::clamp(fraction / full, 0.0, 1.0); };
  double y = room.y +
             canvas.text({room.x, room.y}, room.w,
                         given.line("sheet-torque-proof", {{"nominal", per_cent(of_proof[1])},
                                                           {"low", per_cent(of_proof[0])},
                                                           {"high", per_cent(of_proof[2])}}) +
                             basis_mark(given.words, Basis::computed),
                         {8.2}) +
             1.2 * mm;
  const double h = 3 * mm;
  const std::vector<Point> span = {
      {at(of_proof[0]), y}, {at(of_proof[2]), y}, {at(of_proof[2]), y + h}, {at(of_proof[0]), y + h}};
  canvas.hatch(span, 1.3 * mm, {0.4, 0.2});
  canvas.polyline(span, true, {0.5});
  canvas.line({at(of_proof[1]), y - 0.8 * mm}, {at(of_proof[1]), y + h}, {1.8});
  y += h;
  canvas.line({room.x, y}, {room.x + room.w, y}, {0.8});
  for (int tenth = 0; tenth <= static_cast<int>(full * 10 + 0.01); ++tenth) {
    const double x = at(tenth / 10.0);
    const bool tall = tenth % 5 == 0;
    canvas.line({x, y}, {x, y + (tall ? 1.8 : 1.0) * mm}, {0.5});
    if (tall) canvas.label({x, y + 3.4 * mm}, std::to_string(tenth * 10), {6.5});
  }
  // The proof load itself, as a stop line over the ruler.
  canvas.line({at(1.0), y - h - 1 * mm}, {at(1.0), y + 1.8 * mm}, {0.9});
  return y + 4.7 * mm - room.y;
}

// What the job's own record says of one instance, where it says anything.
const TorqueReached* told_of(const FastenerLine& f, const std::string& instance) {
  for (const TorqueReached& r : f.reached)
    if (r.instance == instance) return &r;
  return nullptr;
}
bool entered(const TorqueReached* r) { return r && (r->torque || !r->set.empty()); }
// Of it no torque is asked: a measure sets it, or it has no thread.
bool by_measure(const FastenerLine& f) { return !f.torque_asked && !f.set_by.empty(); }

// "2026-04-20T08:10" as people write it.
std::string day_and_time(std::string when) {
  if (const std::size_t t = when.find('T'); t != std::string::npos) when[t] = ' ';
  return when;
}

// Who, with what, when, who looked a second time, what was found and decided: a line each.
std::vector<std::string> box_lines(const Given& given, const TorqueReached* r) {
  std::vector<std::string> lines;
  if (!r) return lines;
  if (entered(r)) {
    lines.push_back(escape(r->who + (r->wrench.empty() ? "" : " · " + r->wrench)));
    lines.push_back(escape(day_and_time(r->when)));
  }
  if (!r->instead.empty())
    lines.push_back(given.line("sheet-torque-instead", {{"what", r->instead}}));
  else if (!r->second.empty())
    lines.push_back(given.line("sheet-torque-second", {{"who", r->second}}));
  if (r->asked)
    lines.push_back(given.line("sheet-torque-this-one", {{"torque", given.words.print(*r->asked, Systems::metric)}}));
  for (const std::string& told : r->told) lines.push_back(escape(told));
  std::erase(lines, "");
  return lines;
}

constexpr double box_head = 4.6 * mm, box_line = 7.2;

double instance_height(const Canvas& canvas, const Given& given, double width, const FastenerLine& f,
                       const std::string& instance) {
  double h = box_head + tick_size + 0.6 * mm;
  for (const std::string& line : box_lines(given, told_of(f, instance)))
    h += canvas.text_height(width - 2.4 * mm, line, {box_line});
  return h;
}

void draw_tick(Canvas& canvas, Point box) {
  canvas.polyline(
      {{box.x + 1.5 * mm, box.y + 4 * mm}, {box.x + 3.5 * mm, box.y + 6.5 * mm}, {box.x + 7.5 * mm, box.y + 0.5 * mm}},
      false, {1.6});
}

void draw_instance(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f,
                   const std::string& instance) {
  const Words& words = given.words;
  canvas.rect(room, {0.5});
  canvas.text({room.x + 1.2 * mm, room.y + 0.5 * mm}, room.w - 2.4 * mm, bold(escape(f.id)) + " " + escape(instance),
              {7.6});
  double y = room.y + box_head;
  const TorqueReached* entry = told_of(f, instance);
  const bool booked = entered(entry);
  draw_tick_box(canvas, {room.x + 1.2 * mm, y});
  const double second = f.second_person ? 9 * mm : 0, x = room.x + 11 * mm, w = room.w - 12.5 * mm - second;
  if (booked) {
    if (entry->outcome == Outcome::met) draw_tick(canvas, {room.x + 1.2 * mm, y});
    // Where it does not count: said by a word, not by a shade.
    const std::string value = entry->torque ? escape(words.print(*entry->torque, Systems::metric)) : escape(entry->set);
    canvas.text({x, y + 1.6 * mm}, w,
                value + basis_mark(words, Basis::measured) + (entry->outcome == Outcome::met ? "" : " " + bold("!")),
                {9.5, true});
  } else {
    canvas.line({x, y + 5 * mm}, {x + w * 0.55, y + 5 * mm}, {0.4});
    canvas.line({x + w * 0.6, y + 5 * mm}, {x + w, y + 5 * mm}, {0.4});
    canvas.text({x, y + 5.3 * mm}, w * 0.6, given.line(by_measure(f) ? "sheet-write-measured" : "sheet-write-reached"),
                {5.5});
    canvas.text({x + w * 0.6, y + 5.3 * mm}, w * 0.4, given.line("sheet-write-who"), {5.5});
  }
  if (f.second_person) {
    const Point box{room.x + room.w - 9.2 * mm, y};
    draw_tick_box(canvas, box);
    if (entry && (!entry->second.empty() || !entry->instead.empty())) draw_tick(canvas, box);
    canvas.text({room.x + room.w - 14 * mm, room.y + 0.7 * mm}, 12.8 * mm, given.line("sheet-write-second-short"),
                {6, false, Align::right});
  }
  y += tick_size + 0.3 * mm;
  for (const std::string& line : box_lines(given, entry))
    y += canvas.text({room.x + 1.2 * mm, y}, room.w - 2.4 * mm, line, {box_line});
}

double draw_identity(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f) {
  // The head as the spanner meets it, full size while it fits, on the right edge.
  const std::optional<Number>& across = f.wrench_head ? f.wrench_head : f.wrench_nut;
  const double size = across ? across->si * 1000 * mm : 0, corners = size * 1.155;
  const bool drawn = across && size < 24 * mm;
  if (drawn) {
    const Point middle{room.x + room.w - size / 2, room.y + corners / 2};
    canvas.polyline(nut_outline(middle, size), true, {0.8});
    canvas.circle(middle, size * 0.44, {0.35});
  }
  const double w = drawn ? room.w - size - 2 * mm : room.w;
  double y = room.y;
  y += canvas.text({room.x, y - 1 * mm}, w,
                   bold(escape(f.id)) + small(" ×" + std::to_string(std::max<std::size_t>(1, f.instances.size()))),
                   {18}) -
       0.5 * mm;
  y += canvas.text({room.x, y}, w, escape(f.at), {8.2}) + 0.8 * mm;
  const auto size_line = [&](const std::optional<Number>& n, const char* code) {
    if (n)
      y += canvas.text({room.x, y}, w, given.line(code) + "\n" + bold(escape(given.words.print(*n, Systems::metric))),
                       {7.6}) +
           0.4 * mm;
  };
  const bool alike = f.wrench_head && f.wrench_nut && f.wrench_head->si == f.wrench_nut->si;
  size_line(f.wrench_head, alike ? "sheet-torque-head-and-nut" : "sheet-torque-head");
  if (!alike) size_line(f.wrench_nut, "sheet-torque-nut");
  y = std::max(y, drawn ? room.y + corners + 1 * mm : y);

  // Which of the wrenches at the top of the record.
  if (by_measure(f) || (!f.threaded && !f.torque_asked)) return y - room.y;
  double x = room.x + canvas.text_width(small(bold(given.line("sheet-torque-wrench"))), {8}) + 2 * mm;
  canvas.text({room.x, y + 1 * mm}, room.w, small(bold(given.line("sheet-torque-wrench"))), {8});
  const auto used = [&](std::size_t n) {
    const auto& shop = given.job.shop;
    return shop && n < shop->wrench.size() &&
           std::any_of(f.reached.begin(), f.reached.end(),
                       [&](const TorqueReached& r) { return entered(&r) && r.wrench == shop->wrench[n].id.value; });
  };
  std::size_t n = 0;
  for (const char* letter : {"A", "B", "C"}) {
    draw_tick_box(canvas, {x, y + 0.4 * mm}, 5 * mm);
    if (used(n++))
      canvas.polyline({{x + 1 * mm, y + 2.9 * mm}, {x + 2.2 * mm, y + 4.5 * mm}, {x + 4.7 * mm, y + 0.7 * mm}}, false,
                      {1.3});
    canvas.label({x + 6.6 * mm, y + 2.9 * mm}, letter, {8, true});
    x += 10.5 * mm;
  }
  return y + 6 * mm - room.y;
}

double draw_torque(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f) {
  double y = room.y;
  const Words& words = given.words;
  const auto big = [&](const Number& torque, Basis basis, const char* code) {
    y += canvas.text({room.x, y}, room.w, given.marked(torque, basis), {15, true});
    y += canvas.text({room.x, y}, room.w, given.line(code), {7}) + 0.8 * mm;
  };
  const auto told = [&](const std::string& text, double size = 8.2) {
    y += canvas.text({room.x, y}, room.w, text, {size}) + 0.6 * mm;
  };
  // What is set by a measure, and what has no thread, has no torque to be asked for.
  if (by_measure(f)) {
    y += canvas.text({room.x, y}, room.w, escape(f.set_by) + basis_mark(words, Basis::kit), {12, true});
    told(given.line("sheet-torque-set-by"), 7);
    return y - room.y;
  }
  if (!f.threaded && !f.torque_asked) {
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-no-thread"), {9, true}) + 1 * mm;
    return y - room.y;
  }
  if (f.held && f.torque_asked && !f.torque_kit) {
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-held"), {11, true}) + 0.6 * mm;
    told(given.line("sheet-torque-held-kit", {{"torque", words.print(*f.torque_asked, Systems::metric)}}));
  } else if (f.torque_asked) {
    big(*f.torque_asked, Basis::kit, f.torque_kit ? "sheet-torque-decided" : "sheet-torque-asked");
  }
  if (f.torque_kit)
    told(given.line("sheet-torque-in-place", {{"torque", words.print(*f.torque_kit, Systems::metric)}}));
  if (!f.decided.empty()) told(escape(f.decided));
  if (f.torque_limit)
    told(bold(given.line("sheet-torque-limit", {{"torque", words.print(*f.torque_limit, Systems::metric)}})));
  if (f.torque_computed) {
    if (f.torque_asked)
      told(given.line("sheet-torque-computed-too") + " " + given.marked(*f.torque_computed, Basis::computed));
    else
      big(*f.torque_computed, Basis::computed, "sheet-torque-computed");
  }
  if (!f.torque_asked && !f.torque_computed)
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-none"), {9, true}) + 1 * mm;
  if (f.passes.size() > 1) {
    std::vector<std::string> passes;
    for (const Number& n : f.passes) passes.push_back(words.print(n, Systems::metric));
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-passes") + " " + bold(escape(joined(passes, " → "))),
                     {8.2}) +
         0.8 * mm;
  }
  if (f.of_proof)
    y += draw_proof_ruler(canvas, given, {room.x, y + 0.5 * mm, room.w - 4 * mm, 0}, *f.of_proof);
  else
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-no-proof"), {7.6}) + 0.5 * mm;
  return y - room.y;
}

double draw_terms(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f) {
  double y = room.y;
  const auto named = [&](const char* code, const std::string& text) {
    if (text.empty()) return;
    y += canvas.text({room.x, y}, room.w, small(bold(given.line(code))) + "  " + escape(text), {8}) + 0.5 * mm;
  };
  named("sheet-torque-thread", f.strength.empty() ? f.thread : f.thread + ", " + f.strength);
  named("sheet-torque-stack", f.stack);
  // A surface matters to a torque; one that the kit does not state is marked as assumed.
  const bool assumed = std::any_of(f.flags.begin(), f.flags.end(),
                                   [](const Flagged& flag) { return flag.message.code == "surface-assumed"; });
  if (!f.surface.empty() && !by_measure(f)) {
    draw_tick_box(canvas, {room.x, y + 0.5 * mm}, 5 * mm);
    y += std::max(
             6.2 * mm,
             canvas.text({room.x + 7 * mm, y + 0.6 * mm}, room.w - 7 * mm,
                         small(bold(given.line(assumed ? "sheet-torque-surface-assumed" : "sheet-torque-surface"))) +
                             "  " + escape(f.surface) + (assumed ? basis_mark(given.words, Basis::assumed) : ""),
                         {8})) +
         0.5 * mm;
  }
  if (!f.only_on.empty()) named("sheet-torque-only-on", given.words.of("load", f.only_on));
  if (!f.reuse.empty()) named("sheet-torque-reuse", given.words.of("reuse", f.reuse));
  named("sheet-torque-note", f.note);
  if (f.preload)
    y += canvas.text({room.x, y}, room.w,
                     small(bold(given.line("sheet-torque-preload"))) + "  " + given.computed((*f.preload)[1]), {8});
  for (const Flagged& flag : f.flags) {
    if (flag.outcome != Outcome::stop && flag.outcome != Outcome::condition) continue;  // notes stand in the verdict
    draw_gate(canvas, {room.x, y + 0.5 * mm}, 4 * mm, flag.outcome);
    y += canvas.text({room.x + 6 * mm, y}, room.w - 6 * mm,
                     bold(given.line(word_of(flag.outcome))) + "  " + escape(given.words.say(flag.message)), {8}) +
         0.6 * mm;
  }
  return y - room.y;
}

// The fastener of an earlier kit whose holes it shares: "F1 fore".
std::string shares(const Job& job, const std::string& id) {
  for (const KitUse& use : job.kits)
    for (const KitFastener& f : use.kit.fastener)
      if (f.id.value == id && f.shares) return f.shares->value;
  return {};
}

// Who looked at them a second time, each once.
std::string second_looks(const FastenerLine& f) {
  std::vector<std::string> names;
  for (const TorqueReached& r : f.reached)
    if (!r.second.empty() && std::find(names.begin(), names.end(), r.second) == names.end()) names.push_back(r.second);
  return joined(names, ", ");
}

double draw_group(Canvas& canvas, const Given& given, const Box& room, const FastenerLine& f) {
  canvas.rule(room, 0.7);
  const double top = room.y + 2.5 * mm;
  const double a = draw_identity(canvas, given, {room.x, top, id_column, 0}, f);
  const double b = draw_torque(canvas, given, {room.x + id_column + 4 * mm, top, torque_column, 0}, f);
  const double x = room.x + id_column + torque_column + 8 * mm;
  const double c = draw_terms(canvas, given, {x, top, room.x + room.w - x, 0}, f);
  double y = top + std::max({a, b, c}) + 1 * mm;

  // Holes that it shares with another kit's fastener are written down there, once.
  if (const std::string shared = shares(given.job, f.id); !shared.empty()) {
    y += canvas.text({room.x, y}, room.w, given.line("sheet-torque-shared", {{"id", shared}}), {9, true}) + 1 * mm;
    return y - room.y;
  }

  // A box for each instance, a row as high as its fullest box.
  const std::vector<std::string> one = {""};
  const auto& instances = f.instances.empty() ? one : f.instances;
  const std::size_t across = instances.size() == 2 ? 2 : instances.size() % 4 == 0 ? 4 : 3;
  const double gap = 2 * mm, w = (room.w - gap * (across - 1)) / across;
  for (std::size_t row = 0; row < instances.size(); row += across) {
    const std::size_t end = std::min(row + across, instances.size());
    double h = 0;
    for (std::size_t i = row; i < end; ++i) h = std::max(h, instance_height(canvas, given, w, f, instances[i]));
    for (std::size_t i = row; i < end; ++i)
      draw_instance(canvas, given, {room.x + static_cast<double>(i - row) * (w + gap), y, w, h}, f, instances[i]);
    y += h + 1.2 * mm;
  }

  // The second pair of eyes, and the second time round.
  double h = 0;
  const double half = room.w / 2;
  if (f.second_person) {
    h = draw_write_line(canvas, {room.x, y - 2.5 * mm}, half - 4 * mm, given.words("sheet-write-second"));
    canvas.text({room.x + 1 * mm, y + 1 * mm}, half - 6 * mm, escape(second_looks(f)), {8.5, true});
  }
  if (!f.retorque.empty())
    h = std::max(h, draw_write_line(canvas, {room.x + half, y - 2.5 * mm}, half,
                                    given.words("sheet-write-retorque", {{"when", f.retorque}})));
  return y + std::max(0.0, h - 2.5 * mm) - room.y;
}

double draw_wrenches(Canvas& canvas, const Given& given, const Box& room) {
  double y = room.y + canvas.text({room.x, room.y}, room.w, given.line("sheet-torque-wrenches"), {9.5, true});
  const double part = room.w / 3;
  double h = 0;
  const Shop none, &shop = given.job.shop ? *given.job.shop : none;
  for (int i = 0; i < 3; ++i) {
    const double x = room.x + i * part;
    const std::string letter(1, static_cast<char>('A' + i));
    canvas.label({x + 3 * mm, y + 6 * mm}, bold(letter), {14});
    draw_write_line(canvas, {x + 8 * mm, y}, part * 0.36, given.words("sheet-write-wrench-id"));
    if (static_cast<std::size_t>(i) < shop.wrench.size()) {
      const Wrench& wrench = shop.wrench[static_cast<std::size_t>(i)];
      canvas.text({x + 8.5 * mm, y + 1.5 * mm}, part * 0.36, bold(escape(wrench.id.value)), {9});
      if (wrench.calibration_due)
        canvas.text({x + 10.5 * mm + part * 0.36, y + 1.5 * mm}, part * 0.36, escape(wrench.calibration_due->value),
                    {8});
    }
    h = draw_write_line(canvas, {x + 10 * mm + part * 0.36, y}, part * 0.36, given.words("sheet-write-calibration"));
  }
  return y + h - room.y;
}

}  // namespace

void lay_torque_record(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_wrenches(c, given, room); }, 4 * mm);
  if (given.assessment.fasteners.empty())
    book.block([&given](Canvas& c, const Box& room) {
      return c.text({room.x, room.y}, room.w, given.line("sheet-torque-empty"), {10, true});
    });
  book.block([&given](Canvas& c, const Box& room) {
    return c.text({room.x, room.y}, room.w, given.line("sheet-torque-again"), {8});
  });
  for (const FastenerLine& f : given.assessment.fasteners)
    book.block([&given, &f](Canvas& c, const Box& room) { return draw_group(c, given, room, f); }, 2.5 * mm);
}

}  // namespace trammel::sheets
