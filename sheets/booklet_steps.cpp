// The booklet's steps: number and box, what to do, the places of its fasteners on a small plan, torques in big numbers.
#include <algorithm>
#include <cmath>

#include "sheets/booklet.h"
#include "sheets/cart_drawing.h"
#include "sheets/places.h"

namespace trammel::sheets {
namespace {

constexpr double number_column = 19 * mm, plan_column = 30 * mm;

// One step of the kit: the left and the right side of it stand in one block.
struct Step {
  StepLine line;
  bool left = false, right = false;
};

std::vector<Step> steps_of(const std::vector<StepLine>& lines) {
  std::vector<Step> all;
  for (const StepLine& l : lines) {
    const auto again = std::find_if(all.begin(), all.end(), [&](const Step& s) {
      return s.line.id == l.id && s.line.kit == l.kit && !l.side.empty() && s.line.side != l.side;
    });
    const bool second = again != all.end();
    Step* step = second ? &*again : &all.emplace_back(Step{l});
    step->left |= l.side == "left";
    step->right |= l.side == "right";
    if (!second) continue;
    const auto join = [](std::vector<FastenerMove>& to, const std::vector<FastenerMove>& from) {
      for (std::size_t i = 0; i < from.size() && i < to.size(); ++i)
        to[i].instances.insert(to[i].instances.end(), from[i].instances.begin(), from[i].instances.end());
    };
    join(step->line.tighten, l.tighten);
    join(step->line.slacken, l.slacken);
  }
  return all;
}

const FastenerLine* fastener(const Given& given, const std::string& id) {
  for (const FastenerLine& f : given.assessment.fasteners)
    if (f.id == id) return &f;
  return nullptr;
}

double draw_list(Canvas& canvas, const Given& given, const Box& room, const char* code,
                 const std::vector<std::string>& items) {
  if (items.empty()) return 0;
  return canvas.text({room.x, room.y}, room.w, small(bold(given.line(code))) + "  " + escape(joined(items, " · ")),
                     {8.8}) +
         0.8 * mm;
}

// Id, how many, the state they reach, and the torque where it is reached here.
double draw_move(Canvas& canvas, const Given& given, const Box& room, const FastenerMove& move, bool slackened) {
  const FastenerLine* f = fastener(given, move.id);
  const std::string count = std::to_string(std::max<std::size_t>(1, move.instances.size()));
  double y = room.y +
             canvas.text({room.x, room.y}, room.w,
                         bold(escape(move.id)) + " ×" + count + "  " +
                             given.line(slackened ? "booklet-slacken" : "booklet-tighten",
                                        {{"state", given.words.of("state", move.state)}}) +
                             (f ? "  " + small(escape(f->at)) : ""),
                         {9.5}) +
             0.4 * mm;
  if (slackened || !f) return y - room.y;
  if (move.state == "final") {
    if (f->passes.size() > 1) {
      std::string passes;
      for (const Number& p : f->passes) passes += (passes.empty() ? "" : " – ") + given.words.print(p, Systems::metric);
      y += canvas.text({room.x, y}, room.w, small(bold(given.line("booklet-passes"))) + "  " + escape(passes), {8.8});
    }
    y += draw_big_torque(canvas, given, {room.x, y, room.w, 0}, *f, 16);
    if (f->torque_limit)
      y += canvas.text({room.x, y}, room.w,
                       given.line("booklet-slot", {{"limit", given.words.print(*f->torque_limit, Systems::both)}}),
                       {8.8});
    if (!f->set_by.empty())
      y += canvas.text({room.x, y}, room.w, given.line("booklet-set-by", {{"measure", f->set_by}}), {8.8});
  } else if (move.torque) {
    y += canvas.text({room.x, y}, room.w, given.marked(*move.torque, Basis::kit), {14, true});
  }
  return y + 0.8 * mm - room.y;
}

// Where on the cart: a plan with the count at each place, the front to the left.
double draw_places(Canvas& canvas, const Given& given, Point at, const StepLine& step) {
  std::map<Spot, int> counts;
  for (const auto* moves : {&step.slacken, &step.tighten})
    for (const FastenerMove& move : *moves)
      for (const std::string& instance : move.instances) ++counts[spot_of(given.assessment, move.id, instance)];
  if (counts.empty()) return 0;
  draw_counts(canvas, {at.x + 2 * mm, at.y}, counts);
  return 13 * mm +
         canvas.text({at.x, at.y + 14 * mm}, plan_column - 2 * mm, given.line("booklet-front-left"),
                     {6.2, false, Align::centre}) +
         1 * mm;
}

double draw_step(Canvas& canvas, const Given& given, const Box& room, const Step& step, int number) {
  const StepLine& line = step.line;
  canvas.rule(room, 0.8);
  const double top = room.y + 2.4 * mm;

  // Left edge: number, boxes, time.
  double a = top + canvas.text({room.x, top - 1.5 * mm}, number_column, std::to_string(number), {24, true}) - 1 * mm;
  const auto box = [&](const char* side) {
    draw_tick_box(canvas, {room.x, a});
    if (side) canvas.text({room.x + tick_size + 1 * mm, a + 2.4 * mm}, 10 * mm, given.line(side), {6.8, true});
    a += tick_size + 1.5 * mm;
  };
  if (step.left) box("booklet-left");
  if (step.right) box("booklet-right");
  if (!step.left && !step.right) box(nullptr);
  if (line.minutes) {
    const double sides = step.left && step.right ? 2.0 : 1.0;
    a += canvas.text({room.x, a}, number_column,
                     given.line("booklet-minutes",
                                {{"count", std::to_string(std::lround(sides * line.minutes->in(units::minute)))}}),
                     {8});
  }

  // Right edge: the places.
  const double right = room.x + room.w - plan_column;
  const double c = top + draw_places(canvas, given, {right + 2 * mm, top}, line);

  // Between them: what to do.
  const double x = room.x + number_column, w = room.w - number_column - plan_column;
  double y = top + canvas.text({x, top}, w, escape(line.act), {11.5, true}) + 1 * mm;
  const auto list = [&](const char* code, const std::vector<std::string>& items) {
    y += draw_list(canvas, given, {x, y, w, 0}, code, items);
  };
  if (!line.accessory.empty()) list("booklet-accessory", {line.accessory});
  if (line.optional) y += canvas.text({x, y}, w, bold(given.line("booklet-optional")), {8.8}) + 0.8 * mm;
  list("booklet-needs", line.needs);
  list("booklet-removes", line.removes);
  list("booklet-fits", line.fits);
  list("booklet-work", given.words.deeds(line.work));
  for (const FastenerMove& move : line.slacken) y += draw_move(canvas, given, {x, y, w, 0}, move, true);
  for (const FastenerMove& move : line.tighten) y += draw_move(canvas, given, {x, y, w, 0}, move, false);
  if (!line.repeat_until.empty()) list("booklet-repeat", {line.repeat_until});
  list("booklet-tools", line.tools);
  if (line.people > 1)
    list("booklet-people",
         {std::to_string(line.people) +
          (line.one_person.empty() ? "" : "; " + given.words("booklet-alone") + " " + line.one_person)});
  if (!line.load.empty()) list("booklet-load", {given.words.of("load", line.load)});
  for (const std::string& caution : line.cautions)
    y += canvas.text({x + 3 * mm, y}, w - 3 * mm,
                     bold(given.line("booklet-caution")) + " " + escape(given.words.of("caution", caution)), {8.8}) +
         0.6 * mm;
  if (!line.evidence.empty()) {
    y += canvas.text({x, y}, w, small(bold(given.line("booklet-evidence"))) + "  " + escape(line.evidence), {8.8});
    y += draw_write_line(canvas, {x, y - 2 * mm}, w * 0.5, given.words("booklet-found"));
  }
  if (line.hold) {
    draw_chocked_wheel(canvas, {x + 5 * mm, y + 6 * mm}, 3.4 * mm);
    y += std::max(
        12 * mm, canvas.text({x + 13 * mm, y + 3 * mm}, w - 13 * mm, given.line("booklet-hold"), {8.8, true}) + 4 * mm);
  }
  return std::max({a, y, c}) + 1.5 * mm - room.y;
}

}  // namespace

void lay_booklet_steps(const Given& given, Book& book) {
  std::string stage;
  int number = 0;
  for (const Step& step : steps_of(given.assessment.steps)) {
    ++number;
    // A new stage is named over its first step, in the same block.
    const std::string head = step.line.stage != stage ? step.line.stage : "";
    stage = step.line.stage;
    book.block(
        [&given, step, number, head](Canvas& c, const Box& room) {
          double y = room.y;
          if (!head.empty())
            y += c.text({room.x, y}, room.w, escape(begun(given.words.of("side", head))), {14, true}) + 1 * mm;
          return y - room.y + draw_step(c, given, {room.x, y, room.w, room.h}, step, number);
        },
        2.5 * mm);
  }
}

}  // namespace trammel::sheets
