#include "sheets/words.h"

#include <algorithm>
#include <cmath>

#include "messages/catalogue.h"

namespace trammel::sheets {
namespace {

// The code of a word of the assessment: "sheet-state-part-tight" for ("state", "part-tight").
std::string code_of(const std::string& prefix, std::string code) {
  for (char& c : code)
    if (c == ' ' || c == '_') c = '-';
  return "sheet-" + prefix + "-" + code;
}

}  // namespace

std::string begun(std::string text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0; };
  if (byte(0) >= 'a' && byte(0) <= 'z') text[0] = static_cast<char>(byte(0) - 0x20);
  // à to þ of UTF-8, but for the sign of division.
  if (byte(0) == 0xC3 && byte(1) >= 0xA0 && byte(1) <= 0xBE && byte(1) != 0xB7)
    text[1] = static_cast<char>(byte(1) - 0x20);
  return text;
}

std::string per_cent(double fraction) { return std::to_string(std::lround(fraction * 100)) + " %"; }

std::string Words::operator()(const std::string& code, const Arguments& arguments) const {
  return word_in(options_.language, Message{code, arguments}, options_.print);
}

std::string Words::help(const std::string& code) const {
  return help_in(options_.language, Message{code, {}}, options_.print);
}

std::string Words::of(const std::string& prefix, const std::string& code) const {
  const std::string full = code_of(prefix, code);
  if (find_message(full)) return (*this)(full);
  std::string plain = code;
  std::replace(plain.begin(), plain.end(), '_', ' ');
  return plain;
}

bool Words::has(const std::string& prefix, const std::string& code) const {
  return find_message(code_of(prefix, code)) != nullptr;
}
std::string Words::help_of(const std::string& prefix, const std::string& code) const {
  return help(code_of(prefix, code));
}

std::vector<std::string> Words::deeds(std::vector<std::string> work) const {
  for (std::string& text : work) {
    const std::size_t space = text.find(' '), comma = text.find(',');
    const std::string verb = text.substr(0, space);
    if (space == std::string::npos || comma < space || !has("deed", verb)) continue;
    const std::string how = comma == std::string::npos ? std::string() : text.substr(comma);
    const std::string what = text.substr(space + 1, comma == std::string::npos ? comma : comma - space - 1);
    text = (*this)(code_of("deed", verb), {{"what", what}}) + how;
  }
  return work;
}

std::string Words::print(const Number& number) const { return trammel::print(number, options_.print); }

std::string Words::print(const Number& number, Systems systems) const {
  PrintStyle style = options_.print;
  style.systems = systems;
  return trammel::print(number, style);
}

}  // namespace trammel::sheets
