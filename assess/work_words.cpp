#include "assess/work_words.h"

#include <algorithm>

#include "messages/catalogue.h"

namespace trammel {

std::string plain(std::string_view word) {
  std::string text(word);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}
std::string dashed(std::string_view word) {
  std::string text(word);
  std::replace(text.begin(), text.end(), '_', '-');
  return text;
}
// States and loads as the kit files write them.
std::string state_word(work::FastenerState state) { return dashed(work::word(state)); }
std::string load_word(work::Load load) {
  return load == work::Load::driven_capped ? "driven" : plain(work::word(load));
}
const char* side_word(work::Side side) {
  return side == work::Side::left ? "left" : side == work::Side::right ? "right" : "";
}

std::string place_of(const work::FastenerEntry& e) {
  const std::string& id = e.instance.group;
  return e.name.size() > id.size() + 1 && e.name.starts_with(id) ? e.name.substr(id.size() + 1) : std::string();
}

std::string meant(std::string_view nearest) {
  return nearest.empty() ? std::string()
                         : trammel::word(Message{"work-nearest", {{"nearest", std::string(nearest)}}}, {});
}

Message fault_message(const work::Fault& fault) {
  const std::string side = side_word(fault.side);
  Message m{"work-" + dashed(work::word(fault.kind)),
            {{"step", fault.step + (side.empty() ? "" : " " + side)}, {"subject", fault.subject}}};
  m.arguments.emplace_back("load", fault.load ? load_word(*fault.load) : std::string());
  const bool refused = fault.kind == work::FaultKind::release_refused && !fault.other.empty();
  m.arguments.emplace_back("state", refused ? fault.other : state_word(fault.state));
  m.arguments.emplace_back("least", state_word(fault.least));
  if (fault.kind == work::FaultKind::prop_tool_missing)
    std::get<std::string>(m.arguments[1].second).insert(0, "@prop-");
  m.arguments.emplace_back("other",
                           (fault.kind == work::FaultKind::deed_without_tool ? "@deed-tools-" : "") + fault.other);
  m.arguments.emplace_back("nearest", meant(fault.nearest));
  return m;
}

Outcome fault_outcome(const work::Fault& fault) {
  using enum work::FaultKind;
  switch (fault.kind) {
    // What may bear while it stands is the kit's to say; what may be driven so is looked at.
    case least_lowered:
      return fault.load < work::Load::driven_capped ? Outcome::note : Outcome::condition;
    case tool_not_named:
    case tool_fits_no_head:
    case tool_out_of_range:
    case tool_misspelt:
    case tool_unread:
    case torque_tool_missing:
    case torque_range_missing:
    case prop_tool_missing:
    case deed_without_tool:
    case wrench_missing:
    case one_wrench_for_two:
    case pin_tool_missing:
    case check_only_forbids:
    case measure_without_tool:
    case measure_too_fine:
    case floor_unknown:
    case part_held_by_nothing:
    case pack_count:
    case not_ordered:
    case not_ordered_end:
    case undone_and_proved:
    case never_driven:
    case not_settled:
    case tighter_already:
    case power_up_on_the_floor:
      return Outcome::condition;
    default:
      return Outcome::stop;
  }
}

}  // namespace trammel
