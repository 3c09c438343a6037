#include "assess/joint_asked.h"

#include <algorithm>

#include "assess/fastener_words.h"

namespace trammel {
namespace {

namespace fs = fastener;

// The kit's own nut factor, in the spread that is published for its surface: saying one number narrows nothing.
fs::NutFactor kits_own(const KitFastener& f, const std::optional<fs::Surface>& surface) {
  const double k = f.nut_factor->value, u = 2.0 * f.nut_factor->u.value_or(0.0);
  const fs::NutFactor known = surface ? fs::nut_factor(*surface) : fs::NutFactor{k, k, k, {}, {}};
  return {std::min(k - u, known.low), k, std::max(k + u, known.high), "the kit's own", reference::Basis::as_published};
}

std::vector<fs::Flag> stops_of(const fs::Judgement& j) {
  std::vector<fs::Flag> stops;
  for (const fs::Flag flag : j.flags)
    if (outcome_of(flag) == Outcome::stop) stops.push_back(flag);
  return stops;
}

// A stand-in must not be the worse joint either, where a kit's own would only be a condition.
std::vector<fs::Flag> stops_of_a_stand_in(const fs::Judgement& j) {
  std::vector<fs::Flag> stops = stops_of(j);
  for (const fs::Flag flag : {fs::Flag::nut_weaker_than_bolt, fs::Flag::plain_nut_on_wheel, fs::Flag::seat_differs})
    if (std::find(j.flags.begin(), j.flags.end(), flag) != j.flags.end() &&
        std::find(stops.begin(), stops.end(), flag) == stops.end())
      stops.push_back(flag);
  return stops;
}

std::string first_word(const std::string& text) { return text.substr(0, text.find(' ')); }
bool has_word(const std::string& text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || text[at - 1] == ' ') && (end == text.size() || text[end] == ' ')) return true;
  }
  return false;
}

}  // namespace

fs::Ask ask_of(const KitFastener& f) {
  fs::Ask a;
  if (f.torque)
    a.torque = f.torque->value;
  else if (!f.passes.empty())
    a.torque = f.passes.back().value;
  if (f.surface) a.surface = fs::read_surface(f.surface->value);
  if (f.nut_factor) a.nut_factor = kits_own(f, a.surface);
  if (f.method) a.method = fs::read_method(f.method->value);
  if (f.across_flats) a.wrench = f.across_flats->value;
  if (f.across_flats_nut) a.nut_wrench = f.across_flats_nut->value;
  a.nut_reused = f.reuse && f.reuse->value == "reuse";
  if (f.torque_limit) a.limit = f.torque_limit->value;
  for (const auto& pass : f.passes) a.passes.push_back(pass.value);
  a.set_by_measure = f.set_by.has_value();
  return a;
}

bool cured_by_torque(fs::Flag flag) {
  using enum fs::Flag;
  switch (flag) {
    case torque_above_proof:
    case looks_like_factor_12:
    case looks_like_factor_1_356:
    case thread_strips:
    case wall_gives_way:
    case sleeve_gives_way:
      return true;
    default:
      return false;
  }
}

bool torque_stop(const std::string& code) {
  if (code == "preload") return true;
  for (int i = 0; i < fs::flag_count; ++i)
    if (const auto flag = static_cast<fs::Flag>(i); cured_by_torque(flag) && flag_code(flag) == code) return true;
  return false;
}

std::string stack_with(const std::string& stack, const std::string& by) {
  std::string text = by;
  if (by.find(',') == std::string::npos) {
    std::vector<std::string> pieces;
    for (std::size_t from = 0; from <= stack.size();) {
      const std::size_t comma = std::min(stack.find(',', from), stack.size());
      const std::size_t begin = std::min(stack.find_first_not_of(' ', from), comma);
      pieces.push_back(stack.substr(begin, comma - begin));
      from = comma + 1;
    }
    // A nut for a nut; else a bolt for the bolt, in the kit's own kind where it is not said.
    const bool nut = has_word(by, "nut");
    const std::string kind = first_word(by);
    const bool said = kind == "bolt" || kind == "screw" || kind == "stud" || kind == "u-bolt";
    const auto place =
        std::find_if(pieces.rbegin(), pieces.rend(), [&](const std::string& p) { return !nut || has_word(p, "nut"); });
    if (place == pieces.rend()) return {};
    if (nut)
      *place = by;
    else
      pieces.front() = said ? by : first_word(pieces.front()) + " " + by;
    text.clear();
    for (const std::string& p : pieces) text += (text.empty() ? "" : ", ") + p;
  }
  return std::holds_alternative<fs::Joint>(fs::read_stack(text)) ? text : std::string();
}

bool Strain::takes() const {
  return of_proof && *of_proof <= 1.0 && std::none_of(stops.begin(), stops.end(), cured_by_torque);
}

std::optional<Strain> strain(const KitFastener& f, const std::string& stack, Torque torque) {
  const auto read = fs::read_stack(stack);
  const auto* joint = std::get_if<fs::Joint>(&read);
  if (!joint) return std::nullopt;
  fs::Ask asked = ask_of(f);
  asked.torque = torque;
  asked.passes.clear();
  // Of a stand-in the kit knows no head.
  if (stack != f.stack.value) asked.wrench.reset(), asked.nut_wrench.reset();
  const fs::Judgement j = fs::judge(*joint, asked);
  Strain s;
  if (j.proof) s.of_proof = j.proof->nominal;
  s.suggested = j.suggested;
  s.stops = stack == f.stack.value ? stops_of(j) : stops_of_a_stand_in(j);
  // What the kit's own says of itself is told there; a torque is held against each.
  const auto own = fs::read_stack(f.stack.value);
  if (const auto* kits = std::get_if<fs::Joint>(&own); kits && stack != f.stack.value) {
    const std::vector<fs::Flag> known = stops_of_a_stand_in(fs::judge(*kits, ask_of(f)));
    std::erase_if(s.stops, [&](fs::Flag flag) {
      return !cured_by_torque(flag) && std::find(known.begin(), known.end(), flag) != known.end();
    });
    // A wheel nut has a seat; what stands in has one too.
    const auto seated = [](const fs::Joint& of) {
      const fs::Nut* nut = fs::clamping_nut(of);
      return nut && nut->kind == fs::NutKind::wheel;
    };
    if (seated(*kits) && !seated(*joint)) s.stops.push_back(fs::Flag::plain_nut_on_wheel);
  }
  return s;
}

}  // namespace trammel
