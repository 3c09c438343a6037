#include "sheets/places.h"

#include <algorithm>

#include "assess/place_runs.h"

namespace trammel::sheets {
namespace {

bool says(const std::string& text, const std::string& word) { return text.find(word) != std::string::npos; }

int end_in(const std::string& text) {
  const bool front = says(text, "front"), rear = says(text, "rear");
  return front == rear ? 0 : front ? 1 : -1;
}
int side_in(const std::string& text) {
  const bool left = says(text, "left"), right = says(text, "right");
  return left == right ? 0 : left ? 1 : -1;
}

// The one end of all steps that move this fastener, or 0.
int end_of_stages(const Assessment& assessment, const std::string& fastener) {
  bool front = false, rear = false, elsewhere = false;
  const auto moves = [&](const std::vector<FastenerMove>& list) {
    return std::any_of(list.begin(), list.end(), [&](const FastenerMove& m) { return m.id == fastener; });
  };
  for (const StepLine& step : assessment.steps) {
    if (!moves(step.tighten) && !moves(step.slacken)) continue;
    const int end = end_in(step.stage);
    (end > 0 ? front : end < 0 ? rear : elsewhere) = true;
  }
  return front && !rear && !elsewhere ? 1 : rear && !front && !elsewhere ? -1 : 0;
}

}  // namespace

Spot spot_of(const Assessment& assessment, const std::string& fastener, const std::string& instance) {
  const int end = end_of_stages(assessment, fastener);
  return {end ? end : end_in(instance), side_in(instance)};
}

std::string where_of(const Assessment& assessment, const Words& words, const std::string& fastener,
                     const std::vector<std::string>& instances) {
  for (const FastenerLine& f : assessment.fasteners)
    if (f.id == fastener && instances.size() > 2 && f.instances.size() == instances.size())
      return words("sheet-loose-all", {{"count", std::to_string(instances.size())}});
  return joined(place_runs(instances), ", ");
}

std::string joined(const std::vector<std::string>& names, const std::string& between) {
  std::string out;
  for (const std::string& name : names) {
    if (name.empty()) continue;
    if (!out.empty()) out += between;
    out += name;
  }
  return out;
}

}  // namespace trammel::sheets
