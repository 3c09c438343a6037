// The owner's page: what is different now and what to do about it, in plain words and large type.
#include <algorithm>
#include <cmath>
#include <set>

#include "assess/finding_group.h"
#include "sheets/cart_drawing.h"
#include "sheets/findings.h"
#include "sheets/room.h"

namespace trammel::sheets {
namespace {

constexpr double picture = 40 * mm;
constexpr TextStyle heading{13, true}, body{10.8}, figure{15, true};

using Picture = std::function<void(Canvas&, Point at)>;

// A picture on the left, a heading and its lines on the right.
void lay_row(Book& book, double least, const Picture& draw, const std::string& title,
             const std::vector<std::pair<std::string, TextStyle>>& lines) {
  book.block(
      [=](Canvas& c, const Box& room) {
        c.rule(room, 0.5);
        double y = room.y + 2 * mm;
        const double x = room.x + picture + 4 * mm, w = room.w - picture - 4 * mm;
        if (draw) draw(c, {room.x, y});
        y += c.text({x, y}, w, title, heading) + 0.5 * mm;
        for (const auto& [text, style] : lines) y += c.text({x, y}, w, text, style) + 0.6 * mm;
        return std::max(y - room.y, draw ? least + 2 * mm : 0.0);
      },
      2 * mm);
}

template <class Q, class Member>
std::optional<std::pair<Q, std::string>> least_of(const Assessment& a, Member member) {
  std::optional<std::pair<Q, std::string>> least;
  for (const LoadCaseResult& c : a.load_cases)
    if (const std::optional<Q>& v = c.after.*member; v && (!least || *v < least->first)) least = {{*v, c.name}};
  return least;
}

double draw_higher(Canvas& canvas, const Given& given, const Box& room) {
  const CartSummary &after = given.assessment.after, &before = given.assessment.before;
  const double w = 104 * mm, h = 62 * mm;
  const CartScale scale = cart_scale(given.assessment, w - 22 * mm, h - 14 * mm);
  const double k = scale.points_per_metre;
  const Point axle{room.x + 5 * mm + radius_of(after.front_radius) * k, room.y + h - 8 * mm};
  draw_side(canvas, given, axle, scale, {true, true, false});
  const double x = room.x + w + 6 * mm, tw = room.w - w - 6 * mm;
  double y = room.y + canvas.text({x, room.y}, tw, given.line("sheet-owner-higher"), heading) + 1 * mm;
  const auto value = [&](const char* code, const std::optional<Length>& now, const std::optional<Length>& was) {
    if (!now) return;
    y += canvas.text({x, y}, tw, given.line(code), body);
    y += canvas.text({x, y}, tw, given.computed(*now), figure);
    if (was) y += canvas.text({x, y}, tw, given.line("sheet-owner-was") + " " + given.computed(*was), {9}) + 1 * mm;
  };
  value("sheet-owner-height", after.height, before.height);
  value("sheet-owner-clearance", after.clearance, before.clearance);
  if (given.job.site && given.job.site->door_height)
    y +=
        canvas.text({x, y}, tw, given.line("sheet-owner-door") + " " + given.given(*given.job.site->door_height), body);
  y += canvas.text({x, y + 1 * mm}, tw, given.line("sheet-owner-ghost"), {7.5});
  return std::max(y - room.y, h);
}

void lay_speed(const Given& given, Book& book) {
  const auto &now = given.assessment.after.top_speed, &was = given.assessment.before.top_speed;
  if (!now) return;
  std::vector<std::pair<std::string, TextStyle>> lines = {{given.computed(*now), figure}};
  if (was) lines.push_back({given.line("sheet-owner-was") + " " + given.computed(*was), body});
  if (!given.assessment.after.speed_class.empty())
    lines.push_back(
        {given.line("sheet-owner-class", {{"class", given.words.of("class", given.assessment.after.speed_class)}}),
         body});
  if (given.job.site && given.job.site->speed_limit)
    lines.push_back({given.line("sheet-owner-site-speed") + " " + given.given(*given.job.site->speed_limit), body});
  const double ratio = was && was->si() > 0 ? now->si() / was->si() : 1;
  lay_row(
      book, 16 * mm,
      [ratio](Canvas& c, Point at) {
        // The way covered in the same time, then and now.
        const double longest = picture - 4 * mm, per = longest / std::max(1.0, ratio);
        c.line({at.x, at.y + 6 * mm}, {at.x + per, at.y + 6 * mm}, {1.2, 0.0, 2.5});
        c.line({at.x, at.y + 12 * mm}, {at.x + per * ratio, at.y + 12 * mm}, {2.4});
        for (const auto& [x, y] : {std::pair{per, 6.0}, std::pair{per * ratio, 12.0}})
          c.disc({at.x + x, at.y + y * mm}, 1.6 * mm);
      },
      given.line("sheet-owner-speed"), lines);
}

// Downward: an owner has no use for more, and no more is known.
Angle whole_degrees(Angle a) { return std::floor(a.in(units::degree)) * units::degree; }

void lay_slope(const Given& given, Book& book) {
  const auto site = given.job.site ? given.job.site->slope : std::nullopt;
  auto side = least_of<Angle>(given.assessment, &LoadedCart::tilt_rolled);
  if (!side) side = least_of<Angle>(given.assessment, &LoadedCart::tilt_rigid);
  const auto back = least_of<Angle>(given.assessment, &LoadedCart::tip_back);
  if (!site && !side && !back) return;
  std::vector<std::pair<std::string, TextStyle>> lines;
  if (site)
    lines.push_back({given.line("sheet-owner-steepest") + " " +
                         bold(escape(per_cent(site->value)) + basis_mark(given.words, site->basis)),
                     body});
  if (side)
    lines.push_back({given.line("sheet-owner-tips-side", {{"load", side->second}}) + " " +
                         bold(given.computed(whole_degrees(side->first))),
                     body});
  if (back)
    lines.push_back({given.line("sheet-owner-tips-back", {{"load", back->second}}) + " " +
                         bold(given.computed(whole_degrees(back->first))),
                     body});
  lines.push_back({given.line("sheet-owner-slope-rule"), {10.8, true}});
  const double slope = site ? site->value : 0.0;
  lay_row(
      book, 22 * mm,
      [slope](Canvas& c, Point at) {
        const double run = picture - 6 * mm, foot = at.y + 18 * mm, rise = std::min(run * slope, 16 * mm);
        const std::vector<Point> wedge = {{at.x, foot}, {at.x + run, foot}, {at.x + run, foot - rise}};
        c.hatch(wedge, 2 * mm);
        c.polyline(wedge, true, {1.0});
      },
      given.line("sheet-owner-slopes"), lines);
}

// The tip limit and the fall-out warning stand together.
void lay_bend(const Given& given, Book& book) {
  const auto limit = least_of<Speed>(given.assessment, &LoadedCart::bend_speed);
  const auto radius = given.job.site ? given.job.site->bend_radius : std::nullopt;
  std::vector<std::pair<std::string, TextStyle>> lines;
  if (radius) lines.push_back({given.line("sheet-owner-bend") + " " + bold(given.given(*radius)), body});
  if (limit) {
    lines.push_back({given.line("sheet-owner-bend-limit", {{"load", limit->second}}), body});
    lines.push_back({given.computed(limit->first), figure});
  }
  lines.push_back({given.line("sheet-owner-fall-out"), {10.8, true}});
  lay_row(
      book, 24 * mm,
      [](Canvas& c, Point at) {
        const Point centre{at.x + 4 * mm, at.y + 24 * mm};
        for (const double r : {13.0, 21.0}) c.arc(centre, r * mm, -M_PI / 2, 0, {1.0});
        c.arc(centre, 17 * mm, -M_PI / 2, 0, {0.4, 0.3, 3});
        c.disc(centre, 0.8 * mm);
        draw_dimension(c, centre, {centre.x + 17 * mm * std::cos(-0.8), centre.y + 17 * mm * std::sin(-0.8)}, "");
      },
      given.line("sheet-owner-bends"), lines);
}

void lay_loads(const Given& given, Book& book) {
  std::vector<std::pair<std::string, TextStyle>> lines;
  for (const LoadCaseResult& c : given.assessment.load_cases)
    lines.push_back(
        {bold(escape(c.name)) + ": " + given.line("sheet-owner-total") + " " + given.computed(c.after.total), body});
  if (given.cart_after.ratings && given.cart_after.ratings->gross)
    lines.push_back(
        {given.line("sheet-owner-gross") + " " + bold(given.given(*given.cart_after.ratings->gross)), body});
  if (given.cart_after.ratings && given.cart_after.ratings->payload)
    lines.push_back(
        {given.line("sheet-owner-payload") + " " + bold(given.given(*given.cart_after.ratings->payload)), body});
  if (lines.empty()) return;
  lay_row(
      book, 14 * mm,
      [](Canvas& c, Point at) {
        c.line({at.x, at.y + 12 * mm}, {at.x + picture - 6 * mm, at.y + 12 * mm}, {1.2});
        for (const double x : {3.0, 13.0, 23.0}) c.rect({at.x + x * mm, at.y + 4 * mm, 8 * mm, 8 * mm}, {0.8});
      },
      given.line("sheet-owner-loads"), lines);
}

void lay_tyres(const Given& given, Book& book) {
  std::vector<std::pair<std::string, TextStyle>> lines;
  const auto axle = [&](const std::optional<Axle>& a, const char* code) {
    if (!a || !a->tyre) return;
    std::string text = given.line(code) + " " + escape(a->tyre->size.value);
    if (a->tyre->pressure)
      text += ", " + bold(given.given(*a->tyre->pressure)) + " " + given.line("sheet-owner-cold");
    else
      text += ", " + given.line("sheet-owner-no-pressure");
    lines.push_back({text, body});
  };
  axle(given.cart_after.front, "sheet-owner-front-tyres");
  axle(given.cart_after.rear, "sheet-owner-rear-tyres");
  if (lines.empty()) return;
  lay_row(
      book, 17 * mm,
      [](Canvas& c, Point at) {
        c.circle({at.x + 10 * mm, at.y + 8.5 * mm}, 8 * mm, {1.6});
        c.circle({at.x + 10 * mm, at.y + 8.5 * mm}, 4.6 * mm, {0.6});
      },
      given.line("sheet-owner-tyres"), lines);
}

void lay_return(const Given& given, Book& book) {
  std::vector<std::pair<std::string, TextStyle>> lines;
  std::map<std::string, std::string> due;
  for (const FastenerLine& f : given.assessment.fasteners)
    if (!f.retorque.empty()) due[f.retorque] += (due[f.retorque].empty() ? "" : ", ") + f.id;
  for (const auto& [when, what] : due)
    lines.push_back({bold(escape(when)) + ": " + given.line("sheet-owner-recheck", {{"what", what}}), body});
  lines.push_back({given.line("sheet-owner-return-if"), body});
  lay_row(book, 0, nullptr, given.line("sheet-owner-return"), lines);
}

// What an owner has to live with, each told once: the worst load case of each.
std::vector<const Finding*> owners_findings(const std::vector<Finding>& findings) {
  static constexpr std::string_view codes[] = {
      "bend-speed", "side-slope", "tip-back", "steer-light", "stability-factor", "site-speed", "speed-class",
      "doorway",    "gross-mass", "payload",  "axle-load",   "tyre-load",        "tyre-speed", "tyre-gap"};
  const std::vector<FindingGroup> groups = to_act_on(findings);
  std::vector<const Finding*> told;
  for (const std::string_view code : codes)
    for (const FindingGroup& group : groups)
      if (group.worst->message.code == code) told.push_back(group.worst);
  return told;
}

// The signed step that cut back what a finding says is too near a tyre; nothing where none did.
const StepLine* cut_back(const Assessment& assessment, const Finding& finding) {
  if (finding.message.code != "tyre-gap") return nullptr;
  for (const StepLine& s : assessment.steps)
    for (const std::string& deed : s.work) {
      constexpr std::string_view cut = "cut ";
      if (!s.done || !deed.starts_with(cut)) continue;
      const std::string what = deed.substr(cut.size(), deed.find(',') - cut.size());
      if (finding.subject.find(what) != std::string::npos) return &s;
    }
  return nullptr;
}

void lay_open_findings(const Given& given, Book& book) {
  const auto findings = owners_findings(given.assessment.findings);
  if (findings.empty()) return;
  lay_row(book, 0, nullptr, given.line("sheet-owner-conditions"), {});
  for (const Finding* f : findings)
    book.block(
        [&given, f](Canvas& c, const Box& room) {
          const StepLine* cut = cut_back(given.assessment, *f);
          draw_gate(c, {room.x + picture - 9 * mm, room.y + 0.5 * mm}, 6 * mm, cut ? Outcome::note : f->outcome);
          const double x = room.x + picture + 4 * mm, w = room.w - picture - 4 * mm;
          // In an owner's words where there are any.
          const bool plain = given.words.has("owner-says", f->message.code);
          const std::string said = plain ? given.words("sheet-owner-says-" + f->message.code, f->message.arguments)
                                         : given.words.say(f->message);
          std::string text = bold(given.line(word_of(f->outcome))) + "  " + escape(begun(said));
          if (cut)
            text = bold(given.line("sheet-owner-done")) + "  " +
                   given.line("sheet-owner-cut", {{"what", begun(f->subject)}, {"step", std::to_string(cut->number)}});
          else if (f->cure)
            text += "; " + escape(given.words.say(*f->cure));
          return std::max(c.text({x, room.y}, w, text, {9.2}), 6 * mm);
        },
        1 * mm);
}

double draw_signatures(Canvas& canvas, const Given& given, const Box& room) {
  canvas.rule(room, 1.4);
  double y = room.y + 2.5 * mm;
  y += canvas.text({room.x, y}, room.w, given.line("sheet-standing"), {10.5}) + 2 * mm;
  y += canvas.text({room.x, y}, room.w, given.line("sheet-owner-sign"), {10.8, true}) + 3 * mm;
  const double part = room.w / 3;
  draw_write_line(canvas, {room.x, y}, part * 0.92, given.words("sheet-write-owner"));
  draw_write_line(canvas, {room.x + part, y}, part * 0.92, given.words("sheet-write-technician"));
  return y + draw_write_line(canvas, {room.x + 2 * part, y}, part * 0.92, given.words("sheet-write-date")) - room.y;
}

}  // namespace

void lay_owner_page(const Given& given, Book& book) {
  book.block([&given](Canvas& c, const Box& room) { return draw_higher(c, given, room); }, 1 * mm);
  lay_speed(given, book);
  lay_slope(given, book);
  lay_bend(given, book);
  lay_open_findings(given, book);
  lay_loads(given, book);
  lay_tyres(given, book);
  lay_return(given, book);
  std::vector<std::pair<std::string, TextStyle>> cautions;
  for (const char* code : {"tip-over", "brakes", "steering", "wheel-loss", "battery", "law"})
    cautions.push_back(
        {bold(given.line(std::string("sheet-caution-") + code)) + "  " + escape(given.words.help_of("caution", code)),
         {9.5}});
  lay_row(book, 0, nullptr, given.line("sheet-owner-cautions"), cautions);
  book.block([&given](Canvas& c, const Box& room) { return draw_signatures(c, given, room); });
}

}  // namespace trammel::sheets
