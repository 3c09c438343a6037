#include "fastener/ask.h"

#include <algorithm>
#include <vector>

#include "fastener/spellings.h"
#include "fastener/stack_reader.h"
#include "measure/nearest.h"
#include "measure/text.h"

namespace trammel::fastener {
namespace {

using Fault = std::optional<AskError>;

AskError here(const Scanner& s, AskFault fault) { return {fault, {}, s.at(), s.word().size(), {}, {}}; }

AskError of_stack(const StackError& e) { return {AskFault::stack, e.fault, e.at, e.length, e.nearest, {}}; }

AskError unknown(const Scanner& s) {
  std::vector<std::string_view> words{"af",        "wrench", "running",        "plus running", "reused nut",
                                      "new nut",   "found",  "limit",          "passes",       "scale",
                                      "extension", "turns",  "set by measure", "across",       "along",
                                      "planes",    "studs",  "hole",           "drill"};
  for (const auto& x : surface_spellings) words.push_back(x.text);
  for (const auto& x : method_spellings) words.push_back(x.text);
  AskError e = here(s, AskFault::word_unknown);
  e.nearest = nearest(lower(s.word()), words);
  if (e.nearest == lower(s.word())) e.nearest.clear();  // known, and only not here
  return e;
}

// Keeps a value once; a second saying is an error.
template <class T>
Fault keep(const Scanner& before, std::optional<T>& slot, const std::optional<T>& value, AskFault otherwise) {
  if (!value) return here(before, otherwise);
  if (slot) return here(before, AskFault::said_twice);
  slot = value;
  return std::nullopt;
}

Fault keep_torque(Scanner& s, std::optional<Torque>& slot) {
  const Scanner before = s;
  const auto t = s.digit_next() ? s.torque() : std::nullopt;
  if (!t) {
    AskError e = here(before, AskFault::bad_quantity);
    e.choices = accepted_units(Kind::torque);
    return e;
  }
  if (*t <= Torque{}) return here(before, AskFault::not_positive);
  return keep(before, slot, t, AskFault::bad_quantity);
}

// "AF 16" or "AF 16/18": head and nut.
Fault keep_wrench(Scanner& s, Ask& ask) {
  const Scanner before = s;
  const std::string_view word = s.word();
  const auto slash = word.find('/');
  const bool two = slash != std::string_view::npos && word.find_first_not_of("0123456789/.") == std::string_view::npos;
  // A fraction of an inch carries its unit, a pair of wrenches does not: "AF 9/16 in", "AF 16/18".
  if (Scanner inch = s; inch.length()) return keep(before, ask.wrench, s.length(), AskFault::bad_quantity);
  if (!two) return keep(before, ask.wrench, s.length(true), AskFault::bad_quantity);
  Scanner head(word.substr(0, slash)), nut(word.substr(slash + 1));
  s.go_to(s.at() + word.size());
  if (auto e = keep(before, ask.wrench, head.length(true), AskFault::bad_quantity)) return e;
  return keep(before, ask.nut_wrench, nut.length(true), AskFault::bad_quantity);
}

// "K 0.18", or with its spread "K 0.16 to 0.20".
Fault keep_nut_factor(Scanner& s, Ask& ask) {
  const Scanner before = s;
  const auto first = s.number();
  const auto second = first && s.take("to") ? s.number() : first;
  if (!first || !second) return here(before, AskFault::bad_quantity);
  if (*first <= 0.0 || *second < *first) return here(before, AskFault::not_positive);
  if (ask.nut_factor) return here(before, AskFault::said_twice);
  ask.nut_factor = NutFactor{*first, 0.5 * (*first + *second), *second, "stated", reference::Basis::as_published};
  return std::nullopt;
}

// "30/60/85 N·m": the unit stands once.
Fault keep_passes(Scanner& s, Ask& ask) {
  const Scanner before = s;
  if (!ask.passes.empty()) return here(before, AskFault::said_twice);
  std::vector<double> numbers;
  for (;;) {
    Scanner last = s;
    const auto n = s.number();
    if (!n || *n <= 0.0) return here(before, n ? AskFault::not_positive : AskFault::bad_quantity);
    numbers.push_back(*n);
    if (s.peek() == '/') {
      s.go_to(s.at() + 1);
      continue;
    }
    s = last;
    const auto t = s.torque();
    if (!t) return here(before, AskFault::bad_quantity);
    for (const double x : numbers) ask.passes.push_back(x / numbers.back() * *t);
    return std::nullopt;
  }
}

// "40 to 200 N·m".
Fault keep_scale(Scanner& s, Ask& ask) {
  const Scanner before = s;
  const auto least = s.number();
  if (!least || !s.take("to")) return here(before, AskFault::bad_quantity);
  Scanner bare = s;
  const auto most = bare.number();
  const auto t = most ? s.torque() : std::nullopt;
  if (!t) return here(before, AskFault::bad_quantity);
  if (*most <= 0.0 || *least >= *most) return here(before, AskFault::not_positive);
  return keep(before, ask.scale, std::optional(TorqueWrench{*least / *most * *t, *t}), AskFault::bad_quantity);
}

// "60 mm on 400 mm [at 30 deg]".
Fault keep_extension(Scanner& s, Ask& ask) {
  const Scanner before = s;
  const auto added = s.length();
  const auto handle = added && s.take("on") ? s.length() : std::nullopt;
  if (!handle) return here(before, AskFault::bad_quantity);
  std::optional<Angle> angle = Angle{};
  if (s.take("at")) angle = s.angle();
  if (!angle) return here(before, AskFault::bad_quantity);
  if (*handle <= Length{} || *added < Length{} || abs(*angle) > 90.0 * units::degree)
    return here(before, AskFault::not_positive);
  return keep(before, ask.extension, std::optional(Extension{*handle, *added, *angle}), AskFault::bad_quantity);
}

Fault keep_load(Scanner& s, Ask& ask, Force BoltLoad::*part) {
  const Scanner before = s;
  const auto f = s.force();
  if (!f) return here(before, AskFault::bad_quantity);
  if (*f < Force{}) return here(before, AskFault::not_positive);
  if (!ask.load) ask.load = BoltLoad{};
  (*ask.load).*part = *f;
  return std::nullopt;
}

// A whole number from one up, small enough to count.
Fault keep_planes(Scanner& s, int& planes) {
  const Scanner before = s;
  const auto n = s.number();
  if (!n || (*n != 1.0 && *n != 2.0 && *n != 4.0)) return here(before, AskFault::bad_quantity);
  planes = static_cast<int>(*n);
  return std::nullopt;
}

// "studs 4".
Fault keep_studs(Scanner& s, Ask& ask) {
  const Scanner before = s;
  const auto n = s.number();
  if (!n || *n < 3.0 || *n > 12.0 || *n != static_cast<int>(*n)) return here(before, AskFault::bad_quantity);
  return keep(before, ask.studs, std::optional(static_cast<int>(*n)), AskFault::bad_quantity);
}

// "hole 11 mm".
Fault keep_size(Scanner& s, std::optional<Length>& slot) {
  const Scanner before = s;
  const auto l = s.length();
  if (l && *l <= Length{}) return here(before, AskFault::not_positive);
  return keep(before, slot, l, AskFault::bad_quantity);
}

Fault keep_turns(Scanner& s, Ask& ask) {
  const Scanner before = s;
  return keep(before, ask.turns, s.number(), AskFault::bad_quantity);
}

Fault take_ask_word(Scanner& s, Ask& ask) {
  const Scanner before = s;
  if (s.take("af") || s.take("wrench")) return keep_wrench(s, ask);
  if (s.take("plus running")) return ask.on_top_of_running = true, std::nullopt;
  if (s.take("running")) return keep_torque(s, ask.running);
  if (s.take("reused nut")) return ask.nut_reused = true, std::nullopt;
  if (s.take("new nut")) return ask.nut_reused = false, std::nullopt;
  if (s.take("k")) return keep_nut_factor(s, ask);
  if (s.take("limit")) return keep_torque(s, ask.limit);
  if (s.take("passes")) return keep_passes(s, ask);
  if (s.take("scale")) return keep_scale(s, ask);
  if (s.take("extension")) return keep_extension(s, ask);
  if (s.take("turns")) return keep_turns(s, ask);
  if (s.take("hole")) return keep_size(s, ask.hole);
  if (s.take("drill")) return keep_size(s, ask.drill);
  if (s.take("studs")) return keep_studs(s, ask);
  if (s.take("set by measure")) return ask.set_by_measure = true, std::nullopt;
  if (s.take("across")) return keep_load(s, ask, &BoltLoad::across);
  if (s.take("along")) return keep_load(s, ask, &BoltLoad::along);
  if (s.take("planes")) return keep_planes(s, ask.planes);
  if (s.take("found"))
    return keep(before, ask.as_found, take_spelling<Surface>(s, surface_spellings), AskFault::word_unknown);
  if (s.digit_next()) return keep_torque(s, ask.torque);
  // "hand spanner" and "dry zinc" are looked up whole, the longer spelling first.
  if (const auto m = take_spelling<Method>(s, method_spellings))
    return keep(before, ask.method, m, AskFault::word_unknown);
  if (const auto f = take_spelling<Surface>(s, surface_spellings))
    return keep(before, ask.surface, f, AskFault::word_unknown);
  return unknown(s);
}

Fault read_wishes(Scanner s, Ask& ask) {
  while (!s.done()) {
    if (s.peek() == ',' || s.peek() == ';') {
      s.go_to(s.at() + 1);
      continue;
    }
    if (auto e = take_ask_word(s, ask)) return e;
  }
  return std::nullopt;
}

// Whether the fault stands right behind the first piece.
bool first_comma(std::string_view text, const StackError& e) {
  const std::size_t comma = text.find(',');
  return comma < e.at && text.find(',', comma + 1) > e.at;
}

}  // namespace

std::variant<Question, AskError> read_ask(std::string_view text) {
  Question q;
  // A stack up to the semicolon; else, where the text begins with thread and class, the short form.
  const std::size_t stack_end = std::min(text.find(';'), text.size());
  const auto stack = read_stack(text.substr(0, stack_end));
  std::size_t wishes_at = stack_end;
  if (const auto* e = std::get_if<StackError>(&stack)) {
    const bool one_piece = text.substr(0, stack_end).find(',') == std::string_view::npos;
    Scanner head(text.substr(0, stack_end));
    const bool short_form = threaded_part_next(head) && (one_piece || !bolt_word_next(head));
    // "M10x60, hole 10 mm": the hole of this bolt.
    const bool of_the_bolt =
        e->fault == StackFault::belongs_to_piece && threaded_part_next(head) && first_comma(text, *e);
    if ((!short_form && !of_the_bolt) || e->fault == StackFault::class_unknown) return of_stack(*e);
    Bolt bolt;
    if (const auto fault = take_bolt(head, bolt)) return of_stack(*fault);
    q.joint.thread = bolt.thread;
    q.joint.bolt = bolt;
    wishes_at = head.at();
  } else {
    q.joint = std::get<Joint>(stack);
  }
  if (const auto e = read_wishes(Scanner(text, wishes_at), q.ask)) return *e;
  q.in_pounds = lower(text.substr(std::min(wishes_at, text.size()))).find("lb") != std::string::npos;
  if (!q.ask.torque && !q.ask.passes.empty()) q.ask.torque = q.ask.passes.back();
  return q;
}

}  // namespace trammel::fastener
