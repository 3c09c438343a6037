#include <fmt/core.h>

#include <algorithm>

#include "assess/finding_group.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

Json loaded(const LoadedCart& c) {
  Json j = {{"total_kg", c.total.si()},
            {"front_kg", c.front.si()},
            {"rear_kg", c.rear.si()},
            {"cg_m", {c.cg.x.si(), c.cg.y.si(), c.cg.z.si()}}};
  if (c.cg_height_u) j["cg_height_u_m"] = c.cg_height_u->si();
  if (c.stability_factor) j["stability_factor"] = *c.stability_factor;
  if (c.tilt_rigid) j["tilt_rigid_rad"] = c.tilt_rigid->si();
  if (c.tilt_rolled) j["tilt_on_springs_rad"] = c.tilt_rolled->si();
  if (c.tip_back) j["tip_back_rad"] = c.tip_back->si();
  if (c.bend_speed) j["bend_speed_m_per_s"] = c.bend_speed->si();
  return j;
}

Json summary(const CartSummary& s) {
  Json j = {{"wheelbase_m", s.wheelbase.si()}};
  const auto add = [&](const char* key, const auto& value) {
    if (value) j[key] = value->si();
  };
  add("height_m", s.height);
  add("clearance_m", s.clearance);
  add("front_loaded_radius_m", s.front_radius);
  add("rear_loaded_radius_m", s.rear_radius);
  add("front_half_track_m", s.front_half_track);
  add("rear_half_track_m", s.rear_half_track);
  add("top_speed_m_per_s", s.top_speed);
  if (!s.speed_class.empty()) j["class_by_speed"] = s.speed_class;
  return j;
}

Json document(const Job& job, const Assessment& a) {
  Json j = {{"job", job.name.value},
            {"verdict", word_of(a.verdict)},
            {"sentences", Json::array()},
            {"findings", Json::array()},
            {"limits", Json::array()}};
  for (const std::size_t i : a.sentences) j["sentences"].push_back(json_of(a.findings[i].message));
  for (const Finding& f : a.findings) {
    if (f.outcome != Outcome::met) j["findings"].push_back(json_of(f));
    if (f.limit) j["limits"].push_back(json_of(f));
  }
  j["before"] = summary(a.before);
  j["after"] = summary(a.after);
  j["load_cases"] = Json::array();
  for (const LoadCaseResult& c : a.load_cases)
    j["load_cases"].push_back({{"name", c.name}, {"before", loaded(c.before)}, {"after", loaded(c.after)}});
  return j;
}

std::string verdict_word(Verdict v) {
  return say(v == Verdict::go                   ? "verdict-go"
             : v == Verdict::go_with_conditions ? "verdict-conditions"
                                                : "verdict-no-go");
}

// A margin that the readings cannot tell from nought is said to be so.
std::string worded(const Finding& f, const PrintStyle& style) {
  std::string text = word(f.message, style);
  if (f.outcome == Outcome::condition && f.margin && f.margin->si >= 0.0 && f.margin->u &&
      !f.message.code.starts_with("align-"))
    text += "; " + say("margin-not-sure", {{"margin", *f.margin}}, style);
  return text;
}

// A finding with its cure; behind it in brackets the code that `explain` knows.
void print_finding(const Terminal& t, const Finding& f, const std::string& text, const PrintStyle& style) {
  fmt::print("  {}{}\n", t.mark(f.outcome), t.wrapped(text, 16, 16));
  if (f.cure)
    fmt::print("                {}\n", t.wrapped(say("check-cure", {{"cure", word(*f.cure, style)}}), 16, 16));
}

// What else it is about, told short: the load where that is all that differs.
std::string likes(const Finding& worst, const std::vector<const Finding*>& others) {
  std::string text;
  for (const Finding* f : others) {
    const std::string one = f->subject == worst.subject && !f->load_case.empty() ? f->load_case
                            : f->load_case.empty() || f->load_case == worst.load_case
                                ? f->subject
                                : f->subject + " (" + f->load_case + ")";
    if (text.find(one) == std::string::npos) text += (text.empty() ? "" : ", ") + one;
  }
  return text.empty() ? text : "; " + say("check-also", {{"others", text}});
}

// The verdict: at most three sentences, each with its number and what would turn it.
void print_verdict(const Terminal& t, const Job& job, const Assessment& a, const PrintStyle& style) {
  fmt::print("{}\n\n", t.strong(say("check-verdict", {{"verdict", verdict_word(a.verdict)}, {"job", job.name.value}})));
  const std::vector<FindingGroup> groups = to_act_on(a.findings);
  for (const std::size_t i : a.sentences) {
    const Finding& f = a.findings[i];
    const auto group = std::find_if(groups.begin(), groups.end(), [&](const FindingGroup& g) { return g.worst == &f; });
    const std::string also = group == groups.end() ? "" : likes(f, group->others);
    print_finding(t, f, worded(f, style) + also + ".", style);
  }
  if (a.sentences.empty()) fmt::print("  {}\n", say("check-nothing-to-tell"));
  const auto count = [&](Outcome o) {
    return std::to_string(
        std::count_if(a.findings.begin(), a.findings.end(), [&](const Finding& f) { return f.outcome == o; }));
  };
  fmt::print("\n{}\n", say("check-counts", {{"stop", count(Outcome::stop)},
                                            {"condition", count(Outcome::condition)},
                                            {"note", count(Outcome::note)},
                                            {"met", count(Outcome::met)}}));
}

// What must be acted on beyond the verdict's sentences, the worst of each kind in full.
void print_to_act_on(const Terminal& t, const Assessment& a, const PrintStyle& style) {
  bool headed = false;
  for (const FindingGroup& group : to_act_on(a.findings)) {
    const Finding& f = *group.worst;
    const auto index = static_cast<std::size_t>(&f - a.findings.data());
    if (std::find(a.sentences.begin(), a.sentences.end(), index) != a.sentences.end()) continue;
    if (!headed) fmt::print("\n{}\n", t.strong(say("check-to-act-on")));
    headed = true;
    print_finding(t, f, worded(f, style) + likes(f, group.others) + "  [" + f.message.code + "]", style);
  }
}

// Notes of one kind stand on one line, with all that they are about.
void print_notes(const Terminal& t, const Assessment& a, const PrintStyle& style) {
  fmt::print("\n{}\n", t.strong(say("check-notes")));
  std::vector<std::string> told;
  for (const Finding& f : a.findings) {
    if (f.outcome != Outcome::note || says_not_computed(f)) continue;
    std::vector<const Finding*> others;
    if (!f.value) {
      if (std::find(told.begin(), told.end(), f.message.code) != told.end()) continue;
      told.push_back(f.message.code);
      for (const Finding& other : a.findings)
        if (&other != &f && other.outcome == Outcome::note && other.message.code == f.message.code)
          others.push_back(&other);
    }
    print_finding(t, f, worded(f, style) + likes(f, others) + "  [" + f.message.code + "]", style);
  }
}

// Every limit with its numbers and sources; sources are told once, by number.
void print_limits(const Terminal& t, const Assessment& a, const PrintStyle& given) {
  PrintStyle style = given;
  if (style.systems == Systems::both) style.systems = Systems::metric;
  std::vector<std::string> sources;
  std::vector<std::vector<std::string>> rows = {{say("column-outcome"), say("column-what"), say("column-before"),
                                                 say("column-after"), say("column-limit"), say("column-margin"),
                                                 say("column-basis"), say("column-source")}};
  const auto cell = [&](const std::optional<Number>& n) { return n ? print(*n, style) : std::string("–"); };
  PrintStyle no_u = style;
  no_u.uncertainty = false;
  for (const Finding& f : a.findings) {
    if (!f.limit) continue;
    auto source = std::find(sources.begin(), sources.end(), f.source);
    if (source == sources.end()) source = sources.insert(sources.end(), f.source);
    const std::string what =
        say("limit-" + f.message.code) + ", " + f.subject + (f.load_case.empty() ? "" : ", " + f.load_case);
    rows.push_back({word_of(f.outcome), what, f.before ? print(*f.before, no_u) : "–", cell(f.value),
                    std::string(f.sense == Finding::Sense::at_most ? "≤ " : "≥ ") + print(*f.limit, no_u),
                    cell(f.margin), word_of(f.basis), std::to_string(source - sources.begin() + 1)});
  }
  fmt::print("\n{}\n{}", t.strong(say("check-limits")), table(t, rows, 2));
  fmt::print("\n{}\n", t.strong(say("check-sources")));
  for (std::size_t i = 0; i < sources.size(); ++i) fmt::print("  {:>2}  {}\n", i + 1, t.wrapped(sources[i], 6, 6));
}

void print_change(const Terminal& t, const Assessment& a, const PrintStyle& given) {
  PrintStyle style = given;
  std::vector<std::vector<std::string>> rows = {{"", say("column-before"), say("column-after")}};
  const auto row = [&](const char* code, const auto& before, const auto& after) {
    if (!before && !after) return;
    rows.push_back({say(code), before ? print(number(*before), style) : "–",
                    after ? print(number(*after), style) : say("not-computed-short")});
  };
  row("summary-height", a.before.height, a.after.height);
  row("summary-clearance", a.before.clearance, a.after.clearance);
  row("summary-top-speed", a.before.top_speed, a.after.top_speed);
  if (!a.before.speed_class.empty()) rows.push_back({say("summary-class"), a.before.speed_class, a.after.speed_class});
  for (const LoadCaseResult& c : a.load_cases) {
    if (c.before.stability_factor && c.after.stability_factor)
      rows.push_back({say("summary-stability", {{"load", c.name}}), print(number(*c.before.stability_factor), style),
                      print(number(*c.after.stability_factor), style)});
    if (c.before.bend_speed && c.after.bend_speed)
      rows.push_back({say("summary-bend", {{"load", c.name}}), print(number(*c.before.bend_speed), style),
                      print(number(*c.after.bend_speed), style)});
  }
  if (rows.size() > 1) fmt::print("\n{}\n{}", t.strong(say("check-change")), table(t, rows, 2));
}

}  // namespace

int check(const Asked& asked) {
  const OpenedJob opened = open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  const Job& job = *opened.file.value;
  const Assessment& a = *opened.assessment;
  const int status = a.verdict == Verdict::no_go ? 1 : 0;
  if (asked.json) {
    print_json(document(job, a));
    return status;
  }
  const Terminal t;
  const PrintStyle style{asked.systems};
  print_verdict(t, job, a, style);
  if (!asked.brief) {
    print_change(t, a, style);
    print_to_act_on(t, a, style);
    if (asked.all) {
      print_notes(t, a, style);
      print_limits(t, a, style);
    } else {
      fmt::print("\n{}\n", t.wrapped(say("check-more"), 0, 0));
    }
  }
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
