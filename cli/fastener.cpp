#include "fastener/ask.h"

#include <fmt/core.h>

#include <algorithm>

#include "assess/fastener_words.h"
#include "cli/commands.h"
#include "cli/json.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "fastener/wheel.h"

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
  if (j.long_form) {
    d["long_form_n"] = window(*j.long_form);
    d["long_form_factor"] = {{"low", j.long_k.low},
                             {"nominal", j.long_k.nominal},
                             {"high", j.long_k.high},
                             {"bearing_diameter_m", j.bearing_diameter.si()},
                             {"source", std::string(j.long_k.source)}};
  }
  if (j.running)
    d["running_nm"] = {{"low", j.running->low.si()},
                       {"nominal", j.running->nominal.si()},
                       {"high", j.running->high.si()},
                       {"measured", j.running->measured}};
  if (j.reuse) d["reuse_least_nm"] = {{"value", j.reuse->least.si()}, {"source", std::string(j.reuse->source)}};
  if (j.length) {
    d["grip_m"] = j.length->grip.si();
    if (j.length->protrusion) d["protrusion_m"] = j.length->protrusion->si();
    if (j.length->shortest && j.length->longest)
      d["bolt_length_m"] = {{"shortest", j.length->shortest->si()}, {"longest", j.length->longest->si()}};
  }
  if (j.engagement) d["engagement_needed_m"] = j.engagement->needed.si();
  if (j.strips) d["strips_at_n"] = j.strips->si();
  if (j.wall) d["wall_gives_way_at_n"] = j.wall->si();
  if (j.sleeve) d["sleeve_gives_way_at_n"] = j.sleeve->si();
  if (j.u_bolt) d["u_bolt_chart_nm"] = {{"most", j.u_bolt->most.si()}, {"source", std::string(j.u_bolt->source)}};
  if (j.castle)
    d["castle"] = {{"turn_deg", j.castle->turn.in(units::degree)},
                   {"advance_m", j.castle->advance.si()},
                   {"shim_m", j.castle->shim.si()}};
  if (j.hole)
    d["clearance_hole_m"] = {
        {"fine", j.hole->fine.si()}, {"medium", j.hole->medium.si()}, {"coarse", j.hole->coarse.si()}};
  if (j.drill)
    d["tapping_drill_m"] = {
        {"least", j.drill->least.si()}, {"usual", j.drill->usual.si()}, {"most", j.drill->most.si()}};
  if (j.setting) d["wrench_setting_nm"] = j.setting->si();
  if (j.pivot)
    d["pivot"] = {{"friction_n", j.pivot->friction.si()},
                  {"slips", j.pivot->slips},
                  {"shear_share", j.pivot->shear},
                  {"tension_share", j.pivot->tension},
                  {"together", j.pivot->together}};
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

using Rows = std::vector<std::vector<std::string>>;

// Rows that only some joints have: what the parts bear, slots, passes, the wrench with its extension.
void part_rows(Rows& rows, const fs::Question& q, const fs::Judgement& j, const PrintStyle& style) {
  const auto row = [&](const char* label, const char* text,
                       const std::vector<std::pair<std::string, Argument>>& arguments) {
    rows.push_back({say(label), say(text, arguments, style)});
  };
  if (j.running)
    row("fastener-running", j.running->measured ? "fastener-running-measured" : "fastener-running-tabled",
        {{"low", number(j.running->low)}, {"high", number(j.running->high)}});
  if (j.setting) row("fastener-setting", "fastener-setting-how", {{"setting", number(*j.setting)}});
  if (q.joint.bolt && j.length && j.length->shortest && j.length->longest)
    row("fastener-length", "fastener-length-range",
        {{"grip", number(j.length->grip)},
         {"shortest", number(*j.length->shortest)},
         {"longest", number(*j.length->longest)}});
  if (j.engagement && j.strips)
    row("fastener-engagement", "fastener-engagement-needed",
        {{"needed", number(j.engagement->needed)}, {"strips", number(*j.strips)}});
  if (j.wall) row("fastener-wall", "fastener-bears", {{"force", number(*j.wall)}});
  if (j.sleeve) row("fastener-sleeve", "fastener-bears", {{"force", number(*j.sleeve)}});
  if (j.u_bolt)
    row("fastener-u-bolt",
        j.u_bolt->basis == fs::Basis::derived ? "fastener-u-bolt-derived" : "fastener-u-bolt-printed",
        {{"most", number(j.u_bolt->most)}});
  if (j.castle)
    row("fastener-slot", "fastener-slot-how",
        {{"turn", number(j.castle->turn)}, {"advance", number(j.castle->advance)}, {"shim", number(j.castle->shim)}});
  if (j.slot_met)
    row("fastener-slot-room", "fastener-slot-room-how",
        {{"torque", number(*q.ask.torque)},
         {"limit", number(*q.ask.limit)},
         {"turn", number(*j.slot_met * j.castle->turn)},
         {"slot", number(j.castle->turn)}});
  const fs::Nut* nut = fs::clamping_nut(q.joint);
  if (nut && nut->kind == fs::NutKind::wheel && q.ask.torque) {
    std::string passes, order;
    for (const Torque t : q.ask.passes.empty() ? fs::pass_torques(*q.ask.torque) : q.ask.passes)
      passes += (passes.empty() ? "" : " – ") +
                print(number(t), style.systems == Systems::both ? PrintStyle{Systems::metric} : style);
    row("fastener-passes", q.ask.passes.empty() ? "fastener-passes-usual" : "fastener-passes-given",
        {{"passes", passes}});
    if (q.ask.studs) {
      for (const int i : fs::tightening_order(*q.ask.studs))
        order += (order.empty() ? "" : " ") + std::to_string(i + 1);
      row("fastener-order", "fastener-order-how", {{"order", order}});
    }
  }
  if (j.pivot)
    row("fastener-pivot", j.pivot->slips ? "fastener-pivot-sheared" : "fastener-pivot-held",
        {{"friction", number(j.pivot->friction)}, {"together", share(j.pivot->together)}});
  if (j.drill)
    row("fastener-drill", "fastener-drill-range",
        {{"usual", number(j.drill->usual)}, {"least", number(j.drill->least)}, {"most", number(j.drill->most)}});
  if (j.hole && !j.drill)
    row("fastener-hole", "fastener-hole-range",
        {{"usual", number(j.hole->medium)}, {"least", number(j.hole->fine)}, {"most", number(j.hole->coarse)}});
}

// The text with a caret under what cannot be read.
int unreadable(const std::string& text, const fs::AskError& error) {
  std::string choices;
  for (const std::string& c : error.choices) choices += (choices.empty() ? "" : ", ") + c;
  const std::string piece = text.substr(std::min(error.at, text.size()), std::max<std::size_t>(error.length, 1));
  fmt::print(stderr, "{}\n  {}\n  {}{}\n", say("fastener-unreadable", {{"piece", piece}}), text,
             std::string(static_cast<std::size_t>(columns(text.substr(0, std::min(error.at, text.size())))), ' '),
             std::string(static_cast<std::size_t>(std::max(1, columns(piece))), '^'));
  if (error.fault == fs::AskFault::stack) {
    std::string why(fs::name(error.stack));
    std::replace(why.begin(), why.end(), '_', '-');
    fmt::print(stderr, "  {}\n", say("stack-" + why));
  }
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
  // Heads and holes are in the measures of their thread.
  const PrintStyle style{asked.systems};
  const PrintStyle by_thread{fs::is_metric(q.joint.thread) ? Systems::metric : Systems::inch, 32};
  const std::string bolt_class = q.joint.bolt ? q.joint.bolt->bolt_class : "";
  fmt::print("{}\n", t.strong(fs::name(q.joint.thread) + (bolt_class.empty() ? "" : " " + bolt_class)));
  Rows rows;
  const auto row = [&](const char* code, const std::string& text) { rows.push_back({say(code), text}); };
  const auto range = [&](Force low, Force nominal, Force high) {
    return say("fastener-window", {{"low", number(low)}, {"nominal", number(nominal)}, {"high", number(high)}}, style);
  };
  // As it was asked, and in the other system behind it.
  if (q.ask.torque)
    row("fastener-torque", q.in_pounds && asked.systems == Systems::both
                               ? print(number(*q.ask.torque), {Systems::inch}) + " (" +
                                     print(number(*q.ask.torque), {Systems::metric}) + ")"
                               : print(number(*q.ask.torque), style));
  row("fastener-surface", say(j.has(fs::Flag::surface_assumed) ? "fastener-surface-assumed" : "fastener-surface-given",
                              {{"surface", std::string(fs::name(j.surface))},
                               {"low", fmt::format("{:.2f}", j.k.low)},
                               {"k", fmt::format("{:.2f}", j.k.nominal)},
                               {"high", fmt::format("{:.2f}", j.k.high)}}));
  row("fastener-method", say(j.method_assumed ? "fastener-method-assumed" : "fastener-method-given",
                             {{"method", std::string(fs::name(j.method))}}));
  if (j.preload) row("fastener-preload", range(j.preload->low, j.preload->nominal, j.preload->high));
  if (j.long_form)
    rows.push_back({say("fastener-long"), say("fastener-long-how",
                                              {{"low", number(j.long_form->low)},
                                               {"nominal", number(j.long_form->nominal)},
                                               {"high", number(j.long_form->high)},
                                               {"face", number(j.bearing_diameter)}},
                                              {Systems::metric})});
  if (j.proof)
    row("fastener-proof",
        say("fastener-percent",
            {{"low", share(j.proof->low)}, {"nominal", share(j.proof->nominal)}, {"high", share(j.proof->high)}}));
  if (j.proof_load) row("fastener-proof-load", print(number(j.proof_load->value), style) + ", " + strength_standard(q));
  if (j.suggested)
    row("fastener-computed",
        print(number(*j.suggested), style) + ", " + say(j.wall ? "fastener-computed-wall" : "fastener-computed-how"));
  if (!j.heads.empty()) {
    std::vector<Length> sizes;
    for (const fs::Head& h : j.heads) sizes.push_back(h.across_flats);
    std::sort(sizes.begin(), sizes.end());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
    std::string text;
    for (const Length s : sizes) text += (text.empty() ? "" : ", ") + print(number(s), by_thread);
    row("fastener-heads", text);
  }
  part_rows(rows, q, j, by_thread);
  fmt::print("{}", table(t, rows, 2));
  for (const fs::Flag f : j.flags)
    fmt::print("  {}{}\n", t.mark(outcome_of(f)),
               t.wrapped(word(flag_message(f, say("fastener-this"), q, j), style), 16, 16));
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
