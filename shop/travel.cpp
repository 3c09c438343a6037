#include "shop/travel.h"

#include "assess/accessories.h"
#include "assess/fitted_cart.h"
#include "assess/models.h"
#include "assess/point_uncertainty.h"
#include "job/overlay.h"
#include "measure/text.h"
#include "shop/files.h"
#include "shop/open.h"

namespace trammel {
namespace {

std::optional<AxleModel> model_of(const Cart& cart, const std::string& axle) {
  return axle == "front" ? axle_model(cart.front, true) : axle_model(cart.rear, false);
}

}  // namespace

TravelAnswer axle_to_move(const TravelAsked& asked) {
  TravelAnswer answer;
  Loaded<Cart> cart = open_cart(asked.path, asked.before_the_kits);
  answer.diagnostics = std::move(cart.diagnostics);
  if (!cart.value) return answer;

  const std::optional<AxleModel> model = model_of(*cart.value, asked.axle);
  if (!model) {
    answer.faults.push_back({"travel-no-axle", {{"axle", asked.axle}}});
    return answer;
  }
  if (!model->mechanism) {
    answer.faults.push_back({"travel-not-computed", {{"axle", asked.axle}}});
    return answer;
  }
  for (const auto& fault : model->check()) answer.faults.push_back(point_fault(asked.axle, fault));
  if (!answer.faults.empty()) return answer;
  answer.axle = model->mechanism;
  answer.point_u = point_uncertainties(asked.axle == "front" ? *cart.value->front : *cart.value->rear, *answer.axle);

  // A job with its kits on: what to set before the parts go on the cart.
  DiskFiles disk;
  if (asked.before_the_kits || asked.axle != "front" || !answer.axle->steered() ||
      file_kind(disk, asked.path) == "cart")
    return answer;
  const Loaded<Job> job = load_job(disk, asked.path);
  if (!job.value) return answer;
  const auto before = model_of(job.value->cart, asked.axle);
  answer.presets = bench_presets(*job.value, *cart.value, *answer.axle, before ? before->mechanism.get() : nullptr);
  return answer;
}

Job job_to_draw(const TravelAsked& asked) {
  DiskFiles disk;
  Job job;
  if (file_kind(disk, asked.path) != "cart") {
    if (Loaded<Job> read = load_job(disk, asked.path); read.value) job = as_fitted(std::move(*read.value));
    if (asked.before_the_kits) job.kits.clear();
    return job;
  }
  if (Loaded<Cart> cart = load_cart(disk, asked.path); cart.value) job.cart = std::move(*cart.value);
  job.name = job.cart.name;
  return job;
}

EachChange each_change(const TravelAsked& asked) {
  EachChange result;
  DiskFiles disk;
  if (file_kind(disk, asked.path) == "cart") {
    result.faults.push_back({"each-change-of-a-job", {}});
    return result;
  }
  Loaded<Job> job = load_job(disk, asked.path);
  result.diagnostics = std::move(job.diagnostics);
  if (!job.value) return result;
  job.value = as_fitted(std::move(*job.value));

  const auto add = [&](ChangedAxle::What what, const Cart& cart, std::string path, std::string value) {
    const auto model = model_of(cart, asked.axle);
    if (!model) return;
    ChangedAxle row{what, std::move(path), std::move(value), model->mechanism, model->ground()};
    if (row.axle && !row.axle->check().empty()) row.axle = nullptr;
    result.rows.push_back(std::move(row));
  };
  const Cart& stock = job.value->cart;
  add(ChangedAxle::What::stock, stock, {}, {});
  for (const KitUse& use : job.value->kits) {
    for (const Change& change : use.kit.change) {
      if (!change.path.starts_with(asked.axle + ".")) continue;
      const auto alone = trammel::apply(stock, std::span(&change, 1));
      if (!alone.problems.empty()) continue;  // it needs another one first, or is a finding of `check`
      std::string value;
      if (const auto* point = std::get_if<PointValue>(&change.value)) {
        for (const Length x : {point->value.x, point->value.y, point->value.z})
          value += (value.empty() ? "" : " ") + print(Number{Kind::length, x.si(), {}}, {Systems::metric});
      } else if (const auto* length = std::get_if<Valued<Length>>(&change.value)) {
        value = print(number(length->value), {Systems::metric});
      }
      add(ChangedAxle::What::change, alone.cart, change.path, value);
    }
    if (job.value->kits.size() > 1)
      add(ChangedAxle::What::kit, with_kits(stock, std::span(&use, 1)), use.kit.name.value, {});
  }
  add(ChangedAxle::What::all, with_kits(stock, job.value->kits), {}, {});
  if (result.rows.empty()) result.faults.push_back({"travel-no-axle", {{"axle", asked.axle}}});
  return result;
}

}  // namespace trammel
