// A file's TOML as a plain tree that keeps the place of every key and value, in the order written.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/value.h"

namespace trammel {

struct Member;

struct Node {
  enum class Kind { text, integer, decimal, flag, date, list, table };
  Kind kind = Kind::table;
  Place place;
  int length = 1;    // characters on its first line
  std::string text;  // of a text or a date
  long long integer = 0;
  double decimal = 0.0;
  bool flag = false;
  bool inline_list = false;     // written with [ ], not as [[tables]]
  std::vector<Node> items;      // of a list
  std::vector<Member> members;  // of a table

  const Node* find(std::string_view key) const;
  const Member* member(std::string_view key) const;
};

struct Member {
  std::string key;
  Place place;  // of the key
  int length = 1;
  Node value;
};

// "text", "number", "true or false", "date", "list" or "table", for messages.
std::string_view kind_name(const Node& node);

}  // namespace trammel
