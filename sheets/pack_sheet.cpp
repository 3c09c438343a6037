// What to have in hand before the work begins: the parts mat, the pack check, and every tool that a step asks for.
#include <algorithm>

#include "sheets/marks.h"
#include "sheets/pack.h"
#include "work/tool.h"

namespace trammel::sheets {
namespace {

constexpr std::size_t columns = 3;

// The same tool in another number: "4 chocks" and "2 chocks", "wrench 16 mm" and "2 wrenches 16 mm". Without a size or
// range two tools of a kind may differ, but for chocks and stands.
bool same_but_for_count(const work::Tool& a, const work::Tool& b) {
  if (a.kind != b.kind) return false;
  if (a.kind == work::ToolKind::chock || a.kind == work::ToolKind::stand) return true;
  return a.size && b.size && *a.size == *b.size;
}

// Each tool once, in the order in which the work asks for them, in the greatest number that a step wants.
std::vector<std::string> tools_of(const Assessment& assessment) {
  std::vector<std::string> all;
  const auto add = [&](const StepLine& step) {
    for (const std::string& text : step.tools) {
      const work::Tool tool = work::read_tool(text);
      const auto same = std::find_if(all.begin(), all.end(), [&](const std::string& other) {
        return other == text || same_but_for_count(work::read_tool(other), tool);
      });
      if (same == all.end())
        all.push_back(text);
      else if (tool.count > work::read_tool(*same).count)
        *same = text;
    }
  };
  if (assessment.order.empty())
    std::for_each(assessment.steps.begin(), assessment.steps.end(), add);
  else
    for (const StepInOrder& s : assessment.order) add(assessment.steps[s.step]);
  return all;
}

void lay_tools(const Given& given, Book& book) {
  const std::vector<std::string> all = tools_of(given.assessment);
  if (all.empty()) return;
  book.block([](Canvas&, const Box&) { return 4 * mm; }, 0);
  lay_heading(given, book, "sheet-pack-tools");
  for (std::size_t row = 0; row < all.size(); row += columns)
    book.block(
        [all, row](Canvas& c, const Box& room) {
          const double w = room.w / columns;
          double h = 5 * mm;
          for (std::size_t i = row; i < std::min(row + columns, all.size()); ++i) {
            const double x = room.x + static_cast<double>(i - row) * w;
            draw_tick_box(c, {x, room.y}, 5 * mm);
            h = std::max(h, c.text({x + 7 * mm, room.y + 0.4 * mm}, w - 9 * mm, escape(all[i]), {9.2}));
          }
          return h;
        },
        0.8 * mm);
}

}  // namespace

void lay_pack_sheet(const Given& given, Book& book) {
  lay_mat(given, book);
  lay_pack_check(given, book);
  lay_tools(given, book);
}

}  // namespace trammel::sheets
