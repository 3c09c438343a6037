// Any bytes as a tyre size: a fault inside the text, or a size whose numbers agree with each other.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <iostream>

#include "suspension/tyre/size.h"

using namespace trammel::suspension;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto hold = [&](bool law, const char* name) {
    if (law) return;
    std::cerr << "broken: " << name << "\ntext: " << text << "\n";
    std::abort();
  };
  const auto r = read_tyre(text);
  if (const auto* e = std::get_if<TyreError>(&r)) {
    hold(e->at <= text.size(), "the fault lies inside the text");
    return 0;
  }
  const TyreSize& t = std::get<TyreSize>(r);
  hold(t.overall_diameter > t.rim_diameter, "the rim is smaller than the tyre");
  hold(std::abs(t.section_height().si() - t.aspect * t.section_width.si()) < 1e-12, "aspect is height over width");
  const LoadedRadius loaded = loaded_radius_estimate(t);
  hold(loaded.value > 0.5 * t.rim_diameter && loaded.value < 0.5 * t.overall_diameter,
       "it stands between rim and tread");
  return 0;
}
