// Tells how far it is where a person waits: a terminal, and more than a second. May be told from several threads.
#pragma once

#include <fmt/core.h>
#include <unistd.h>

#include <chrono>
#include <mutex>

#include "cli/words.h"

namespace trammel::cli {

class Progress {
 public:
  explicit Progress(int all) : all_(all), shown_(isatty(STDERR_FILENO)) {}
  ~Progress() {
    if (said_ > 0.0) fmt::print(stderr, "\r{:60}\r", "");
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void one_more() {
    const std::lock_guard lock(mutex_);
    ++done_;
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
    if (!shown_ || seconds < 1.0 || seconds < said_ + 0.2) return;
    said_ = seconds;
    fmt::print(stderr, "\r{}", say("study-progress", {{"done", std::to_string(done_)}, {"all", std::to_string(all_)}}));
    std::fflush(stderr);
  }

 private:
  std::mutex mutex_;
  int all_, done_ = 0;
  bool shown_;
  double said_ = 0.0;
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

}  // namespace trammel::cli
