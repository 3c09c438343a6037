#include "fastener/stack_reader.h"

#include <vector>

#include "fastener/spellings.h"
#include "fastener/strength.h"
#include "measure/nearest.h"

namespace trammel::fastener {
namespace {

// No bolt is as short and no pitch as coarse as this: it parts "M10x1.5" from "M10x40".
constexpr double coarsest_pitch_mm = 4.0;

template <class T, std::size_t N>
void add_words(std::vector<std::string_view>& words, const Spelling<T> (&spellings)[N]) {
  for (const auto& s : spellings) words.push_back(s.text);
}

bool metric_next(const Scanner& s) {
  const auto w = s.word();
  return w.size() >= 2 && (w[0] == 'M' || w[0] == 'm') && w[1] >= '0' && w[1] <= '9';
}
bool inch_next(const Scanner& s) {
  const auto w = s.word();
  const auto slash = w.find('/');
  return s.digit_next() && slash != std::string_view::npos && w.find('-', slash) != std::string_view::npos;
}

StackError thread_error(const Scanner& s, std::size_t begin, const ThreadError& e) {
  return {StackFault::thread_unknown, begin, s.since(begin).size(), e.nearest};
}

std::optional<StackError> take_length(Scanner& s, std::optional<Length>& length, bool bare_mm) {
  length = s.length(bare_mm);
  if (!length) return StackError{StackFault::bad_length, s.at(), s.word().size(), {}};
  if (*length <= Length{}) return StackError{StackFault::not_positive, s.at(), s.word().size(), {}};
  return std::nullopt;
}

std::optional<StackError> take_metric(Scanner& s, Thread& thread, std::optional<Length>& length) {
  const std::size_t begin = s.at();
  s.go_to(begin + 1);
  s.number();
  // A first small number after the × is a pitch, any other a length.
  Scanner trial = s;
  if (trial.take_times()) {
    const auto pitch = trial.number();
    if (pitch && *pitch <= coarsest_pitch_mm) s = trial;
  }
  const auto read = read_thread(s.since(begin));
  if (const auto* e = std::get_if<ThreadError>(&read)) return thread_error(s, begin, *e);
  thread = std::get<Thread>(read);
  return s.take_times() ? take_length(s, length, true) : std::nullopt;
}

std::optional<StackError> take_inch(Scanner& s, Thread& thread, std::optional<Length>& length) {
  const std::size_t begin = s.at();
  const auto run = [](std::string_view w, std::string_view allowed) {
    const auto end = w.find_first_not_of(allowed);
    return end == std::string_view::npos ? w.size() : end;
  };
  s.go_to(begin + run(s.word(), "0123456789/-"));
  if (!s.take("unc")) s.take("unf");
  const auto read = read_thread(s.since(begin));
  if (const auto* e = std::get_if<ThreadError>(&read)) return thread_error(s, begin, *e);
  thread = std::get<Thread>(read);
  return s.take_times() ? take_length(s, length, false) : std::nullopt;
}

}  // namespace

StackError unknown_word(const Scanner& s, StackFault fault) {
  std::vector<std::string_view> words{"washer", "box",  "sleeve", "taper", "thread", "wall", "width", "outside",
                                      "hole",   "edge", "drill",  "seat",  "cone",   "ball", "blind"};
  add_words(words, bolt_spellings);
  add_words(words, nut_spellings);
  add_words(words, material_spellings);
  add_words(words, finish_spellings);
  const std::string word = lower(s.word());
  // A word that is known, and only not here, is not what was meant.
  const auto near = nearest(word, words);
  return {fault, s.at(), word.size(), near == word ? std::string() : std::string(near)};
}

std::optional<StackError> unknown_class(Scanner s) {
  const std::size_t begin = s.at();
  const std::string word = lower(s.word());
  const auto digits = [](std::string_view t) {
    return !t.empty() && t.find_first_not_of("0123456789") == std::string_view::npos;
  };
  const std::size_t point = word.find('.');
  const bool metric = point != std::string::npos && point <= 2 && digits(word.substr(0, point)) &&
                      word.size() == point + 2 && digits(word.substr(point + 1));
  const bool grade = s.take("grade") || s.take("gr") || s.take("sae");
  // "M10 9.5 N·m" has a torque there.
  if (!grade && (!metric || s.torque() || s.length())) return std::nullopt;
  if (grade && !s.digit_next()) return std::nullopt;
  s.skip_word();
  const std::string_view said = trimmed(s.since(begin));
  return StackError{StackFault::class_unknown, begin, said.size(), nearest_bolt_class(said)};
}

std::optional<StackError> take_thread(Scanner& s, Thread& thread, std::optional<Length>& length) {
  if (metric_next(s)) return take_metric(s, thread, length);
  if (s.digit_next()) return take_inch(s, thread, length);
  const auto read = read_thread(s.word());
  const auto* e = std::get_if<ThreadError>(&read);
  return StackError{StackFault::thread_unknown, s.at(), s.word().size(), e ? e->nearest : ""};
}

void take_bolt_words(Scanner& s, Bolt& bolt) {
  for (;;) {
    // A class is one word ("8.8") or two ("grade 5").
    const std::size_t begin = s.at();
    Scanner two = s;
    two.skip_word();
    two.skip_word();
    if (auto c = read_bolt_class(s.word()); c && bolt.bolt_class.empty()) {
      bolt.bolt_class = *c;
      s.skip_word();
    } else if (auto c2 = read_bolt_class(two.since(begin)); c2 && bolt.bolt_class.empty()) {
      bolt.bolt_class = *c2;
      s = two;
    } else if (bolt.finish == Finish::not_stated) {
      const auto finish = take_spelling<Finish>(s, finish_spellings);
      if (!finish) return;
      bolt.finish = *finish;
    } else {
      return;
    }
  }
}

bool bolt_word_next(Scanner s) { return take_spelling<BoltKind>(s, bolt_spellings).has_value(); }

bool threaded_part_next(Scanner s) { return metric_next(s) || inch_next(s) || bolt_word_next(s); }

std::optional<StackError> take_bolt(Scanner& s, Bolt& bolt) {
  Scanner wheel = s;
  bolt.of_wheel = wheel.take("wheel");
  bolt.kind = take_spelling<BoltKind>(s, bolt_spellings).value_or(BoltKind::bolt);
  if (const auto e = take_thread(s, bolt.thread, bolt.length)) return e;
  take_bolt_words(s, bolt);
  return std::nullopt;
}

}  // namespace trammel::fastener
