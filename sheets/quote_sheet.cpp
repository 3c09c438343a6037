// What the customer is told before the work: the answer, what has to be agreed, hours and price, and who agreed.
#include <algorithm>
#include <array>

#include "assess/finding_group.h"
#include "assess/order_of_work.h"
#include "sheets/findings.h"
#include "sheets/pack.h"

namespace trammel::sheets {
namespace {

// What the shop clears with the kit's maker before it begins: steps, fasteners, tools and counts, not the cart.
bool of_the_papers(const Assessment& assessment, const Finding& f) {
  static constexpr std::array<std::string_view, 7> codes = {"work-",    "dispute-", "support-",   "tool-",
                                                            "surface-", "pins-",    "nut-factor-"};
  const auto begins = [&](std::string_view code) { return f.message.code.starts_with(code); };
  const auto is = [&](const FastenerLine& line) {
    return line.id == f.subject || f.subject.starts_with(line.id + " ");
  };
  return std::any_of(codes.begin(), codes.end(), begins) || f.subject.starts_with("step ") ||
         std::any_of(assessment.fasteners.begin(), assessment.fasteners.end(), is);
}

// What must be agreed or mended, the worst of each kind, with its cure and a box to tick.
void lay_conditions(const Given& given, Book& book) {
  std::vector<FindingGroup> all;
  std::size_t of_the_kit = 0;
  for (const FindingGroup& group : to_act_on(given.assessment.findings)) {
    const Finding& f = *group.worst;
    if (f.outcome != Outcome::stop && f.outcome != Outcome::condition) continue;
    const auto begins = [&](std::string_view with) { return f.message.code.starts_with(with); };
    if (begins("align-") || begins("record-")) continue;  // of work that goes on, not of the offer
    if (of_the_papers(given.assessment, f))
      of_the_kit += 1 + group.others.size();
    else
      all.push_back(group);
  }
  if (all.empty() && of_the_kit == 0) return;
  lay_heading(given, book, "sheet-quote-agree");
  for (const FindingGroup& group : all)
    book.block(
        [&given, group](Canvas& c, const Box& room) {
          const Finding& f = *group.worst;
          draw_tick_box(c, {room.x, room.y}, 6 * mm);
          draw_gate(c, {room.x + 9 * mm, room.y + 0.6 * mm}, 5 * mm, f.outcome);
          const double x = room.x + 17 * mm, w = room.w - 17 * mm;
          double y = room.y;
          y += c.text({x, y}, w, bold(given.line(word_of(f.outcome))) + "  " + given.sentence(f.message), {9.5});
          if (f.cure)
            y +=
                c.text({x, y}, w, bold(given.line("sheet-finding-cure")) + " " + escape(given.words.say(*f.cure)), {9});
          return std::max(y - room.y, 6 * mm);
        },
        1.6 * mm);
  if (of_the_kit > 0)
    book.block([&given, of_the_kit](Canvas& c, const Box& room) {
      return c.text({room.x, room.y}, room.w, given.line("sheet-quote-papers", {{"count", std::to_string(of_the_kit)}}),
                    {9.5, true});
    });
}

struct PriceRow {
  std::string what, sum;
  bool total = false;
};

std::string money(const Given& given, const std::string& currency, double value, std::optional<double> u = {}) {
  const std::string text = given.words.print(Number{Kind::money, value, u});
  return escape(currency.empty() ? text : text + " " + currency);
}

std::vector<PriceRow> price_rows(const Given& given, const Quote& q) {
  std::vector<PriceRow> rows;
  const auto sum = [&](double value, std::optional<double> u = {}) { return money(given, q.currency, value, u); };
  if (q.labour)
    rows.push_back({given.line("sheet-quote-labour",
                               {{"hours", number(q.work, q.work_u)},
                                {"rate", given.words.print(Number{Kind::money, *q.rate, {}}) + " " + q.currency}}),
                    sum(*q.labour, q.labour_u)});
  for (const Quote::Row& part : q.parts)
    rows.push_back({(part.count > 1 ? std::to_string(part.count) + " × " : "") + escape(part.what), sum(part.sum)});
  if (q.total) rows.push_back({given.line("sheet-quote-total"), sum(*q.total, q.total_u), true});
  return rows;
}

// How long the cart is away and what it costs; what the shop has not told is left to be written.
void lay_price(const Given& given, Book& book) {
  const OrderOfWork order = order_of_work(given.job, given.assessment, technicians_of(given.job));
  const std::optional<Quote> price = quote(given.job, given.assessment);
  lay_heading(given, book, "sheet-quote-price");
  book.block([&given, order, price](Canvas& c, const Box& room) {
    // Once begun, the hours of the whole and not of what is left.
    const bool begun = order.signed_already > 0;
    const std::string time = escape(
        given.words.print(begun && price ? number(price->work, price->work_u) : number(order.total, order.total_u)));
    double y = room.y;
    if (order.steps.empty() && !price) {
      y += c.text({room.x, y}, room.w, given.line("sheet-quote-no-time"), {20, true});
    } else {
      y += c.text({room.x, y}, room.w, time, {20, true});
      const char* of = begun                   ? "sheet-quote-time-all"
                       : order.technicians > 1 ? "sheet-quote-time-two"
                                               : "sheet-quote-time-one";
      const std::size_t steps = order.steps.size() + order.signed_already;
      y += c.text({room.x, y}, room.w, given.line(of, {{"steps", std::to_string(steps)}}), {9});
    }
    if (order.untimed > 0)
      y += c.text({room.x, y}, room.w, given.line("sheet-quote-untimed", {{"count", std::to_string(order.untimed)}}),
                  {9});
    return y - room.y;
  });
  if (price)
    for (const PriceRow& row : price_rows(given, *price))
      book.block(
          [row](Canvas& c, const Box& room) {
            c.line({room.x, room.y}, {room.x + room.w, room.y}, {row.total ? 1.2 : 0.4});
            const double size = row.total ? 15 : 10.5, w = 62 * mm;
            c.text({room.x + room.w - w, room.y + 1 * mm}, w, row.sum, {size, row.total, Align::right});
            return c.text({room.x, room.y + 1 * mm}, room.w - w, row.what, {size, row.total}) + 2 * mm;
          },
          0.5 * mm);
  book.block([&given, price](Canvas& c, const Box& room) {
    if (price)
      return c.text({room.x, room.y}, room.w, given.line("sheet-quote-foot", {{"markup", per_cent(price->markup)}}),
                    {8.8});
    const double w = room.w * 0.3;
    draw_write_line(c, {room.x, room.y + 2 * mm}, w, given.words("sheet-quote-write-labour"));
    draw_write_line(c, {room.x + room.w * 0.35, room.y + 2 * mm}, w, given.words("sheet-quote-write-parts"));
    return 2 * mm +
           draw_write_line(c, {room.x + room.w * 0.7, room.y + 2 * mm}, w, given.words("sheet-quote-write-total"));
  });
}

double draw_agreed(Canvas& canvas, const Given& given, const Box& room) {
  canvas.rule(room, 1.2);
  double y = room.y + 2 * mm;
  const bool stopped = given.assessment.verdict == Verdict::no_go;
  y +=
      canvas.text({room.x, y}, room.w, given.line(stopped ? "sheet-quote-stopped" : "sheet-quote-agreed"), {10, true}) +
      3 * mm;
  const double w = room.w * 0.45;
  draw_write_line(canvas, {room.x, y}, w, given.words("sheet-quote-write-owner"));
  const double h = draw_write_line(canvas, {room.x + room.w * 0.5, y}, w, given.words("sheet-write-date"));
  draw_write_line(canvas, {room.x, y + h + 3 * mm}, w, given.words("sheet-quote-write-shop"));
  return y + 2 * h + 3 * mm - room.y;
}

}  // namespace

void lay_quote_sheet(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_verdict(c, given, room); });
  lay_conditions(given, book);
  lay_price(given, book);
  book.block([&given](Canvas& c, const Box& room) { return draw_agreed(c, given, room); });
}

}  // namespace trammel::sheets
