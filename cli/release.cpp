// May the cart be given back: everything that is still open, by name, and what comes due once it is.
#include "cli/release.h"

#include <fmt/core.h>

#include <map>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/order.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

// Of one kind of reason so many are named; the rest are counted.
constexpr std::size_t named = 3;

// What a reason is of: "F1 left front fore" is one of F1's.
std::string group_of(const std::string& subject) { return subject.substr(0, subject.find(' ')); }

// One reason for each fastener or part and what is wrong with it, its places counted: "F1 (4×)".
std::vector<Message> grouped(const std::vector<Message>& refused) {
  std::vector<Message> groups;
  std::map<std::string, std::pair<std::size_t, std::size_t>> seen;  // what it is of -> place in `groups`, how many
  for (const Message& m : refused) {
    std::string key = m.code, subject;
    for (const auto& [name, value] : m.arguments) {
      const auto* text = std::get_if<std::string>(&value);
      if (text && name == "subject") subject = *text;
      key += "\n" + (!text ? "" : name == "subject" ? group_of(*text) : *text);
    }
    const auto [at, first] = seen.try_emplace(key, groups.size(), 0);
    if (++at->second.second == 1 || subject.empty()) {
      groups.push_back(m);
      continue;
    }
    for (auto& [name, value] : groups[at->second.first].arguments)
      if (name == "subject") value = group_of(subject) + " (" + std::to_string(at->second.second) + "×)";
  }
  return groups;
}

}  // namespace

void print_refused(const Terminal& t, const Assessment& a, const PrintStyle& style) {
  const std::vector<Message> reasons = grouped(a.release_refused);
  std::map<std::string, std::size_t> told;
  for (const Message& m : reasons) ++told[m.code];
  std::map<std::string, std::size_t> n;
  for (const Message& m : reasons) {
    const std::size_t left = told[m.code] - named;
    if (++n[m.code] <= named) fmt::print("  {}\n", t.wrapped(word(m, style), 2, 4));
    if (n[m.code] == named && told[m.code] > named)
      fmt::print("  {}\n", say("release-more", {{"count", std::to_string(left)}, {"code", m.code}}));
  }
}

std::string release_line(const Assessment& a) {
  std::size_t done = 0;
  for (const StepLine& s : a.steps) done += s.done;
  return say("release-" + a.work_state, {{"done", std::to_string(done)},
                                         {"steps", std::to_string(a.steps.size())},
                                         {"count", std::to_string(a.release_refused.size())},
                                         {"who", a.given_back ? a.given_back->who : ""},
                                         {"when", a.given_back ? a.given_back->when : ""}});
}

int release(const Asked& asked) {
  const OpenedJob opened = open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  const Assessment& a = *opened.assessment;
  const int status = a.work_state == "released" ? 0 : 1;
  if (asked.json) {
    Json j = {{"job", opened.file.value->name.value},
              {"state", a.work_state},
              {"entries", a.record.size()},
              {"refused", Json::array()},
              {"again", Json::array()}};
    for (const Message& m : a.release_refused) j["refused"].push_back(json_of(m));
    for (const FastenerLine& f : a.fasteners)
      if (!f.retorque.empty()) j["again"].push_back({{"fastener", f.id}, {"when", f.retorque}});
    if (a.given_back) j["given_back"] = {{"who", a.given_back->who}, {"when", a.given_back->when}};
    print_json(j);
    return status;
  }
  const Terminal t;
  const PrintStyle style{asked.systems};
  fmt::print("{}\n{}\n", t.strong(opened.file.value->name.value), t.wrapped(release_line(a), 0, 0));
  print_refused(t, a, style);
  if (status == 0) print_retorque(t, a);
  fmt::print("\n{}\n", t.wrapped(say("sheet-standing"), 0, 0));
  return status;
}

}  // namespace trammel::cli
