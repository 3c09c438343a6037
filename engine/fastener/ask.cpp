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
  std::vector<std::string_view> words{"af", "wrench", "running", "plus running", "reused nut", "new nut", "found"};
  for (const auto& x : surface_spellings) words.push_back(x.text);
  for (const auto& x : method_spellings) words.push_back(x.text);
  AskError e = here(s, AskFault::word_unknown);
  e.nearest = nearest(lower(s.word()), words);
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

Fault take_ask_word(Scanner& s, Ask& ask) {
  const Scanner before = s;
  if (s.take("af") || s.take("wrench")) return keep_wrench(s, ask);
  if (s.take("plus running")) return ask.on_top_of_running = true, std::nullopt;
  if (s.take("running")) return keep_torque(s, ask.running);
  if (s.take("reused nut")) return ask.nut_reused = true, std::nullopt;
  if (s.take("new nut")) return ask.nut_reused = false, std::nullopt;
  if (s.take("k")) return keep_nut_factor(s, ask);
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
    if (!short_form) return of_stack(*e);
    Bolt bolt;
    if (const auto fault = take_bolt(head, bolt)) return of_stack(*fault);
    q.joint.thread = bolt.thread;
    q.joint.bolt = bolt;
    wishes_at = head.at();
  } else {
    q.joint = std::get<Joint>(stack);
  }
  if (const auto e = read_wishes(Scanner(text, wishes_at), q.ask)) return *e;
  return q;
}

}  // namespace trammel::fastener
