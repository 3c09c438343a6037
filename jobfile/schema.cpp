#include "jobfile/schema.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "job/member.h"
#include "job/survey_shape.h"
#include "measure/text.h"

namespace trammel {

namespace {

using Json = nlohmann::ordered_json;

const char* kind_name(Kind kind) {
  static constexpr const char* names[] = {"length",    "area",  "angle",    "turns", "mass",        "force",
                                          "torque",    "speed", "pressure", "power", "temperature", "time",
                                          "stiffness", "ratio", "share",    "money", "pitch"};
  static_assert(std::size(names) == static_cast<std::size_t>(Kind::pitch) + 1);
  return names[static_cast<std::size_t>(kind)];
}

Json value_or_table(Json written) {
  return {
      {"anyOf", Json::array({written,
                             {{"type", "object"},
                              {"properties",
                               {{"value", written},
                                {"basis", {{"enum", words::bases}}},
                                {"sure", {{"type", "boolean"}, {"description", "the size was looked at and is so"}}}}},
                              {"required", {"value"}},
                              {"additionalProperties", false}}})}};
}

// The texts that values are written as, one definition for each that a file uses.
class Definitions {
 public:
  Json quantity(Kind kind) {
    std::string units;
    for (const auto& unit : accepted_units(kind))
      units.append(units.empty() ? "" : ", ").append(unit.empty() ? "none" : unit);
    Json text = {{"type", "string"},
                 {"description",
                  fmt::format("a {} with its unit: {}; perhaps ± its standard uncertainty", kind_name(kind), units)},
                 {"pattern", "[0-9]"}};
    if (kind == Kind::ratio)
      text = {{"type", Json::array({"string", "number"})}, {"description", "a ratio, as 0.18 or \"18 %\""}};
    return refer(kind_name(kind), value_or_table(text));
  }
  Json band(Kind kind) {
    return refer(
        fmt::format("{}_range", kind_name(kind)),
        {{"type", "string"},
         {"description", fmt::format("a range of {}, as \"0 deg ± 0.25 deg\" or \"3 mm to 6 mm\"", kind_name(kind))},
         {"pattern", "±|\\bto\\b|\\+/-"}});
  }
  Json point() {
    return refer("point",
                 value_or_table({{"type", "string"},
                                 {"description", "x forward, y left, z up and one unit, as \"107.48 77.87 269.32 mm\""},
                                 {"pattern", "[0-9].*\\s.*[0-9].*\\s.*[0-9]"}}));
  }
  Json move() {
    return refer(
        "move",
        {{"type", "string"},
         {"description",
          "a move of an adjuster, positive is longer: \"+4 flats\", \"-0.5 turn\", \"+1.5 mm\" or \"20 deg\""}});
  }
  Json gap() {
    return refer("gap", {{"type", "string"},
                         {"description", "a gap at the square, as \"3.5 mm at top over 280 mm\""},
                         {"pattern", " at (top|bottom) over "}});
  }
  const Json& all() const { return all_; }

 private:
  Json refer(const std::string& name, Json schema) {
    all_[name] = std::move(schema);
    return {{"$ref", "#/$defs/" + name}};
  }
  Json all_ = Json::object();
};

// The schema of one table by its fields().
class TableSchema {
 public:
  explicit TableSchema(Definitions& definitions) : definitions_(definitions) {}

  template <class M>
  void field(const Key& key, const M&) {
    Json schema = of<M>(key);
    schema["description"] = std::string(key.help);
    add(key.name, std::move(schema), key.need == Need::required);
  }
  void add(std::string_view name, Json schema, bool required) {
    properties_[std::string(name)] = std::move(schema);
    if (required) required_.push_back(std::string(name));
  }
  Json take() {
    Json out = {{"type", "object"}, {"properties", properties_}, {"additionalProperties", false}};
    if (!required_.empty()) out["required"] = required_;
    return out;
  }

  template <class M>
  Json of(const Key& key) {
    if constexpr (is_optional<M>)
      return of<typename M::value_type>(key);
    else if constexpr (is_list<M>)
      return {{"type", "array"}, {"items", of<typename M::value_type>(key)}};
    else if constexpr (is_valued<M>)
      return definitions_.quantity(kind_of<M>(key));
    else if constexpr (is_band<M>)
      return definitions_.band(kind_of<M>(key));
    else if constexpr (std::is_same_v<M, PointValue>)
      return definitions_.point();
    else if constexpr (std::is_same_v<M, Text>)
      return key.words.empty() ? Json{{"type", "string"}, {"minLength", 1}}
                               : Json{{"enum", Json(std::vector<std::string>(key.words.begin(), key.words.end()))}};
    else if constexpr (std::is_same_v<M, Count>) {
      Json schema = {{"type", "integer"}};
      if (key.plausible)
        schema.update(
            {{"minimum", static_cast<int>(key.plausible->low)}, {"maximum", static_cast<int>(key.plausible->high)}});
      return schema;
    } else if constexpr (std::is_same_v<M, Flag>)
      return {{"type", "boolean"}};
    else if constexpr (std::is_same_v<M, AdjusterMove>)
      return definitions_.move();
    else if constexpr (std::is_same_v<M, SquareGap>)
      return definitions_.gap();
    else
      return table<M>();
  }
  template <class S>
  Json table() {
    TableSchema inner(definitions_);
    walk_fields(inner, S{});
    return inner.take();
  }

 private:
  Definitions& definitions_;
  Json properties_ = Json::object(), required_ = Json::array();
};

Json text_list() {
  return {{"type", "array"}, {"items", {{"type", "string"}}}, {"description", "files to lay together with this one"}};
}

Json change_schema(Definitions& definitions) {
  const Json path = {{"type", "string"},
                     {"description", "a path of keys of the cart file, front.left.lower_arm.ball_joint"}};
  Json properties = {{"set", path}, {"move", path}, {"add", path}, {"remove", path}};
  properties["to"] = {{"description", "set: the new value, written as in the cart file"}};
  properties["by"] = {{"description", "move: what is added"},
                      {"anyOf", Json::array({definitions.point(), {{"type", "string"}}})}};
  properties["value"] = {{"type", "object"}, {"description", "add: the new item"}};
  properties["mirror"] = {{"type", "boolean"}, {"description", "the same on the other side of the cart"}};
  properties["accessory"] = {{"type", "string"}, {"description", "only where this accessory is fitted"}};
  properties["why"] = {{"type", "string"}};
  const auto act = [](const char* name, const char* value) {
    Json required = Json::array({name});
    if (*value) required.push_back(value);
    return Json{{"required", required}};
  };
  return {{"type", "object"},
          {"properties", properties},
          {"additionalProperties", false},
          {"oneOf", Json::array({act("set", "to"), act("move", "by"), act("add", "value"), act("remove", "")})}};
}

// A whole file: `more` adds the keys that its reader takes besides fields().
template <class S, class More>
std::string document(const char* kind, More more) {
  Definitions definitions;
  TableSchema table(definitions);
  walk_fields(table, S{});
  more(table, definitions);
  Json out = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", fmt::format("trammel {} 1", kind)}};
  out.update(table.take());
  out["properties"]["format"] = {{"const", fmt::format("trammel {} 1", kind)}};
  out["$defs"] = definitions.all();
  return out.dump(2) + "\n";
}

}  // namespace

std::string cart_schema() {
  return document<Cart>("cart", [](TableSchema& table, Definitions&) { table.add("include", text_list(), false); });
}

std::string kit_schema() {
  return document<Kit>("kit", [](TableSchema& table, Definitions& definitions) {
    table.add("include", text_list(), false);
    table.add(
        "change",
        {{"type", "array"}, {"items", change_schema(definitions)}, {"description", "an ordered overlay on the cart"}},
        false);
  });
}

std::string survey_schema() {
  return document<SurveyFile>("survey", [](TableSchema&, Definitions&) {});
}

std::string job_schema() {
  return document<Job>("job", [](TableSchema& table, Definitions&) {
    const Json file = {{"type", "string"}};
    table.add("cart", {{"type", "string"}, {"description", "the cart's file"}}, true);
    table.add("kits",
              {{"type", "array"},
               {"items",
                {{"anyOf", Json::array({file,
                                        {{"type", "object"},
                                         {"properties", {{"file", file}}},
                                         {"required", {"file"}},
                                         {"additionalProperties", false}}})}}},
               {"description", "kits in the order of fitting"}},
              false);
    table.add("learned_from",
              {{"type", "array"}, {"items", file}, {"description", "finished jobs on the same cart and kits"}}, false);
    table.add("reading", table.of<std::vector<Reading>>(Key{"reading", ""}), false);
    table.add("adjustment", table.of<std::vector<Adjustment>>(Key{"adjustment", ""}), false);
    table.add("rear_reading", table.of<std::vector<RearReading>>(Key{"rear_reading", ""}), false);
    table.add("rear_adjustment", table.of<std::vector<RearAdjustment>>(Key{"rear_adjustment", ""}), false);
    table.add("signed", table.of<std::vector<Signed>>(Key{"signed", ""}), false);
    table.add("torque", table.of<std::vector<TorqueEntry>>(Key{"torque", ""}), false);
    table.add("decision", table.of<std::vector<Decision>>(Key{"decision", ""}), false);
    table.add("found", table.of<std::vector<FoundSo>>(Key{"found", ""}), false);
    table.add("undo", table.of<std::vector<Undo>>(Key{"undo", ""}), false);
    table.add("addition", table.of<std::vector<Addition>>(Key{"addition", ""}), false);
  });
}

}  // namespace trammel
