// Any bytes as a tool, as a check and as a deed: a count is one or more, a size and a range are upright, and a text
// that is no tool asks for nothing.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <iostream>

#include "work/step_tools.h"
#include "work/words.h"

namespace {

using namespace trammel::work;

void hold(bool law, const char* name, std::string_view text) {
  if (law) return;
  std::cerr << "broken: " << name << "\ntext: " << text << "\n";
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const Tool t = read_tool(text);
  hold(t.count >= 0, "a count is a number of things", text);
  if (t.size) hold(std::isfinite(t.size->si()), "a size is finite", text);
  hold(t.lowest.has_value() == t.highest.has_value(), "a range has two ends", text);
  if (t.lowest) hold(*t.lowest < *t.highest, "a range rises", text);
  if (const auto slip = slip_in(text)) hold(!slip->meant.empty(), "a slip says what was meant", text);

  Step step;
  step.tools = {text};
  step.evidence = text;
  if (auto deed = read_deed(text)) {
    hold(!deed->what.empty(), "a deed is done to something", text);
    step.deeds.push_back(std::move(*deed));
  }
  ReadTools known;
  const StepTools read = step_tools(step, known);
  hold(read.all_known == (t.kind != ToolKind::unknown), "what is known is known", text);
  hold(read.all_known || (read.deeds_without.empty() && !read.unreadable), "what is not known asks for nothing", text);
  return 0;
}
