#include "cli/run.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace trammel::test {

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

Ran run(const std::string& arguments, const std::string& program) {
  const std::string base = std::string(TRAMMEL_BUILD_DIR) + "/tests/ran-" + std::to_string(getpid());
  const std::string command = "cd '" TRAMMEL_SOURCE_DIR "' && '" TRAMMEL_BUILD_DIR "/" + program + "' " + arguments +
                              " >'" + base + ".out' 2>'" + base + ".err' </dev/null";
  const int raw = std::system(command.c_str());
  Ran ran{read_file(base + ".out"), read_file(base + ".err"), WIFEXITED(raw) ? WEXITSTATUS(raw) : -1};
  std::remove((base + ".out").c_str());
  std::remove((base + ".err").c_str());
  return ran;
}

}  // namespace trammel::test
