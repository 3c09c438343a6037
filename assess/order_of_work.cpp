#include "assess/order_of_work.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>

#include "assess/context.h"
#include "assess/procedure.h"
#include "assess/unfinished_work.h"
#include "work/conflict.h"
#include "work/cure.h"
#include "work/plan.h"
#include "work/walk.h"

namespace trammel {
namespace {

constexpr double each_u = 0.20, shared_u = 0.10;  // assumed

bool alone(const work::Step& s) {
  static constexpr std::array<std::string_view, 4> hazards = {"crush", "stored-energy", "battery", "cutting"};
  const auto dangerous = [](const std::string& h) {
    return std::find(hazards.begin(), hazards.end(), h) != hazards.end();
  };
  const auto opens = [](const work::Deed& d) { return d.verb == work::Verb::cut || d.verb == work::Verb::drill; };
  return !s.loads.empty() || std::any_of(s.deeds.begin(), s.deeds.end(), opens) ||
         std::any_of(s.hazards.begin(), s.hazards.end(), dangerous);
}

// The one end that a step works at: 1 front, 2 rear, 0 where it is both, neither, or not told apart.
int end_of(const work::Roster& r, const work::ExpandedStep& x) {
  const work::Step& s = r.procedure.steps[x.step];
  bool front = false, rear = false;
  const auto at = [&](work::End e) {
    front |= e == work::End::front;
    rear |= e == work::End::rear;
  };
  for (const auto& d : s.slacken)
    for (std::size_t i : r.fasteners_of(d.fastener, x.side)) at(r.fasteners[i].instance.end);
  for (const auto& d : s.tighten)
    for (std::size_t i : r.fasteners_of(d.fastener, x.side)) at(r.fasteners[i].instance.end);
  for (const auto& d : s.removes)
    for (std::size_t i : r.parts_of(d.part, x.side)) at(r.parts[i].instance.end);
  for (const auto& d : s.fits)
    for (std::size_t i : r.parts_of(d, x.side)) at(r.parts[i].instance.end);
  for (const auto& d : s.loads) at(d.end);
  return front == rear ? 0 : front ? 1 : 2;
}

// Standard uncertainty of a sum of stated times.
Time spread(const std::vector<Time>& times) {
  double squares = 0.0, sum = 0.0;
  for (const Time t : times) {
    squares += std::pow(each_u * t.si(), 2);
    sum += t.si();
  }
  return Time::from_si(std::sqrt(squares + std::pow(shared_u * sum, 2)));
}

}  // namespace

OrderOfWork order_of_work(const Job& job, const Assessment& assessment, int technicians) {
  OrderOfWork out;
  out.technicians = technicians;
  const work::Roster roster = work::make_roster(job_procedure(job).procedure);
  const std::size_t n = roster.order.size();
  if (n != assessment.steps.size()) return out;
  const std::vector<work::Precedence> kept = work::kept_order(roster), direct = work::direct_only(kept, n);

  // What is still to do, numbered anew.
  constexpr auto none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> todo, renumbered(n, none);
  for (std::size_t i = 0; i < n; ++i) {
    if (assessment.steps[i].done) continue;
    renumbered[i] = todo.size();
    todo.push_back(i);
  }
  out.signed_already = n - todo.size();
  for (const work::Precedence& e : kept)
    if (assessment.steps[e.then].done && !assessment.steps[e.first].done && !assessment.steps[e.first].again &&
        (out.out_of_turn.empty() || out.out_of_turn.back() != e.then))
      out.out_of_turn.push_back(e.then);

  work::PlanAsked asked;
  asked.technicians = technicians;
  std::vector<std::string> tools;
  std::vector<Time> times;
  for (const std::size_t i : todo) {
    const work::Step& s = roster.procedure.steps[roster.order[i].step];
    work::PlanTask task{s.time.value_or(Time{}), s.people, alone(s), {}, end_of(roster, roster.order[i])};
    out.untimed += !s.time;
    if (s.people > technicians && assessment.steps[i].one_person.empty()) out.for_two.push_back(i);
    for (const std::string& tool : std::set<std::string>(s.tools.begin(), s.tools.end())) {
      auto at = std::find(tools.begin(), tools.end(), tool);
      if (at == tools.end()) at = tools.insert(at, tool);
      task.tools.push_back(static_cast<int>(at - tools.begin()));
    }
    times.push_back(task.time);
    asked.tasks.push_back(std::move(task));
  }
  for (const work::Precedence& e : kept)
    if (renumbered[e.first] != none && renumbered[e.then] != none)
      asked.before.push_back({renumbered[e.first], renumbered[e.then]});

  // Thread locker cures before the load that its joint must bear.
  const std::vector<work::Cure> cures = work::cures(roster);
  for (const work::Cure& cure : cures)
    if (cure.final != cure.load && renumbered[cure.final] != none && renumbered[cure.load] != none)
      asked.lags.push_back({renumbered[cure.final], renumbered[cure.load], cure.time});

  const work::Plan plan = work::plan(asked);
  for (const work::PlannedTask& t : plan.tasks) {
    PlannedStep step{todo[t.task], t.everybody ? 2 : t.technician, t.start, t.end, t.can_wait, t.waited, {}, {}, {}};
    out.waited += t.waited;
    // Whose locker it is: of those that this step waits for, the one that cures longest.
    Time longest;
    for (const work::Cure& cure : cures)
      if (t.waited > Time{} && cure.load == step.step && cure.time > longest) {
        longest = cure.time;
        step.cures = roster.fasteners[cure.fastener].instance.group;
      }
    for (const work::Precedence& e : direct)
      if (e.then == step.step && renumbered[e.first] != none) step.waits_for.push_back(e.first);
    out.steps.push_back(std::move(step));
  }
  // What is loose on the way, in this order: behind what is signed.
  std::vector<std::size_t> sequence;
  for (std::size_t i = 0; i < n; ++i)
    if (assessment.steps[i].done) sequence.push_back(i);
  for (const PlannedStep& p : out.steps) sequence.push_back(p.step);
  const work::Walk walk = work::walk(work::reordered(roster, sequence));
  for (std::size_t k = 0; k < out.steps.size(); ++k)
    out.steps[k].unfinished = unfinished_work(job, walk.roster, walk.steps[out.signed_already + k].after);

  out.total = plan.total;
  out.total_u = spread(times);
  if (technicians > 1 && plan.total.si() > 0.0) {
    const Time sum = std::accumulate(times.begin(), times.end(), Time{});
    out.total_u = out.total_u * ((plan.total - out.waited).si() / sum.si());
  }
  out.bound = plan.total_bound;
  out.tool_changes = plan.changes.tools;
  out.tool_bound = plan.changes_bound.tools;
  out.end_changes = plan.changes.ends;
  std::vector<std::size_t> given(todo.size());
  std::iota(given.begin(), given.end(), std::size_t{0});
  out.tool_changes_as_given = work::changes_along(asked.tasks, given).tools;
  out.proven = plan.proven;
  return out;
}

int technicians_of(const Job& job) { return job.shop && job.shop->technicians ? job.shop->technicians->value : 1; }

void order_steps(Context& c) {
  const OrderOfWork order = order_of_work(c.job, c.out, technicians_of(c.job));
  std::vector<StepLine>& steps = c.out.steps;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps[i].done || order.steps.empty()) c.out.order.push_back({i, ""});
  if (order.steps.empty()) return;
  if (c.out.resume) c.out.resume->next.clear();
  for (const PlannedStep& p : order.steps) {
    static constexpr std::array<const char*, 3> names = {"A", "B", "A+B"};
    c.out.order.push_back({p.step, order.technicians > 1 ? names[static_cast<std::size_t>(p.technician)] : ""});
    steps[p.step].unfinished = p.unfinished;
    if (c.out.resume) c.out.resume->next.push_back(steps[p.step].number);
  }
}

std::optional<Quote> quote(const Job& job, const Assessment& assessment) {
  if (!job.shop || (!job.shop->hourly_rate && job.shop->price.empty())) return std::nullopt;
  const Shop& shop = *job.shop;
  Quote q;
  q.currency = shop.currency ? shop.currency->value : "";
  std::vector<Time> times;
  for (const StepLine& s : assessment.steps)
    if (s.minutes) times.push_back(*s.minutes * static_cast<double>(s.people));
  q.work = std::accumulate(times.begin(), times.end(), Time{});
  q.work_u = spread(times);
  if (shop.hourly_rate) {
    q.rate = shop.hourly_rate->value;
    q.labour = *q.rate * q.work.in(units::hour);
    q.labour_u = *q.rate * q.work_u.in(units::hour);
  }
  q.markup = shop.markup ? shop.markup->value : 0.0;
  double parts = 0.0;
  for (const Price& p : shop.price) {
    Quote::Row row{p.part.value, p.count ? p.count->value : 1, p.price.value * (1.0 + q.markup), 0.0};
    row.sum = row.count * row.price;
    parts += row.sum;
    q.parts.push_back(std::move(row));
  }
  if (q.labour) {
    q.total = *q.labour + parts;
    q.total_u = q.labour_u;
  }
  return q;
}

}  // namespace trammel
