// The clearance sheet: where each tyre comes nearest, the gap over rise and steer as soundings, where the steering is
// to stop, which sizes clear; then the cut lines in full size.
#include <algorithm>
#include <cmath>

#include "sheets/gap_map.h"
#include "sheets/room.h"
#include "sheets/trim_template.h"

namespace trammel::sheets {
namespace {

constexpr TextStyle heading{13, true}, plain{9.5}, big{10.5, true};

void lay_gaps(const Given& given, Book& book, const AxleClearance& axle) {
  const auto line = [&](const std::string& text, const TextStyle& style) {
    book.block([=](Canvas& c, const Box& room) { return c.text({room.x, room.y}, room.w, text, style); }, 1.2 * mm);
  };
  book.heading([&given, &axle](Canvas& c, const Box& room) {
    return c.text({room.x, room.y}, room.w,
                  given.line("sheet-clearance-axle",
                             {{"axle", given.words.of("end", axle.axle)}, {"wanted", given.words.print(axle.wanted)}}),
                  heading);
  });
  // The nearest places, the least gap first.
  std::vector<const GapResult*> rows;
  for (const GapResult& g : given.assessment.gaps)
    if (g.axle == axle.axle && g.after) rows.push_back(&g);
  std::stable_sort(rows.begin(), rows.end(), [](auto* a, auto* b) { return *a->after < *b->after; });
  const Length wanted = axle.wanted;
  for (std::size_t i = 0; i < rows.size() && i < 8; ++i) {
    const GapResult g = *rows[i];
    book.block(
        [=, &given](Canvas& c, const Box& room) {
          const Outcome o = g.after->si() < 0 ? Outcome::stop : *g.after < wanted ? Outcome::condition : Outcome::met;
          draw_gate(c, {room.x, room.y + 0.4 * mm}, 4 * mm, o);
          const Number gap = g.u ? number(*g.after, *g.u) : number(*g.after);
          c.text({room.x + 7 * mm, room.y}, 60 * mm, given.marked(gap, Basis::computed), big);
          const double x = room.x + 68 * mm, w = room.w - 68 * mm;
          double h =
              c.text({x, room.y}, w, bold(escape(g.point)) + ", " + escape(given.words.of("side", g.side)), plain);
          h += c.text({x, room.y + h}, w,
                      given.line(g.rise.si() < 0 ? "sheet-clearance-where-below" : "sheet-clearance-where",
                                 {{"lock", given.words.of("lock", g.pose)},
                                  {"rise", given.words.brief(number(abs(g.rise)))},
                                  {"before", g.before ? given.words.brief(number(*g.before)) : std::string("–")}}),
                      {8});
          return std::max(h, 6 * mm);
        },
        1 * mm);
  }
  // Left and right wheel beside each other, as the driver sits.
  if (axle.steers)
    for (std::size_t i = 0; i < axle.maps.size(); i += 2)
      book.block([&given, &axle, i](Canvas& c, const Box& room) {
        const double w = room.w / 2 - 2 * mm;
        double h = draw_gap_map(c, given.words, {room.x, room.y, w, room.h}, axle.maps[i], axle.wanted);
        if (i + 1 < axle.maps.size())
          h = std::max(
              h, draw_gap_map(c, given.words, {room.x + w + 4 * mm, room.y, w, room.h}, axle.maps[i + 1], axle.wanted));
        return h;
      });
  for (const SteerStopResult& s : axle.stops) {
    using Kind = SteerStopResult::Kind;
    const std::string way = given.words.of("side", s.direction);
    if (s.kind == Kind::at_an_angle)
      line(given.line("sheet-clearance-stop",
                      {{"direction", way}, {"angle", number(s.inner, s.u)}, {"what", s.feature}}),
           plain);
    else
      line(given.line(s.kind == Kind::whole_lock ? "sheet-clearance-whole-lock" : "sheet-clearance-no-stop",
                      {{"direction", way}, {"what", s.feature}}),
           plain);
  }
  if (axle.largest_diameter)
    line(given.line("sheet-clearance-largest",
                    {{"diameter", number(*axle.largest_diameter)}, {"width", number(axle.tyre_width)}}),
         plain);
  if (axle.widest)
    line(given.line("sheet-clearance-widest",
                    {{"width", number(*axle.widest)}, {"diameter", number(2.0 * axle.tyre_radius)}}),
         plain);
  for (const TyreChoiceResult& c : axle.choices)
    if (c.gap)
      line(given.line(*c.gap < wanted ? "sheet-clearance-size-not" : "sheet-clearance-size",
                      {{"size", c.size}, {"gap", number(*c.gap)}}),
           plain);
  line(given.line("sheet-clearance-assumed",
                  {{"shoulder", number(axle.shoulder)}, {"growth", number(axle.growth)}, {"skin", number(axle.skin)}}),
       {7.6});
}

}  // namespace

void lay_clearance_sheet(const Given& given, Book& book) {
  for (const AxleClearance& axle : given.assessment.clearance) lay_gaps(given, book, axle);
  for (const AxleClearance& axle : given.assessment.clearance)
    for (const TrimResult& trim : axle.trims)
      if (trim.kind == TrimResult::Kind::cut) lay_template(given, book, trim);
}

}  // namespace trammel::sheets
