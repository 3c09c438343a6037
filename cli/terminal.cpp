#include "cli/terminal.h"

#include <fmt/core.h>

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>

#include "cli/words.h"

namespace trammel::cli {

Terminal::Terminal() {
  const char* no_colour = std::getenv("NO_COLOR");
  colour_ = isatty(STDOUT_FILENO) && !(no_colour && *no_colour);
  winsize size{};
  if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= 40)
    width_ = std::min<int>(size.ws_col, 120);
}

std::string Terminal::mark(Outcome outcome) const {
  const char *shape = "", *code = "", *colour = "";
  switch (outcome) {
    case Outcome::stop:
      shape = "|=|", code = "word-stop", colour = "\x1b[1;31m";
      break;
    case Outcome::condition:
      shape = "|/|", code = "word-condition", colour = "\x1b[1;33m";
      break;
    case Outcome::note:
      shape = "| |", code = "word-note", colour = "\x1b[36m";
      break;
    case Outcome::met:
      shape = " · ", code = "word-met", colour = "";
      break;
  }
  const std::string text = padded(std::string(shape) + " " + say(code), 14);
  return colour_ && *colour ? colour + text + "\x1b[0m" : text;
}

std::string Terminal::strong(std::string_view text) const {
  return colour_ ? "\x1b[1m" + std::string(text) + "\x1b[0m" : std::string(text);
}

int columns(std::string_view utf8) {
  return static_cast<int>(
      std::count_if(utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(std::string text, int width) {
  const int missing = width - columns(text);
  if (missing > 0) text.append(static_cast<std::size_t>(missing), ' ');
  return text;
}

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A number, its ± and its unit stay on one line: "20.0 mm ± 2.5 mm", "(1 1/8 in)".
bool stay_together(std::string_view before, std::string_view after) {
  if (before == "±" || after == "±") return true;
  if (before.empty() || !is_digit(before.back())) return false;
  const std::string_view bare = after.substr(0, after.find_last_not_of("),.;:") + 1);
  const bool fraction = bare.find('/') != std::string_view::npos && is_digit(bare.front());
  return fraction || (columns(bare) <= 4 && !bare.empty() && !is_digit(bare.front()));
}

// The end of what begins at `from` and must not be broken.
std::size_t end_of_unbroken(std::string_view text, std::size_t from) {
  const auto end_of_word = [&](std::size_t at) { return std::min(text.find_first_of(" \n", at), text.size()); };
  std::size_t to = end_of_word(from);
  for (std::size_t start = from; to < text.size() && text[to] == ' ';) {
    const std::size_t next = to + 1, end = end_of_word(next);
    if (next == end || !stay_together(text.substr(start, to - start), text.substr(next, end - next))) break;
    start = next;
    to = end;
  }
  return to;
}

}  // namespace

std::string Terminal::wrapped(std::string_view text, int first, int indent) const {
  std::string out;
  int at = first;
  std::size_t from = 0;
  bool line_empty = true;
  while (from < text.size()) {
    if (text[from] == '\n') {
      out += "\n" + std::string(static_cast<std::size_t>(indent), ' ');
      at = indent;
      line_empty = true;
      ++from;
      continue;
    }
    const std::size_t to = end_of_unbroken(text, from);
    const std::string_view word = text.substr(from, to - from);
    const int size = columns(word);
    if (!line_empty && at + 1 + size > width_) {
      out += "\n" + std::string(static_cast<std::size_t>(indent), ' ');
      at = indent;
      line_empty = true;
    }
    if (!word.empty()) {
      if (!line_empty) out += ' ', ++at;
      out += word;
      at += size;
      line_empty = false;
    }
    from = to < text.size() && text[to] == ' ' ? to + 1 : to;
  }
  return out;
}

std::string table(const Terminal& terminal, const std::vector<std::vector<std::string>>& rows, int indent) {
  std::vector<int> width;
  for (const auto& row : rows)
    for (std::size_t k = 0; k < row.size(); ++k) {
      if (width.size() <= k) width.push_back(0);
      width[k] = std::max(width[k], columns(row[k]));
    }
  std::string out;
  for (const auto& row : rows) {
    std::string line(static_cast<std::size_t>(indent), ' ');
    int at = indent;
    for (std::size_t k = 0; k < row.size(); ++k) {
      if (k + 1 < row.size()) {
        line += padded(row[k], width[k] + 2);
        at += width[k] + 2;
      } else {
        // A last column with little room left is better long than broken.
        line += at + 30 < terminal.width() ? terminal.wrapped(row[k], at, at) : row[k];
      }
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    out += line + "\n";
  }
  return out;
}

void print_page_table(std::vector<std::vector<std::string>> rows) {
  rows.insert(rows.begin() + 1, std::vector<std::string>(rows[0].size(), "---"));
  for (const auto& row : rows) {
    std::string line = "|";
    for (const std::string& cell : row) line += " " + cell + " |";
    fmt::print("{}\n", line);
  }
}

}  // namespace trammel::cli
