#include "work/place.h"

namespace trammel::work {

std::string name(const Instance& i) {
  std::string s = i.group;
  if (i.side != Side::none) s += i.side == Side::left ? " left" : " right";
  if (i.end != End::none) s += i.end == End::front ? " front" : " rear";
  if (!i.word.empty()) s += " " + i.word;
  if (i.number != 0) s += " " + std::to_string(i.number);
  return s;
}

bool picks(const Selector& s, const Instance& i) {
  return agree(s.side, i.side) && agree(s.end, i.end) && (s.number == 0 || s.number == i.number) &&
         (s.word.empty() || s.word == i.word);
}

}  // namespace trammel::work
