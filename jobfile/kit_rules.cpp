#include <algorithm>

#include "fastener/joint.h"
#include "jobfile/reader.h"
#include "jobfile/rules.h"

namespace trammel {

namespace {

constexpr Plausible wheel_torque{40, 200};  // N·m, wheel nuts of light carts. common practice, no source

constexpr std::string_view change_keys[] = {"set", "move",  "add",    "remove",    "to",
                                            "by",  "value", "mirror", "accessory", "why"};
constexpr std::string_view value_keys[] = {"to", "by", "value", ""};  // of set, move, add, remove

std::string code_of(OverlayFault fault) {
  switch (fault) {
    case OverlayFault::no_such_path:
      return "change-path-breaks";
    case OverlayFault::nothing_there:
      return "change-finds-nothing";
    case OverlayFault::wrong_type:
      return "change-does-not-fit";
    case OverlayFault::name_taken:
      return "change-adds-twice";
    case OverlayFault::needed:
      return "change-removes-needed";
    case OverlayFault::no_other_side:
      return "change-has-no-mirror";
  }
  return "change-path-breaks";
}

void report_problem(const Node& path, const OverlayProblem& problem, ReadContext& context) {
  const std::size_t at = path.text.rfind(problem.word);
  const bool shown = at != std::string::npos && !problem.word.empty();
  const auto place = shown ? place_in_text(path, at, context.report) : std::nullopt;
  auto& fault = context.report.add(code_of(problem.fault), {{"path", path.text}, {"word", problem.word}},
                                   place.value_or(path.place), place ? characters(problem.word) : path.length);
  fault.nearest = problem.nearest;
  if (problem.nearest.empty()) fault.choices = problem.choices;
}

// Which of the four acts a change names; nothing where it is none or more than one.
const Member* act_of(const Node& table, Change& change, ReadContext& context) {
  const Member* found = nullptr;
  for (std::size_t i = 0; i < words::change_acts.size(); ++i) {
    const Member* member = table.member(words::change_acts[i]);
    if (!member) continue;
    if (found) {
      context.report.at(*member, "change-two-acts", {{"first", found->key}, {"second", member->key}});
      return nullptr;
    }
    found = member;
    change.act = static_cast<Change::Act>(i);
  }
  if (!found) {
    context.report.at(table, "change-no-act", {}).choices.assign(words::change_acts.begin(), words::change_acts.end());
    return nullptr;
  }
  if (found->value.kind == Node::Kind::text) return found;
  context.report.at(found->value, "wrong-shape",
                    {{"key", found->key}, {"wanted", "text"}, {"found", std::string(kind_name(found->value))}});
  return nullptr;
}

// The value of a change, read as what its path holds.
bool read_change_value(const Node& table, const Member& act, const OverlayTarget& target, Change& change,
                       ReadContext& context) {
  const std::string_view wanted = value_keys[static_cast<std::size_t>(change.act)];
  for (const std::string_view other : value_keys)
    if (const Member* member = other.empty() || other == wanted ? nullptr : table.member(other)) {
      auto& fault = context.report.at(*member, "change-other-value-key", {{"act", act.key}, {"key", member->key}});
      if (!wanted.empty()) fault.choices = {std::string(wanted)};
      return false;
    }
  if (wanted.empty()) return true;
  const Node* value = table.find(wanted);
  if (!value) {
    context.report.at(table, "missing-key",
                      {{"key", std::string(wanted)}, {"table", "`" + act.key + "`"}, {"what", "the value itself"}});
    return false;
  }
  const std::size_t before = context.report.size();
  Key key = target.key;
  if (change.act == Change::Act::move) key.plausible.reset();  // it is added, so it may be small or negative
  change.value = target.value;
  std::visit(
      [&](auto& v) {
        using V = std::decay_t<decltype(v)>;
        if constexpr (!std::is_same_v<V, std::monostate>)
          TableReader(table, std::string(key.name), context).read(*value, key, v);
      },
      change.value);
  return context.report.size() == before;
}

// "F3 left final" ends with the state that is reached.
void check_state(const Text& target, ReadContext& context) {
  static constexpr std::string_view places[] = {"left", "right", "front", "rear"};
  std::string text = target.value;
  if (text.ends_with(" new")) text.resize(text.size() - 4);  // "R3 snug new": with a new nut
  std::replace(text.begin(), text.end(), '_', '-');
  const std::string last = text.substr(text.rfind(' ') + 1);
  std::replace(text.begin(), text.end(), ' ', '-');
  const auto among = [&](const auto& known) {
    return std::find(std::begin(known), std::end(known), last) != std::end(known);
  };
  const auto ends = [&](std::string_view state) { return text == state || text.ends_with("-" + std::string(state)); };
  const bool number =
      !last.empty() && std::all_of(last.begin(), last.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (target.value.empty() || std::any_of(words::states.begin(), words::states.end(), ends)) return;
  if (last.size() != target.value.size() && (among(places) || number)) return;
  auto& fault =
      context.report.add("unknown-state", {{"text", target.value}}, target.place, characters(target.value) + 2);
  if (last.size() != target.value.size()) fault.nearest = nearest(last, words::states);
  fault.choices.assign(words::states.begin(), words::states.end());
}

}  // namespace

std::vector<Change> read_changes(const Node& root, Cart& cart, ListNames names, ReadContext& context) {
  std::vector<Change> changes;
  const Node* list = root.find("change");
  if (!list) return changes;
  if (list->kind != Node::Kind::list) {
    context.report.at(*list, "wrong-shape",
                      {{"key", "change"},
                       {"wanted", "a list of tables, each under [[ ]]"},
                       {"found", std::string(kind_name(*list))}});
    return changes;
  }
  for (const Node& table : list->items) {
    if (table.kind != Node::Kind::table) {
      context.report.at(table, "wrong-shape",
                        {{"key", "change"}, {"wanted", "a table"}, {"found", std::string(kind_name(table))}});
      continue;
    }
    Change change;
    change.place = table.place;
    for (const Member& member : table.members) {
      if (std::find(std::begin(change_keys), std::end(change_keys), member.key) != std::end(change_keys)) continue;
      auto& fault = context.report.at(member, "unknown-key", {{"key", member.key}, {"table", "`change`"}});
      fault.nearest = nearest(member.key, change_keys);
      if (fault.nearest.empty()) fault.choices.assign(std::begin(change_keys), std::end(change_keys));
    }
    if (const Node* why = table.find("why"))
      if (const auto text = read_text(*why, Key{"why", ""}, context)) change.why = text->value;
    if (const Node* accessory = table.find("accessory"))
      if (const auto text = read_text(*accessory, Key{"accessory", ""}, context)) change.accessory = text->value;
    if (const Node* mirror = table.find("mirror"))
      if (const auto flag = read_flag(*mirror, Key{"mirror", ""}, context)) change.mirror = flag->value;
    const Member* act = act_of(table, change, context);
    if (!act) continue;
    change.path = act->value.text;

    // What stands at the path, then the value as that, then the change itself.
    OverlayProblem problem;
    const auto target = find_target(cart, change.path, &problem, names, change.act == Change::Act::move);
    if (!target) {
      report_problem(act->value, problem, context);
      continue;
    }
    const bool fits = change.act == Change::Act::remove || target->list == (change.act == Change::Act::add);
    if (!fits) {
      context.report.at(act->value, target->list ? "change-of-a-list" : "change-adds-to-no-list",
                        {{"path", change.path}, {"act", act->key}});
      continue;
    }
    if (!read_change_value(table, *act, *target, change, context)) continue;
    if (names == ListNames::of_the_cart) {
      auto result = trammel::apply(cart, std::span(&change, 1));
      if (!result.problems.empty()) {
        report_problem(act->value, result.problems.front(), context);
        continue;
      }
      cart = std::move(result.cart);
    }
    changes.push_back(std::move(change));
  }
  return changes;
}

namespace {
// A caution is a name that has words of its own (messages/en/sheets.toml).
void check_caution(const Text& caution, ReadContext& context) {
  const auto& known = words::cautions;
  if (std::find(known.begin(), known.end(), caution.value) != known.end()) return;
  auto& fault =
      context.report.add("unknown-caution", {{"text", caution.value}}, caution.place, characters(caution.value) + 2);
  fault.nearest = nearest(caution.value, known);
  if (fault.nearest.empty()) fault.choices.assign(known.begin(), known.end());
}
}  // namespace

namespace {
// What belongs to an accessory names one that the kit offers: a word of its own would be left out of every job.
void check_accessories(const Node& root, const Kit& kit, ReadContext& context) {
  std::vector<std::string> offered;
  for (const Text& t : kit.accessories) offered.push_back(t.value);
  const auto check = [&](const std::string& name, const Place& place) {
    if (name.empty() || std::find(offered.begin(), offered.end(), name) != offered.end()) return;
    auto& fault = context.report.add("accessory-not-offered", {{"name", name}}, place, characters(name) + 2);
    fault.nearest = nearest(name, std::span<const std::string>(offered));
    if (fault.nearest.empty()) fault.choices = offered;
  };
  const auto check_each = [&](const auto& list) {
    for (const auto& x : list)
      if (x.accessory) check(x.accessory->value, x.accessory->place);
  };
  check_each(kit.part);
  check_each(kit.fastener);
  check_each(kit.step);
  if (const Node* changes = root.find("change"))
    for (const Node& change : changes->items)
      if (const Node* named = change.kind == Node::Kind::table ? change.find("accessory") : nullptr)
        check(named->text, named->place);
}
}  // namespace

namespace {
// The joint from head to thread. What has no thread in it, a pin or a clip, is counted and not read.
void check_stack(const Node& table, const Text& stack, ReadContext& context) {
  const auto read = fastener::read_stack(stack.value);
  const auto* error = std::get_if<fastener::StackError>(&read);
  if (!error || error->fault == fastener::StackFault::no_threaded_part || stack.value.empty()) return;
  const Node* node = table.kind == Node::Kind::table ? table.find("stack") : nullptr;
  const std::string piece = error->at < stack.value.size()
                                ? stack.value.substr(error->at, std::max<std::size_t>(error->length, 1))
                                : stack.value;
  std::string why(fastener::name(error->fault));
  std::replace(why.begin(), why.end(), '_', '-');
  const auto at = node ? place_in_text(*node, error->at, context.report) : std::nullopt;
  auto& fault = context.report.add("stack-at-fault", {{"piece", piece}, {"why", "@stack-" + why}},
                                   at.value_or(stack.place), at ? characters(piece) : characters(stack.value) + 2);
  fault.nearest = error->nearest;
}
}  // namespace

void check_kit(const Node& root, const Kit& kit, ReadContext& context) {
  check_accessories(root, kit, context);
  for (const KitStep& step : kit.step) {
    for (const Text& target : step.tighten) check_state(target, context);
    for (const Text& target : step.slacken) check_state(target, context);
    for (const Text& caution : step.cautions) check_caution(caution, context);
  }
  const Node* list = root.find("fastener");
  for (std::size_t i = 0; list && i < kit.fastener.size() && i < list->items.size(); ++i) {
    const KitFastener& fastener = kit.fastener[i];
    check_stack(list->items[i], fastener.stack, context);
    const bool on_wheel =
        fastener.at.value.find("wheel") != std::string::npos || (fastener.duty && fastener.duty->value == "wheel");
    const Node* torque = list->items[i].kind == Node::Kind::table ? list->items[i].find("torque") : nullptr;
    if (!on_wheel || !torque || torque->kind != Node::Kind::text || !fastener.torque) continue;
    const Number number = trammel::number(fastener.torque->value);
    const bool plausible_elsewhere = number.si >= sizes::torque.low && number.si <= sizes::torque.high;
    const ReadResult read = read_quantity(torque->text, Kind::torque, context.rules);
    if (const auto* written = std::get_if<Written>(&read); written && plausible_elsewhere)
      doubt_size(*torque, "torque", number, written->unit, wheel_torque, context);
  }
}

}  // namespace trammel
