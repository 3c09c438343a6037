// The shipped schemas are those that the code gives. TRAMMEL_UPDATE_SCHEMAS=1 writes them anew.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "job/member.h"
#include "jobfile/schema.h"

namespace trammel {
namespace {

using Json = nlohmann::json;

void matches_shipped(const std::string& kind, const std::string& schema) {
  const std::string path = std::string(TRAMMEL_SOURCE_DIR) + "/docs/schema/" + kind + ".json";
  if (std::getenv("TRAMMEL_UPDATE_SCHEMAS")) std::ofstream(path, std::ios::binary) << schema;
  std::ifstream in(path, std::ios::binary);
  const std::string shipped{std::istreambuf_iterator<char>(in), {}};
  EXPECT_EQ(schema, shipped) << "run with TRAMMEL_UPDATE_SCHEMAS=1";
}

TEST(Schema, ShippedCopiesAreTheGeneratedOnes) {
  matches_shipped("cart", cart_schema());
  matches_shipped("kit", kit_schema());
  matches_shipped("job", job_schema());
  matches_shipped("survey", survey_schema());
}

// Every $ref leads somewhere.
void refs_resolve(const Json& at, const Json& root) {
  if (at.is_object() && at.contains("$ref")) {
    const std::string ref = at["$ref"];
    EXPECT_TRUE(root.contains(Json::json_pointer(ref.substr(1)))) << ref;
  }
  if (at.is_structured())
    for (const auto& item : at) refs_resolve(item, root);
}

TEST(Schema, KnowsEveryKeyThatTheReaderKnows) {
  const Json cart = Json::parse(cart_schema()), kit = Json::parse(kit_schema()), job = Json::parse(job_schema());
  for (const Json& schema : {cart, kit, job}) {
    refs_resolve(schema, schema);
    EXPECT_EQ(schema["additionalProperties"], false);
  }
  for (const auto key : key_names<Cart>()) EXPECT_TRUE(cart["properties"].contains(std::string(key))) << key;
  for (const auto key : key_names<KitStep>())
    EXPECT_TRUE(kit["properties"]["step"]["items"]["properties"].contains(std::string(key))) << key;
  for (const auto key : key_names<Reading>())
    EXPECT_TRUE(job["properties"]["reading"]["items"]["properties"].contains(std::string(key))) << key;
  EXPECT_EQ(cart["properties"]["front"]["properties"]["layout"]["enum"],
            Json({"double wishbone", "strut", "swing axle", "trailing arm", "live axle", "solid beam"}));
  EXPECT_EQ(cart["required"], Json({"format", "name", "wheelbase"}));
}

}  // namespace
}  // namespace trammel
