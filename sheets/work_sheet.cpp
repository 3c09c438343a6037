// The work sheet: the cart with its fastener places, the verdict, then one block a step beside its loose list.
#include <algorithm>
#include <cmath>

#include "sheets/findings.h"
#include "sheets/key_drawing.h"
#include "sheets/loose_list.h"
#include "sheets/places.h"
#include "sheets/room.h"
#include "sheets/support_drawing.h"

namespace trammel::sheets {
namespace {

constexpr double number_column = 17 * mm, step_column = 82 * mm, spine = number_column + step_column + 3 * mm;

// A small name and its text on the lines after it, where there is any.
double draw_named(Canvas& canvas, const Given& given, const Box& room, const std::string& code,
                  const std::vector<std::string>& items) {
  if (items.empty()) return 0;
  return canvas.text({room.x, room.y}, room.w, small(bold(given.line(code))) + "  " + escape(joined(items, " · ")),
                     {8.2}) +
         0.7 * mm;
}

// Where bolt and nut are while a joint is open; grease and locker as it is closed.
double draw_joint_notes(Canvas& canvas, const Given& given, const Box& room, const std::string& id, bool opens) {
  std::vector<std::string> notes;
  for (const FastenerLine& f : given.assessment.fasteners) {
    if (f.id != id) continue;
    const auto kept = [&](const char* code, const std::string& place) {
      if (!place.empty()) notes.push_back(given.line(code, {{"place", given.words.of("kept", place)}}));
    };
    if (opens) kept("booklet-bolt-kept", f.bolt_kept);
    if (opens) kept("booklet-nut-kept", f.nut_kept);
    if (!opens && !f.grease.empty()) notes.push_back(given.line("booklet-grease", {{"place", f.grease}}));
    if (!opens && f.cure) notes.push_back(given.line("booklet-cure", {{"time", given.words.print(*f.cure)}}));
  }
  return notes.empty() ? 0.0 : canvas.text({room.x, room.y}, room.w, small(joined(notes, " · ")), {8.2});
}

// Fasteners to turn, each with its torque large and the unit in full.
const FastenerLine* line_of(const Assessment& assessment, const std::string& id) {
  const auto at = std::find_if(assessment.fasteners.begin(), assessment.fasteners.end(),
                               [&](const FastenerLine& f) { return f.id == id; });
  return at == assessment.fasteners.end() ? nullptr : &*at;
}

// "16 mm", "16 mm / 18 mm" of head and nut.
std::string across_flats(const Given& given, const FastenerLine* f) {
  if (!f) return "";
  std::string sizes = f->wrench_head ? given.words.brief(*f->wrench_head) : "";
  if (f->wrench_nut) {
    const std::string nut = given.words.brief(*f->wrench_nut);
    if (nut != sizes) sizes += (sizes.empty() ? "" : " / ") + nut;
  }
  return sizes;
}

// The torques that a move goes through: of a fastener in passes, part-tight is every pass but the last.
std::string torques(const Given& given, const FastenerMove& move, const FastenerLine* f) {
  if (!move.torque) return "";
  const Basis basis = f && !f->torque_asked ? Basis::computed : Basis::kit;
  if (move.state != "part-tight" || !f || f->passes.size() < 3) return given.marked(*move.torque, basis);
  std::string all;
  for (std::size_t i = 0; i + 1 < f->passes.size(); ++i)
    all += (all.empty() ? "" : " → ") + escape(given.words.brief(f->passes[i]));
  return all + basis_mark(given.words, basis);
}

double draw_moves(Canvas& canvas, const Given& given, const Box& room, const std::vector<FastenerMove>& moves,
                  const std::string& verb) {
  double y = room.y;
  for (const FastenerMove& move : moves) {
    const FastenerLine* fastener = line_of(given.assessment, move.id);
    std::string where = where_of(given.assessment, given.words, move.id, move.instances);
    if (const std::string sizes = across_flats(given, fastener); !sizes.empty())
      where += (where.empty() ? "" : " · ") + given.words("sheet-work-flats", {{"sizes", sizes}});
    const bool out = verb == "sheet-work-slacken" && move.state == "out";
    y += canvas.text(
        {room.x, y}, room.w,
        given.line(out ? "sheet-work-out" : verb, {{"id", move.id}, {"state", given.words.of("state", move.state)}}) +
            (where.empty() ? "" : "  " + small(escape(where))),
        {9, true});
    if (move.torque) {
      // The unit in full stands beside the number, on its foot.
      const std::string torque = torques(given, move, fastener);
      const TextStyle figure{16, true}, unit{6.8};
      const double wide = canvas.text_width(torque, figure) + 2 * mm, left = room.w - wide;
      const double high = canvas.text({room.x, y}, room.w, torque, figure);
      const double unit_high = canvas.text_height(left, given.line("sheet-unit-torque"), unit);
      canvas.text({room.x + wide, y + std::max(0.0, high - 0.8 * mm - unit_high)}, left,
                  given.line("sheet-unit-torque"), unit);
      y += high;
    }
    y += draw_joint_notes(canvas, given, {room.x, y, room.w, 0}, move.id, verb == "sheet-work-slacken");
    y += 1 * mm;
  }
  return y - room.y;
}

double draw_cautions(Canvas& canvas, const Given& given, const Box& room, const std::vector<std::string>& cautions) {
  double y = room.y;
  for (const std::string& caution : cautions) {
    const std::string help = given.words.help_of("caution", caution);
    y += canvas.text({room.x + 3 * mm, y}, room.w - 3 * mm,
                     bold(given.line("sheet-work-caution")) + " " + escape(given.words.of("caution", caution)) +
                         (help.empty() ? "" : " " + small(escape(help))),
                     {8.2}) +
         0.8 * mm;
  }
  if (!cautions.empty()) canvas.line({room.x + 0.7 * mm, room.y + 0.6 * mm}, {room.x + 0.7 * mm, y - 1 * mm}, {2.2});
  return y - room.y;
}

// The wheel between its chocks: nobody goes on before a second look.
double draw_hold(Canvas& canvas, const Given& given, const Box& room, const StepLine& step) {
  const double y = room.y + 1 * mm;
  draw_chocked_wheel(canvas, {room.x + 8 * mm, y + 5.5 * mm}, 4 * mm);
  const double x = room.x + 18 * mm, w = room.w - 18 * mm;
  double h = canvas.text(
      {x, y}, w, bold(given.line("sheet-work-hold")) + "  " + escape(given.words.help("sheet-work-hold")), {8.2});
  if (step.booked && !step.booked->instead.empty())
    h += canvas.text({x, y + h}, w, given.line("sheet-torque-instead", {{"what", step.booked->instead}}), {8.5, true});
  if (step.booked && !step.booked->second.empty())
    canvas.text({x + 1 * mm, y + h + 3 * mm}, w * 0.6 - 2 * mm, escape(step.booked->second), {8.5, true});
  h += draw_write_line(canvas, {x, y + h}, w * 0.6, given.words("sheet-write-second-look"));
  draw_write_line(canvas, {x + w * 0.65, y + h - 8 * mm - 0.6 * mm - canvas.text_height(w, "x", {6.8})}, w * 0.35,
                  given.words("sheet-write-time"));
  return std::max(h, 12 * mm) + 2 * mm;
}

// A step as it is printed: one line of the plan, or the left and the right side of one step together.
struct Printed {
  StepLine step;
  std::string who;  // of two technicians
  int last = 0;     // its number, or that of its second side
  bool two_sides = false, second_done = false;
  int stands_as = 0;                        // the step at which the cart came to stand as it does here
  std::optional<BookedStep> second_booked;  // of the second side
};

// In the order of work: what is signed, then as planned.
std::vector<Printed> printed_steps(const Assessment& assessment) {
  std::vector<StepInOrder> order = assessment.order;
  if (order.size() != assessment.steps.size()) {
    order.clear();
    for (std::size_t i = 0; i < assessment.steps.size(); ++i) order.push_back({i, ""});
  }
  std::vector<Printed> all;
  int stood = 0;
  for (const StepInOrder& at : order) {
    const StepLine& s = assessment.steps[at.step];
    Printed* before = all.empty() ? nullptr : &all.back();
    const bool joins = before && !before->two_sides && before->step.side == "left" && s.side == "right" &&
                       before->step.id == s.id && before->step.kit == s.kit && before->who == at.who &&
                       before->step.again == s.again && before->step.faults.empty() && s.faults.empty();
    if (!joins) {
      if (s.support && s.support->changed) stood = s.number;
      all.push_back({s, at.who, s.number, false, false, stood, std::nullopt});
      continue;
    }
    // The second side: its fasteners join those of the first, its loose list and load come after both.
    before->two_sides = true;
    before->second_done = s.done;
    before->second_booked = s.booked;
    before->last = s.number;
    const auto join = [](std::vector<FastenerMove>& to, const std::vector<FastenerMove>& from) {
      for (const FastenerMove& m : from) {
        const auto alike = std::find_if(to.begin(), to.end(), [&](const FastenerMove& l) {
          return l.id == m.id && l.state == m.state && l.torque.has_value() == m.torque.has_value() &&
                 (!m.torque || l.torque->si == m.torque->si);
        });
        if (alike == to.end())
          to.push_back(m);
        else
          alike->instances.insert(alike->instances.end(), m.instances.begin(), m.instances.end());
      }
    };
    join(before->step.tighten, s.tighten);
    join(before->step.slacken, s.slacken);
    before->step.unfinished = s.unfinished;
    if (s.support && s.support->changed) {
      before->step.support = s.support;
      stood = before->step.number;
    }
    before->step.load = s.load;
  }
  return all;
}

// Number, a box for each side, and time on the left edge.
double draw_number(Canvas& canvas, const Given& given, const Box& room, const Printed& printed) {
  const StepLine& step = printed.step;
  double y = room.y;
  const std::string number =
      std::to_string(step.number) +
      (printed.two_sides ? (printed.last == step.number + 1 ? "–" : "/") + std::to_string(printed.last) : "");
  y += printed.two_sides ? canvas.text({room.x, y - 0.4 * mm}, number_column, number, {14, true})
                         : canvas.text({room.x, y - 1.5 * mm}, number_column, number, {24, true}) - 1.2 * mm;
  const auto box = [&](bool done, const std::string& side) {
    draw_tick_box(canvas, {room.x, y});
    if (done)
      canvas.polyline(
          {{room.x + 1.5 * mm, y + 4 * mm}, {room.x + 3.5 * mm, y + 6.5 * mm}, {room.x + 7.5 * mm, y + 0.5 * mm}},
          false, {1.6});
    if (!side.empty()) canvas.text({room.x + tick_size + 0.8 * mm, y + 2.3 * mm}, 7.5 * mm, side, {6.6, true});
    y += tick_size + 1.5 * mm;
  };
  const auto signed_by = [&](const std::optional<BookedStep>& booked) {
    if (!booked) return;
    std::string when = booked->when;
    if (const std::size_t t = when.find('T'); t != std::string::npos) when[t] = '\n';
    y += canvas.text({room.x, y - 0.8 * mm}, number_column - 1 * mm, escape(booked->who) + "\n" + escape(when), {6.5}) -
         0.2 * mm;
  };
  box(step.done, printed.two_sides ? escape(given.words.of("side", "left")) : "");
  signed_by(step.booked);
  if (printed.two_sides) box(printed.second_done, escape(given.words.of("side", "right")));
  if (printed.two_sides) signed_by(printed.second_booked);
  if (step.minutes)
    y += canvas.text(
        {room.x, y}, number_column - 1 * mm,
        given.line("sheet-work-minutes", {{"count", std::to_string(std::lround((printed.two_sides ? 2.0 : 1.0) *
                                                                               step.minutes->in(units::minute)))}}) +
            basis_mark(given.words, Basis::kit),
        {8.2});
  if (!printed.who.empty()) y += canvas.text({room.x, y}, number_column - 1 * mm, printed.who, {11, true});
  if (step.people > 1)
    y += canvas.text({room.x, y}, number_column - 1 * mm,
                     given.line("sheet-work-people", {{"count", std::to_string(step.people)}}), {7.5, true});
  return y - room.y;
}

// What was seen or measured, of both sides where there are two.
std::string found_of(const Given& given, const Printed& printed) {
  const std::string first = printed.step.booked ? printed.step.booked->evidence : "";
  const std::string second = printed.second_booked ? printed.second_booked->evidence : "";
  if (!printed.two_sides || second.empty() || first == second) return escape(first);
  return escape(given.words.of("side", "left") + ": " + first + "; " + given.words.of("side", "right") + ": " + second);
}

// What to do, with what, and what shows that it is done.
double draw_doing(Canvas& canvas, const Given& given, const Box& room, const Printed& printed) {
  const StepLine& step = printed.step;
  double y = room.y;
  const std::string side = step.side.empty()   ? ""
                           : printed.two_sides ? given.line("sheet-work-both-sides") + ": "
                                               : escape(begun(given.words.of("side", step.side))) + ": ";
  y += canvas.text({room.x, y}, room.w, side + escape(step.act), {11.5, true}) + 1 * mm;
  if (step.optional) y += canvas.text({room.x, y}, room.w, given.line("sheet-work-optional"), {8.2, true}) + 0.4 * mm;
  if (step.again)
    y += canvas.text({room.x, y}, room.w,
                     bold(given.line("sheet-work-again")) + " " + escape(given.words.help("sheet-work-again")), {8.5}) +
         0.7 * mm;
  const auto named = [&](const char* code, const std::vector<std::string>& items) {
    y += draw_named(canvas, given, {room.x, y, room.w, 0}, code, items);
  };
  named("sheet-work-needs", step.needs);
  named("sheet-work-removes", step.removes);
  named("sheet-work-fits", step.fits);
  named("sheet-work-work", given.words.deeds(step.work));
  y += draw_moves(canvas, given, {room.x, y, room.w, 0}, step.slacken, "sheet-work-slacken");
  y += draw_moves(canvas, given, {room.x, y, room.w, 0}, step.tighten, "sheet-work-tighten");
  if (!step.repeat_until.empty()) named("sheet-work-repeat", {step.repeat_until});
  named("sheet-work-tools", step.tools);
  named("sheet-work-undoes", step.undoes);
  if (!step.load.empty()) named("sheet-work-load", {given.words.of("load", step.load)});
  y += draw_cautions(canvas, given, {room.x, y + 0.5 * mm, room.w, 0}, step.cautions);
  named("sheet-work-keep-out", step.keep_out);
  for (const Message& point : step.points) {
    draw_tick_box(canvas, {room.x, y + 0.4 * mm}, 3.6 * mm);
    y += std::max(canvas.text({room.x + 5.5 * mm, y}, room.w - 5.5 * mm, escape(given.words.say(point)), {8.2}),
                  4 * mm) +
         0.8 * mm;
  }
  if (step.support && step.support->changed)
    y += draw_support(canvas, given, {room.x, y + 0.5 * mm, room.w, 0}, *step.support);
  else if (step.support && printed.stands_as > 0)
    y += canvas.text({room.x, y}, room.w, given.line("sheet-support-as", {{"step", std::to_string(printed.stands_as)}}),
                     {8.2}) +
         0.6 * mm;
  if (step.short_handed)
    named("sheet-work-alone", {step.one_person.empty() ? given.words.help("sheet-work-alone") : step.one_person});
  for (const Message& fault : step.faults) {
    draw_gate(canvas, {room.x, y + 0.6 * mm}, 4.5 * mm, Outcome::stop);
    y += canvas.text({room.x + 6.5 * mm, y}, room.w - 6.5 * mm,
                     bold(given.line("sheet-outcome-stop")) + "  " + escape(given.words.say(fault)), {8.5}) +
         1 * mm;
  }
  if (!step.evidence.empty()) {
    // What shows it, and beside it a line for what was found.
    const double told = room.w * 0.54;
    const double h = canvas.text({room.x, y + 1 * mm}, told,
                                 small(bold(given.line("sheet-work-evidence"))) + "  " + escape(step.evidence), {8.2});
    if (const std::string found = found_of(given, printed); !found.empty()) {
      // What was found, as it is booked.
      const double told_h = canvas.text({room.x + told + 3 * mm, y + 1 * mm}, room.w - told - 3 * mm,
                                        small(bold(given.line("sheet-write-found"))) + "  " + found, {8.2});
      y += std::max(h, told_h) + 1.5 * mm;
      if (step.hold) y += draw_hold(canvas, given, {room.x, y, room.w, 0}, step);
      return y - room.y;
    }
    y += std::max(h + 1 * mm, draw_write_line(canvas, {room.x + told + 3 * mm, y - 1 * mm}, room.w - told - 3 * mm,
                                              given.words("sheet-write-found")) -
                                  1 * mm) +
         0.5 * mm;
  }
  if (step.hold) y += draw_hold(canvas, given, {room.x, y, room.w, 0}, step);
  return y - room.y;
}

double draw_step(Canvas& canvas, const Given& given, const Box& room, const Printed& printed) {
  const StepLine& step = printed.step;
  canvas.rule(room, 0.7);
  const double top = room.y + 2.2 * mm;
  const double a = draw_number(canvas, given, {room.x, top, number_column, 0}, printed);
  if (step.unfinished.loose.empty() && step.unfinished.off.empty()) {
    // Nothing is loose: one short line says so, and the step takes the width.
    const double x = room.x + number_column, w = room.w - number_column;
    double b = draw_doing(canvas, given, {x, top, w, 0}, printed) + 0.8 * mm;
    b += draw_loose_list(canvas, given, {x, top + b, w, 0}, {}, &step);
    return top - room.y + std::max(a, b) + 1 * mm;
  }
  const double b = draw_doing(canvas, given, {room.x + number_column, top, step_column, 0}, printed);
  const double list_x = room.x + spine + 4 * mm;
  const double c = draw_loose_list(canvas, given, {list_x, top, room.x + room.w - list_x, 0}, step.unfinished, &step);
  const double height = std::max({a, b, c}) + 1.5 * mm;
  canvas.line({room.x + spine, top}, {room.x + spine, top + height - 1.5 * mm}, {2.0});
  return top - room.y + height;
}

double draw_release(Canvas& canvas, const Given& given, const Box& room) {
  const std::vector<Message>& refused = given.assessment.release_refused;
  canvas.rule(room, 1.4);
  draw_chocked_wheel(canvas, {room.x + 9 * mm, room.y + 9 * mm}, 4.5 * mm);
  const double x = room.x + number_column + 2 * mm, w = room.w - number_column - 2 * mm;
  double y = room.y + 2.5 * mm;
  y += canvas.text({x, y}, w, given.line("sheet-work-release"), {11.5, true}) + 0.5 * mm;
  // With nothing signed yet there is nothing to say of the record.
  const bool begun = std::any_of(given.assessment.steps.begin(), given.assessment.steps.end(),
                                 [](const StepLine& step) { return step.done; });
  const char* code = !begun            ? "sheet-work-release-open"
                     : refused.empty() ? "sheet-work-release-none"
                                       : "sheet-work-release-refused";
  y += canvas.text({x, y}, w, given.line(code), {8.5}) + 1 * mm;
  for (const Message& message : refused) {
    draw_tick_box(canvas, {x, y}, 4 * mm);
    y += std::max(canvas.text({x + 6.5 * mm, y}, w - 6.5 * mm, escape(given.words.say(message)), {8.5}), 4 * mm) +
         1.4 * mm;
  }
  const double part = w / 3;
  const double h = draw_write_line(canvas, {x, y + 2 * mm}, part * 0.9, given.words("sheet-write-technician"));
  draw_write_line(canvas, {x + part, y + 2 * mm}, part * 0.9, given.words("sheet-write-second"));
  draw_write_line(canvas, {x + 2 * part, y + 2 * mm}, part * 0.9, given.words("sheet-write-date"));
  return y + 2 * mm + h - room.y;
}

}  // namespace

void lay_work_sheet(const Given& given, Book& book) {
  lay_key_drawing(given, book);
  lay_findings(given, book);
  if (given.assessment.steps.empty())
    book.block([&given](Canvas& c, const Box& room) {
      return c.text({room.x, room.y}, room.w, given.line("sheet-work-no-steps"), {10, true});
    });
  if (!given.assessment.order.empty())
    book.heading([&given](Canvas& c, const Box& room) {
      return c.text({room.x, room.y}, room.w, given.line("sheet-work-order"), {8.2});
    });
  for (const Printed& printed : printed_steps(given.assessment))
    book.block([&given, printed](Canvas& c, const Box& room) { return draw_step(c, given, room, printed); }, 2.5 * mm);
  book.block([&given](Canvas& c, const Box& room) { return draw_release(c, given, room); });
}

}  // namespace trammel::sheets
