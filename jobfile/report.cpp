#include "jobfile/report.h"

#include <algorithm>
#include <tuple>

namespace trammel {

namespace {
constexpr std::size_t most_kept = 500, longest_line = 2000;
}

void Report::open(std::string path, std::string text) {
  Source opened{std::move(path), std::move(text), {0}};
  for (std::size_t i = 0; i < opened.text.size(); ++i)
    if (opened.text[i] == '\n') opened.starts.push_back(i + 1);
  sources_.push_back(std::move(opened));
}

Diagnostic& Report::add(std::string code, Arguments arguments, const Place& place, int length) {
  if (diagnostics_.size() == most_kept) {
    ++left_out_;
    return unseen_ = {};
  }
  Diagnostic fault;
  fault.message = {std::move(code), std::move(arguments)};
  fault.place = place;
  fault.line = line(place).substr(0, longest_line);
  fault.length = std::max(1, length);
  return diagnostics_.emplace_back(std::move(fault));
}

Diagnostic& Report::at(const Node& node, std::string code, Arguments arguments) {
  return add(std::move(code), std::move(arguments), node.place, node.length);
}

Diagnostic& Report::at(const Member& member, std::string code, Arguments arguments) {
  return add(std::move(code), std::move(arguments), member.place, member.length);
}

std::vector<Diagnostic> Report::take() {
  const auto key = [this](const Diagnostic& d) {
    return std::tuple(order_of(d.place.file), d.place.line, d.place.column);
  };
  std::stable_sort(diagnostics_.begin(), diagnostics_.end(),
                   [&](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
  if (left_out_ > 0) {
    Diagnostic more;
    more.message = {"more-faults", {{"count", std::to_string(left_out_)}}};
    more.place = {diagnostics_.back().place.file, 0, 0};
    diagnostics_.push_back(std::move(more));
  }
  return std::move(diagnostics_);
}

const Report::Source* Report::source(const std::string& path) const {
  const std::size_t n = order_of(path);
  return n < sources_.size() ? &sources_[n] : nullptr;
}

std::size_t Report::order_of(const std::string& path) const {
  const auto found = std::find_if(sources_.begin(), sources_.end(), [&](const Source& s) { return s.path == path; });
  return static_cast<std::size_t>(found - sources_.begin());
}

std::string_view Report::line(const Place& place) const {
  const Source* from = source(place.file);
  if (!from || place.line < 1 || static_cast<std::size_t>(place.line) > from->starts.size()) return {};
  const std::size_t start = from->starts[static_cast<std::size_t>(place.line) - 1];
  const std::size_t end = std::min(from->text.find('\n', start), from->text.size());
  std::string_view line = std::string_view(from->text).substr(start, end - start);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

Place moved(Place place, int columns) {
  place.column += columns;
  return place;
}

int characters(std::string_view utf8) {
  return static_cast<int>(std::count_if(utf8.begin(), utf8.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

}  // namespace trammel
