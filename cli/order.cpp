#include "cli/order.h"

#include <fmt/core.h>

#include <cmath>

#include "cli/words.h"

namespace trammel::cli {
namespace {

std::string clock_text(Time t) {
  const long minutes = std::lround(t.in(units::minute));
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}
std::string minutes_text(Time t) { return std::to_string(std::lround(t.in(units::minute))); }

// Step numbers with runs drawn together: "3, 5–8".
std::string numbers(std::vector<int> all) {
  std::string text;
  for (std::size_t i = 0; i < all.size();) {
    std::size_t k = i;
    while (k + 1 < all.size() && all[k + 1] == all[k] + 1) ++k;
    text += (text.empty() ? "" : ", ") + std::to_string(all[i]);
    if (k > i) text += (k > i + 1 ? "–" : ", ") + std::to_string(all[k]);
    i = k + 1;
  }
  return text;
}

std::string hours(Time t, Time u) { return fmt::format("{:.1f} h ± {:.1f} h", t.in(units::hour), u.in(units::hour)); }

std::string shortened(const std::string& act, std::size_t most) {
  if (act.size() <= most) return act;
  std::size_t cut = act.rfind(' ', most);
  if (cut == std::string::npos || cut < most / 2) cut = most;
  std::string text = act.substr(0, cut);
  while (!text.empty() && (text.back() == ',' || text.back() == ';' || text.back() == ':')) text.pop_back();
  return text + " …";
}

}  // namespace

void print_order(const Terminal& t, const Assessment& a, const OrderOfWork& order) {
  fmt::print("\n{}\n",
             t.strong(say("order-head", {{"count", std::to_string(order.steps.size())},
                                         {"time", hours(order.total, order.total_u)},
                                         {"people", say(order.technicians > 1 ? "order-two" : "order-one")}})));
  const auto line = [&](const std::string& text) { fmt::print("  {}\n", t.wrapped(text, 2, 2)); };
  if (order.technicians > 1) {
    line(order.proven ? say("order-time-proven")
                      : say("order-time-gap", {{"bound", fmt::format("{:.1f} h", order.bound.in(units::hour))},
                                               {"gap", minutes_text(order.total - order.bound)}}));
  } else {
    line(say(order.proven ? "order-changes-proven" : "order-changes-gap",
             {{"changes", std::to_string(order.tool_changes)},
              {"given", std::to_string(order.tool_changes_as_given)},
              {"bound", std::to_string(order.tool_bound)}}));
  }
  line(say("order-times", {{"count", std::to_string(order.untimed)}}));
  if (order.signed_already > 0) line(say("order-signed", {{"count", std::to_string(order.signed_already)}}));
  const auto list = [&](const std::vector<std::size_t>& steps) {
    std::vector<int> n;
    for (const std::size_t s : steps) n.push_back(a.steps[s].number);
    return numbers(n);
  };
  if (order.waited > Time{})
    line(say("order-waited", {{"time", fmt::format("{:.1f} h", order.waited.in(units::hour))}}));
  if (!order.out_of_turn.empty()) line(say("order-out-of-turn", {{"steps", list(order.out_of_turn)}}));
  if (!order.for_two.empty()) line(say("order-for-two", {{"steps", list(order.for_two)}}));

  std::vector<std::vector<std::string>> rows = {
      {say("order-column-at"), say("order-column-step"), say("order-column-who"), say("order-column-minutes"),
       say("order-column-wait"), say("order-column-after"), say("order-column-do")}};
  for (const PlannedStep& p : order.steps) {
    const StepLine& s = a.steps[p.step];
    std::vector<int> after;
    for (const std::size_t w : p.waits_for) after.push_back(a.steps[w].number);
    if (p.waited > Time{}) {
      rows.push_back({clock_text(p.start - p.waited), "–", "", minutes_text(p.waited), "–", "–",
                      say("order-cures", {{"subject", p.cures}})});
    }
    rows.push_back(
        {clock_text(p.start), std::to_string(s.number),
         order.technicians < 2 ? ""
         : p.technician == 2   ? "A+B"
         : p.technician == 1   ? "B"
                               : "A",
         s.minutes ? minutes_text(p.end - p.start) : "?", p.can_wait.si() >= 30.0 ? minutes_text(p.can_wait) : "–",
         after.empty()      ? "–"
         : after.size() > 3 ? numbers({after.end() - 2, after.end()}) + " …"
                            : numbers(after),
         std::string(s.hold ? "⏸ " : "") + (s.again ? "↻ " : "") + shortened(s.act, s.side.empty() ? 46 : 40) +
             (s.side.empty() ? "" : ", " + say("side-" + s.side))});
  }
  if (order.technicians < 2)
    for (auto& row : rows) row.erase(row.begin() + 2);
  fmt::print("{}", table(t, rows, 2));
}

void print_quote(const Terminal& t, const Quote& q) {
  const auto money = [&](double v) { return fmt::format("{:.2f}{}{}", v, q.currency.empty() ? "" : " ", q.currency); };
  fmt::print("\n{}\n", t.strong(say("quote-head")));
  std::vector<std::vector<std::string>> rows;
  if (q.labour)
    rows.push_back({say("quote-labour", {{"hours", hours(q.work, q.work_u)}, {"rate", money(*q.rate)}}),
                    money(*q.labour) + " ± " + money(*q.labour_u)});
  for (const Quote::Row& r : q.parts)
    rows.push_back({(r.count > 1 ? std::to_string(r.count) + " × " : "") + r.what, money(r.sum)});
  if (q.total) rows.push_back({say("quote-total"), money(*q.total) + " ± " + money(*q.total_u)});
  fmt::print("{}", table(t, rows, 2));
  fmt::print("  {}\n", t.wrapped(say("quote-foot", {{"markup", fmt::format("{:.0f} %", 100.0 * q.markup)}}), 2, 2));
}

void print_retorque(const Terminal& t, const Assessment& a) {
  std::vector<std::vector<std::string>> rows;
  for (const FastenerLine& f : a.fasteners)
    if (!f.retorque.empty())
      rows.push_back({f.id,
                      f.torque_asked      ? print(*f.torque_asked)
                      : f.torque_computed ? print(*f.torque_computed)
                                          : "–",
                      f.retorque, f.at});
  if (rows.empty()) return;
  fmt::print("\n{}\n{}", t.strong(say("retorque-head")), table(t, rows, 2));
  fmt::print("  {}\n", t.wrapped(say("retorque-rule"), 2, 2));
}

void print_resume(const Terminal& t, const Assessment& a, const PrintStyle& style) {
  fmt::print("\n{}\n", t.strong(say("resume-head")));
  if (!a.resume) {
    fmt::print("  {}\n", say("resume-nothing"));
    return;
  }
  const ResumeCard& card = *a.resume;
  const auto line = [&](const char* code, const std::string& text) {
    fmt::print("  {} {}\n", padded(say(code), 12), t.wrapped(text.empty() ? "–" : text, 15, 15));
  };
  const auto joined = [](const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& s : all) text += (text.empty() ? "" : "; ") + s;
    return text;
  };
  for (const RecordLine& l : card.last_done)
    line("resume-last",
         say("resume-entry",
             {{"number", std::to_string(l.number)}, {"what", l.what}, {"who", l.who}, {"when", l.when}}));
  line("resume-stands",
       say(a.unfinished.up ? "resume-ends" : "resume-down", {{"front", card.front}, {"rear", card.rear}}));
  line("resume-holds", joined(card.conditions));
  std::vector<std::string> loose;
  for (const LooseItem& l : a.unfinished.loose) {
    const std::string key = l.id + " " + l.state;
    if (!loose.empty() && loose.back().starts_with(key + ": "))
      loose.back() += ", " + l.instance;
    else
      loose.push_back(l.instance.empty() ? key : key + ": " + l.instance);
  }
  line("resume-loose", joined(loose));
  line("resume-off", joined(card.parts_off));
  line("resume-open", joined(card.proofs_open));
  std::vector<std::string> next;
  for (const int n : card.next)
    if (next.size() < 3) {
      const StepLine& s = a.steps[static_cast<std::size_t>(n) - 1];
      next.push_back(std::to_string(n) + " " + shortened(s.act, 60) +
                     (s.side.empty() ? "" : ", " + say("side-" + s.side)));
    }
  line("resume-next", joined(next));
  for (const Finding& f : a.findings)
    if (f.message.code.starts_with("record-"))
      fmt::print("  {}{}\n", t.mark(f.outcome), t.wrapped(word(f.message, style), 16, 16));
  fmt::print("  {}\n", t.wrapped(say("resume-check"), 2, 2));
}

Json json_of(const Assessment& a, const OrderOfWork& o) {
  Json j = {{"technicians", o.technicians},
            {"total_s", o.total.si()},
            {"total_u_s", o.total_u.si()},
            {"bound_s", o.bound.si()},
            {"waited_s", o.waited.si()},
            {"proven", o.proven},
            {"tool_changes", o.tool_changes},
            {"tool_changes_bound", o.tool_bound},
            {"tool_changes_as_given", o.tool_changes_as_given},
            {"end_changes", o.end_changes},
            {"steps", Json::array()}};
  for (const PlannedStep& p : o.steps) {
    Json after = Json::array();
    for (const std::size_t w : p.waits_for) after.push_back(a.steps[w].number);
    const StepLine& s = a.steps[p.step];
    j["steps"].push_back({{"number", s.number},
                          {"id", s.id},
                          {"side", s.side},
                          {"technician", p.technician == 2   ? "both"
                                         : p.technician == 1 ? "B"
                                                             : "A"},
                          {"start_s", p.start.si()},
                          {"end_s", p.end.si()},
                          {"can_wait_s", p.can_wait.si()},
                          {"waited_s", p.waited.si()},
                          {"waits_for", std::move(after)},
                          {"hold", s.hold}});
  }
  return j;
}

Json json_of(const Quote& q) {
  Json j = {{"currency", q.currency},
            {"work_s", q.work.si()},
            {"work_u_s", q.work_u.si()},
            {"markup", q.markup},
            {"parts", Json::array()}};
  for (const Quote::Row& r : q.parts)
    j["parts"].push_back({{"what", r.what}, {"count", r.count}, {"price", r.price}, {"sum", r.sum}});
  if (q.labour) j["labour"] = {{"value", *q.labour}, {"u", *q.labour_u}};
  if (q.total) j["total"] = {{"value", *q.total}, {"u", *q.total_u}};
  return j;
}

Json json_of(const ResumeCard& card) {
  Json j = {{"last_done", Json::array()},
            {"front", card.front},
            {"rear", card.rear},
            {"conditions", card.conditions},
            {"parts_off", card.parts_off},
            {"proofs_open", card.proofs_open},
            {"next", card.next}};
  for (const RecordLine& l : card.last_done)
    j["last_done"].push_back({{"entry", l.number}, {"what", l.what}, {"who", l.who}, {"when", l.when}});
  return j;
}

}  // namespace trammel::cli
