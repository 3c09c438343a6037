#include <fmt/core.h>

#include <algorithm>
#include <map>

#include "assess/rehearsal.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "jobfile/diagnostic.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

std::string joined(const std::vector<std::string>& list, const char* between) {
  std::string all;
  for (const std::string& s : list) all += (all.empty() ? "" : between) + s;
  return all;
}

std::string place_text(const Place& p) { return p.file + ":" + std::to_string(p.line); }

Json document(const Job& job, const RehearsedJob& r) {
  Json j = {{"name", job.name.value}, {"steps", r.steps},       {"fasteners", r.fasteners}, {"parts", r.parts},
            {"variants", r.variants}, {"complete", r.complete}, {"findings", Json::array()}};
  for (const RehearsedFinding& f : r.found) {
    Json one = json_of(f.finding.message);
    one["outcome"] = word_of(f.finding.outcome);
    one["subject"] = f.finding.subject;
    one["trace"] = f.trace;
    if (f.least_steps > 0) one["least_steps"] = f.least_steps;
    if (!f.again.empty()) one["again"] = f.again;
    if (!f.variant.empty()) one["variant"] = f.variant;
    if (!f.finding.place.file.empty()) one["place"] = json_of(f.finding.place);
    j["findings"].push_back(std::move(one));
  }
  return j;
}

// One finding: what is wrong, where it is written, the steps that lead to it, and what would mend it.
void print_one(const Terminal& t, const RehearsedFinding& r, bool with_help, const PrintStyle& style) {
  const Finding& f = r.finding;
  std::string text = word(f.message, style);
  if (!r.variant.empty()) text += ", " + r.variant;
  fmt::print("\n  {}{}\n", t.mark(f.outcome), t.wrapped(text + "  [" + f.message.code + "]", 16, 16));
  const auto line = [&](const char* code, const std::string& what) {
    if (!what.empty()) fmt::print("                {} {}\n", padded(say(code), 6), t.wrapped(what, 23, 23));
  };
  line("rehearse-at", f.place.file.empty() ? "" : place_text(f.place));
  std::string by = r.trace.size() > 1 ? joined(r.trace, " > ") : "";
  if (!by.empty() && r.least_steps > 1) by += " " + say("rehearse-least", {{"count", std::to_string(r.least_steps)}});
  line("rehearse-by", by);
  line("rehearse-again", joined(r.again, ", "));
  if (with_help) line("rehearse-mend", flowed(help_text(f.message)));
}

int spoilt(const Asked& asked, const Job& job, const Terminal& t) {
  const std::vector<SpoiltOutcome> all =
      rehearse_spoilt(job, static_cast<std::size_t>(asked.spoil), static_cast<std::uint64_t>(asked.seed));
  std::map<std::string, std::pair<int, int>> by_kind;  // caught, made
  for (const SpoiltOutcome& o : all) {
    by_kind[o.kind].first += o.caught ? 1 : 0;
    ++by_kind[o.kind].second;
  }
  if (asked.json) {
    Json j = {{"made", all.size()}, {"mistakes", Json::array()}};
    for (const SpoiltOutcome& o : all)
      j["mistakes"].push_back({{"kind", o.kind}, {"where", o.where}, {"caught", o.caught}, {"by", o.by}});
    print_json(j);
    return 0;
  }
  fmt::print("{}\n\n", t.strong(say("spoil-head", {{"name", job.name.value},
                                                   {"count", std::to_string(all.size())},
                                                   {"seed", std::to_string(asked.seed)}})));
  std::vector<std::vector<std::string>> rows = {
      {say("spoil-column-kind"), say("spoil-column-caught"), say("spoil-column-made")}};
  for (const auto& [kind, n] : by_kind) rows.push_back({say(kind), std::to_string(n.first), std::to_string(n.second)});
  fmt::print("{}", table(t, rows, 2));
  // What was not caught, and why it does no harm: one line for each reason.
  std::map<std::string, std::vector<std::string>> why;
  for (const SpoiltOutcome& o : all)
    if (!o.caught) why[o.by].push_back(o.where);
  if (!why.empty()) fmt::print("\n{}\n", t.strong(say("spoil-survivors")));
  for (auto& [reason, where] : why) {
    std::map<std::string, int> times;
    for (const std::string& w : where) ++times[w];
    std::string list;
    for (const auto& [w, n] : times)
      list += (list.empty() ? "" : ", ") + w + (n > 1 ? " (" + std::to_string(n) + "×)" : "");
    fmt::print("  {}\n", t.wrapped(say(reason, {{"count", std::to_string(where.size())}}) + ": " + list, 2, 4));
  }
  return 0;
}

}  // namespace

int rehearse(const Asked& asked) {
  const Loaded<Job> opened = read_kit_or_job(asked.path);
  fmt::print(stderr, "{}", render(opened.diagnostics));
  if (!opened.value) return 2;
  const Job& job = *opened.value;
  const Terminal t;
  const PrintStyle style{asked.systems};
  if (asked.spoil > 0) return spoilt(asked, job, t);

  RehearsedJob r = rehearse(job);
  std::stable_sort(r.found.begin(), r.found.end(), [](const RehearsedFinding& a, const RehearsedFinding& b) {
    return static_cast<int>(a.finding.outcome) > static_cast<int>(b.finding.outcome);
  });
  const bool stopped = std::any_of(r.found.begin(), r.found.end(),
                                   [](const RehearsedFinding& f) { return f.finding.outcome == Outcome::stop; });
  if (asked.json) {
    print_json(document(job, r));
    return stopped ? 1 : 0;
  }
  fmt::print("{}\n", t.strong(t.wrapped(say("rehearse-head", {{"name", job.name.value},
                                                              {"steps", std::to_string(r.steps)},
                                                              {"sides", std::to_string(r.sides_written_out)},
                                                              {"fasteners", std::to_string(r.fasteners)},
                                                              {"parts", std::to_string(r.parts)}}),
                                        0, 2)));
  if (!r.variants.empty())
    fmt::print("{}\n", t.wrapped(say("rehearse-variants", {{"variants", joined(r.variants, "; ")}}), 0, 2));
  if (!r.complete) fmt::print("{}\n", t.wrapped(say("rehearse-incomplete"), 0, 0));
  if (r.found.empty()) fmt::print("\n  {}{}\n", t.mark(Outcome::met), t.wrapped(say("rehearse-clean"), 16, 16));
  std::vector<std::string> told;
  for (const RehearsedFinding& f : r.found) {
    const bool fresh = std::find(told.begin(), told.end(), f.finding.message.code) == told.end();
    told.push_back(f.finding.message.code);
    print_one(t, f, fresh, style);
  }
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return stopped ? 1 : 0;
}

}  // namespace trammel::cli
