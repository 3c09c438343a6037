#include "work/words.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace trammel::work {
namespace {

using Words = std::vector<std::string>;

// Split at spaces, and at dots between words.
Words split(std::string_view text) {
  Words out;
  std::string now;
  for (char c : text) {
    if (c == ' ' || c == '.') {
      if (!now.empty()) out.push_back(std::move(now));
      now.clear();
    } else {
      now += c;
    }
  }
  if (!now.empty()) out.push_back(std::move(now));
  return out;
}

std::string join(const Words& words, std::size_t from, std::size_t to) {
  std::string s;
  for (std::size_t i = from; i < to; ++i) {
    if (i != from) s += ' ';
    s += words[i];
  }
  return s;
}

bool is_number(const std::string& s) {
  return !s.empty() && s.size() <= 4 &&
         std::all_of(s.begin(), s.end(), [](unsigned char c) { return std::isdigit(c); });
}

// Takes one place word into the selector; false where it is none, or speaks twice.
bool take_place(const std::string& w, Selector& s) {
  if ((w == "left" || w == "right") && s.side == Side::none) {
    s.side = w == "left" ? Side::left : Side::right;
  } else if ((w == "front" || w == "rear") && s.end == End::none) {
    s.end = w == "front" ? End::front : End::rear;
  } else if (is_number(w) && s.number == 0 && w != "0") {
    s.number = std::stoi(w);
  } else {
    return false;
  }
  return true;
}

Selector selector_of(const Words& words, const std::vector<std::string>& known) {
  Selector s;
  // The longest known id that the text begins with; what follows narrows it.
  for (std::size_t n = words.size(); n > 0; --n) {
    const std::string id = join(words, 0, n);
    const auto it = std::find_if(known.begin(), known.end(), [&](const std::string& k) {
      const Words parts = split(k);
      return join(parts, 0, parts.size()) == id;
    });
    if (it == known.end()) continue;
    s.id = *it;
    for (std::size_t i = n; i < words.size(); ++i)
      if (!take_place(words[i], s)) {
        if (!s.word.empty()) s.word += ' ';
        s.word += words[i];
      }
    return s;
  }
  std::size_t n = words.size();
  while (n > 1 && take_place(words[n - 1], s)) --n;
  s.id = join(words, 0, n);
  return s;
}

// A state at the end of the words, in one word or two; it is taken off.
std::optional<FastenerState> take_state(Words& words) {
  for (std::size_t n : {std::size_t{2}, std::size_t{1}}) {
    if (words.size() < n) continue;
    if (const auto s = read_fastener_state(join(words, words.size() - n, words.size()))) {
      words.resize(words.size() - n);
      return s;
    }
  }
  return std::nullopt;
}

bool contains(const std::vector<std::string>& list, std::string_view x) {
  return std::find(list.begin(), list.end(), x) != list.end();
}

std::optional<Support> support_of_load(Load load) {
  switch (load) {
    case Load::jacked:
      return Support::jacked;
    case Load::on_stands:
      return Support::on_stands;
    case Load::on_wheels:
      return Support::on_wheels;
    case Load::rolled:
    case Load::driven_capped:
    case Load::released:
      break;
  }
  return std::nullopt;
}

}  // namespace

Selector read_selector(std::string_view text, const std::vector<std::string>& known) {
  return selector_of(split(text), known);
}

Target read_target(std::string_view text, const std::vector<std::string>& known) {
  Words words = split(text);
  const bool fresh = words.size() > 1 && words.back() == "new";
  if (fresh) words.pop_back();
  const auto state = take_state(words);
  return {selector_of(words, known), state, fresh};
}

std::optional<Selector> read_torque_of(std::string_view text, const std::vector<std::string>& known) {
  constexpr std::string_view head = "torque of ";
  if (!text.starts_with(head)) return std::nullopt;
  return read_selector(text.substr(head.size()), known);
}

Remove read_removal(std::string_view text, const std::vector<std::string>& known) {
  Remove out;
  const auto comma = text.find(',');
  if (comma != std::string_view::npos) {
    auto kept = text.substr(comma + 1);
    while (!kept.empty() && kept.front() == ' ') kept.remove_prefix(1);
    out.kept_at = kept;
  }
  Words words = split(text.substr(0, comma));
  if (words.size() > 1 && words.back() == "scrap") {
    out.scrap = true;
    words.pop_back();
  }
  out.part = selector_of(words, known);
  return out;
}

std::optional<ApplyLoad> read_applied_load(std::string_view text) {
  Words words = split(text);
  ApplyLoad out;
  Selector where;
  std::size_t placed = 0;
  while (placed < words.size() && !is_number(words[placed]) && take_place(words[placed], where)) ++placed;
  const auto load = read_load(join(words, placed, words.size()));
  if (!load) return std::nullopt;
  if (placed > 0 && *load > Load::on_wheels) return std::nullopt;  // the whole cart rolls
  out.load = *load;
  out.end = where.end;
  out.side = where.side;
  return out;
}

std::optional<Deed> read_deed(std::string_view text) {
  const std::size_t space = text.find(' ');
  const auto verb = read_verb(text.substr(0, space));
  if (!verb || space == std::string_view::npos) return std::nullopt;
  Deed deed;
  deed.verb = *verb;
  text.remove_prefix(space + 1);
  const std::size_t comma = text.find(',');
  deed.what = text.substr(0, comma);
  if (comma != std::string_view::npos) {
    auto how = text.substr(comma + 1);
    while (!how.empty() && how.front() == ' ') how.remove_prefix(1);
    deed.how = how;
  }
  if (deed.what.empty()) return std::nullopt;
  return deed;
}

std::optional<Sides> read_sides(std::string_view text) {
  if (text == "once") return Sides::once;
  if (text == "each") return Sides::each;
  if (text == "left") return Sides::left;
  if (text == "right") return Sides::right;
  return std::nullopt;
}

std::string words_of(const Selector& s) { return name(Instance{s.id, s.side, s.end, s.number, s.word}); }

std::string words_of(const Need& need) {
  const std::string subject = words_of(need.subject);
  switch (need.kind) {
    case Need::Kind::condition:
      return (need.absent ? "not " : "") + subject;
    case Need::Kind::support: {
      const char* how = need.support == Support::on_wheels ? "on wheels"
                        : need.support == Support::jacked  ? "jacked"
                                                           : "on stands";
      return subject.empty() ? how : subject.substr(1) + " " + how;  // "rear left on stands"
    }
    case Need::Kind::part_on:
      return subject + " on";
    case Need::Kind::part_off:
      return subject + " off";
    case Need::Kind::step_done:
      return subject + " done";
    case Need::Kind::fastener_at_least: {
      std::string state(word(need.least));
      std::replace(state.begin(), state.end(), '_', '-');
      return subject + " " + state;
    }
    case Need::Kind::proof:
      break;
  }
  return subject;
}

std::vector<std::string> fastener_ids(const Procedure& p) {
  std::vector<std::string> out;
  for (const Fastener& f : p.fasteners) out.push_back(f.id);
  return out;
}

std::vector<std::string> part_ids(const Procedure& p) {
  std::vector<std::string> out;
  for (const Part& x : p.parts) out.push_back(x.id);
  return out;
}

Need read_need(std::string_view text, const Procedure& p) {
  Need need;
  if (text.starts_with("not ")) {
    need.subject.id = text.substr(4);
    need.absent = true;
    return need;
  }
  // A support.
  if (const auto load = read_applied_load(text))
    if (const auto support = support_of_load(load->load)) {
      need.kind = Need::Kind::support;
      need.subject.end = load->end;
      need.subject.side = load->side;
      need.support = *support;
      return need;
    }
  // A condition that something sets.
  const auto makes = [&](const Step& s) {
    return contains(s.sets, text) ||
           std::any_of(s.deeds.begin(), s.deeds.end(), [&](const Deed& d) { return condition_of(d) == text; });
  };
  const bool set = std::any_of(p.steps.begin(), p.steps.end(), makes);
  if (set || contains(p.given, text)) {
    need.subject.id = text;
    return need;
  }
  // A part on or off.
  Words words = split(text);
  const auto parts = part_ids(p);
  if (words.size() > 1) {
    const std::string last = words.back();
    const bool on = last == "on" || last == "fitted", off = last == "off" || last == "removed";
    const Selector s = selector_of(Words(words.begin(), words.end() - 1), parts);
    if ((on || off) && contains(parts, s.id)) {
      need.kind = on ? Need::Kind::part_on : Need::Kind::part_off;
      need.subject = s;
      return need;
    }
  }
  // A step.
  const std::string_view id = text.ends_with(" done") ? text.substr(0, text.size() - 5) : text;
  if (std::any_of(p.steps.begin(), p.steps.end(), [&](const Step& s) { return s.id == id; })) {
    need.kind = Need::Kind::step_done;
    need.subject.id = id;
    return need;
  }
  // A fastener in a state.
  const auto fasteners = fastener_ids(p);
  if (const Target t = read_target(text, fasteners); t.state && contains(fasteners, t.fastener.id)) {
    need.kind = Need::Kind::fastener_at_least;
    need.subject = t.fastener;
    need.least = *t.state;
    return need;
  }
  // A proof, else a condition.
  const bool proof =
      std::any_of(p.steps.begin(), p.steps.end(), [&](const Step& s) { return contains(s.proves, text); });
  need.kind = proof ? Need::Kind::proof : Need::Kind::condition;
  need.subject.id = text;
  return need;
}

}  // namespace trammel::work
