#include <fmt/core.h>

#include <algorithm>
#include <atomic>
#include <thread>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/progress.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "setup/population.h"
#include "setup/study.h"

namespace trammel::cli {
namespace {

using namespace trammel::setup;

struct Row {
  std::string code;
  std::uint64_t seed;
  Fleet fleet;
};

// Seeds are fixed, so that a table can be made again; another draw has others.
std::vector<Row> rows_of(Floor floor, const std::string& only, int draw) {
  Fleet nominal;
  nominal.floor = floor;
  Fleet surveyed = nominal, none = nominal, beam = nominal, coarse = nominal;
  surveyed.points = 2.0 * units::mm;
  none.design = 15.0 * units::mm;
  beam.beam = true;
  coarse.tape_sd = 2.0 * units::mm;
  coarse.tape_step = units::inch / 8.0;
  std::vector<Row> rows = {{"study-fleet-nominal", 1, nominal},   {"study-fleet-nominal-again", 2, nominal},
                           {"study-fleet-surveyed", 3, surveyed}, {"study-fleet-none", 4, none},
                           {"study-fleet-beam", 5, beam},         {"study-fleet-coarse", 6, coarse}};
  if (!only.empty()) std::erase_if(rows, [&](const Row& row) { return row.code != "study-fleet-" + only; });
  for (Row& row : rows) row.seed += 100 * static_cast<std::uint64_t>(draw - 1);
  return rows;
}

struct Runs {
  std::vector<CartRun> told, feel;
};

// Each cart has its own random numbers, so that the table does not depend on how many work at it.
Runs run(const Row& row, const ShopTimes& times, int carts, Progress& progress) {
  Generator g(row.seed);
  const Population population(row.fleet, g);
  Way way = usual_way(row.fleet.floor);
  way.times = times;
  Runs runs{std::vector<CartRun>(carts), std::vector<CartRun>(carts)};
  std::atomic<int> next = 0;
  const auto work = [&] {
    for (int i = next++; i < carts; i = next++) {
      Generator own(row.seed * 1000003 + static_cast<std::uint64_t>(i));
      const TrueCart cart = population.draw(own);
      runs.told[i] = align_as_told(population.task(), way, cart, own);
      runs.feel[i] = align_by_feel(population.task(), times, cart, own);
      progress.one_more();
    }
  };
  std::vector<std::thread> workers;
  for (unsigned w = 1; w < std::clamp(std::thread::hardware_concurrency(), 1u, 8u); ++w) workers.emplace_back(work);
  work();
  for (std::thread& w : workers) w.join();
  return runs;
}

Json document(const StudySummary& s) {
  return {{"accepted", static_cast<double>(s.accepted) / s.carts},
          {"within_one_pass", s.within_one},
          {"within_two_passes", s.within_two},
          {"accepted_truly_out", s.share_out()},
          {"accepted_out_as_stated", s.stated_share_out()},
          {"passes_median", s.median_passes},
          {"passes_90", s.ninetieth_passes},
          {"minutes_median", s.median_minutes.in(units::minute)},
          {"minutes_90", s.ninetieth_minutes.in(units::minute)},
          {"re_readings", s.mean_re_readings},
          {"readings_while_turning", s.mean_while_turning}};
}

std::string per_cent(double share) { return fmt::format("{:.1f} %", 100.0 * share); }
std::string two(double median, double ninetieth) { return fmt::format("{:.0f}, {:.0f}", median, ninetieth); }
std::string two(Time median, Time ninetieth) { return two(median.in(units::minute), ninetieth.in(units::minute)); }

}  // namespace

int study_alignment(const Asked& asked) {
  std::vector<Floor> floors = {Floor::bare, Floor::plates};
  if (asked.floor == "bare") floors.pop_back();
  if (asked.floor == "plates") floors.erase(floors.begin());

  Json j = {{"study", "alignment"}, {"carts", asked.count}, {"fleets", Json::array()}};
  std::vector<std::vector<std::string>> rows(1);
  for (const char* code :
       {"study-column-cart", "study-column-floor", "study-column-one", "study-column-two", "study-column-out",
        "study-column-passes", "study-column-rereadings", "study-column-in-place", "study-column-minutes",
        "study-column-feel-two", "study-column-feel-out", "study-column-feel-passes", "study-column-feel-minutes"})
    rows[0].push_back(say(code));
  std::vector<Row> fleets;
  for (const Floor floor : floors)
    for (Row& row : rows_of(floor, asked.fleet, asked.seed)) fleets.push_back(std::move(row));
  Progress progress(static_cast<int>(fleets.size()) * asked.count);
  StudySummary all;
  for (const Row& row : fleets) {
    const Floor floor = row.fleet.floor;
    const Runs runs = run(row, asked.times, asked.count, progress);
    const StudySummary told = summary(runs.told), feel = summary(runs.feel);
    all.accepted += told.accepted;
    all.out += told.out;
    all.stated_out += told.stated_out;
    const std::string on = say(floor == Floor::bare ? "study-floor-bare" : "study-floor-plates");
    j["fleets"].push_back({{"fleet", say(row.code)},
                           {"floor", floor == Floor::bare ? "bare" : "plates"},
                           {"seed", row.seed},
                           {"as_told", document(told)},
                           {"by_feel", document(feel)}});
    rows.push_back(
        {say(row.code), on, per_cent(told.within_one), per_cent(told.within_two),
         say("study-truly-out", {{"seen", per_cent(told.share_out())}, {"stated", per_cent(told.stated_share_out())}}),
         two(told.median_passes, told.ninetieth_passes), fmt::format("{:.1f}", told.mean_re_readings),
         fmt::format("{:.1f}", told.mean_while_turning), two(told.median_minutes, told.ninetieth_minutes),
         per_cent(feel.within_two), per_cent(feel.share_out()), two(feel.median_passes, feel.ninetieth_passes),
         two(feel.median_minutes, feel.ninetieth_minutes)});
  }
  const double bound = share_at_most(all.out, all.accepted);
  j["all"] = {{"accepted", all.accepted},
              {"accepted_truly_out", all.share_out()},
              {"accepted_out_as_stated", all.stated_share_out()},
              {"accepted_truly_out_at_most", bound}};
  if (fleets.size() > 1) {
    std::vector<std::string> last(rows[0].size());
    last[0] = say("study-all-rows", {{"carts", std::to_string(all.accepted)}});
    last[4] = say("study-out-bound", {{"seen", per_cent(all.share_out())},
                                      {"stated", per_cent(all.stated_share_out())},
                                      {"bound", per_cent(bound)}});
    rows.push_back(std::move(last));
  }
  if (asked.json)
    print_json(j);
  else
    print_page_table(std::move(rows));
  return 0;
}

}  // namespace trammel::cli
