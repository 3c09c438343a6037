// Rows of a published table, by column name.
#pragma once

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace rows {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      cells.emplace_back();
    else if (c != '\r')
      cells.back() += c;
  }
  return cells;
}

inline std::vector<Row> read(const std::string& name) {
  std::ifstream in(std::string(TRAMMEL_SOURCE_DIR) + "/tests/data/" + name);
  if (!in) throw std::runtime_error("no table " + name);
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> head = split(line);
  std::vector<Row> all;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = split(line);
    Row row;
    for (std::size_t i = 0; i < head.size() && i < cells.size(); ++i) row[head[i]] = cells[i];
    all.push_back(row);
  }
  return all;
}

inline Row find(const std::vector<Row>& all, const std::string& column, const std::string& value) {
  for (const Row& row : all)
    if (row.at(column) == value) return row;
  throw std::runtime_error("no row " + value);
}

inline double number(const Row& row, const std::string& column) { return std::stod(row.at(column)); }

}  // namespace rows
