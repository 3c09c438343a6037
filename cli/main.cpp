#include <fmt/core.h>

#include <cstring>
#include <exception>

#include "cli/commands.h"
#include "cli/words.h"

namespace {

using namespace trammel::cli;

int run(int argc, char** argv) {
  if (argc > 1 && std::strcmp(argv[1], "sheet") == 0) return sheet(argc, argv);
  const Arguments arguments = read_arguments(argc, argv);
  if (!arguments.asked) {
    fmt::print("{}", arguments.answered.out);
    fmt::print(stderr, "{}", arguments.answered.err);
    return arguments.answered.status;
  }
  const Asked& asked = *arguments.asked;
  if (asked.command == "check") return check(asked);
  if (asked.command == "plan") return plan(asked);
  if (asked.command == "rehearse") return rehearse(asked);
  if (asked.command == "release") return release(asked);
  if (adds_an_entry(asked.command)) return record(asked);
  if (asked.command == "align") return align(asked);
  if (asked.command == "travel" && !asked.draw.empty()) return sheet(argc, argv);
  if (asked.command == "travel") return travel(asked);
  if (asked.command == "survey") return survey_points(asked);
  if (asked.command == "study") return study(asked);
  if (asked.command == "new") return new_kit(asked);
  if (asked.command == "fastener") return fastener(asked);
  return explain(asked);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& e) {
    fmt::print(stderr, "{}\n", say("our-fault", {{"what", std::string(e.what())}}));
    return 3;
  }
}
