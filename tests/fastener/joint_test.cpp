#include "fastener/joint.h"

#include <gtest/gtest.h>

#include <random>

namespace trammel::fastener {
namespace {

Joint joint(std::string_view text) {
  const auto r = read_stack(text);
  const auto* e = std::get_if<StackError>(&r);
  EXPECT_FALSE(e) << text << " at " << (e ? e->at : 0);
  return e ? Joint{} : std::get<Joint>(r);
}
StackError error(std::string_view text) {
  const auto r = read_stack(text);
  EXPECT_TRUE(std::holds_alternative<StackError>(r)) << text;
  return std::holds_alternative<StackError>(r) ? std::get<StackError>(r) : StackError{};
}

TEST(ReadStack, TappedJoint) {
  const Joint j = joint("bolt M10x40 8.8 zinc, washer, arm 10 mm, knuckle thread 18 mm steel");
  ASSERT_TRUE(j.bolt);
  EXPECT_EQ(name(j.thread), "M10");
  EXPECT_EQ(*j.bolt->length, 40.0 * units::mm);
  EXPECT_EQ(j.bolt->bolt_class, "8.8");
  EXPECT_EQ(j.bolt->finish, Finish::zinc);
  ASSERT_EQ(j.pieces.size(), 3u);
  EXPECT_FALSE(std::get<Washer>(j.pieces[0]).thickness);
  EXPECT_EQ(std::get<Member>(j.pieces[1]).name, "arm");
  EXPECT_EQ(std::get<Member>(j.pieces[1]).thickness, 10.0 * units::mm);
  ASSERT_TRUE(tapped_part(j));
  EXPECT_EQ(tapped_part(j)->name, "knuckle");
  EXPECT_NEAR(tapped_part(j)->depth.in(units::mm), 18.0, 1e-12);
  EXPECT_EQ(tapped_part(j)->material, Material::steel);
  EXPECT_FALSE(tapped_part(j)->blind);
}

TEST(ReadStack, EveryPiece) {
  const Joint j = joint(
      "bolt M12x1.25x80 10.9 black AF 19, washer 2.5 mm, box cross member 40 mm wall 3 mm, sleeve 34 mm, "
      "spring eye 2 1/2 in rubber, prevailing-torque nut 10 AF 18, jam nut");
  EXPECT_EQ(name(j.thread), "M12x1.25");
  EXPECT_EQ(*j.bolt->length, 80.0 * units::mm);
  EXPECT_EQ(*j.bolt->across_flats, 19.0 * units::mm);
  EXPECT_EQ(*std::get<Washer>(j.pieces[0]).thickness, 2.5 * units::mm);
  const auto& box = std::get<Member>(j.pieces[1]);
  EXPECT_EQ(box.name, "cross member");
  EXPECT_EQ(*box.wall, 3.0 * units::mm);
  EXPECT_TRUE(std::get<Member>(j.pieces[2]).sleeve);
  EXPECT_EQ(std::get<Member>(j.pieces[3]).thickness, 63.5 * units::mm);
  EXPECT_EQ(std::get<Member>(j.pieces[3]).material, Material::rubber);
  ASSERT_TRUE(clamping_nut(j) && jam_nut(j));
  EXPECT_EQ(clamping_nut(j)->kind, NutKind::prevailing);
  EXPECT_EQ(clamping_nut(j)->nut_class, "10");
  EXPECT_EQ(jam_nut(j)->kind, NutKind::jam);
}

TEST(ReadStack, OtherThreadedParts) {
  EXPECT_EQ(joint("u-bolt M10 8.8, spring pad 12 mm, nut 8").bolt->kind, BoltKind::u_bolt);
  EXPECT_EQ(joint("stud M10, knuckle 20 mm, castle nut").bolt->kind, BoltKind::stud);
  EXPECT_EQ(joint("screw M6x16 8.8, clip 1.5 mm, frame thread 4 mm steel").bolt->kind, BoltKind::screw);
  EXPECT_EQ(joint("M8x25 8.8, plate 6 mm, nut").bolt->kind, BoltKind::bolt);
  const Joint inch = joint("bolt 3/8-16 x 1 1/2 in grade 5, plate 1/2 in, nut");
  EXPECT_EQ(name(inch.thread), "3/8-16 UNC");
  EXPECT_NEAR(inch.bolt->length->in(units::inch), 1.5, 1e-12);
  EXPECT_EQ(inch.bolt->bolt_class, "grade 5");
  EXPECT_EQ(joint("bolt 1/2 UNF x 50 mm grade 8, plate 20 mm, nut").thread.series, Series::unf);
  const Joint wheel = joint("wheel stud M12x1.5 8.8, disc 6 mm, wheel nut cone 60 deg");
  EXPECT_NEAR(clamping_nut(wheel)->seat->cone->in(units::degree), 60.0, 1e-9);
  const Joint lone = joint("castle nut M10");
  EXPECT_FALSE(lone.bolt);
  EXPECT_EQ(name(lone.thread), "M10");
}

// An error names the piece that cannot be read by its place in the text, and the nearest known word.
TEST(ReadStack, ErrorsHaveTheirPlace) {
  struct Row {
    const char* text;
    StackFault fault;
    std::size_t at;
    const char* nearest;
  };
  for (const Row& r : {
           Row{"", StackFault::empty, 0, ""},
           {"bolt M10x40 8.8,, nut", StackFault::empty_piece, 16, ""},
           {"bolt M10x40 8.8, nut,", StackFault::empty_piece, 21, ""},
           {"arm 10 mm, nut", StackFault::no_threaded_part, 0, ""},
           {"blot M10x40, nut", StackFault::word_unknown, 0, "bolt"},
           {"blot 8 mm with split pin", StackFault::word_unknown, 0, "bolt"},
           {"clevis pin 8 mm with split pin", StackFault::no_threaded_part, 0, ""},
           {"bolt M11x40, nut", StackFault::thread_unknown, 5, "M10"},
           {"bolt M10x2x40, nut", StackFault::thread_unknown, 5, "M10"},
           {"bolt, nut", StackFault::thread_unknown, 4, ""},
           {"bolt M10x40, bolt M8x20", StackFault::second_threaded_part, 13, ""},
           {"bolt M10x40 8.9, nut", StackFault::class_unknown, 12, "8.8"},
           {"bolt M10x40 9.9 zinc, nut", StackFault::class_unknown, 12, "9.8"},
           {"bolt 3/8-16 UNC x 1 in grade 6, nut", StackFault::class_unknown, 23, "grade 5"},
           {"bolt M10x40 8.8 zink, nut", StackFault::word_unknown, 16, "zinc"},
           {"bolt M10x40 8.8, wahser, nut", StackFault::thickness_missing, 17, "washer"},
           {"bolt M10x40 8.8, wahser 2 mm, nut", StackFault::word_unknown, 17, "washer"},
           {"bolt M10x40 8.8, arm 10 mm, frame thred 12 mm steel", StackFault::word_unknown, 34, "thread"},
           {"bolt M10x40 8.8, arm 10 mm, hole 11 mm, nut", StackFault::belongs_to_piece, 28, ""},
           {"bolt M10x40 8.8, nut 8, plate 20 mm", StackFault::behind_the_nut, 24, ""},
           {"bolt M10x40 8.8, arm 10 mm, castel nut 8", StackFault::word_unknown, 28, "castle nut"},
           {"bolt M10x40 8.8, taper, nut", StackFault::thickness_missing, 17, ""},
           {"bolt M10x40 8.8, arm, nut", StackFault::thickness_missing, 17, ""},
           {"bolt M10x40 8.8, arm 10, nut", StackFault::bad_length, 21, ""},
           {"bolt M10x40 8.8, arm 10 kg, nut", StackFault::bad_length, 21, ""},
           {"bolt M10x40 8.8, arm 0 mm, nut", StackFault::not_positive, 21, ""},
           {"bolt M10x0 8.8, nut", StackFault::thread_unknown, 5, "M10x0.75"},
           {"bolt M10x40 8.8, arm 10 mm stel, nut", StackFault::word_unknown, 27, "steel"},
           {"bolt M10x40 8.8, box rail 40 mm wall, nut", StackFault::bad_length, 36, ""},
           {"bolt M10x40, arm 5 mm, knuckle thread 18 mm, arm 3 mm", StackFault::nothing_after_thread, 45, ""},
           {"bolt M10x40, arm ; 10 mm, nut", StackFault::word_unknown, 17, ""},
           {"bolt M10x40, nut 7", StackFault::class_unknown, 17, "8"},
       }) {
    const auto e = error(r.text);
    EXPECT_EQ(e.fault, r.fault) << r.text;
    EXPECT_EQ(e.at, r.at) << r.text;
    if (*r.nearest) { EXPECT_EQ(e.nearest, r.nearest) << r.text; }
  }
}

TEST(ReadStack, AnyBytesGiveAnAnswer) {
  std::mt19937 random(11);
  const std::string words[] = {
      "bolt", "M10x40", "8.8", ",",      " ",      "washer", "arm",  "10 mm", "nut",  "thread",        "steel", "box",
      "wall", "AF",     "x",   "3/8-16", "1/2 in", "u-bolt", "cone", "-",     "\xFF", "9999999999999", ";"};
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (auto n = random() % 10; n > 0; --n) text += words[random() % std::size(words)] + (random() % 2 ? " " : "");
    const auto r = read_stack(text);
    if (const auto* e = std::get_if<StackError>(&r)) {
      EXPECT_LE(e->at, text.size()) << text;
      EXPECT_LE(e->at + e->length, text.size()) << text;
    } else {
      stack_length(std::get<Joint>(r));
    }
  }
}

// ISO 7089 washers and ISO 4032 nuts from memory: 2 + 10 + 12 + 2 mm of grip, 8.4 mm of nut, pitch 1.5 mm.
TEST(StackLength, ThroughJoint) {
  const auto l = stack_length(joint("bolt M10x40 8.8, washer, arm 10 mm, bracket 12 mm, washer, nut 8"));
  ASSERT_TRUE(l);
  EXPECT_NEAR(l->grip.in(units::mm), 26.0, 1e-9);
  EXPECT_NEAR(l->nut_height->in(units::mm), 8.4, 1e-9);
  EXPECT_NEAR(l->protrusion->in(units::mm), 5.6, 1e-9);
  EXPECT_NEAR(l->shortest->in(units::mm), 35.9, 1e-9);
  EXPECT_NEAR(l->longest->in(units::mm), 41.9, 1e-9);
  EXPECT_NEAR(l->engagement->in(units::mm), 8.4, 1e-9);
}

TEST(StackLength, TappedJoint) {
  const auto l = stack_length(joint("bolt M10x30 8.8, washer, arm 10 mm, knuckle thread 25 mm steel blind"));
  ASSERT_TRUE(l);
  EXPECT_NEAR(l->grip.in(units::mm), 12.0, 1e-9);
  EXPECT_NEAR(l->engagement->in(units::mm), 18.0, 1e-9);
  EXPECT_NEAR(l->protrusion->in(units::mm), -7.0, 1e-9);
  EXPECT_NEAR(l->longest->in(units::mm), 37.0, 1e-9);
}

TEST(StackLength, NotComputedWhereSomethingIsMissing) {
  EXPECT_FALSE(stack_length(joint("bolt M10x40 8.8, arm 10 mm")));
  EXPECT_FALSE(stack_length(joint("bolt M22x60 8.8, washer, arm 10 mm, nut")));             // no washer tabled
  EXPECT_FALSE(stack_length(joint("wheel stud M12x1.5, disc 6 mm, wheel nut"))->shortest);  // no nut height
  EXPECT_FALSE(stack_length(joint("bolt M10 8.8, arm 10 mm, nut"))->protrusion);            // no length stated
}

}  // namespace
}  // namespace trammel::fastener
