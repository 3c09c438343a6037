#include <fmt/core.h>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/progress.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "setup/cause_study.h"

namespace trammel::cli {
namespace {

using namespace trammel::setup;

constexpr const char* codes[] = {"bent-part",    "worn-joint",     "sagged-spring",    "wrong-part",
                                 "swapped-arms", "reversed-block", "rack-not-centred", "adjuster-out-of-range"};

struct Row {
  const char* front;
  const char* read;
  CauseStudy study;
};

std::vector<Row> rows_of(int carts) {
  std::vector<Row> all;
  for (const bool beam : {false, true})
    for (const auto& [read, also] :
         {std::pair{"study-read-alone", ReadAlso::nothing}, std::pair{"study-read-heights", ReadAlso::heights},
          std::pair{"study-read-all", ReadAlso::all}})
      all.push_back({beam ? "study-front-beam" : "study-front-arms", read, {beam, also, carts}});
  return all;
}

// Named first, and in the first two: "74, 91 %".
std::string both(int first, int two, int of) {
  return of ? fmt::format("{:.0f}, {:.0f} %", 100.0 * first / of, 100.0 * two / of) : "–";
}
// What a cause is taken for most often where it is not named first.
std::string taken_for(const CauseResult& r, std::size_t cause) {
  std::size_t most = cause == 0 ? 1 : 0;
  for (std::size_t i = 0; i <= seeded_causes; ++i)
    if (i != cause && r.named[cause][i] > r.named[cause][most]) most = i;
  return r.named[cause][most] ? say(std::string("short-") + codes[most]) : "–";
}

struct Sum {
  int seeded = 0, first = 0, two = 0;
};
Sum sum_of(const CauseResult& r) {
  Sum s;
  for (std::size_t i = 0; i < seeded_causes; ++i)
    s.seeded += r.seeded[i], s.first += r.first[i], s.two += r.first_two[i];
  return s;
}

Json document(const Row& row, std::uint64_t seed, const CauseResult& r) {
  Json causes = Json::array();
  for (std::size_t i = 0; i < seeded_causes; ++i) {
    if (r.seeded[i] == 0) continue;
    Json named = Json::object();
    for (std::size_t k = 0; k <= seeded_causes; ++k)
      if (r.named[i][k]) named[codes[k]] = r.named[i][k];
    causes.push_back({{"cause", codes[i]},
                      {"seeded", r.seeded[i]},
                      {"first", r.first[i]},
                      {"first_two", r.first_two[i]},
                      {"side_right", r.right_side[i]},
                      {"named_first", std::move(named)}});
  }
  const Sum all = sum_of(r);
  return {{"front", say(row.front)},    {"read", say(row.read)}, {"seed", seed},
          {"stated", r.stated},         {"first", all.first},    {"first_two", all.two},
          {"causes", std::move(causes)}};
}

}  // namespace

int study_causes(const Asked& asked) {
  const auto all = rows_of(asked.count);
  Progress progress(static_cast<int>(all.size()) * asked.count);
  Json j = {{"study", "causes"}, {"carts", asked.count}, {"fleets", Json::array()}};
  std::vector<CauseResult> results;
  for (std::size_t i = 0; i < all.size(); ++i) {
    Generator g(i + 1);
    results.push_back(setup::study_causes(all[i].study, g, [&] { progress.one_more(); }));
    j["fleets"].push_back(document(all[i], i + 1, results.back()));
  }
  if (asked.json) {
    print_json(j);
    return 0;
  }
  // A row a cause; three ways of reading beside one another.
  std::vector<std::vector<std::string>> rows(1);
  for (const char* code : {"study-column-front", "study-column-cause", "study-read-alone", "study-read-heights",
                           "study-read-all", "study-column-taken-for"})
    rows[0].push_back(say(code));
  for (std::size_t front = 0; front < all.size(); front += 3) {
    const CauseResult* r = &results[front];
    for (std::size_t i = 0; i < seeded_causes; ++i) {
      if (r[0].seeded[i] == 0) continue;
      rows.push_back({say(all[front].front), say(std::string("short-") + codes[i])});
      for (int k = 0; k < 3; ++k) rows.back().push_back(both(r[k].first[i], r[k].first_two[i], r[k].seeded[i]));
      rows.back().push_back(taken_for(r[2], i));
    }
    std::vector<std::string> sums = {say(all[front].front), say("study-all-causes")},
                             stated = {say(all[front].front), say("study-stated")};
    for (int k = 0; k < 3; ++k) {
      const Sum s = sum_of(r[k]);
      sums.push_back(both(s.first, s.two, s.seeded));
      stated.push_back(fmt::format("{:.0f} %", 100.0 * r[k].stated));
    }
    sums.emplace_back();
    stated.emplace_back();
    rows.push_back(std::move(sums));
    rows.push_back(std::move(stated));
  }
  print_page_table(std::move(rows));
  return 0;
}

}  // namespace trammel::cli
