#include "shop/record.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <ctime>
#include <filesystem>

#include "job/job_shape.h"
#include "jobfile/splice.h"
#include "jobfile/write.h"
#include "measure/nearest.h"
#include "measure/text.h"
#include "shop/files.h"
#include "shop/open.h"

namespace trammel {
namespace {

std::string now() {
  const std::time_t t = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  localtime_r(&t, &local);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M", &local);
  return text;
}

std::optional<Text> given(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(Text{text, {}});
}

std::string job_file(const std::string& path) {
  std::error_code error;
  return std::filesystem::is_directory(path, error) ? (std::filesystem::path(path) / "job.toml").string() : path;
}

// Reads, adds each event, writes once, and has the job assessed as it stands then.
EntryMade append(const EntryAsked& asked, EntryMade made, const Job& job, const std::vector<Event>& events) {
  const std::string file = job_file(asked.path);
  DiskFiles disk;
  const auto read = disk.read(file, "");
  const auto* text = std::get_if<std::string>(&read);
  if (!text) {
    made.fault = Message{"record-unwritten", {{"file", file}, {"why", "it cannot be read"}}};
    return made;
  }
  std::string whole = *text;
  for (const Event& event : events) {
    Spliced spliced = append_event(whole, event, file);
    if (!spliced.diagnostics.empty()) {
      made.diagnostics = std::move(spliced.diagnostics);
      made.fault = Message{"record-unwritten", {{"file", file}, {"why", "nothing can be added to it"}}};
      return made;
    }
    made.entries.push_back(spliced.text.substr(whole.size()));
    whole = std::move(spliced.text);
  }
  if (const std::string why = write_file(file, whole); !why.empty()) {
    made.fault = Message{"record-unwritten", {{"file", file}, {"why", why}}};
    return made;
  }
  made.first_number = static_cast<int>(job.events.size()) + 1;
  made.last_number = static_cast<int>(job.events.size() + events.size());
  OpenedJob after = open_and_assess(asked.path);
  made.after = std::move(after.assessment);
  if (!made.after) return made;
  for (const Finding& f : made.after->findings)
    for (const auto& [name, value] : f.message.arguments)
      if (name == "entry")
        if (const auto* number = std::get_if<std::string>(&value); number && std::stoi(*number) >= made.first_number)
          made.findings.push_back(f);
  return made;
}

struct Opened {
  EntryMade made;
  std::optional<Job> job;
};
Opened open(const EntryAsked& asked, bool named = true) {
  Opened o;
  if (named && asked.who.empty()) {
    o.made.fault = Message{"record-who", {}};
    return o;
  }
  OpenedJob opened = open_and_assess(asked.path);
  o.made.diagnostics = std::move(opened.file.diagnostics);
  if (!opened.file.value)
    o.made.fault = Message{"record-unwritten", {{"file", asked.path}, {"why", "it cannot be read"}}};
  else
    o.job = std::move(*opened.file.value);
  return o;
}

EntryMade refused(Opened o, const char* code, const std::string& text, const std::vector<std::string>& known) {
  const std::vector<std::string_view> views(known.begin(), known.end());
  const std::string near(nearest(text, views));
  std::string choices;
  for (const std::string& k : known) choices += (choices.empty() ? "" : ", ") + k;
  o.made.fault = Message{code, {{"text", text}, {"nearest", near.empty() ? choices : near}}};
  return std::move(o.made);
}

// "F3" or "F3 left front": whether a kit has such a fastener, and all that there are.
bool names_a_fastener(const Job& job, const std::string& text, std::vector<std::string>& known) {
  bool found = false;
  for (const KitUse& use : job.kits)
    for (const KitFastener& f : use.kit.fastener) {
      known.push_back(f.id.value);
      found |= text.starts_with(f.id.value) && (text.size() == f.id.value.size() || text[f.id.value.size()] == ' ');
    }
  return found;
}

}  // namespace

EntryMade sign_step(const EntryAsked& asked, const std::string& step, const std::string& side) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  std::vector<std::string> known;
  const KitStep* found = nullptr;
  for (const KitUse& use : o.job->kits)
    for (const KitStep& s : use.kit.step) {
      known.push_back(s.id.value);
      if (s.id.value == step) found = &s;
    }
  if (!found) return refused(std::move(o), "record-no-step", step, known);
  const bool each = found->sides && found->sides->value == "each";
  if (!side.empty() && !each) return refused(std::move(o), "record-no-side", step, {});
  Signed s;
  s.step.value = step;
  s.who.value = asked.who;
  s.side = given(side);
  s.when = given(asked.when.empty() ? now() : asked.when);
  s.evidence = given(asked.evidence);
  s.second = given(asked.second);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {s});
}

EntryMade enter_torque(const EntryAsked& asked, const std::string& fastener, const std::string& torque,
                       const std::vector<std::string>& exceptions) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  std::vector<std::string> known;
  if (!names_a_fastener(*o.job, fastener, known)) return refused(std::move(o), "record-no-fastener", fastener, known);
  std::optional<Valued<Angle>> turned;
  if (!asked.turned.empty()) {
    const ReadResult read = read_quantity(asked.turned, Kind::angle, {});
    const auto* written = std::get_if<Written>(&read);
    if (!written) return refused(std::move(o), "record-no-angle-text", asked.turned, {"20 deg"});
    turned.emplace();
    turned->value = Angle::from_si(written->number.si);
    turned->basis = Basis::measured;
  }
  std::vector<Event> events;
  std::optional<std::string> unread;
  const auto add = [&](const std::string& name, const std::string& text) {
    const ReadResult read = read_quantity(text, Kind::torque, {});
    const auto* written = std::get_if<Written>(&read);
    if (!written) {
      unread = text;
      return;
    }
    TorqueEntry t;
    t.fastener.value = name;
    t.torque = Valued<Torque>{Torque::from_si(written->number.si), {}, Basis::measured, {}};
    t.wrench = given(asked.wrench);
    t.who = given(asked.who);
    t.when = given(asked.when.empty() ? now() : asked.when);
    t.turned = turned;
    events.push_back(std::move(t));
  };
  add(fastener, torque);
  if (!events.empty())
    for (const std::string& e : exceptions)
      std::get<TorqueEntry>(events.front()).except.push_back({e.substr(0, std::min(e.find('='), e.size())), {}});
  for (const std::string& e : exceptions) {
    const std::size_t equals = std::min(e.find('='), e.size());
    add(fastener.substr(0, fastener.find(' ')) + " " + e.substr(0, equals), e.substr(std::min(equals + 1, e.size())));
  }
  if (unread) return refused(std::move(o), "record-no-torque-text", *unread, {"85 N·m", "63 lbf·ft"});
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, events);
}

EntryMade enter_found(const EntryAsked& asked, const std::string& fastener, const std::string& state) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  std::vector<std::string> known;
  if (!names_a_fastener(*o.job, fastener, known)) return refused(std::move(o), "record-no-fastener", fastener, known);
  const auto& states = words::found_states;
  if (std::find(states.begin(), states.end(), state) == states.end())
    return refused(std::move(o), "record-no-state", state, {states.begin(), states.end()});
  FoundSo f;
  f.fastener.value = fastener;
  f.state.value = state;
  f.by = given(asked.by);
  f.who.value = asked.who;
  f.why = given(asked.why);
  f.when = given(asked.when.empty() ? now() : asked.when);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {f});
}

namespace {

EntryMade enter_typed(const EntryAsked& asked, const std::string& list, const std::vector<std::string>& values) {
  Opened o = open(asked, false);
  if (o.made.fault) return std::move(o.made);
  std::vector<std::pair<std::string, std::string>> keys;
  for (const std::string& v : values) {
    const std::size_t equals = v.find('=');
    if (equals == std::string::npos)
      return refused(std::move(o), "record-no-value", v, {list == "reading" ? "toe_front=845 mm" : "tie_rod=+1 flats"});
    std::string key = v.substr(0, equals);
    std::replace(key.begin(), key.end(), '-', '_');
    keys.emplace_back(std::move(key), v.substr(equals + 1));
  }
  TypedEntry typed = read_entry(list, keys, o.job->decimal_sign);
  if (!typed.event) {
    o.made.diagnostics = std::move(typed.diagnostics);
    o.made.fault = Message{"record-unread", {}};
    return std::move(o.made);
  }
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {*typed.event});
}

}  // namespace

EntryMade enter_reading(const EntryAsked& asked, const std::vector<std::string>& values) {
  return enter_typed(asked, "reading", values);
}
EntryMade enter_turns(const EntryAsked& asked, const std::vector<std::string>& moves) {
  return enter_typed(asked, "adjustment", moves);
}

EntryMade enter_decision(const EntryAsked& asked, const std::string& about, const std::string& decided) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  std::vector<std::string> known;
  if (!names_a_fastener(*o.job, about, known)) {
    known.emplace_back("alignment");
    if (about != "alignment") return refused(std::move(o), "record-no-fastener", about, known);
  }
  Decision d;
  d.about.value = about;
  d.decided.value = decided;
  d.who.value = asked.who;
  d.why = given(asked.why);
  d.when = given(asked.when.empty() ? now() : asked.when);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {d});
}

EntryMade undo_entry(const EntryAsked& asked, const std::string& number) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  int n = 0;
  const auto [end, fault] = std::from_chars(number.data(), number.data() + number.size(), n);
  const int most = static_cast<int>(o.job->events.size());
  const bool known = fault == std::errc() && end == number.data() + number.size() && n >= 1 && n <= most;
  if (!known) return refused(std::move(o), "record-no-entry", number, {"1 to " + std::to_string(most)});
  Undo u;
  u.entry.value = n;
  u.who.value = asked.who;
  u.why = given(asked.why);
  u.when = given(asked.when.empty() ? now() : asked.when);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {u});
}

}  // namespace trammel
