#include "shop/travel.h"

#include "assess/models.h"
#include "shop/open.h"

namespace trammel {

TravelAnswer move_axle(const TravelAsked& asked) {
  TravelAnswer answer;
  Loaded<Cart> cart = open_cart(asked.path, asked.before_the_kits);
  answer.diagnostics = std::move(cart.diagnostics);
  if (!cart.value) return answer;

  const std::optional<AxleModel> model = axle_model(asked.axle == "front" ? cart.value->front : cart.value->rear);
  if (!model) {
    answer.faults.push_back({"travel-no-axle", {{"axle", asked.axle}}});
    return answer;
  }
  if (model->live) {
    for (const auto& fault : suspension::check(*model->live)) answer.faults.push_back(point_fault(asked.axle, fault));
    if (answer.faults.empty()) answer.travel = suspension::travel(*model->live, asked.rises, asked.rolls);
    return answer;
  }
  const suspension::IndependentAxle& axle = *model->independent;
  for (const auto& fault : suspension::check(axle.left))
    answer.faults.push_back(point_fault(asked.axle + ".left", fault));
  if (axle.right)
    for (const auto& fault : suspension::check(*axle.right, true))
      answer.faults.push_back(point_fault(asked.axle + ".right", fault));
  if (!answer.faults.empty()) return answer;
  suspension::TravelRequest request;
  request.rises = asked.rises;
  request.rolls = asked.rolls;
  request.racks = asked.racks;
  request.changes = asked.changes;
  request.held = asked.held;
  answer.travel = suspension::travel(axle, request);
  return answer;
}

}  // namespace trammel
