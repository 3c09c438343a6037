// A random procedure over the hauler's fasteners and parts: each step does a few random things (rapidcheck).
#pragma once

#include <rapidcheck.h>

#include <vector>

#include "work/procedure.h"

namespace trammel::work {

template <class T>
T pick(const std::vector<T>& from) {
  return from[*rc::gen::inRange<std::size_t>(0, from.size())];
}
FastenerState any_rung();
Procedure random_procedure();

}  // namespace trammel::work
