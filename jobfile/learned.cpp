#include "jobfile/learned.h"

#include <map>

#include "job/job_shape.h"
#include "job/member.h"

namespace trammel {
namespace {

// Points of an axle, and its adjusters' kinds and threads, by path.
struct Flat {
  std::map<std::string, Vector3<Length>> points;
  std::map<std::string, std::string> words;
  std::string path;

  template <class M>
  void field(const Key& key, const M& member) {
    if constexpr (is_optional<M>) {
      if (member) field(key, *member);
    } else if constexpr (is_list<M>) {
      for (const auto& item : member) field(key, item);
    } else if constexpr (std::is_same_v<M, PointValue>) {
      points[within(key)] = member.value;
    } else if constexpr (std::is_same_v<M, Adjuster>) {
      words[within(key)] = member.kind.value + " " + (member.thread ? member.thread->value : "");
    } else if constexpr (std::is_same_v<M, Line> || std::is_same_v<M, Tyre>) {
      // Hoses and tyres move no adjuster.
    } else if constexpr (is_table<M>) {
      const std::string above = path;
      path = within(key);
      walk_fields(*this, member);
      path = above;
    }
  }
  std::string within(const Key& key) const { return (path.empty() ? "" : path + ".") + std::string(key.name); }
};

Flat flat(const Axle& axle) {
  Flat f;
  f.path = "front";
  walk_fields(f, axle);
  return f;
}

bool near(const Vector3<Length>& a, const Vector3<Length>& b) {
  const Vector3<Length> d = a - b;
  return abs(d.x) <= same_within && abs(d.y) <= same_within && abs(d.z) <= same_within;
}

template <class Map, class Same>
std::optional<std::string> first_other(const Map& a, const Map& b, Same same) {
  for (const auto& [path, value] : a) {
    const auto there = b.find(path);
    if (there == b.end() || !same(value, there->second)) return path;
  }
  for (const auto& [path, value] : b)
    if (!a.count(path)) return path;
  return std::nullopt;
}

}  // namespace

std::optional<std::string> first_difference(const Job& job, const Cart& changed, const Job& other,
                                            const Cart& other_changed) {
  if (job.kits.size() != other.kits.size()) return "kits";
  for (std::size_t i = 0; i < job.kits.size(); ++i)
    if (job.kits[i].kit.name.value != other.kits[i].kit.name.value) return "kits";
  if (changed.front.has_value() != other_changed.front.has_value()) return "front";
  if (!changed.front) return std::nullopt;
  if (changed.front->layout.value != other_changed.front->layout.value) return "front.layout";
  const Flat mine = flat(*changed.front), theirs = flat(*other_changed.front);
  if (const auto word = first_other(mine.words, theirs.words, std::equal_to<>())) return word;
  return first_other(mine.points, theirs.points, near);
}

}  // namespace trammel
