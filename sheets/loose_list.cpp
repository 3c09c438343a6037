#include "sheets/loose_list.h"

#include <algorithm>
#include <array>

#include "sheets/cart_drawing.h"

namespace trammel::sheets {
namespace {

// Loads in the order in which they come on the cart.
int rank_of(std::string load) {
  constexpr std::array<std::string_view, 7> order = {"nothing", "jacked", "on stands", "on wheels",
                                                     "rolled",  "driven", "released"};
  std::replace(load.begin(), load.end(), '_', ' ');
  const auto at = std::find(order.begin(), order.end(), load);
  return at == order.end() ? -1 : static_cast<int>(at - order.begin());
}

// Instances of one fastener that are in one state and may bear the same.
struct Group {
  std::string id, state, at, may_bear;
  std::vector<std::string> instances;
};

std::vector<Group> grouped(const std::vector<LooseItem>& loose) {
  std::vector<Group> groups;
  for (const LooseItem& item : loose) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.id == item.id && g.state == item.state && g.may_bear == item.may_bear;
    });
    if (same == groups.end())
      groups.push_back({item.id, item.state, item.at, item.may_bear, {item.instance}});
    else
      same->instances.push_back(item.instance);
  }
  // What may bear least comes first.
  std::stable_sort(groups.begin(), groups.end(),
                   [](const Group& a, const Group& b) { return rank_of(a.may_bear) < rank_of(b.may_bear); });
  return groups;
}

bool moved_by(const StepLine* step, const std::string& id) {
  if (!step) return false;
  const auto has = [&](const std::vector<FastenerMove>& moves) {
    return std::any_of(moves.begin(), moves.end(), [&](const FastenerMove& m) { return m.id == id; });
  };
  return has(step->tighten) || has(step->slacken);
}

double draw_group(Canvas& canvas, const Given& given, const Box& room, const Group& g, bool now) {
  const Words& words = given.words;
  const std::string where = where_of(given.assessment, words, g.id, g.instances);
  const std::string first = bold(escape(g.id)) + (where.empty() ? "" : "  " + escape(where)) + "  " +
                            (now ? "<u>" : "") + escape(words.of("state", g.state)) + (now ? "</u>" : "");
  draw_bolt_state(canvas, {room.x, room.y - 0.5 * mm}, 4.2 * mm, g.state);
  const double x = room.x + 7 * mm, w = room.w - 7 * mm;
  const double y = room.y + canvas.text({x, room.y}, w, first + "  " + small(escape(g.at)), {8.2});
  return std::max(y - room.y, 4.4 * mm) + 0.5 * mm;
}

}  // namespace

double draw_loose_list(Canvas& canvas, const Given& given, const Box& room, const Unfinished& unfinished,
                       const StepLine* step) {
  const Words& words = given.words;
  const std::vector<LooseItem>& loose = unfinished.loose;
  double y = room.y;
  const bool later = unfinished.up && rank_of(unfinished.may_be) > rank_of("on stands");
  const auto draw_most = [&](double width) {
    return canvas.text(
        {room.x, y + 0.5 * mm}, width,
        given.line(later ? "sheet-loose-down" : "sheet-loose-most", {{"load", words.of("load", unfinished.may_be)}}),
        {8.5});
  };
  const auto draw_off = [&] {
    if (unfinished.off.empty()) return 0.0;
    return canvas.text({room.x, y}, room.w, given.line("sheet-loose-off", {{"parts", joined(unfinished.off, ", ")}}),
                       {7.8}) +
           0.8 * mm;
  };
  if (loose.empty()) {
    y += canvas.text({room.x, y}, room.w, given.line("sheet-loose-none"), {7.6, true});
    if (!unfinished.off.empty()) {
      y += draw_most(room.w) + 1 * mm;
      y += draw_off();
    }
    return y - room.y;
  }

  // How many, where they sit, and the most that the cart may do with them so.
  std::map<Spot, int> counts;
  for (const LooseItem& item : loose) ++counts[spot_of(given.assessment, item.id, item.instance)];
  draw_counts(canvas, {room.x + room.w - 24 * mm, y}, counts);
  const double beside = room.w - 26 * mm;
  y += canvas.text({room.x, y}, beside, given.line("sheet-loose-count", {{"count", std::to_string(loose.size())}}),
                   {9.5, true});
  y += draw_most(beside);
  y = std::max(y + 1 * mm, room.y + 14 * mm);
  y += draw_off();

  // Gathered under what they may bear, where that differs.
  const std::vector<Group> groups = grouped(loose);
  const bool alike =
      std::all_of(groups.begin(), groups.end(), [&](const Group& g) { return g.may_bear == groups.front().may_bear; });
  std::string under;
  bool first = true;
  for (const Group& group : groups) {
    if (!(alike && rank_of(group.may_bear) >= 0) && (first || group.may_bear != under)) {
      y += first ? 0 : 0.8 * mm;
      y += canvas.text({room.x, y}, room.w,
                       given.line("sheet-loose-bears", {{"load", words.of("load", group.may_bear)}}), {7.2, true});
      canvas.line({room.x, y + 0.3 * mm}, {room.x + room.w, y + 0.3 * mm}, {0.35});
      y += 1 * mm;
      under = group.may_bear;
      first = false;
    }
    y += draw_group(canvas, given, {room.x, y, room.w, 0}, group, moved_by(step, group.id));
  }
  return y - room.y;
}

}  // namespace trammel::sheets
