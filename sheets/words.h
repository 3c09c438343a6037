// Texts and numbers as the sheets print them: words from messages/, quantities through measure/text.h.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "assess/assessment.h"
#include "sheets/sheets.h"

namespace trammel::sheets {

using Arguments = std::vector<std::pair<std::string, Argument>>;

std::string per_cent(double fraction);
// The first letter large, as where a line begins.
std::string begun(std::string text);

class Words {
 public:
  explicit Words(const SheetOptions& options) : options_(options) {}

  // The line of a text, and its longer help; values fill {name}.
  std::string operator()(const std::string& code, const Arguments& arguments = {}) const;
  std::string help(const std::string& code) const;
  // A code of the assessment ("part-tight", "on_wheels") in words; itself where it has none of its own.
  std::string of(const std::string& prefix, const std::string& code) const;
  std::string help_of(const std::string& prefix, const std::string& code) const;
  bool has(const std::string& prefix, const std::string& code) const;
  // "strap axle, to the saddle": its verb in the sheet's language, the rest as the author has it.
  std::vector<std::string> deeds(std::vector<std::string> work) const;
  std::string say(const Message& message) const { return (*this)(message.code, message.arguments); }

  // A number with its unit and uncertainty, in both systems or in one.
  std::string print(const Number& number) const;
  std::string print(const Number& number, Systems systems) const;
  template <class Q>
  std::string print(Q q) const {
    return print(number(q));
  }
  // In one system only, where room is short: metric unless inches were asked for.
  std::string brief(const Number& number) const {
    return print(number, options_.print.systems == Systems::inch ? Systems::inch : Systems::metric);
  }

 private:
  const SheetOptions& options_;
};

}  // namespace trammel::sheets
