#include "shop/travel.h"

#include "assess/models.h"
#include "shop/open.h"

namespace trammel {

TravelAnswer axle_to_move(const TravelAsked& asked) {
  TravelAnswer answer;
  Loaded<Cart> cart = open_cart(asked.path, asked.before_the_kits);
  answer.diagnostics = std::move(cart.diagnostics);
  if (!cart.value) return answer;

  const std::optional<AxleModel> model =
      asked.axle == "front" ? axle_model(cart.value->front, true) : axle_model(cart.value->rear, false);
  if (!model) {
    answer.faults.push_back({"travel-no-axle", {{"axle", asked.axle}}});
    return answer;
  }
  if (!model->mechanism) {
    answer.faults.push_back({"travel-not-computed", {{"axle", asked.axle}}});
    return answer;
  }
  for (const auto& fault : model->mechanism->check()) answer.faults.push_back(point_fault(asked.axle, fault));
  if (answer.faults.empty()) answer.axle = model->mechanism;
  return answer;
}

}  // namespace trammel
