#include "assess/point_uncertainty.h"

#include <map>

#include "job/member.h"

namespace trammel {
namespace {

// Every point below an axle under its path, "left.lower_arm.front_bush"; links by their number.
struct Gather {
  std::map<std::string, Length> found;
  std::string path;

  template <class M>
  void field(const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if constexpr (is_list<M>) {
      for (std::size_t i = 0; i < member.size(); ++i) below(std::string(key.name) + "." + std::to_string(i), member[i]);
    } else if constexpr (std::is_same_v<M, PointValue>) {
      found[path + std::string(key.name)] = member.u.value_or(default_point_u(member.basis));
    } else if constexpr (is_table<M>) {
      below(std::string(key.name), member);
    }
  }
  template <class M>
  void below(const std::string& name, M& member) {
    const std::string was = path;
    path += name + ".";
    fields(*this, member);
    path = was;
  }
};

}  // namespace

Length default_point_u(Basis basis) {
  switch (basis) {
    case Basis::kit:
      return 1.0 * units::mm;
    case Basis::measured:
    case Basis::computed:
      return 2.0 * units::mm;
    case Basis::assumed:
      return 5.0 * units::mm;
  }
  return 5.0 * units::mm;
}

std::vector<Length> point_uncertainties(const Axle& axle, const suspension::AxleMechanism& mechanism) {
  Axle given = axle;
  Gather gather;
  fields(gather, given);
  std::vector<Length> all;
  for (const suspension::Hardpoint& p : mechanism.points()) {
    auto found = gather.found.find(p.name);
    if (found == gather.found.end() && p.name.starts_with("right."))
      found = gather.found.find("left." + p.name.substr(6));
    // A point that the file tells under another name, as a leaf's link, is as sure as what is looked at by eye.
    all.push_back(found == gather.found.end() ? default_point_u(Basis::assumed) : found->second);
  }
  return all;
}

}  // namespace trammel
