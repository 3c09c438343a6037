// May the cart be given back, by everything that its record says: work/release.h asks the ledger; here what the ledger
// cannot know is held against it too.
//
//   a finding of the record that is not put right; a joint that is held; any other stop of the job
//   wheels that are not in tolerance, unless a decision about "alignment" says who takes them so
//   a turn with no reading before it at that stop, and a step that proves camber or toe with no reading since the last
//   turn or the last such step: what was dropped from the record shows as a gap in it
//   a decision about a fastener of which nothing was found, disputed or put in its place
#include <algorithm>
#include <set>

#include "assess/context.h"
#include "assess/record.h"
#include "assess/standing.h"
#include "messages/catalogue.h"

namespace trammel {
namespace {

Finding of_the_record(const char* code, const std::string& subject, std::vector<std::pair<std::string, Argument>> more,
                      std::size_t entry, const Place& place) {
  Finding f;
  f.outcome = Outcome::condition;
  f.subject = subject;
  f.message = {code, std::move(more)};
  f.message.arguments.emplace_back("entry", std::to_string(entry + 1));
  f.source = common_practice;
  f.basis = Basis::measured;
  f.place = place;
  return f;
}

// Steps that prove camber or toe, by id.
std::set<std::string> steps_that_prove_wheels(const Job& job) {
  std::set<std::string> ids;
  for (const KitUse& use : job.kits)
    for (const KitStep& s : use.kit.step)
      for (const Text& p : s.proves)
        if (p.value == "toe" || p.value == "camber" || p.value == "alignment") ids.insert(s.id.value);
  return ids;
}

// Readings, turns and signatures in their order: each turn and each proof stands on a reading of its own stop.
void judge_readings(Context& c, const std::vector<unsigned char>& struck) {
  const std::set<std::string> prove = steps_that_prove_wheels(c.job);
  bool read = false;
  for (std::size_t n = 0; n < c.job.events.size(); ++n) {
    if (struck[n]) continue;
    const Event& event = c.job.events[n];
    if (const auto* r = std::get_if<Reading>(&event)) read = read || !(r->before_work && r->before_work->value);
    if (const auto* a = std::get_if<Adjustment>(&event)) {
      if (!read) c.add(of_the_record("record-turned-unread", "front wheels", {}, n, a->place));
      read = false;
    }
    if (const auto* s = std::get_if<Signed>(&event); s && prove.contains(s->step.value)) {
      if (!read)
        c.add(of_the_record("record-no-reading", "step " + s->step.value, {{"step", s->step.value}}, n, s->step.place));
      read = false;
    }
  }
}

bool begins_with_word(const std::string& text, const std::string& id) {
  return text.starts_with(id) && (text.size() == id.size() || text[id.size()] == ' ');
}

void judge_decisions(Context& c, const std::vector<unsigned char>& struck) {
  for (std::size_t n = 0; n < c.job.events.size(); ++n) {
    const auto* d = std::get_if<Decision>(&c.job.events[n]);
    if (!d || struck[n]) continue;
    for (const FastenerLine& line : c.out.fasteners) {
      if (!begins_with_word(d->about.value, line.id)) continue;
      const bool ground =
          !line.decided.empty() || std::any_of(c.out.findings.begin(), c.out.findings.end(), [&](const Finding& f) {
            return wants_decision(f.message.code) && begins_with_word(f.subject, line.id);
          });
      if (!ground)
        c.add(of_the_record("record-decision-about-nothing", line.id, {{"about", d->about.value}}, n, d->place));
    }
  }
}

bool decided_about(const Job& job, const std::string& what) {
  const auto events = standing_events(job);
  return std::any_of(events.begin(), events.end(), [&](const Event* e) {
    const auto* d = std::get_if<Decision>(e);
    return d && d->about.value == what;
  });
}

}  // namespace

void judge_release(Context& c) {
  c.out.work_state = "not-begun";
  if (c.out.record.empty()) return;
  const std::vector<unsigned char> struck = struck_entries(c.job);
  judge_readings(c, struck);
  judge_decisions(c, struck);

  std::vector<Message>& refused = c.out.release_refused;
  for (const Finding& f : c.out.findings)
    if (f.outcome == Outcome::stop || (f.outcome == Outcome::condition && (f.message.code.starts_with("record-") ||
                                                                           f.message.code == "entry-names-nothing")))
      refused.push_back(f.message);
  const auto wheels = [&](const char* which, const std::string& verdict, const Message& why) {
    if (verdict == "accept" || decided_about(c.job, "alignment")) return;
    refused.push_back({"refused-wheels", {{"which", which}, {"why", word(why, {})}}});
  };
  if (c.job.alignment && c.job.alignment->tolerance) {
    if (c.out.align)
      wheels("@wheels-front", c.out.align->verdict, c.out.align->why);
    else
      refused.push_back({"refused-wheels-unread", {}});
  }
  if (c.out.rear) wheels("@wheels-rear", c.out.rear->verdict, c.out.rear->why);

  // The step that gives it back, and the last signature that stands for it.
  bool given = false;
  for (const StepLine& s : c.out.steps) {
    if (s.load.find("released") == std::string::npos) continue;
    given = s.done;
    for (const RecordLine& l : c.out.record)
      if (given && !l.struck && l.kind == "signed" && begins_with_word(l.what, s.id)) c.out.given_back = l;
  }
  c.out.work_state = refused.empty() ? (given ? "released" : "ready") : given ? "held-back" : "in-work";
}

}  // namespace trammel
