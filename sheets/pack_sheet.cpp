// What to have in hand before the work begins: the parts mat, the pack check, and every tool that a step asks for.
#include <algorithm>

#include "sheets/marks.h"
#include "sheets/pack.h"

namespace trammel::sheets {
namespace {

constexpr std::size_t columns = 3;

// Each tool once, in the order in which the work asks for them.
std::vector<std::string> tools_of(const Assessment& assessment) {
  std::vector<std::string> all;
  const auto add = [&](const StepLine& step) {
    for (const std::string& tool : step.tools)
      if (std::find(all.begin(), all.end(), tool) == all.end()) all.push_back(tool);
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
