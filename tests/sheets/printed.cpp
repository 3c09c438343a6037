#include "sheets/printed.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <fstream>

namespace trammel::sheets {
namespace {

std::string output_of(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  char part[4096];
  while (const std::size_t n = std::fread(part, 1, sizeof part, pipe)) out.append(part, n);
  EXPECT_EQ(pclose(pipe), 0) << command;
  return out;
}

}  // namespace

Sheet sheet_of(const std::vector<Sheet>& sheets, const std::string& name) {
  for (const Sheet& sheet : sheets)
    if (sheet.name == name) return sheet;
  ADD_FAILURE() << "no sheet " << name;
  return {};
}

Picture picture_of(const std::string& ppm) {
  Picture p;
  int offset = 0;
  std::sscanf(ppm.c_str(), "P6 %d %d 255%n", &p.width, &p.height, &offset);
  p.rgb = ppm.substr(offset + 1);
  EXPECT_EQ(p.rgb.size(), std::size_t(p.width) * p.height * 3);
  return p;
}

Stored::Stored(const std::string& pdf) : path_(testing::TempDir() + "sheet_" + std::to_string(getpid()) + ".pdf") {
  std::ofstream(path_, std::ios::binary) << pdf;
}
Stored::~Stored() { std::remove(path_.c_str()); }
std::string Stored::text() const { return output_of(PDFTOTEXT " -layout '" + path_ + "' -"); }
std::string Stored::info() const { return output_of(PDFINFO " '" + path_ + "'"); }
std::string Stored::pixels(int dots_per_inch, int page) const {
  return output_of(PDFTOPPM " -r " + std::to_string(dots_per_inch) + " -f " + std::to_string(page) + " -l " +
                   std::to_string(page) + " '" + path_ + "'");
}

std::string in_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

}  // namespace trammel::sheets
