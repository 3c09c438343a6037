// What kind of member a visitor of fields() has before it.
#pragma once

#include <optional>
#include <string_view>
#include <type_traits>
#include <vector>

#include "job/job_shape.h"

namespace trammel {

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;
template <class T>
inline constexpr bool is_list = false;
template <class T>
inline constexpr bool is_list<std::vector<T>> = true;
template <class T>
inline constexpr bool is_valued = false;
template <class Q>
inline constexpr bool is_valued<Valued<Q>> = true;
template <class T>
inline constexpr bool is_band = false;
template <class Q>
inline constexpr bool is_band<BandValue<Q>> = true;

// Values that stand in a file as one text, number or flag; everything else has fields().
template <class T>
inline constexpr bool is_leaf = is_valued<T> || is_band<T> || std::is_same_v<T, PointValue> ||
                                std::is_same_v<T, Text> || std::is_same_v<T, Count> || std::is_same_v<T, Flag> ||
                                std::is_same_v<T, AdjusterMove> || std::is_same_v<T, SquareGap>;
template <class T>
inline constexpr bool is_table = !is_leaf<T> && !is_optional<T> && !is_list<T>;

template <class T>
concept Named = requires(T& t) {
  t.name.value;
};
template <class T>
concept Identified = requires(T& t) {
  t.id.value;
};

template <class T>
inline constexpr bool is_named_list = false;
template <class T>
inline constexpr bool is_named_list<std::vector<T>> = Named<T>;

// The word that tells an item of a list from its neighbours: its name or its id.
template <class T>
requires Named<T> || Identified<T>
const Text& label_of(const T& item) {
  if constexpr (Identified<T>)
    return item.id;
  else
    return item.name;
}

// Kind of quantity a Valued or a band is written as.
template <class T>
struct QuantityOf;
template <class Q>
struct QuantityOf<Valued<Q>> {
  using type = Q;
};
template <class Q>
struct QuantityOf<BandValue<Q>> {
  using type = Q;
};
template <class T>
Kind kind_of(const Key& key) {
  return key.kind.value_or(KindOf<typename QuantityOf<T>::type>::kind);
}

template <class Q>
double si_of(Q q) {
  if constexpr (requires { q.si(); })
    return q.si();
  else
    return q;
}
template <class Q>
Q from_si(double si) {
  if constexpr (requires { Q::from_si(si); })
    return Q::from_si(si);
  else
    return si;
}

// The names of a table's keys, in the order of its fields().
struct KeyNames {
  std::vector<std::string_view> names;
  template <class M>
  void field(const Key& key, M&) {
    names.push_back(key.name);
  }
};
template <class S>
std::vector<std::string_view> key_names() {
  S empty{};
  KeyNames visitor;
  fields(visitor, empty);
  return visitor.names;
}

}  // namespace trammel
