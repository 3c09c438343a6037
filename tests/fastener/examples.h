// Rows of tests/data/fastener_worked_examples.csv: printed examples with their source.
#pragma once

#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <string_view>
#include <vector>

struct Example {
  std::string topic, inputs, outputs, source, basis, note;
};

inline std::vector<std::string> csv_cells(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += line[++i];
    } else if (line[i] == '"') {
      quoted = !quoted;
    } else if (line[i] == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += line[i];
    }
  }
  return cells;
}

inline const std::map<std::string, Example>& examples() {
  static const std::map<std::string, Example> all = [] {
    std::map<std::string, Example> rows;
    std::ifstream file(TRAMMEL_SOURCE_DIR "/tests/data/fastener_worked_examples.csv");
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
      const auto c = csv_cells(line);
      if (c.size() >= 7) rows[c[0]] = {c[1], c[2], c[3], c[4], c[5], c[6]};
    }
    return rows;
  }();
  return all;
}

// Every bare number of a text, in order.
inline std::vector<double> numbers_in(std::string_view text) {
  const std::string s(text);
  std::vector<double> found;
  for (std::size_t i = 0; i < s.size();) {
    char* end = nullptr;
    const bool starts = (s[i] >= '0' && s[i] <= '9') && (i == 0 || s[i - 1] == ' ' || s[i - 1] == '=');
    if (!starts) {
      ++i;
      continue;
    }
    found.push_back(std::strtod(s.c_str() + i, &end));
    i = static_cast<std::size_t>(end - s.c_str());
  }
  return found;
}
