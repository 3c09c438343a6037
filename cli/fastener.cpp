#include "fastener/ask.h"

#include <fmt/core.h>

#include <algorithm>

#include "assess/fastener_words.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"

namespace trammel::cli {
namespace {

namespace fs = trammel::fastener;

Json window(const fs::PreloadWindow& w) {
  return {{"low", w.low.si()}, {"nominal", w.nominal.si()}, {"high", w.high.si()}};
}

Json document(const std::string& text, const fs::Question& q, const fs::Judgement& j) {
  Json d = {{"asked", text}, {"thread", fs::name(q.joint.thread)}};
  if (q.joint.bolt && !q.joint.bolt->bolt_class.empty()) d["class"] = q.joint.bolt->bolt_class;
  if (q.ask.torque) d["torque_nm"] = q.ask.torque->si();
  d["surface"] = std::string(fs::name(j.surface));
  d["nut_factor"] = {
      {"low", j.k.low}, {"nominal", j.k.nominal}, {"high", j.k.high}, {"source", std::string(j.k.source)}};
  d["method"] = std::string(fs::name(j.method));
  if (j.preload) d["preload_n"] = window(*j.preload);
  if (j.proof) d["of_proof"] = {{"low", j.proof->low}, {"nominal", j.proof->nominal}, {"high", j.proof->high}};
  if (j.proof_load)
    d["proof_load"] = {{"value_n", j.proof_load->value.si()}, {"source", std::string(j.proof_load->source)}};
  if (j.margin) d["margin_n"] = j.margin->si();
  if (j.suggested) d["computed_torque_nm"] = j.suggested->si();
  if (j.likely_meant) d["likely_meant_nm"] = j.likely_meant->si();
  d["heads_m"] = Json::array();
  for (const fs::Head& h : j.heads)
    d["heads_m"].push_back(
        {{"across_flats", h.across_flats.si()}, {"standard", std::string(h.standard)}, {"kind", std::string(h.kind)}});
  d["findings"] = Json::array();
  for (const fs::Flag f : j.flags) {
    Json one = json_of(flag_message(f, say("fastener-this"), q, j));
    one["outcome"] = word_of(outcome_of(f));
    d["findings"].push_back(std::move(one));
  }
  return d;
}

// The text with a caret under what cannot be read.
int unreadable(const std::string& text, const fs::AskError& error) {
  std::string choices;
  for (const std::string& c : error.choices) choices += (choices.empty() ? "" : ", ") + c;
  const std::string piece = text.substr(std::min(error.at, text.size()), std::max<std::size_t>(error.length, 1));
  fmt::print(stderr, "{}\n  {}\n  {}{}\n", say("fastener-unreadable", {{"piece", piece}}), text,
             std::string(static_cast<std::size_t>(columns(text.substr(0, std::min(error.at, text.size())))), ' '),
             std::string(static_cast<std::size_t>(std::max(1, columns(piece))), '^'));
  if (!error.nearest.empty()) fmt::print(stderr, "  {}\n", say("fastener-nearest", {{"nearest", error.nearest}}));
  if (!choices.empty()) fmt::print(stderr, "  {}\n", say("fastener-choices", {{"choices", choices}}));
  return 2;
}

}  // namespace

int fastener(const Asked& asked) {
  const auto read = fs::read_ask(asked.path);
  if (const auto* error = std::get_if<fs::AskError>(&read)) return unreadable(asked.path, *error);
  const fs::Question& q = std::get<fs::Question>(read);
  const fs::Judgement j = fs::judge(q.joint, q.ask);
  int status = 0;
  for (const fs::Flag f : j.flags)
    if (outcome_of(f) == Outcome::stop) status = 1;
  if (asked.json) {
    print_json(document(asked.path, q, j));
    return status;
  }

  const Terminal t;
  const PrintStyle style{asked.systems};
  const std::string bolt_class = q.joint.bolt ? q.joint.bolt->bolt_class : "";
  fmt::print("{}\n", t.strong(fs::name(q.joint.thread) + (bolt_class.empty() ? "" : " " + bolt_class)));
  std::vector<std::vector<std::string>> rows;
  const auto row = [&](const char* code, const std::string& text) { rows.push_back({say(code), text}); };
  const auto range = [&](Force low, Force nominal, Force high) {
    return say("fastener-window", {{"low", number(low)}, {"nominal", number(nominal)}, {"high", number(high)}}, style);
  };
  if (q.ask.torque) row("fastener-torque", print(number(*q.ask.torque), style));
  row("fastener-surface", say(j.has(fs::Flag::surface_assumed) ? "fastener-surface-assumed" : "fastener-surface-given",
                              {{"surface", std::string(fs::name(j.surface))},
                               {"low", fmt::format("{:.2f}", j.k.low)},
                               {"k", fmt::format("{:.2f}", j.k.nominal)},
                               {"high", fmt::format("{:.2f}", j.k.high)}}));
  row("fastener-method", say(j.method_assumed ? "fastener-method-assumed" : "fastener-method-given",
                             {{"method", std::string(fs::name(j.method))}}));
  if (j.preload) row("fastener-preload", range(j.preload->low, j.preload->nominal, j.preload->high));
  if (j.proof)
    row("fastener-proof",
        say("fastener-percent",
            {{"low", share(j.proof->low)}, {"nominal", share(j.proof->nominal)}, {"high", share(j.proof->high)}}));
  if (j.proof_load)
    row("fastener-proof-load", print(number(j.proof_load->value), style) + ", " + strength_source(q, j));
  if (j.suggested) row("fastener-computed", print(number(*j.suggested), style) + ", " + say("fastener-computed-how"));
  if (!j.heads.empty()) {
    std::vector<Length> sizes;
    for (const fs::Head& h : j.heads) sizes.push_back(h.across_flats);
    std::sort(sizes.begin(), sizes.end());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
    std::string text;
    for (const Length s : sizes) text += (text.empty() ? "" : ", ") + print(number(s), {Systems::metric});
    row("fastener-heads", text);
  }
  fmt::print("{}", table(t, rows, 2));
  for (const fs::Flag f : j.flags)
    fmt::print("  {}{}\n", t.mark(outcome_of(f)),
               t.wrapped(word(flag_message(f, say("fastener-this"), q, j), style), 16, 16));
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
