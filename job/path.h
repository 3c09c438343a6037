// Follows a path of keys and list names from a table down to one member, and lets an Act do its work there.
//
// An Act has
//   bool creates()                 may an optional table on the way be made
//   bool any_name()                may an item of any name be made in a list on the way
//   void at(const Key&, M&)        the member the path ends at: leaf, optional, list or table
//   void item(const Key&, list, n) the path ends at the nth item of a list
//   OverlayProblem problem; bool failed   filled where the path breaks, or by the act itself
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "job/member.h"
#include "job/overlay.h"
#include "measure/nearest.h"

namespace trammel::path {

template <class Act>
void fail(Act& act, OverlayFault fault, std::string_view word, const std::vector<std::string_view>& known) {
  act.failed = true;
  act.problem.fault = fault;
  act.problem.word = word;
  act.problem.nearest = nearest(word, std::span<const std::string_view>(known));
  act.problem.choices.assign(known.begin(), known.end());
}

template <class S, class Act>
void descend(S& table, std::string_view path, Act& act);

// The item whose name the path starts with: the longest that fits, since names may hold dots.
template <class T>
std::optional<std::size_t> named_item(const std::vector<T>& list, std::string_view path) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string& name = list[i].name.value;
    const bool fits = path.starts_with(name) && (path.size() == name.size() || path[name.size()] == '.');
    if (fits && (!best || name.size() > list[*best].name.value.size())) best = i;
  }
  return best;
}

template <class M, class Act>
void follow(const Key& key, M& member, std::string_view rest, Act& act) {
  if (rest.empty()) {
    act.at(key, member);
  } else if constexpr (is_optional<M>) {
    if (!member && !act.creates()) return fail(act, OverlayFault::nothing_there, key.name, {});
    if (!member) member.emplace();
    follow(key, *member, rest, act);
  } else if constexpr (is_named_list<M>) {
    auto found = named_item(member, rest);
    if (!found && act.any_name()) {
      member.emplace_back().name.value = rest.substr(0, rest.find('.'));
      found = member.size() - 1;
    }
    if (!found) {
      std::vector<std::string_view> names;
      for (const auto& item : member) names.push_back(item.name.value);
      return fail(act, OverlayFault::nothing_there, rest.substr(0, rest.find('.')), names);
    }
    const std::size_t name_size = member[*found].name.value.size();
    if (rest.size() <= name_size + 1)
      act.item(key, member, *found);
    else
      descend(member[*found], rest.substr(name_size + 1), act);
  } else if constexpr (is_table<M>) {
    descend(member, rest, act);
  } else {
    fail(act, OverlayFault::no_such_path, rest, {});
  }
}

template <class Act>
struct Step {
  std::string_view word, rest;
  Act& act;
  bool found = false;
  template <class M>
  void field(const Key& key, M& member) {
    if (found || key.name != word) return;
    found = true;
    follow(key, member, rest, act);
  }
};

template <class S, class Act>
void descend(S& table, std::string_view path, Act& act) {
  const std::size_t dot = path.find('.');
  const std::string_view word = path.substr(0, dot);
  Step<Act> step{word, dot == std::string_view::npos ? std::string_view() : path.substr(dot + 1), act};
  if (dot != path.size() - 1) fields(step, table);
  if (!step.found) fail(act, OverlayFault::no_such_path, word, key_names<S>());
}

}  // namespace trammel::path
