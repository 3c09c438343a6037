// What may not be torn apart at the end of a line.
#include <gtest/gtest.h>

#include "cli/terminal.h"

namespace trammel::cli {
namespace {

// What is left of a text whose last words meet the end of the line.
std::string second_line(const std::string& tail) {
  const std::string text = Terminal(false, 100).wrapped(std::string(94, 'x') + " " + tail, 0, 0);
  const std::size_t end = text.find('\n');
  return end == std::string::npos ? "" : text.substr(end + 1);
}

TEST(Terminal, keeps_a_number_with_its_unit_and_uncertainty) {
  EXPECT_EQ(second_line("20.0 mm is wanted"), "20.0 mm is wanted");
  EXPECT_EQ(second_line("8.0 mm ± 2.5 mm wide"), "8.0 mm ± 2.5 mm wide");
  EXPECT_EQ(second_line("(1 1/8 in) up"), "(1 1/8 in) up");
  EXPECT_EQ(second_line("a bolt of it"), "bolt of it");
}

}  // namespace
}  // namespace trammel::cli
