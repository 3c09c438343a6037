// The shape of a file, told once.
//
// For each struct of a job there is one function
//   template <class V> void fields(V& v, Struct& s);
// that calls v.field(Key, member) for every key in the order a person would write them. From that one
// description come the reader of TOML with its "nearest known key", the JSON and its schema, the paths
// that a kit's change may name, and the check of plausible sizes.
//
// Member types: Valued<Q>, PointValue, BandValue<Q>, Text, Count, Flag, AdjusterMove, SquareGap, a struct
// with fields(), and std::optional or std::vector of these.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "measure/kind.h"

namespace trammel {

enum class Need { optional, required };

// Sizes beyond which a value is doubted, in the SI unit of its kind. They are wide on purpose: their
// business is a slipped unit, not taste. (common practice, no source)
struct Plausible {
  double low = 0.0, high = 0.0;
};

struct Key {
  std::string_view name;
  std::string_view help;  // one line, for the schema and the manual
  Need need = Need::optional;
  std::optional<Plausible> plausible = {};
  std::span<const std::string_view> words = {};  // the only words a Text may be, where it is a choice
  std::optional<Kind> kind = {};                 // how it is written, where the type alone does not say
};

// Lets a visitor walk a value it will not change.
template <class V, class S>
void walk_fields(V& v, const S& s) {
  fields(v, const_cast<S&>(s));
}

}  // namespace trammel
