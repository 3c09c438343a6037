// The strip of passes under the turns.
#include <algorithm>

#include "sheets/alignment_parts.h"

namespace trammel::sheets {

void lay_passes(const Given& given, Book& book, const AlignResult& align) {
  // A card to write the next stop on, until the cart is given back.
  const std::size_t cards = align.passes.size() + (given.assessment.work_state == "released" ? 0 : 1);
  const std::size_t across = 3, rows = (cards + across - 1) / across;
  for (std::size_t row = 0; row < rows; ++row)
    book.block(
        [&given, &align, row, cards](Canvas& c, const Box& room) {
          double y = room.y;
          if (row == 0) y += c.text({room.x, y}, room.w, given.line("sheet-align-passes"), {9.5, true}) + 1.5 * mm;
          const double gap = 7 * mm, w = (room.w - 2 * gap) / 3, pad = 2 * mm;
          double h = 30 * mm;
          const auto card = [&](std::size_t i, double x, bool draw) {
            double cy = y + 1.5 * mm;
            const auto put = [&](const std::string& text, const TextStyle& style) {
              cy += draw ? c.text({x + pad, cy}, w - 2 * pad, text, style) : c.text_height(w - 2 * pad, text, style);
            };
            const bool turning = i < align.passes.size() && align.passes[i].while_turning;
            put(given.line(turning ? "sheet-align-pass-turning" : "sheet-align-pass",
                           {{"number", std::to_string(i + 1)}}),
                {9, true});
            if (i < align.passes.size()) {
              const AlignPass& pass = align.passes[i];
              put(lean_text(given, "left", pass.state.left_camber), {7.6});
              put(lean_text(given, "right", pass.state.right_camber), {7.6});
              put(toe_text(given, pass.state.total_toe), {7.6});
              put(given.line("sheet-align-chance-short", {{"chance", chance(given, pass.probability)}}), {7.6, true});
              for (const AlignTurn& turn : pass.turned) put(escape(begun(turn_sentence(given, turn))), {7.2});
              if (pass.turned.empty() && i + 1 < align.passes.size()) put(given.line("sheet-align-not-turned"), {7.2});
              for (const Message& doubt : pass.doubted) put(given.sentence(doubt), {7.2});
            } else {
              put(given.line(align.verdict == "accept" ? "sheet-align-last-pass" : "sheet-align-next-pass"), {7.6});
            }
            return cy + 1.5 * mm - y;
          };
          const std::size_t from = row * 3, to = std::min(cards, from + 3);
          for (std::size_t i = from; i < to; ++i) h = std::max(h, card(i, 0, false));
          for (std::size_t i = from; i < to; ++i) {
            const double x = room.x + (i - from) * (w + gap);
            c.rect({x, y, w, h}, i < align.passes.size() ? Pen{0.8} : Pen{0.6, 0.0, 2.5});
            if (i > from)
              c.line({x - gap, y + h / 2}, {x - 1 * mm, y + h / 2}, {0.8}),
                  c.arrow_head({x - 0.5 * mm, y + h / 2}, 0, 2.4 * mm);
            card(i, x, true);
          }
          return y + h - room.y;
        },
        4 * mm);
}

}  // namespace trammel::sheets
