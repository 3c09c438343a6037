#include "shop/record.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <map>

#include "assess/accessories.h"
#include "assess/additions.h"
#include "assess/alignment_task.h"
#include "assess/joint_asked.h"
#include "assess/procedure.h"
#include "assess/set_by.h"
#include "job/job_shape.h"
#include "job/when.h"
#include "jobfile/splice.h"
#include "jobfile/write.h"
#include "measure/nearest.h"
#include "measure/text.h"
#include "shop/files.h"
#include "shop/open.h"
#include "work/roster.h"
#include "work/words.h"

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

// The disk, with one file as it would be.
class WouldBe : public DiskFiles {
 public:
  WouldBe(const std::string& file, const std::string& text)
      : file_(std::filesystem::path(file).lexically_normal()), text_(text) {}
  std::variant<std::string, FileFault> read(const std::string& path, const std::string& inside) override {
    if (std::filesystem::path(path).lexically_normal() == file_) return text_;
    return DiskFiles::read(path, inside);
  }

 private:
  std::filesystem::path file_;
  const std::string& text_;
};

// Reads, adds each event, writes once where the whole can still be read, and has the job assessed as it stands then.
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
  WouldBe would_be(file, whole);
  if (Loaded<Job> job_then = load_job(would_be, asked.path); !job_then.value) {
    made.entries.clear();
    made.diagnostics = std::move(job_then.diagnostics);
    made.fault = Message{"record-unwritten", {{"file", file}, {"why", "the entry cannot be read"}}};
    return made;
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
Opened open(const EntryAsked& asked) {
  Opened o;
  if (asked.who.find_first_not_of(' ') == std::string::npos) {
    o.made.fault = Message{"record-who", {}};
    return o;
  }
  for (const std::string* when : {&asked.when, &asked.done_when})
    if (!when->empty() && !read_when(*when)) {
      o.made.fault = Message{"record-no-when", {{"text", *when}}};
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

// The job's fasteners by name, as its record knows them.
class Fasteners {
 public:
  explicit Fasteners(const Job& job) : roster_(work::make_roster(job_procedure(as_fitted(job)).procedure)) {
    for (const KitUse& use : job.kits)
      for (const KitFastener& f : use.kit.fastener) kits_[f.id.value] = &f;
  }
  work::Selector read(const std::string& text) const {
    return work::read_selector(text, work::fastener_ids(roster_.procedure));
  }
  bool has(const std::string& text) const { return !roster_.fasteners_of(read(text), work::Side::none).empty(); }
  std::string id(const std::string& text) const { return read(text).id; }
  const KitFastener* kit(const std::string& text) const {
    const auto found = kits_.find(id(text));
    return found == kits_.end() ? nullptr : found->second;
  }
  // The places of its group where that is known, else all groups.
  std::vector<std::string> like(const std::string& text) const {
    std::vector<std::string> names;
    // Those on the side and end that were meant, else all of the group.
    const work::Selector asked = read(text);
    const auto group = roster_.fastener_group.find(asked.id);
    const auto take = [&](bool near) {
      for (const std::size_t i : group->second) {
        const work::FastenerEntry& e = roster_.fasteners[i];
        if (!near || (agree(asked.side, e.instance.side) && agree(asked.end, e.instance.end))) names.push_back(e.name);
      }
    };
    if (group != roster_.fastener_group.end()) take(true);
    if (group != roster_.fastener_group.end() && names.empty()) take(false);
    return names.empty() ? work::fastener_ids(roster_.procedure) : names;
  }

 private:
  work::Roster roster_;
  std::map<std::string, const KitFastener*> kits_;
};

EntryMade no_fastener(Opened o, const Fasteners& fasteners, const std::string& text) {
  return refused(std::move(o), "record-no-fastener", text, fasteners.like(text));
}

std::optional<Valued<Torque>> read_torque(const std::string& text, const Job& job) {
  TextRules rules;
  if (job.decimal_sign && job.decimal_sign->value == ",") rules.decimal_sign = ',';
  const ReadResult read = read_quantity(text, Kind::torque, rules);
  const auto* written = std::get_if<Written>(&read);
  if (!written) return std::nullopt;
  return Valued<Torque>{Torque::from_si(written->number.si), {}, Basis::measured, {}};
}
char decimal_sign(const Job& job) { return job.decimal_sign && job.decimal_sign->value == "," ? ',' : '.'; }
std::optional<Text> when_of(const EntryAsked& asked) { return given(asked.when.empty() ? now() : asked.when); }

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
  s.when = when_of(asked);
  s.evidence = given(asked.evidence);
  s.second = given(asked.second);
  s.instead = given(asked.instead);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {s});
}

EntryMade enter_torque(const EntryAsked& asked, const std::string& fastener, const std::string& reached,
                       const std::vector<std::string>& exceptions) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  const Job& job = *o.job;
  const Fasteners fasteners(job);
  if (!fasteners.has(fastener)) return no_fastener(std::move(o), fasteners, fastener);
  std::optional<Valued<Angle>> turned;
  if (!asked.turned.empty()) {
    const ReadResult read = read_quantity(asked.turned, Kind::angle, {});
    const auto* written = std::get_if<Written>(&read);
    if (!written) return refused(std::move(o), "record-no-angle-text", asked.turned, {"20 deg"});
    turned.emplace();
    turned->value = Angle::from_si(written->number.si);
    turned->basis = Basis::measured;
  }
  // What the kit sets by a measure takes that; all others a torque.
  const KitFastener* kit = fasteners.kit(fastener);
  const bool measured = kit && kit->set_by && !kit->torque && kit->passes.empty();
  std::vector<Event> events;
  std::optional<std::string> unread;
  const auto add = [&](const std::string& name, const std::string& text) {
    TorqueEntry t;
    t.fastener.value = name;
    t.torque = read_torque(text, job);
    if (measured && read_set(kit->set_by->value, text, decimal_sign(job)) != SetRead::unreadable) {
      t.torque.reset();
      t.set = given(text);
    }
    if (measured ? !t.set : !t.torque) unread = text;
    t.wrench = given(asked.wrench);
    t.who = given(asked.who);
    t.when = when_of(asked);
    t.turned = turned;
    if (asked.fresh) t.fresh = Flag{true, {}};
    events.push_back(std::move(t));
  };
  add(fastener, reached);
  // Each exception is a place of the group and what was reached there.
  for (const std::string& e : exceptions) {
    const std::size_t equals = e.find('=');
    const std::string one = fasteners.id(fastener) + " " + e.substr(0, equals);
    if (equals == std::string::npos || equals + 1 == e.size())
      return refused(std::move(o), "record-no-exception", e, {e.substr(0, equals) + "=70 N·m"});
    if (!fasteners.has(one)) return no_fastener(std::move(o), fasteners, one);
    std::get<TorqueEntry>(events.front()).except.push_back({e.substr(0, equals), {}});
    add(one, e.substr(equals + 1));
  }
  if (unread && measured) {
    o.made.fault = Message{"record-no-measure-text", {{"text", *unread}, {"set_by", kit->set_by->value}}};
    return std::move(o.made);
  }
  if (unread) return refused(std::move(o), "record-no-torque-text", *unread, {"85 N·m", "63 lbf·ft"});
  return append(asked, std::move(o.made), job, events);
}

EntryMade enter_found(const EntryAsked& asked, const std::string& fastener, const std::string& state) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  const Fasteners fasteners(*o.job);
  if (!fasteners.has(fastener)) return no_fastener(std::move(o), fasteners, fastener);
  const auto& states = words::found_states;
  if (std::find(states.begin(), states.end(), state) == states.end())
    return refused(std::move(o), "record-no-state", state, {states.begin(), states.end()});
  // What stands in must be a bolt or a nut that can be judged, where the kit's own is one.
  if (const KitFastener* kit = fasteners.kit(fastener); kit && state == "substituted")
    if (stack_with(kit->stack.value, asked.by).empty() && !stack_with(kit->stack.value, kit->stack.value).empty())
      return refused(std::move(o), asked.by.empty() ? "record-by-missing" : "record-by-unread", asked.by,
                     {"M10x40 8.8", "nut 8"});
  FoundSo f;
  f.fastener.value = fastener;
  f.state.value = state;
  f.by = given(asked.by);
  f.who.value = asked.who;
  f.why = given(asked.why);
  f.when = when_of(asked);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {f});
}

namespace {

// A key of [[adjustment]]: whether this axle has it is asked; one that is misspelt is told as such.
bool is_adjuster_key(const std::string& key) {
  struct Names {
    std::vector<std::string_view> all;
    void field(const Key& k, const std::optional<AdjusterMove>&) { all.push_back(k.name); }
    void field(const Key&, const std::optional<Text>&) {}
  } names;
  walk_fields(names, Adjustment{});
  return std::find(names.all.begin(), names.all.end(), key) != names.all.end();
}

EntryMade enter_typed(const EntryAsked& asked, const std::string& list, const std::vector<std::string>& values) {
  Opened o = open(asked);
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
  // A turn names an adjuster that the axle has.
  const auto adjusters = list == "adjustment" ? adjuster_keys(*o.job) : std::nullopt;
  for (const auto& [key, value] : keys)
    if (adjusters && std::find(adjusters->begin(), adjusters->end(), key) == adjusters->end() && is_adjuster_key(key)) {
      if (adjusters->empty()) {
        o.made.fault = Message{"record-no-adjusters", {{"text", key}}};
        return std::move(o.made);
      }
      return refused(std::move(o), "record-no-adjuster", key, *adjusters);
    }
  TypedEntry typed = read_entry(list, keys, o.job->decimal_sign);
  if (!typed.event) {
    o.made.diagnostics = std::move(typed.diagnostics);
    o.made.fault = Message{"record-unread", {}};
    return std::move(o.made);
  }
  if (auto* reading = std::get_if<Reading>(&*typed.event))
    reading->who = given(asked.who), reading->when = when_of(asked);
  if (auto* turned = std::get_if<Adjustment>(&*typed.event))
    turned->who = given(asked.who), turned->when = when_of(asked);
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
  const Fasteners fasteners(*o.job);
  if (about != "alignment" && !fasteners.has(about)) {
    std::vector<std::string> known = fasteners.like(about);
    known.emplace_back("alignment");
    return refused(std::move(o), "record-no-fastener", about, known);
  }
  Decision d;
  d.about.value = about;
  d.decided.value = decided;
  d.who.value = asked.who;
  d.why = given(asked.why);
  d.when = when_of(asked);
  d.answers = given(asked.answers);
  if (!asked.torque.empty()) {
    d.torque = read_torque(asked.torque, *o.job);
    if (!d.torque) return refused(std::move(o), "record-no-torque-text", asked.torque, {"50 N·m", "37 lbf·ft"});
  }
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {d});
}

namespace {

// The number of an entry that stands in the job; 0 where there is none.
int entry_number(const Job& job, const std::string& text) {
  int n = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), n);
  const bool known =
      fault == std::errc() && end == text.data() + text.size() && n >= 1 && n <= static_cast<int>(job.events.size());
  return known ? n : 0;
}
std::string all_entries(const Job& job) { return "1 to " + std::to_string(job.events.size()); }

}  // namespace

EntryMade undo_entry(const EntryAsked& asked, const std::string& number) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  const int n = entry_number(*o.job, number);
  const std::string all = all_entries(*o.job);
  if (n == 0) return refused(std::move(o), "record-no-entry", number, {all});
  Undo u;
  u.entry.value = n;
  u.who.value = asked.who;
  u.why = given(asked.why);
  u.when = when_of(asked);
  const Job job = std::move(*o.job);
  return append(asked, std::move(o.made), job, {u});
}

EntryMade add_to_entry(const EntryAsked& asked, const std::string& number) {
  Opened o = open(asked);
  if (o.made.fault) return std::move(o.made);
  const int n = entry_number(*o.job, number);
  const std::string all = all_entries(*o.job);
  if (n == 0) return refused(std::move(o), "record-no-entry", number, {all});
  Addition a;
  a.entry.value = n;
  a.who.value = asked.who;
  a.why = given(asked.why);
  a.when = when_of(asked);
  a.evidence = given(asked.evidence);
  a.second = given(asked.second);
  a.instead = given(asked.instead);
  a.wrench = given(asked.wrench);
  a.done_by = given(asked.done_by);
  a.done_when = given(asked.done_when);
  // What does not go there, or stands there already, is not written.
  Job job = std::move(*o.job);
  const std::size_t before = completed_events(job).faults.size();
  job.events.emplace_back(a);
  const CompletedEvents completed = completed_events(job);
  job.events.pop_back();
  const bool empty = !a.evidence && !a.second && !a.instead && !a.wrench && !a.done_by && !a.done_when;
  if (empty) o.made.fault = Message{"record-nothing-added", {}};
  if (completed.faults.size() > before)
    o.made.fault = Message{completed.faults.back().code,
                           {{"entry", std::to_string(job.events.size() + 1)}, {"what", completed.faults.back().what}}};
  if (o.made.fault) return std::move(o.made);
  return append(asked, std::move(o.made), job, {a});
}

}  // namespace trammel
