// Text for a terminal: wrapped lines, marks with words, colour only where a person looks on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "assess/finding.h"

namespace trammel::cli {

class Terminal {
 public:
  // Colour where stdout is a terminal and NO_COLOR is not set; its width, else 100 columns.
  Terminal();
  Terminal(bool colour, int width) : colour_(colour), width_(width) {}

  int width() const { return width_; }
  // The outcome's word behind a gate that is shut, ajar or open; always 14 columns wide.
  std::string mark(Outcome outcome) const;
  std::string strong(std::string_view text) const;
  // Words wrapped to the width, lines after the first set in by `indent`.
  std::string wrapped(std::string_view text, int first, int indent) const;

 private:
  bool colour_ = false;
  int width_ = 100;
};

// Columns a text takes, counting characters and not bytes.
int columns(std::string_view utf8);
std::string padded(std::string text, int width);

// Rows in columns wide enough for what they hold; the last column wraps.
std::string table(const Terminal& terminal, const std::vector<std::vector<std::string>>& rows, int indent);

// A table as it can stand in a page of the manual; the first row is the heading.
void print_page_table(std::vector<std::vector<std::string>> rows);

}  // namespace trammel::cli
