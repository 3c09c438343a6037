#include "fastener/ask.h"

#include <gtest/gtest.h>

#include <random>

namespace trammel::fastener {
namespace {

Question question(std::string_view text) {
  const auto r = read_ask(text);
  const auto* e = std::get_if<AskError>(&r);
  EXPECT_FALSE(e) << text << " at " << (e ? e->at : 0);
  return e ? Question{} : std::get<Question>(r);
}
AskError error(std::string_view text) {
  const auto r = read_ask(text);
  EXPECT_TRUE(std::holds_alternative<AskError>(r)) << text;
  return std::holds_alternative<AskError>(r) ? std::get<AskError>(r) : AskError{};
}

TEST(ReadAsk, ShortForm) {
  const auto q = question("M10 8.8 50 N·m dry zinc");
  EXPECT_EQ(name(q.joint.thread), "M10");
  EXPECT_EQ(q.joint.bolt->bolt_class, "8.8");
  EXPECT_NEAR(q.ask.torque->si(), 50.0, 1e-12);
  EXPECT_EQ(q.ask.surface, Surface::dry_zinc);
  EXPECT_FALSE(q.ask.wrench || q.ask.method || q.ask.as_found);

  const auto inch = question("3/8-16 grade 5 31 ft lb oiled, AF 9/16 in");
  EXPECT_NEAR(inch.ask.torque->in(units::lbf_ft), 31.0, 1e-9);
  EXPECT_EQ(inch.ask.surface, Surface::light_oil);
  EXPECT_NEAR(inch.ask.wrench->in(units::inch), 0.5625, 1e-12);
  // A finish is not a surface: nothing said about the state leaves it open.
  EXPECT_FALSE(question("M10 8.8 zinc 50 N·m").ask.surface);
}

TEST(ReadAsk, StackAndWishes) {
  const auto q = question(
      "bolt M12x80 8.8, washer, eye 60 mm, prevailing-torque nut 8; 60 N·m; AF 18/19; plus running; running 4 N·m; "
      "found greased; reused nut; torque wrench; K 0.18 to 0.22");
  EXPECT_EQ(q.joint.pieces.size(), 3u);
  EXPECT_NEAR(q.ask.torque->si(), 60.0, 1e-12);
  EXPECT_NEAR(q.ask.wrench->in(units::mm), 18.0, 1e-12);
  EXPECT_NEAR(q.ask.nut_wrench->in(units::mm), 19.0, 1e-12);
  EXPECT_TRUE(q.ask.on_top_of_running && q.ask.nut_reused);
  EXPECT_NEAR(q.ask.running->si(), 4.0, 1e-12);
  EXPECT_EQ(q.ask.as_found, Surface::greased);
  EXPECT_EQ(q.ask.method, Method::torque_wrench);
  EXPECT_NEAR(q.ask.nut_factor->nominal, 0.20, 1e-12);
}

TEST(ReadAsk, ErrorsHaveTheirPlace) {
  struct Row {
    const char* text;
    AskFault fault;
    std::size_t at;
    const char* nearest;
  };
  for (const Row& r : {
           Row{"", AskFault::stack, 0, ""},
           {"M11 8.8 50 N·m", AskFault::stack, 0, "M10"},
           {"bolt M10x40 8.8, wahser, nut; 50 N·m", AskFault::stack, 17, "washer"},
           {"M10 8.8 50", AskFault::bad_quantity, 8, ""},
           {"M10 8.8 50 mm", AskFault::bad_quantity, 8, ""},
           {"M10 8.8 50 lb", AskFault::bad_quantity, 8, ""},
           {"M10 8.8 0 N·m", AskFault::not_positive, 8, ""},
           {"M10 8.8 dry 50 Nm gresed", AskFault::word_unknown, 18, "greased"},
           {"M10 8.8 dry oiled", AskFault::said_twice, 12, ""},
           {"M10 8.8 50 Nm 60 Nm", AskFault::said_twice, 14, ""},
           {"M10 8.8 AF", AskFault::bad_quantity, 10, ""},
           {"M10 8.8 K -1", AskFault::bad_quantity, 10, ""},
       }) {
    const auto e = error(r.text);
    EXPECT_EQ(e.fault, r.fault) << r.text;
    EXPECT_EQ(e.at, r.at) << r.text;
    if (*r.nearest) { EXPECT_EQ(e.nearest, r.nearest) << r.text; }
  }
  EXPECT_FALSE(error("M10 8.8 50").choices.empty());  // the accepted units
}

TEST(ReadAsk, AnyBytesGiveAnAnswer) {
  std::mt19937 random(13);
  const std::string words[] = {"M10",   "8.8",     "50 N·m", "dry",    "zinc",   ";",   ",",  "bolt",
                               "nut",   "AF",      "16",     "16/18",  "K",      "0.2", "to", "oil",
                               "found", "running", "plus",   "washer", "3/8-16", "\xC2"};
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (auto n = random() % 10; n > 0; --n) text += words[random() % std::size(words)] + (random() % 4 ? " " : "");
    const auto r = read_ask(text);
    if (const auto* e = std::get_if<AskError>(&r)) {
      EXPECT_LE(e->at + e->length, text.size()) << text;
    } else {
      const auto& q = std::get<Question>(r);
      const auto j = judge(q.joint, q.ask);
      if (j.preload) { EXPECT_LE(j.preload->low, j.preload->high) << text; }
    }
  }
}

}  // namespace
}  // namespace trammel::fastener
