// Rows of tests/data/geometry_worked_examples.csv, each with its source and basis.
#pragma once

#include <cctype>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace trammel::vehicle {

struct WorkedExample {
  std::string id, topic, inputs, expected, tolerance, source, basis, note;
};

// Fields of one CSV line; quotes hold commas.
inline std::vector<std::string> csv_fields(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"')
      fields.back() += line[i++];
    else if (line[i] == '"')
      quoted = !quoted;
    else if (line[i] == ',' && !quoted)
      fields.emplace_back();
    else if (line[i] != '\r')
      fields.back() += line[i];
  }
  return fields;
}

inline WorkedExample worked_example(const std::string& id) {
  std::ifstream file(TRAMMEL_SOURCE_DIR "/tests/data/geometry_worked_examples.csv");
  for (std::string line; std::getline(file, line);) {
    const auto f = csv_fields(line);
    if (f.size() >= 8 && f[0] == id) return {f[0], f[1], f[2], f[3], f[4], f[5], f[6], f[7]};
  }
  throw std::runtime_error("no worked example " + id);
}

// The number that stands after `key`.
inline double number_after(const std::string& text, const std::string& key) {
  const auto at = text.find(key);
  if (at == std::string::npos) throw std::runtime_error("'" + key + "' is not in: " + text);
  return std::strtod(text.c_str() + at + key.size(), nullptr);
}

}  // namespace trammel::vehicle
