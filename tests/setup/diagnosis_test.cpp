// Ranked causes from signs and sizes. The patterns are our own figures after common practice (no source): the tests
// hold the logic (which sign and side points where), not the shares.
#include "setup/diagnosis.h"

#include <gtest/gtest.h>

#include "setup/cart.h"

namespace trammel::setup {
namespace {

std::vector<Suspect> suspects_of(Angle left, Angle right, Length left_toe, Length right_toe) {
  AlignmentTask s = two_arm_cart();
  s.adjusters.clear();
  Belief b(s);
  const Reading r =
      exact_reading(s, {left, right, toe_angle(left_toe, s.toe_diameter), toe_angle(right_toe, s.toe_diameter)});
  b.condition(r);
  b.condition(r);
  return diagnose(s, b);
}

double share(const std::vector<Suspect>& all, Cause cause) {
  double sum = 0.0;
  for (const Suspect& s : all)
    if (s.cause == cause) sum += s.share;
  return sum;
}

TEST(Diagnosis, SharesSumToOneAndAreRanked) {
  const auto all = suspects_of(-1.0 * degree, 0.3 * degree, 2.0 * mm, 3.0 * mm);
  double sum = 0.0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    sum += all[i].share;
    if (i) { EXPECT_LE(all[i].share, all[i - 1].share); }
  }
  EXPECT_NEAR(sum, 1.0, 1e-12);
}

TEST(Diagnosis, SignsAndSizesPointWhereTheyShould) {
  // One wheel far out, top out: bent on that side (wear and sag lean in).
  const auto bent = suspects_of(2.5 * degree, 0.0 * degree, 6.0 * mm, 2.25 * mm);
  EXPECT_EQ(bent[0].cause, Cause::bent_part);
  EXPECT_EQ(bent[0].where, Where::left);
  // Both lean in alike: sag before anything one-sided.
  const auto sag = suspects_of(-1.5 * degree, -1.5 * degree, 2.25 * mm, 2.25 * mm);
  EXPECT_EQ(sag[0].cause, Cause::sagged_spring);
  EXPECT_EQ(sag[0].where, Where::both);
  // Both lean out alike: a part of another length.
  EXPECT_EQ(suspects_of(1.6 * degree, 1.6 * degree, 2.25 * mm, 2.25 * mm)[0].cause, Cause::wrong_part);
  // Equal and opposite: changed over.
  EXPECT_EQ(suspects_of(1.5 * degree, -1.5 * degree, 2.25 * mm, 2.25 * mm)[0].cause, Cause::swapped_arms);
  // Toe opposite, cambers well: the rack.
  EXPECT_EQ(suspects_of(0.0 * degree, 0.0 * degree, 14.0 * mm, -9.5 * mm)[0].cause, Cause::rack_not_centred);
  // Leaning in by a little on one side: worn joint likelier than where it leans out.
  EXPECT_GT(share(suspects_of(-0.8 * degree, 0.0 * degree, 1.0 * mm, 2.25 * mm), Cause::worn_joint),
            5.0 * share(suspects_of(0.8 * degree, 0.0 * degree, 1.0 * mm, 2.25 * mm), Cause::worn_joint));
}

TEST(Diagnosis, Mirror) {
  const auto a = suspects_of(-1.3 * degree, 0.2 * degree, 5.0 * mm, 1.0 * mm);
  const auto b = suspects_of(0.2 * degree, -1.3 * degree, 1.0 * mm, 5.0 * mm);
  ASSERT_EQ(a.size(), b.size());
  for (const Suspect& x : a) {
    const Where other = x.where == Where::left ? Where::right : x.where == Where::right ? Where::left : Where::both;
    double found = -1.0;
    for (const Suspect& y : b)
      if (y.cause == x.cause && y.where == other) found = y.share;
    EXPECT_NEAR(found, x.share, 1e-9);
  }
}

}  // namespace
}  // namespace trammel::setup
