// The program run as a person would, with what it says and its exit status.
#pragma once

#include <string>

namespace trammel::test {

struct Ran {
  std::string out, err;
  int status = -1;
};

// `arguments` as typed behind `trammel`, from the project's root, through a shell.
Ran run(const std::string& arguments, const std::string& program = "trammel");
std::string read_file(const std::string& path);

}  // namespace trammel::test
