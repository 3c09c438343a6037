// Any bytes as a thread, a stack and a one-line question: an answer is a fault inside the text, or a joint that can be
// judged with an upright window.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <iostream>

#include "fastener/ask.h"

namespace {

using namespace trammel::fastener;

void hold(bool law, const char* name, std::string_view text) {
  if (law) return;
  std::cerr << "broken: " << name << "\ntext: " << text << "\n";
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto thread = read_thread(text);
  if (const auto* t = std::get_if<Thread>(&thread))
    hold(std::get<Thread>(read_thread(name(*t))) == *t, "a thread's name reads back", text);

  const auto stack = read_stack(text);
  if (const auto* e = std::get_if<StackError>(&stack))
    hold(e->at <= size && e->length <= size - e->at, "the stack's fault lies inside the text", text);

  const auto asked = read_ask(text);
  if (const auto* e = std::get_if<AskError>(&asked)) {
    hold(e->at <= size && e->length <= size - e->at, "the question's fault lies inside the text", text);
    return 0;
  }
  const auto& q = std::get<Question>(asked);
  const Judgement j = judge(q.joint, q.ask);
  if (j.preload) {
    hold(std::isfinite(j.preload->high.si()), "the window is finite", text);
    hold(j.preload->low <= j.preload->nominal && j.preload->nominal <= j.preload->high, "the window is upright", text);
  }
  if (j.long_form) {
    hold(std::isfinite(j.long_form->high.si()), "the long form's window is finite", text);
    hold(j.long_form->low <= j.long_form->nominal && j.long_form->nominal <= j.long_form->high, "it is upright", text);
  }
  if (j.suggested) hold(std::isfinite(j.suggested->si()) && j.suggested->si() > 0.0, "an offered torque is one", text);
  if (j.wall) hold(std::isfinite(j.wall->si()) && j.wall->si() > 0.0, "a wall bears something", text);
  if (j.setting) hold(std::isfinite(j.setting->si()), "a wrench can be set", text);
  if (j.pivot) hold(j.pivot->together >= 0.0, "a share is not negative", text);
  if (j.length) hold(std::isfinite(j.length->grip.si()), "the grip is finite", text);
  return 0;
}
