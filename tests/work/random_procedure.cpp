#include "work/random_procedure.h"

#include "work/hauler.h"
#include "work/words.h"

namespace trammel::work {
FastenerState any_rung() { return static_cast<FastenerState>(*rc::gen::inRange(0, 9)); }

Procedure random_procedure() {
  Procedure p = hauler();
  p.steps.clear();
  const auto fasteners = fastener_ids(p), parts = part_ids(p);
  const auto selector = [&](const std::vector<std::string>& ids) {
    Selector s;
    s.id = pick(ids);
    s.side = static_cast<Side>(*rc::gen::weightedElement<int>({{6, 0}, {1, 1}, {1, 2}}));
    s.end = static_cast<End>(*rc::gen::weightedElement<int>({{6, 0}, {1, 1}, {1, 2}}));
    return s;
  };
  const int n = *rc::gen::inRange(1, 25);
  for (int i = 0; i < n; ++i) {
    Step s;
    s.id = "s" + std::to_string(i);
    s.sides = static_cast<Sides>(*rc::gen::inRange(0, 4));
    for (int k = *rc::gen::inRange(0, 4); k > 0; --k) switch (*rc::gen::inRange(0, 8)) {
        case 0:
          s.slacken.push_back({selector(fasteners), any_rung()});
          break;
        case 1:
        case 2:
          s.tighten.push_back({selector(fasteners), any_rung(), std::nullopt});
          break;
        case 3:
          s.removes.push_back({selector(parts), *rc::gen::arbitrary<bool>(), {}});
          break;
        case 4:
          s.fits.push_back(selector(parts));
          break;
        case 5:
          s.undoes_torque.push_back(selector(fasteners));
          break;
        case 6:
          s.proves.push_back(pick(std::vector<std::string>{"toe", "settled", "arm height"}));
          break;
        case 7:
          s.loads.push_back({static_cast<Load>(*rc::gen::inRange(0, 6)), static_cast<End>(*rc::gen::inRange(0, 3))});
          break;
      }
    p.steps.push_back(s);
  }
  // Often all is brought to final at the end, so that releases are granted too.
  if (*rc::gen::inRange(0, 4) != 0) {
    Step end;
    end.id = "end";
    end.tools = {"all"};
    for (const auto& f : fasteners) end.tighten.push_back({{f}, FastenerState::final, std::nullopt});
    for (const auto& f : fasteners) end.tighten.push_back({{f}, FastenerState::verified, std::nullopt});
    for (const auto& x : parts) end.fits.push_back({x});
    end.proves = {"toe", "settled", "arm height"};
    end.loads = {{Load::on_wheels, End::none}};
    p.steps.push_back(end);
  }
  return p;
}

}  // namespace trammel::work
