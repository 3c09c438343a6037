// Reads one table into a struct by its fields(): every key, every fault, and the keys that it does not know.
#pragma once

#include <algorithm>
#include <map>
#include <string>

#include "job/member.h"
#include "jobfile/values.h"
#include "measure/nearest.h"

namespace trammel {

template <class S>
void read_table(const Node& table, const std::string& name, ReadContext& context, S& out,
                std::vector<std::string_view> read_elsewhere = {});

class TableReader {
 public:
  TableReader(const Node& table, std::string name, ReadContext& context)
      : table_(table), name_(std::move(name)), context_(context) {}

  template <class M>
  void field(const Key& key, M& member) {
    known_.push_back(key.name);
    if (const Node* node = table_.find(key.name)) return read(*node, key, member);
    if (key.need == Need::required) missing_.push_back(key);
  }

  // Call last: what the table holds besides the keys of its shape, and what it lacks.
  void finish(const std::vector<std::string_view>& read_elsewhere) {
    known_.insert(known_.end(), read_elsewhere.begin(), read_elsewhere.end());
    for (const Member& member : table_.members) {
      if (std::find(known_.begin(), known_.end(), member.key) != known_.end()) continue;
      auto& fault = context_.report.at(member, "unknown-key", {{"key", member.key}, {"table", shown_name()}});
      fault.nearest = nearest(member.key, std::span<const std::string_view>(known_));
      if (fault.nearest.empty()) fault.choices.assign(known_.begin(), known_.end());
      // A misspelt key is not told a second time as a missing one.
      std::erase_if(missing_, [&](const Key& key) { return key.name == fault.nearest; });
    }
    for (const Key& key : missing_)
      context_.report.at(table_, "missing-key",
                         {{"key", std::string(key.name)}, {"table", shown_name()}, {"what", std::string(key.help)}});
  }

  template <class M>
  void read(const Node& node, const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      typename M::value_type value{};
      read(node, key, value);
      member = std::move(value);
    } else if constexpr (is_list<M>) {
      read_list(node, key, member);
    } else if constexpr (is_valued<M>) {
      using Q = typename QuantityOf<M>::type;
      if (const auto given = read_number(node, key, kind_of<M>(key), context_)) {
        member.value = from_si<Q>(given->number.si);
        if (given->number.u) member.u = from_si<Q>(*given->number.u);
        member.basis = given->basis;
        member.place = node.place;
      }
    } else if constexpr (is_band<M>) {
      using Q = typename QuantityOf<M>::type;
      if (const auto band = read_band_value(node, key, kind_of<M>(key), context_))
        member = {from_si<Q>(band->low_si), from_si<Q>(band->high_si), node.place};
    } else if constexpr (std::is_same_v<M, PointValue>) {
      keep(read_point_value(node, key, context_), member);
    } else if constexpr (std::is_same_v<M, Text>) {
      keep(read_text(node, key, context_), member);
    } else if constexpr (std::is_same_v<M, Count>) {
      keep(read_count(node, key, context_), member);
    } else if constexpr (std::is_same_v<M, Flag>) {
      keep(read_flag(node, key, context_), member);
    } else if constexpr (std::is_same_v<M, AdjusterMove>) {
      keep(read_move(node, key, context_), member);
    } else if constexpr (std::is_same_v<M, SquareGap>) {
      keep(read_gap(node, key, context_), member);
    } else {
      if (node.kind != Node::Kind::table) return wrong_shape(node, key, "a table");
      read_table(node, within(key), context_, member);
    }
  }

 private:
  std::string shown_name() const { return name_.empty() ? "this file" : "`" + name_ + "`"; }
  template <class M>
  static void keep(std::optional<M> given, M& member) {
    if (given) member = std::move(*given);
  }
  std::string within(const Key& key) const {
    return name_.empty() ? std::string(key.name) : name_ + "." + std::string(key.name);
  }
  void wrong_shape(const Node& node, const Key& key, const char* wanted) {
    context_.report.at(node, "wrong-shape",
                       {{"key", std::string(key.name)}, {"wanted", wanted}, {"found", std::string(kind_name(node))}});
  }

  template <class T>
  void read_list(const Node& node, const Key& key, std::vector<T>& list) {
    if (node.kind != Node::Kind::list)
      return wrong_shape(node, key, is_table<T> ? "a list of tables, each under [[ ]]" : "a list, as [\"…\", \"…\"]");
    for (const Node& item : node.items) read(item, key, list.emplace_back());
    if constexpr (Named<T> || Identified<T>) report_twins(list);
  }

  // Two items of one name.
  template <class T>
  void report_twins(const std::vector<T>& list) {
    std::map<std::string_view, const Text*> first;
    for (const T& item : list) {
      const Text& label = label_of(item);
      if (label.value.empty()) continue;
      const auto [there, is_new] = first.emplace(label.value, &label);
      if (is_new) continue;
      const int length = characters(label.value) + 2;
      context_.report.add("name-twice", {{"name", label.value}}, label.place, length).other = there->second->place;
    }
  }

  const Node& table_;
  std::string name_;
  ReadContext& context_;
  std::vector<std::string_view> known_;
  std::vector<Key> missing_;
};

template <class S>
void read_table(const Node& table, const std::string& name, ReadContext& context, S& out,
                std::vector<std::string_view> read_elsewhere) {
  TableReader reader(table, name, context);
  fields(reader, out);
  if constexpr (requires { out.place; }) out.place = table.place;
  reader.finish(read_elsewhere);
}

}  // namespace trammel
