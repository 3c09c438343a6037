// Gathers a judgement's flags and puts them into their fixed order. Private to the room.
#pragma once

#include <array>

#include "fastener/judge.h"

namespace trammel::fastener {

class Flags {
 public:
  void raise(Flag flag, bool when = true) { raised_[static_cast<std::size_t>(flag)] |= when; }
  std::vector<Flag> in_order() const {
    std::vector<Flag> flags;
    for (int i = 0; i < flag_count; ++i)
      if (raised_[static_cast<std::size_t>(i)]) flags.push_back(static_cast<Flag>(i));
    return flags;
  }

 private:
  std::array<bool, flag_count> raised_{};
};

template <class T, class Test>
const T* piece_where(const Joint& joint, Test test) {
  for (const Piece& p : joint.pieces)
    if (const T* t = std::get_if<T>(&p); t && test(*t)) return t;
  return nullptr;
}

// The parts of a joint, each judged by its own header's rules (judge_parts.cpp).
void judge_wrench(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags);
void judge_length(const Joint& joint, Judgement& out, Flags& flags);
void judge_box(const Joint& joint, Judgement& out);  // before the torque: a wall limits it
void judge_clamped(const Joint& joint, Judgement& out, Flags& flags);
void judge_holes(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags);
void judge_nut_kinds(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags);
void judge_pivot(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags);
void judge_inches(const Joint& joint, const Ask& ask, Judgement& out, Flags& flags);

}  // namespace trammel::fastener
