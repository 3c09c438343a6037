#include "jobfile/json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "job/member.h"
#include "jobfile/write.h"

namespace trammel {

namespace {

using Json = nlohmann::ordered_json;

std::string text_of(const Place& place) { return fmt::format("{}:{}:{}", place.file, place.line, place.column); }
std::string_view word_of(Basis basis) { return words::bases[static_cast<std::size_t>(basis)]; }

class TableJson {
 public:
  template <class M>
  void field(const Key& key, const M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if constexpr (is_list<M>) {
      if (!member.empty()) out[std::string(key.name)] = of(member);
    } else {
      out[std::string(key.name)] = of(member);
    }
  }
  Json out = Json::object();

  template <class M>
  static Json of(const M& member) {
    if constexpr (is_list<M>) {
      Json list = Json::array();
      for (const auto& item : member) list.push_back(of(item));
      return list;
    } else if constexpr (is_valued<M>) {
      Json value = {{"si", si_of(member.value)}};
      if (member.u) value["u"] = si_of(*member.u);
      return settled(std::move(value), member);
    } else if constexpr (std::is_same_v<M, PointValue>) {
      Json value = {{"si", {member.value.x.si(), member.value.y.si(), member.value.z.si()}}};
      if (member.u) value["u"] = member.u->si();
      return settled(std::move(value), member);
    } else if constexpr (is_band<M>) {
      return {{"low", si_of(member.low)}, {"high", si_of(member.high)}};
    } else if constexpr (std::is_same_v<M, AdjusterMove>) {
      static constexpr const char* units[] = {"turns", "flats", "m", "rad"};
      return {{"amount", member.amount}, {"unit", units[static_cast<int>(member.unit)]}};
    } else if constexpr (std::is_same_v<M, SquareGap>) {
      Json value = {{"gap", member.gap.si()},
                    {"at", member.at == SquareGap::At::top ? "top" : "bottom"},
                    {"over", member.over.si()}};
      if (member.u) value["u"] = member.u->si();
      return value;
    } else if constexpr (is_leaf<M>) {
      return member.value;
    } else {
      TableJson table;
      walk_fields(table, member);
      return table.out;
    }
  }

 private:
  template <class M>
  static Json settled(Json value, const M& member) {
    value["basis"] = word_of(member.basis);
    if (member.place.line > 0) value["place"] = text_of(member.place);
    return value;
  }
};

Json json_of(const Change& change) {
  static constexpr const char* acts[] = {"set", "move", "add", "remove"};
  Json out = {{"act", acts[static_cast<std::size_t>(change.act)]}, {"path", change.path}, {"mirror", change.mirror}};
  std::visit(
      [&](const auto& v) {
        if constexpr (!std::is_same_v<std::decay_t<decltype(v)>, std::monostate>) out["value"] = TableJson::of(v);
      },
      change.value);
  if (!change.accessory.empty()) out["accessory"] = change.accessory;
  if (!change.why.empty()) out["why"] = change.why;
  return out;
}

Json json_of(const Kit& kit) {
  Json out = TableJson::of(kit);
  out["change"] = Json::array();
  for (const Change& change : kit.change) out["change"].push_back(json_of(change));
  return out;
}

Json json_of(const Event& event) {
  Json out = {{"entry", list_of(event)}};
  std::visit([&](const auto& e) { out.update(TableJson::of(e)); }, event);
  return out;
}

std::string text(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace

std::string to_json(const Cart& cart) { return text(TableJson::of(cart)); }
std::string to_json(const Kit& kit) { return text(json_of(kit)); }

std::string to_json(const Job& job) {
  Json out = TableJson::of(job);
  out["cart"] = TableJson::of(job.cart);
  out["kits"] = Json::array();
  for (const KitUse& use : job.kits) out["kits"].push_back({{"file", use.file.value}, {"kit", json_of(use.kit)}});
  out["events"] = Json::array();
  for (const Event& event : job.events) out["events"].push_back(json_of(event));
  return text(out);
}

}  // namespace trammel
