#include "jobfile/diagnostic.h"

#include <algorithm>

#include "jobfile/report.h"
#include "messages/catalogue.h"

namespace trammel {

namespace {

constexpr int widest = 140;  // characters of a source line that are shown

std::string text_of(const Place& place) {
  std::string out = place.file;
  if (place.line > 0) out += ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
  return out;
}

std::string quoted_list(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out.append(out.empty() ? "`" : ", `").append(w.empty() ? " " : w).append("`");
  return out;
}

// A line as its characters, control characters other than tab shown as `?`.
std::vector<std::string> split_characters(const std::string& line) {
  std::vector<std::string> out;
  for (const char c : line) {
    if ((c & 0xC0) == 0x80 && !out.empty())
      out.back() += c;
    else
      out.emplace_back(1, static_cast<unsigned char>(c) < 0x20 && c != '\t' ? '?' : c);
  }
  return out;
}

// The line and, below it, the caret: tabs stay tabs, so that both stand alike in any terminal.
std::string shown_line(const Diagnostic& d) {
  const auto all = split_characters(d.line);
  const int size = static_cast<int>(all.size()), column = d.place.column - 1;
  const int from = column > widest - 20 ? column - 40 : 0, to = std::min(size, from + widest);
  std::string line = from > 0 ? "…" : "", caret = from > 0 ? " " : "";
  for (int i = from; i < to; ++i) line += all[static_cast<std::size_t>(i)];
  if (to < size) line += "…";
  for (int i = from; i < std::min(column, to); ++i) caret += all[static_cast<std::size_t>(i)] == "\t" ? '\t' : ' ';
  const int length = std::clamp(std::min(d.length, to - column), 1, widest);
  return line + "\n" + caret + "^" + std::string(static_cast<std::size_t>(length - 1), '~') + "\n";
}

}  // namespace

std::string render(const Diagnostic& d) {
  std::string out = text_of(d.place) + ": " + word(d.message);
  const auto add = [&](const Message& more) { out += "; " + word(more); };
  if (d.hint) add(*d.hint);
  if (d.other) add({"stands-first", {{"place", text_of(*d.other)}}});
  if (!d.nearest.empty()) add({"did-you-mean", {{"word", d.nearest}}});
  if (!d.choices.empty()) add({"is-accepted", {{"words", quoted_list(d.choices)}}});
  out += "\n";
  if (d.place.line > 0 && d.place.column > 0 && d.place.column <= characters(d.line) + 1) out += shown_line(d);
  return out;
}

std::string render(const std::vector<Diagnostic>& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics) out += render(d);
  return out;
}

}  // namespace trammel
