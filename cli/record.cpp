// Entries of the record from the command line: sign a step, enter a torque or what was found, undo an entry.
#include "shop/record.h"

#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/release.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "jobfile/diagnostic.h"

namespace trammel::cli {

int record(const Asked& asked) {
  EntryAsked entry;
  entry.path = asked.path;
  entry.who = asked.who, entry.when = asked.when, entry.why = asked.why;
  entry.evidence = asked.evidence, entry.second = asked.second, entry.instead = asked.instead;
  entry.wrench = asked.wrench, entry.turned = asked.turned, entry.fresh = asked.fresh;
  entry.by = asked.by, entry.torque = asked.torque, entry.answers = asked.answers;
  entry.done_by = asked.done_by, entry.done_when = asked.done_when;
  const auto& more = asked.more;
  EntryMade made;
  if (asked.command == "sign")
    made = sign_step(entry, more[0], asked.side);
  else if (asked.command == "torque")
    made = enter_torque(entry, more[0], more[1], asked.exceptions);
  else if (asked.command == "found")
    made = enter_found(entry, more[0], more[1]);
  else if (asked.command == "decide")
    made = enter_decision(entry, more[0], more[1]);
  else if (asked.command == "measure")
    made = enter_reading(entry, more);
  else if (asked.command == "turned")
    made = enter_turns(entry, more);
  else if (asked.command == "add")
    made = add_to_entry(entry, more[0]);
  else
    made = undo_entry(entry, more[0]);
  fmt::print(stderr, "{}", render(made.diagnostics));
  if (made.fault) {
    fmt::print(stderr, "{}\n", say(made.fault->code, made.fault->arguments));
    return 2;
  }
  bool stopped = false;
  for (const Finding& f : made.findings) stopped |= f.outcome == Outcome::stop || f.outcome == Outcome::condition;
  if (asked.json) {
    Json j = {{"first_entry", made.first_number},
              {"last_entry", made.last_number},
              {"entries", made.entries},
              {"findings", Json::array()}};
    for (const Finding& f : made.findings) j["findings"].push_back(json_of(f));
    print_json(j);
    return stopped ? 1 : 0;
  }
  const Terminal t;
  const PrintStyle style{asked.systems};
  for (std::size_t i = 0; i < made.entries.size(); ++i) {
    std::string text = made.entries[i];
    text.erase(0, text.find_first_not_of("\r\n"));
    fmt::print("{}\n{}", say("record-written", {{"number", std::to_string(made.first_number + static_cast<int>(i))}}),
               text);
  }
  for (const Finding& f : made.findings)
    fmt::print("{}{}\n", t.mark(f.outcome), t.wrapped(word(f.message, style), 14, 14));
  if (made.after) {
    if (const auto& align = made.after->align; align && (asked.command == "measure" || asked.command == "turned")) {
      fmt::print("{}\n", t.wrapped(word(align->why, style), 0, 0));
      return stopped ? 1 : 0;
    }
    fmt::print("{}\n", say("record-loose", {{"count", std::to_string(made.after->unfinished.loose.size())}}));
    if (made.after->resume && !made.after->resume->next.empty()) {
      const StepLine& next = made.after->steps[static_cast<std::size_t>(made.after->resume->next.front()) - 1];
      fmt::print("{}\n", t.wrapped(say("record-next",
                                       {{"number", std::to_string(next.number)}, {"id", next.id}, {"do", next.act}}),
                                   0, 0));
    } else if (made.after->resume) {
      fmt::print("{}\n", t.wrapped(release_line(*made.after), 0, 0));
      print_refused(t, *made.after, style);
    }
  }
  return stopped ? 1 : 0;
}

}  // namespace trammel::cli
