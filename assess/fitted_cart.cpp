#include "assess/fitted_cart.h"

#include "assess/accessories.h"
#include "job/overlay.h"

namespace trammel {

Cart with_kits(Cart cart, std::span<const KitUse> kits) {
  for (const KitUse& use : kits) cart = trammel::apply(cart, use.kit.change).cart;
  return cart;
}

Cart fitted_cart(const Job& job) { return with_kits(job.cart, as_fitted(job).kits); }

}  // namespace trammel
