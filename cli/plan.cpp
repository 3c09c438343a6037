#include <fmt/core.h>

#include <cmath>

#include "assess/place_runs.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/order.h"
#include "cli/release.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

std::string joined(const std::vector<std::string>& words, const char* between = ", ") {
  std::string all;
  for (const std::string& w : words)
    if (!w.empty()) all += (all.empty() ? "" : between) + w;
  return all;
}

Json move(const FastenerMove& m) {
  Json j = {{"fastener", m.id}, {"instances", m.instances}, {"state", m.state}};
  if (m.torque) j["torque"] = json_of(*m.torque);
  return j;
}
Json loose(const LooseItem& l) {
  return {{"fastener", l.id}, {"instance", l.instance}, {"state", l.state}, {"at", l.at}, {"may_bear", l.may_bear}};
}

Json document(const Job& job, const Assessment& a) {
  Json j = {{"job", job.name.value},      {"steps", Json::array()}, {"fasteners", Json::array()},
            {"loose_now", Json::array()}, {"state", a.work_state},  {"release_refused", Json::array()}};
  for (const StepLine& s : a.steps) {
    Json step = {{"number", s.number},   {"id", s.id},
                 {"side", s.side},       {"kit", s.kit},
                 {"stage", s.stage},     {"do", s.act},
                 {"tools", s.tools},     {"needs", s.needs},
                 {"removes", s.removes}, {"fits", s.fits},
                 {"load", s.load},       {"hold", s.hold},
                 {"done", s.done},       {"again", s.again},
                 {"people", s.people},   {"evidence", s.evidence},
                 {"undoes", s.undoes},   {"cautions", s.cautions},
                 {"work", s.work},       {"optional", s.optional}};
    if (!s.repeat_until.empty()) step["repeat_until"] = s.repeat_until;
    if (!s.accessory.empty()) step["accessory"] = s.accessory;
    if (s.minutes) step["minutes"] = s.minutes->si() / 60.0;
    for (const char* key : {"tighten", "slacken", "loose_after", "faults"}) step[key] = Json::array();
    for (const FastenerMove& m : s.tighten) step["tighten"].push_back(move(m));
    for (const FastenerMove& m : s.slacken) step["slacken"].push_back(move(m));
    for (const LooseItem& l : s.unfinished.loose) step["loose_after"].push_back(loose(l));
    step["off_after"] = s.unfinished.off;
    step["may_be_after"] = s.unfinished.may_be;
    for (const Message& m : s.faults) step["faults"].push_back(json_of(m));
    j["steps"].push_back(std::move(step));
  }
  for (const FastenerLine& f : a.fasteners) {
    Json line = {{"id", f.id},
                 {"kit", f.kit},
                 {"at", f.at},
                 {"instances", f.instances},
                 {"thread", f.thread},
                 {"strength", f.strength},
                 {"surface", f.surface},
                 {"nut_factor", f.nut_factor},
                 {"torque_asked", json_of(f.torque_asked)},
                 {"torque_computed", json_of(f.torque_computed)}};
    if (f.preload) line["preload_n"] = {(*f.preload)[0].si(), (*f.preload)[1].si(), (*f.preload)[2].si()};
    if (f.of_proof) line["of_proof"] = *f.of_proof;
    line["flags"] = Json::array();
    for (const Flagged& flag : f.flags) {
      Json one = json_of(flag.message);
      one["outcome"] = word_of(flag.outcome);
      line["flags"].push_back(std::move(one));
    }
    j["fasteners"].push_back(std::move(line));
  }
  for (const LooseItem& l : a.unfinished.loose) j["loose_now"].push_back(loose(l));
  j["off_now"] = a.unfinished.off;
  j["may_be_now"] = a.unfinished.may_be;
  for (const Message& m : a.release_refused) j["release_refused"].push_back(json_of(m));
  return j;
}

// Places as a person says them: all of a fastener's places in one word.
std::string places(const Assessment& a, const std::string& id, const std::vector<std::string>& instances) {
  for (const FastenerLine& f : a.fasteners)
    if (f.id == id && instances.size() > 2 && f.instances.size() == instances.size())
      return say("plan-all-places", {{"count", std::to_string(instances.size())}});
  return joined(place_runs(instances));
}

// Loose fasteners as a person counts them: one line for each fastener and state.
std::string loose_text(const Assessment& a, const std::vector<LooseItem>& items) {
  struct Group {
    std::string text, id;
    std::vector<std::string> instances;
  };
  std::vector<Group> groups;
  for (const LooseItem& l : items) {
    const std::string key = say("plan-loose-item", {{"id", l.id}, {"state", l.state}, {"bear", l.may_bear}});
    if (groups.empty() || groups.back().text != key) groups.push_back({key, l.id, {}});
    groups.back().instances.push_back(l.instance);
  }
  std::string text;
  for (const Group& g : groups) {
    const std::string where = places(a, g.id, g.instances);
    text += (text.empty() ? "" : "; ") + g.text + (where.empty() ? "" : " (" + where + ")");
  }
  return text;
}

void print_move(const Terminal& t, const Assessment& a, const char* code, const FastenerMove& m,
                const PrintStyle& style) {
  std::string text = m.id;
  const std::string where = places(a, m.id, m.instances);
  if (!where.empty()) text += " (" + where + ")";
  text += ": " + m.state;
  if (m.torque) text += ", " + print(*m.torque, style);
  fmt::print("      {} {}\n", padded(say(code), 8), t.wrapped(text, 15, 15));
  // Where bolt and nut are while it is open; grease and locker as it is closed.
  const bool opens = std::string_view(code) == "plan-slacken";
  for (const FastenerLine& f : a.fasteners) {
    if (f.id != m.id) continue;
    std::vector<std::string> notes;
    if (opens && !f.bolt_kept.empty()) notes.push_back(say("booklet-bolt-kept", {{"place", f.bolt_kept}}));
    if (opens && !f.nut_kept.empty()) notes.push_back(say("booklet-nut-kept", {{"place", f.nut_kept}}));
    if (!opens && !f.grease.empty()) notes.push_back(say("booklet-grease", {{"place", f.grease}}));
    if (!opens && f.cure) notes.push_back(say("booklet-cure", {{"time", print(*f.cure, style)}}));
    if (!notes.empty())
      fmt::print("      {} {}\n", padded(say(opens ? "plan-kept" : "plan-mind-joint"), 8),
                 t.wrapped(f.id + ": " + joined(notes, "; "), 15, 15));
  }
}

// Where the cart stands and what that bears, in a line.
std::string support_text(const SupportView& v, const PrintStyle& style) {
  PrintStyle metric = style;
  if (metric.systems == Systems::both) metric.systems = Systems::metric;
  std::string points;
  for (std::size_t i = 0; i < v.points.size(); ++i) {
    const Foothold& f = v.points[i];
    // Left and right alike are one entry.
    const bool pair = i + 1 < v.points.size() && std::abs(f.load.si - v.points[i + 1].load.si) < 0.5 &&
                      f.what.find("left") != std::string::npos;
    std::string what = f.what;
    if (pair) {
      what.erase(what.find("left"), 5);
      what = say("plan-support-each", {{"what", what}});
      ++i;
    }
    points += (points.empty() ? "" : ", ") + what + " " + print(f.load, metric);
    if (f.range)
      points += " " + say("plan-support-range",
                          {{"least", print(f.range->least, metric)}, {"most", print(f.range->most, metric)}});
  }
  if (v.jack) points += ", " + say("plan-support-jack", {{"load", print(*v.jack, metric)}});
  std::string text = say("plan-support-text", {{"points", points},
                                               {"tip", print(number(v.tip), metric)},
                                               {"bar", print(number(v.bar), metric)},
                                               {"slip", print(number(v.slip), metric)}});
  if (v.up != "both")
    text += " " + say(v.brake_holds && v.chocked ? "plan-support-both"
                      : v.brake_holds            ? "plan-support-brake"
                      : v.chocked                ? "plan-support-chocks"
                                                 : "plan-support-free",
                      {{"roll", print(number(v.roll), metric)}});
  if (!v.propped.empty()) text += " " + say("plan-support-propped", {{"parts", joined(v.propped)}});
  if (!v.off.empty()) text += " " + say("plan-support-off", {{"parts", joined(v.off)}});
  if (!v.off_unweighed.empty()) text += " " + say("plan-support-unweighed", {{"parts", joined(v.off_unweighed)}});
  return text;
}

void print_step(const Terminal& t, const Assessment& a, const StepLine& s, const Unfinished& unfinished,
                const PrintStyle& style) {
  const std::string title = s.act + (s.side.empty() ? "" : " — " + say("side-" + s.side));
  fmt::print("\n{:>3}  {}{}\n", s.number, t.strong(t.wrapped(title, 5, 5)),
             s.done    ? "  [" + say("plan-done") + "]"
             : s.again ? "  [" + say("plan-again") + "]"
                       : "");
  const auto line = [&](const char* code, const std::string& text) {
    if (!text.empty()) fmt::print("      {} {}\n", padded(say(code), 8), t.wrapped(text, 15, 15));
  };
  line("plan-needs", joined(s.needs));
  line("plan-tools", joined(s.tools));
  for (const FastenerMove& m : s.slacken) print_move(t, a, "plan-slacken", m, style);
  line("plan-removes", joined(s.removes));
  line("plan-fits", joined(s.fits));
  line("plan-work", joined(s.work, "; "));
  for (const FastenerMove& m : s.tighten) print_move(t, a, "plan-tighten", m, style);
  line("plan-repeat", s.repeat_until);
  line("plan-proof", s.evidence);
  line("plan-voids", joined(s.undoes));
  line("plan-load", s.load);
  line("plan-loose", loose_text(a, unfinished.loose));
  line("plan-off", joined(unfinished.off));
  std::string cautions;
  for (const std::string& c : s.cautions) {
    const std::string code = "sheet-caution-" + c;
    cautions += (cautions.empty() ? "" : " ") + (find_message(code) ? say(code) : c + ".");
  }
  line("plan-mind", cautions);
  line("plan-keep-out", joined(s.keep_out, "; "));
  for (std::size_t i = 0; i < s.points.size(); ++i)
    fmt::print("      {} {}\n", padded(i == 0 ? say("plan-points") : "", 8),
               t.wrapped(std::to_string(i + 1) + ". " + word(s.points[i], style), 15, 18));
  if (s.support && s.support->changed) line("plan-support", support_text(*s.support, style));
  if (s.short_handed) line("plan-alone", s.one_person.empty() ? say("plan-alone-text") : s.one_person);
  if (s.people > 1) line("plan-people", std::to_string(s.people));
  if (s.optional) fmt::print("      {}\n", say("plan-optional"));
  if (s.hold) fmt::print("      {}\n", t.strong(say("plan-hold")));
  for (const Message& m : s.faults)
    fmt::print("      {}{}\n", t.mark(Outcome::stop), t.wrapped(word(m, style), 20, 20));
}

}  // namespace

int plan(const Asked& asked) {
  const OpenedJob opened = open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  const Job& job = *opened.file.value;
  const Assessment& a = *opened.assessment;
  bool stopped = false;
  for (const Finding& f : a.findings) stopped |= f.outcome == Outcome::stop;
  const int people = asked.people > 0 ? asked.people : technicians_of(job);
  const OrderOfWork order = order_of_work(job, a, people);
  const std::optional<Quote> price = quote(job, a);
  if (asked.json) {
    Json j = document(job, a);
    j["order"] = json_of(a, order);
    if (price) j["quote"] = json_of(*price);
    if (a.resume) j["resume"] = json_of(*a.resume);
    print_json(j);
    return stopped ? 1 : 0;
  }

  const Terminal t;
  const PrintStyle style{asked.systems};
  double minutes = 0.0;
  for (const StepLine& s : a.steps)
    if (s.minutes) minutes += s.minutes->si() / 60.0;
  fmt::print("{}\n", t.strong(say("plan-head", {{"job", job.name.value},
                                                {"steps", std::to_string(a.steps.size())},
                                                {"time", minutes > 0.0 ? print(number(minutes * units::minute))
                                                                       : say("plan-no-time")}})));
  if (stopped) fmt::print("{}\n", t.wrapped(say("plan-stopped"), 0, 0));
  if (asked.resume) {
    print_resume(t, a, style);
    return stopped ? 1 : 0;
  }
  if (!order.steps.empty()) print_order(t, a, order);
  if (price) print_quote(t, *price);
  if (asked.brief) return stopped ? 1 : 0;
  // What is signed, then the rest in the planned order.
  std::string stage;
  const auto print_next = [&](const StepLine& s, const Unfinished& unfinished) {
    if (s.stage != stage) fmt::print("\n── {} ──\n", stage = s.stage);
    print_step(t, a, s, unfinished, style);
  };
  for (const StepLine& s : a.steps)
    if (s.done || order.steps.empty()) print_next(s, s.unfinished);
  for (const PlannedStep& p : order.steps) print_next(a.steps[p.step], p.unfinished);

  // What the hands need before they begin: every fastener with torque, clamp and wrench.
  std::vector<std::vector<std::string>> rows = {{say("column-id"), say("column-thread"), say("column-torque"),
                                                 say("column-proof"), say("column-wrench"), say("column-place")}};
  PrintStyle metric = style;
  if (metric.systems == Systems::both) metric.systems = Systems::metric;
  for (const FastenerLine& f : a.fasteners) {
    const std::string torque = f.torque_asked      ? print(*f.torque_asked, style)
                               : f.torque_computed ? say("plan-computed", {{"torque", *f.torque_computed}}, style)
                                                   : "–";
    const std::string proof = f.of_proof ? fmt::format("{:.0f} % ({:.0f}–{:.0f})", 100 * (*f.of_proof)[1],
                                                       100 * (*f.of_proof)[0], 100 * (*f.of_proof)[2])
                                         : "–";
    std::string wrench = f.wrench_head ? print(*f.wrench_head, metric) : "–";
    if (f.wrench_nut) wrench += " / " + print(*f.wrench_nut, metric);
    rows.push_back({f.id, f.thread + (f.strength.empty() ? "" : " " + f.strength), torque, proof, wrench,
                    f.instances.size() > 1 ? f.at + ", " + std::to_string(f.instances.size()) + "×" : f.at});
  }
  if (rows.size() > 1) fmt::print("\n{}\n{}", t.strong(say("plan-fasteners")), table(t, rows, 2));
  print_retorque(t, a);
  if (a.work_state != "not-begun") {
    fmt::print("\n{}\n", t.strong(t.wrapped(release_line(a), 0, 0)));
    print_refused(t, a, style);
  }
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return stopped ? 1 : 0;
}

}  // namespace trammel::cli
