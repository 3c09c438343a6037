#include "assess/shuttle.h"

#include <gtest/gtest.h>

#include "jobfile/load.h"
#include "messages/catalogue.h"
#include "shop/files.h"

namespace trammel::test {
namespace {

Job read(const std::string& name) {
  DiskFiles disk;
  Loaded<Job> job = load_job(disk, std::string(TRAMMEL_SOURCE_DIR "/examples/") + name);
  EXPECT_TRUE(job.value) << render(job.diagnostics);
  return job.value.value_or(Job{});
}

int gravity(Outcome o) { return o == Outcome::stop ? 3 : o == Outcome::condition ? 2 : o == Outcome::note ? 1 : 0; }

}  // namespace

Job shuttle() { return read("shuttle/job.toml"); }
Job cheaper_shuttle() { return read("shuttle/cheaper-job.toml"); }
Job example(const std::string& name) { return read(name); }
Job load_cart() { return read("load-cart/job.toml"); }

const LoadCaseResult& load_case(const Assessment& a, const std::string& name) {
  for (const LoadCaseResult& c : a.load_cases)
    if (c.name == name) return c;
  throw std::logic_error("no load case " + name);
}

std::vector<Finding> of_code(const Assessment& a, const std::string& code) {
  std::vector<Finding> found;
  for (const Finding& f : a.findings)
    if (f.message.code == code) found.push_back(f);
  return found;
}

Outcome worst(const Assessment& a, const std::string& code) {
  Outcome o = Outcome::met;
  for (const Finding& f : of_code(a, code))
    if (gravity(f.outcome) > gravity(o)) o = f.outcome;
  return o;
}

std::string text_of(const Assessment& a) {
  std::string text;
  for (const Finding& f : a.findings) {
    text += std::to_string(gravity(f.outcome)) + " " + f.message.code + " " + f.subject + " " + f.load_case + " " +
            word(f.message);
    for (const auto& n : {f.before, f.value, f.limit, f.margin})
      if (n) text += " " + std::to_string(n->si) + "/" + std::to_string(n->u.value_or(0.0));
    text += " " + f.source + "\n";
  }
  return text;
}

}  // namespace trammel::test
