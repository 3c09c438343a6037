// Writes procedures in the short texts of a step list, so that tests read as the work does.
#pragma once

#include <string>
#include <vector>

#include "work/walk.h"

namespace trammel::work {

using Texts = std::vector<std::string>;

struct StepText {
  std::string id, sides = "once";
  Texts needs{}, slacken{}, removes{}, fits{}, tighten{}, sets{}, clears{}, proves{}, undoes{}, loads{};
  Texts tools{"wrench", "jack", "stands", "chocks", "drill", "snips"};
  bool person_under = false;
  double minutes = 10;
  std::string after{}, before{};
  std::string evidence{"seen"};
  Texts work{}, hazards{};
  bool optional = false, any_time = false;
};

Fastener fastener(const std::string& id, const std::string& at, const Texts& holds = {}, Duty duty = Duty::general);
Part part(const std::string& id, const std::string& at, PartKind kind, PartSource source,
          const std::string& replaces = {});
// Fills the steps of a procedure whose fasteners and parts stand already.
void write_steps(Procedure& procedure, const std::vector<StepText>& steps);

Step& step(Procedure& procedure, const std::string& id);
bool has(const Walk& walk, FaultKind kind, const std::string& subject = {});
std::string list(const Walk& walk);  // for failure messages

}  // namespace trammel::work
