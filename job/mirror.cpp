#include "job/mirror.h"

#include "job/member.h"

namespace trammel {

namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Turns y about in every point of a table.
struct Mirror {
  template <class M>
  void field(const Key&, M& member) {
    turn(member);
  }
  template <class M>
  void turn(M& member) {
    if constexpr (std::is_same_v<M, PointValue>)
      member.value = mirrored(member.value);
    else if constexpr (is_optional<M>) {
      if (member) turn(*member);
    } else if constexpr (is_list<M>)
      for (auto& item : member) turn(item);
    else if constexpr (is_table<M>)
      fields(*this, member);
  }
};

}  // namespace

Corner mirrored(Corner corner) {
  Mirror().turn(corner);
  return corner;
}

ChangeValue mirrored(ChangeValue value) {
  std::visit(
      [](auto& v) {
        using V = std::decay_t<decltype(v)>;
        if constexpr (!std::is_same_v<V, std::monostate>) Mirror().turn(v);
        if constexpr (Named<V>) v.name.value = other_side(v.name.value);
      },
      value);
  return value;
}

std::string other_side(std::string_view words) {
  std::string out;
  for (std::size_t i = 0; i < words.size();) {
    std::size_t end = i;
    while (end < words.size() && is_letter(words[end])) ++end;
    const std::string_view word = words.substr(i, end - i);
    if (word == "left")
      out += "right";
    else if (word == "right")
      out += "left";
    else
      out += word;
    if (end < words.size()) out += words[end++];
    i = end;
  }
  return out;
}

}  // namespace trammel
