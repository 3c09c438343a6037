// A fastener's answer: in the engine alone, and as a person gets it, a process from start to end.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "fastener/ask.h"

namespace trammel::fastener {
namespace {

constexpr const char* question =
    "bolt M10x40 8.8 zinc, washer, arm 10 mm, knuckle thread 18 mm steel; 50 N·m; AF 16; scale 10 to 60 N·m";

void read_and_judge(benchmark::State& state) {
  for (auto _ : state) {
    const auto asked = read_ask(question);
    const auto& q = std::get<Question>(asked);
    benchmark::DoNotOptimize(judge(q.joint, q.ask).flags.data());
  }
}
BENCHMARK(read_and_judge)->Unit(benchmark::kMicrosecond);

// The program started once for each answer, its words thrown away.
void run(benchmark::State& state, const char* program, const char* argument, const char* text) {
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  char* const arguments[] = {const_cast<char*>(program), const_cast<char*>(argument), const_cast<char*>(text), nullptr};
  for (auto _ : state) {
    pid_t child = 0;
    int status = 0;
    if (posix_spawn(&child, program, &quiet, nullptr, arguments, environ) != 0 || waitpid(child, &status, 0) != child)
      state.SkipWithError("the program could not be started");
  }
  posix_spawn_file_actions_destroy(&quiet);
}
void answer_as_a_process(benchmark::State& state) { run(state, TRAMMEL_PROGRAM, "fastener", question); }
void an_empty_process(benchmark::State& state) { run(state, "/bin/true", "", ""); }
BENCHMARK(answer_as_a_process)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(an_empty_process)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace trammel::fastener
