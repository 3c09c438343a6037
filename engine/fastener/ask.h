// A fastener question in one line: the stack, then what is asked of it.
//
//   M10 8.8 50 N·m dry zinc
//   bolt M10x40 8.8 zinc, washer, arm 10 mm, knuckle thread 18 mm steel; 50 N·m; AF 16
// A semicolon ends the stack; in the short form the first words are thread and class. What may be asked, in any order:
// a torque with its unit; a surface state; "AF 16" or "AF 16/18" (head/nut); a tightening method; "reused nut";
// "running 4 N·m" (measured); "plus running" (the torque goes on top of it); "K 0.18"; "passes 30/60/85 N·m";
// "limit 45 N·m" (to a castle nut's slot); "turns 9" and "studs 4" (of a wheel); "set by measure" (end float, not
// torque); "hole 11 mm" and "drill 8.5 mm" (of this bolt, or to be tapped for it); "scale 40 to 200 N·m" and "extension
// 60 mm on 400 mm [at 30 deg]" (the torque wrench); "across 4 kN along 1 kN planes 2" (a pivot's load).
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fastener/judge.h"

namespace trammel::fastener {

struct Question {
  Joint joint;
  Ask ask;
  bool in_pounds = false;  // the torque was asked in pounds
};

enum class AskFault { stack, word_unknown, bad_quantity, said_twice, not_positive };
struct AskError {
  AskFault fault{};
  StackFault stack{};              // where the stack is at fault
  std::size_t at = 0, length = 0;  // place in the text
  std::string nearest;
  std::vector<std::string> choices;
};

std::variant<Question, AskError> read_ask(std::string_view text);

}  // namespace trammel::fastener
