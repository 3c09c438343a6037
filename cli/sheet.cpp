#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/commands.h"
#include "cli/words.h"

namespace trammel::cli {

int sheet(int, char** argv) {
  // The drawing program stands beside this one.
  std::error_code none;
  const std::filesystem::path self = std::filesystem::read_symlink("/proc/self/exe", none);
  const std::string program = (self.parent_path() / "trammel-sheet").string();
  execv(program.c_str(), argv);
  fmt::print(stderr, "{}\n",
             say("sheet-program-missing", {{"path", program}, {"why", std::string(std::strerror(errno))}}));
  return 3;
}

}  // namespace trammel::cli
