#include <algorithm>

#include "job/accessories.h"
#include "jobfile/reader.h"
#include "jobfile/rules.h"

namespace trammel {

namespace {

std::string first_word(const std::string& text) { return text.substr(0, text.find(' ')); }

void report_unknown(const Text& text, const char* code, const std::vector<std::string>& known, ReadContext& context) {
  auto& fault = context.report.add(code, {{"name", text.value}}, text.place, characters(text.value) + 2);
  fault.nearest = nearest(first_word(text.value), std::span<const std::string>(known));
  if (fault.nearest.empty()) fault.nearest = nearest(text.value, std::span<const std::string>(known));
  if (fault.nearest.empty()) fault.choices = known;
}

bool is_known(const std::string& word, const std::vector<std::string>& known) {
  return std::find(known.begin(), known.end(), word) != known.end();
}

using Part = std::pair<const char*, const std::optional<Valued<Length>>*>;

// A reading of a wheel needs all parts of what was measured.
void check_together(std::initializer_list<Part> parts, ReadContext& context) {
  const Part* given = nullptr;
  for (const Part& part : parts)
    if (part.second->has_value() && !given) given = &part;
  for (const Part& part : parts)
    if (given && !part.second->has_value())
      context.report.add("goes-with", {{"key", given->first}, {"other", part.first}}, (*given->second)->place);
}

void check_reading(const Reading& r, ReadContext& context) {
  check_together({{"toe_front", &r.toe_front}, {"toe_rear", &r.toe_rear}, {"toe_diameter", &r.toe_diameter}}, context);
  const bool left = r.left_string_front || r.left_string_rear, right = r.right_string_front || r.right_string_rear;
  if (left)
    check_together({{"left_string_front", &r.left_string_front},
                    {"left_string_rear", &r.left_string_rear},
                    {"string_diameter", &r.string_diameter}},
                   context);
  if (right)
    check_together({{"right_string_front", &r.right_string_front}, {"right_string_rear", &r.right_string_rear}},
                   context);
  if (right && !left)
    check_together({{"right_string_front", &r.right_string_front}, {"string_diameter", &r.string_diameter}}, context);
}

void check_rear_reading(const RearReading& r, ReadContext& context) {
  check_together({{"left_string_front", &r.left_string_front},
                  {"left_string_rear", &r.left_string_rear},
                  {"right_string_front", &r.right_string_front},
                  {"right_string_rear", &r.right_string_rear},
                  {"string_diameter", &r.string_diameter}},
                 context);
  check_together({{"left_length", &r.left_length},
                  {"right_length", &r.right_length},
                  {"marks_ahead", &r.marks_ahead},
                  {"mark_out", &r.mark_out},
                  {"end_out", &r.end_out}},
                 context);
  check_together({{"left_mark_above", &r.left_mark_above}, {"right_mark_above", &r.right_mark_above}}, context);
  check_together({{"left_to_frame", &r.left_to_frame}, {"right_to_frame", &r.right_to_frame}}, context);
}

template <class T>
void read_list_of_events(const Node& root, std::string_view key, ReadContext& context, std::vector<Event>& events) {
  const Node* list = root.find(key);
  if (!list) return;
  std::vector<T> items;
  TableReader(root, "", context).read(*list, Key{key, ""}, items);
  if (list->kind != Node::Kind::list) return;
  for (std::size_t i = 0; i < items.size() && i < list->items.size(); ++i) {
    if (list->items[i].kind == Node::Kind::table && list->items[i].members.empty())
      context.report.at(list->items[i], "entry-empty", {{"key", std::string(key)}});
    else if (std::is_same_v<T, TorqueEntry> && !list->items[i].find("torque") && !list->items[i].find("set"))
      context.report.at(
          list->items[i], "missing-key",
          {{"key", "torque"}, {"table", "`torque`"}, {"what", "torque reached; or `set`, where it is set by measure"}});
    events.push_back(std::move(items[i]));
  }
}

Place place_of(const Event& event) {
  return std::visit([](const auto& e) { return e.place; }, event);
}

}  // namespace

std::vector<Event> read_events(const Node& root, ReadContext& context) {
  std::vector<Event> events;
  read_list_of_events<Reading>(root, "reading", context, events);
  read_list_of_events<Adjustment>(root, "adjustment", context, events);
  read_list_of_events<RearReading>(root, "rear_reading", context, events);
  read_list_of_events<RearAdjustment>(root, "rear_adjustment", context, events);
  read_list_of_events<Signed>(root, "signed", context, events);
  read_list_of_events<TorqueEntry>(root, "torque", context, events);
  read_list_of_events<Decision>(root, "decision", context, events);
  read_list_of_events<FoundSo>(root, "found", context, events);
  read_list_of_events<Undo>(root, "undo", context, events);
  read_list_of_events<Addition>(root, "addition", context, events);
  std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) {
    const Place p = place_of(a), q = place_of(b);
    return std::pair(p.line, p.column) < std::pair(q.line, q.column);
  });
  for (const Event& event : events) {
    if (const auto* reading = std::get_if<Reading>(&event)) check_reading(*reading, context);
    if (const auto* rear = std::get_if<RearReading>(&event)) check_rear_reading(*rear, context);
  }
  return events;
}

void check_job(const Node&, const Job& job, ReadContext& context) {
  // Seats that loads name.
  std::vector<std::string> seats, steps, fasteners;
  for (const Seat& seat : job.cart.seat) seats.push_back(seat.name.value);
  for (const LoadCase& load : job.load_case) {
    for (const Text& seat : load.seats)
      if (!seat.value.empty() && !is_known(seat.value, seats)) report_unknown(seat, "unknown-seat", seats, context);
    if (load.cargo_at && !is_known(load.cargo_at->value, seats))
      report_unknown(*load.cargo_at, "unknown-seat", seats, context);
    if (load.cargo.has_value() != load.cargo_at.has_value())
      context.report.add("goes-with",
                         {{"key", load.cargo ? "cargo" : "cargo_at"}, {"other", load.cargo ? "cargo_at" : "cargo"}},
                         load.cargo ? load.cargo->place : load.cargo_at->place);
  }

  // Accessories that its kits offer.
  const std::vector<std::string> offered = accessories_of(job);
  for (const Text& named : job.accessories)
    if (!is_known(named.value, offered)) report_unknown(named, "unknown-accessory", offered, context);

  // Steps and fasteners that steps and entries name.
  for (const KitUse& use : job.kits) {
    for (const KitStep& step : use.kit.step) steps.push_back(step.id.value);
    for (const KitFastener& fastener : use.kit.fastener) fasteners.push_back(fastener.id.value);
  }
  const auto check_fastener = [&](const Text& named) {
    const auto starts = [&](const std::string& id) {
      const std::string& name = named.value;
      return !id.empty() && name.starts_with(id) && (name.size() == id.size() || name[id.size()] == ' ');
    };
    if (!named.value.empty() && std::none_of(fasteners.begin(), fasteners.end(), starts))
      report_unknown(named, "unknown-fastener", fasteners, context);
  };
  for (const KitUse& use : job.kits)
    for (const KitStep& step : use.kit.step) {
      for (const Text& target : step.tighten) check_fastener(target);
      for (const Text& target : step.slacken) check_fastener(target);
    }
  // Links of the rear axle, with an adjuster to turn.
  std::vector<std::string> links;
  if (job.cart.rear)
    for (const Link& link : job.cart.rear->link) links.push_back(link.name.value);
  for (const KitUse& use : job.kits)
    for (const Change& change : use.kit.change)
      if (const auto* link = std::get_if<Link>(&change.value)) links.push_back(link->name.value);
  for (const Event& event : job.events) {
    const auto* rear = std::get_if<RearAdjustment>(&event);
    if (rear && !rear->link.value.empty() && !is_known(rear->link.value, links))
      report_unknown(rear->link, "unknown-link", links, context);
    if (const auto* torque = std::get_if<TorqueEntry>(&event)) check_fastener(torque->fastener);
    if (const auto* decision = std::get_if<Decision>(&event)) check_fastener(decision->about);
    if (const auto* found = std::get_if<FoundSo>(&event)) check_fastener(found->fastener);
    const auto* step = std::get_if<Signed>(&event);
    if (step && !step->step.value.empty() && !is_known(step->step.value, steps))
      report_unknown(step->step, "unknown-step", steps, context);
  }
}

}  // namespace trammel
