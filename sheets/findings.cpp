#include "sheets/findings.h"

#include <algorithm>

#include "assess/finding_group.h"

namespace trammel::sheets {

const char* word_of(Outcome outcome) {
  return outcome == Outcome::stop        ? "sheet-outcome-stop"
         : outcome == Outcome::condition ? "sheet-outcome-condition"
         : outcome == Outcome::note      ? "sheet-outcome-note"
                                         : "sheet-outcome-met";
}

double draw_verdict(Canvas& canvas, const Given& given, const Box& room) {
  const Verdict verdict = given.assessment.verdict;
  const Outcome gate = verdict == Verdict::no_go                ? Outcome::stop
                       : verdict == Verdict::go_with_conditions ? Outcome::condition
                                                                : Outcome::note;
  canvas.rule(room, 1.4);
  draw_gate(canvas, {room.x, room.y + 3.5 * mm}, 11 * mm, gate);
  const double x = room.x + 17 * mm, w = room.w - 17 * mm;
  double y = room.y + 2 * mm;
  y += canvas.text({x, y}, w,
                   given.line(verdict == Verdict::no_go                ? "sheet-verdict-no-go"
                              : verdict == Verdict::go_with_conditions ? "sheet-verdict-conditions"
                                                                       : "sheet-verdict-go"),
                   {14, true});
  for (const std::size_t index : given.assessment.sentences)
    y += canvas.text({x, y + 0.8 * mm}, w, given.sentence(given.assessment.findings[index].message), {10}) + 0.8 * mm;
  return std::max(y - room.y, 14 * mm);
}

double draw_finding(Canvas& canvas, const Given& given, const Box& room, const Finding& f, double size) {
  draw_gate(canvas, {room.x, room.y + 0.7 * mm}, size * 0.6 * mm, f.outcome);
  const double x = room.x + 17 * mm, w = room.w - 17 * mm;
  double y = room.y;
  std::string line = bold(given.line(word_of(f.outcome))) + "  " + escape(given.words.say(f.message));
  if (!f.load_case.empty()) line += " " + small("(" + escape(f.load_case) + ")");
  y += canvas.text({x, y}, w, line, {size});

  // The numbers it stands on, on a line of their own.
  std::string numbers;
  const auto add = [&](const char* code, const std::optional<Number>& n, Basis basis) {
    if (n) numbers += (numbers.empty() ? "" : "   ") + given.line(code) + " " + given.marked(*n, basis);
  };
  add("sheet-finding-before", f.before, f.basis);
  add("sheet-finding-value", f.value, f.basis);
  if (f.limit)
    numbers += "   " +
               given.line(f.sense == Finding::Sense::at_most ? "sheet-finding-at-most" : "sheet-finding-at-least") +
               " " + escape(given.words.print(*f.limit));
  add("sheet-finding-margin", f.margin, f.basis);
  y += canvas.text({x, y}, w, numbers, {size * 0.88});
  if (f.cure)
    y += canvas.text({x, y}, w, bold(given.line("sheet-finding-cure")) + " " + escape(given.words.say(*f.cure)),
                     {size * 0.88});
  if (!f.source.empty())
    y += canvas.text({x, y}, w, given.line("sheet-finding-source", {{"source", f.source}}),
                     {6.8, false, Align::left, 0.25});
  return std::max(y - room.y, 6 * mm);
}

void lay_findings(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_verdict(c, given, room); });
  // What must be acted on, the worst of each kind; notes stand in the verdict on screen and in the torque record.
  for (const FindingGroup& group : to_act_on(given.assessment.findings))
    book.block([&given, group](Canvas& c, const Box& room) { return draw_finding(c, given, room, *group.worst, 9); },
               2 * mm);
}

}  // namespace trammel::sheets
