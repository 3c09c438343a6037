#include "assess/tyres.h"

#include "assess/context.h"
#include "reference/tyre_load_index.h"
#include "reference/tyre_speed_symbol.h"
#include "suspension/tyre/size.h"

namespace trammel {
namespace {

// A tyre as made may be a little larger than its size says. common practice, no source.
constexpr double size_tolerance = 0.01;

}  // namespace

std::optional<TyreModel> tyre_model(const std::optional<Axle>& axle, const std::string& axle_name) {
  if (!axle || !axle->tyre) return std::nullopt;
  const Tyre& tyre = *axle->tyre;
  const auto read = suspension::read_tyre(tyre.size.value);
  const auto* size = std::get_if<suspension::TyreSize>(&read);
  if (!size && !(tyre.diameter && tyre.width)) return std::nullopt;
  TyreModel m;
  const std::string path = axle_name + ".tyre.";
  if (tyre.diameter) {
    m.radius = 0.5 * tyre.diameter->value;
    m.u = 0.5 * tyre.diameter->u.value_or(Length{});
    m.inputs.push_back(input(path + "diameter", *tyre.diameter));
  } else {
    m.radius = 0.5 * size->overall_diameter;
    m.u = size_tolerance * m.radius;
    m.inputs.push_back({path + "size", number(size->overall_diameter), Basis::kit, tyre.size.place});
  }
  if (tyre.width) {
    m.width = tyre.width->value;
    m.inputs.push_back(input(path + "width", *tyre.width));
  } else {
    m.width = size->section_width;
  }
  return m;
}

std::optional<TyreLimit> tyre_limit(const std::optional<Axle>& axle, const std::string& axle_name) {
  if (!axle || !axle->tyre) return std::nullopt;
  const Tyre& tyre = *axle->tyre;
  const std::string path = axle_name + ".tyre.";
  TyreLimit limit;
  limit.rating.up_to = Speed::from_si(1e9);

  // The load: from the sidewall's own figure, else from its index.
  if (tyre.max_load) {
    limit.rating.load = tyre.max_load->value;
    limit.source = "marked on the sidewall";
    limit.inputs.push_back(input(path + "max_load", *tyre.max_load));
  } else if (tyre.load_index) {
    for (const auto& row : reference::tyre_load_index)
      if (row.load_index == tyre.load_index->value) {
        limit.rating.load = row.load_kg * units::kg;
        limit.source = "ISO 4000-1 / ETRTO load index table";
      }
    if (limit.source.empty()) return std::nullopt;
    limit.inputs.push_back(
        {path + "load_index", number(static_cast<double>(tyre.load_index->value)), Basis::kit, tyre.load_index->place});
  } else {
    return std::nullopt;
  }

  if (tyre.speed_symbol)
    for (const auto& row : reference::tyre_speed_symbol)
      if (row.symbol == tyre.speed_symbol->value) limit.rating.up_to = row.speed_kmh * units::km_per_h;
  return limit;
}

}  // namespace trammel
