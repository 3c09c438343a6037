// Entries added at the end of a file: every byte kept, and read back to the last bit (Laws 1 and 2 of splice.h).
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "job/member.h"
#include "jobfile/files_for_tests.h"
#include "jobfile/good_files.h"
#include "jobfile/load.h"
#include "jobfile/splice.h"

namespace trammel {
namespace {

// Random values run from one seed; RC_PARAMS given from outside overrides it.
[[maybe_unused]] const int seeded = setenv("RC_PARAMS", "seed=852 max_success=300", 0);

// Equal in all but place: a second way of comparing, that knows nothing of texts.
struct Flatten {
  std::vector<double> numbers;
  std::vector<std::string> words;
  template <class M>
  void field(const Key& key, const M& m) {
    if constexpr (is_optional<M>) {
      words.push_back(m ? "given" : "none");
      if (m) field(key, *m);
    } else if constexpr (is_valued<M>) {
      numbers.insert(numbers.end(), {si_of(m.value), m.u ? si_of(*m.u) : -1.0, static_cast<double>(m.basis)});
    } else if constexpr (std::is_same_v<M, AdjusterMove>) {
      numbers.insert(numbers.end(), {m.amount, static_cast<double>(m.unit)});
    } else if constexpr (std::is_same_v<M, SquareGap>) {
      numbers.insert(numbers.end(), {m.gap.si(), m.over.si(), static_cast<double>(m.at), m.u ? m.u->si() : -1.0});
    } else if constexpr (std::is_same_v<M, Text>) {
      words.push_back(m.value);
    }
  }
};
bool same(const Event& a, const Event& b) {
  if (a.index() != b.index()) return false;
  Flatten x, y;
  std::visit([&](const auto& e) { walk_fields(x, e); }, a);
  std::visit([&](const auto& e) { walk_fields(y, e); }, b);
  return x.numbers == y.numbers && x.words == y.words;
}

std::vector<Event> events_of(const std::string& text) {
  MapFiles files;
  files.bytes = {{"job.toml", text}, {"cart.toml", front_cart + rear_axle}, {"kits/lift.toml", small_kit}};
  const auto job = load_job(files, "job.toml");
  EXPECT_TRUE(job.value) << render(job.diagnostics);
  return job.value ? job.value->events : std::vector<Event>{};
}

void laws_hold(const std::string& text, const Event& event) {
  const Spliced spliced = append_event(text, event);
  RC_ASSERT(spliced.diagnostics.empty());
  RC_ASSERT(spliced.text.substr(0, text.size()) == text);
  const auto before = events_of(text), after = events_of(spliced.text);
  RC_ASSERT(after.size() == before.size() + 1);
  for (std::size_t i = 0; i < before.size(); ++i) RC_ASSERT(same(before[i], after[i]));
  RC_ASSERT(same(after.back(), event));
}

// A number in a range: now as a person writes it, now with all its bits.
double between(double low, double high) {
  const double parts = *rc::gen::inRange(0, 1 << 20) / static_cast<double>(1 << 20);
  const double x = low + (high - low) * parts;
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      return std::round(x * 1e4) / 1e4;
    case 1:
      return low >= 0 ? std::round(x / 0.0254 * 16) / 16 * 0.0254 : std::round(x * 1e6) / 1e6;
    default:
      return std::ldexp(std::round(std::ldexp(x, 40)), -40);
  }
}
template <class Q>
std::optional<Valued<Q>> maybe(double low, double high) {
  if (*rc::gen::inRange(0, 3) == 0) return std::nullopt;
  Valued<Q> v;
  v.value = from_si<Q>(std::clamp(between(low, high), low, high));
  if (*rc::gen::inRange(0, 2)) v.u = from_si<Q>(std::round(between(1e-4, 1e-2) * 1e6) / 1e6);
  v.basis = *rc::gen::inRange(0, 4) ? Basis::measured : Basis::assumed;
  return v;
}
std::string any_text() {
  static const std::vector<std::string> some = {"T. Ames",    "left \"near\" side", "C:\\tools",  "Gäste ±",
                                                "two\nlines", "tab\there",          "#no remark", "\x01"};
  return *rc::gen::elementOf(some);
}

Reading any_reading() {
  Reading r;
  const auto toe = [](double low, double high) {
    Valued<Length> v = maybe<Length>(low, high).value_or(Valued<Length>{});
    if (v.value.si() == 0) {
      v.value = 0.8 * units::metre;
      v.basis = Basis::measured;
    }
    return v;
  };
  r.toe_front = toe(0.5, 1.2);
  r.toe_rear = toe(0.5, 1.2);
  r.toe_diameter = Valued<Length>{20.0 * units::inch, {}, Basis::measured, {}};
  r.left_camber = maybe<Angle>(-0.1, 0.1);
  r.steering_wheel_angle = maybe<Angle>(-0.5, 0.5);
  if (*rc::gen::inRange(0, 2)) {
    SquareGap gap;
    gap.gap = Length::from_si(std::abs(between(0, 0.02)));
    gap.over = 280.0 * units::mm;
    gap.at = *rc::gen::inRange(0, 2) ? SquareGap::At::top : SquareGap::At::bottom;
    if (*rc::gen::inRange(0, 2)) gap.u = 0.5 * units::mm;
    r.left_camber_gap = gap;
  }
  return r;
}

RC_GTEST_PROP(Splice, AReadingReadsBackEqual, ()) { laws_hold(small_job, any_reading()); }

RC_GTEST_PROP(Splice, AnAdjustmentReadsBackEqual, ()) {
  Adjustment a;
  a.left_upper_arm = AdjusterMove{std::round(between(-20, 20) * 4) / 4, AdjusterMove::Unit::flats, {}};
  a.right_tie_rod = AdjusterMove{std::round(between(-5, 5) * 1e6) / 1e6, AdjusterMove::Unit::turns, {}};
  laws_hold(small_job, a);
}

RC_GTEST_PROP(Splice, SignedStepsAndTorquesReadBackEqual, ()) {
  Signed s;
  s.step.value = "fit-arms";
  s.who.value = any_text();
  s.evidence = Text{any_text(), {}};
  laws_hold(small_job, s);
  TorqueEntry t;
  t.fastener.value = "F3 left front";
  t.torque = maybe<Torque>(1, 120).value_or(Valued<Torque>{50.0 * units::Nm, {}, Basis::measured, {}});
  t.wrench = Text{any_text(), {}};
  laws_hold(small_job, t);
}

TEST(Splice, TheEndOfTheFileMayBeAnything) {
  Adjustment a;
  a.left_tie_rod = AdjusterMove{0.5, AdjusterMove::Unit::turns, {}};
  std::string crlf;
  for (const char c : small_job) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  for (const std::string& text : {small_job + "# last words without an end", small_job + "\n\n\n",
                                  small_job.substr(0, small_job.size() - 1), crlf}) {
    const Spliced spliced = append_adjustment(text, a);
    EXPECT_TRUE(spliced.diagnostics.empty()) << render(spliced.diagnostics);
    EXPECT_EQ(spliced.text.substr(0, text.size()), text);
    EXPECT_TRUE(same(events_of(spliced.text).back(), a));
  }
  const std::string with_crlf = append_adjustment(crlf, a).text;
  for (std::size_t i = with_crlf.find('\n'); i != std::string::npos; i = with_crlf.find('\n', i + 1))
    EXPECT_EQ(with_crlf[i - 1], '\r');
}

TEST(Splice, ReadsAsAPersonWouldWriteIt) {
  Reading r;
  r.toe_front = Valued<Length>{Length::from_si((33 + 9.0 / 16) * 0.0254), {}, Basis::measured, {}};
  r.toe_rear = Valued<Length>{856.5 * units::mm, {}, Basis::measured, {}};
  r.toe_diameter = Valued<Length>{508.0 * units::mm, {}, Basis::measured, {}};
  const std::string text = append_reading("x = 1\n", r).text;
  EXPECT_NE(
      text.find("\n[[reading]]\ntoe_front = \"852.4875 mm\"\ntoe_rear = \"856.5 mm\"\ntoe_diameter = \"508 mm\"\n"),
      std::string::npos)
      << text;
}

TEST(Splice, TheFilesDecimalSignIsKept) {
  Reading r;
  r.left_camber = Valued<Angle>{-0.25 * units::degree, {}, Basis::measured, {}};
  const Spliced spliced = append_reading("decimal_sign = \",\"\n", r);
  EXPECT_NE(spliced.text.find("left_camber = \"-0,25 deg\""), std::string::npos) << spliced.text;
}

TEST(Splice, WhatCannotBeDoneIsRefusedAndNothingIsLost) {
  Reading r;
  r.left_camber = Valued<Angle>{0.25 * units::degree, {}, Basis::measured, {}};
  for (const auto& [text, code] : {std::pair("reading = []\n", "splice-inline"),
                                   std::pair("reading = 3\n", "splice-inline"), std::pair("a = [1,\n", "syntax")}) {
    const Spliced spliced = append_reading(text, r);
    ASSERT_EQ(spliced.diagnostics.size(), 1u);
    EXPECT_EQ(spliced.diagnostics[0].message.code, code);
    EXPECT_EQ(spliced.text, text);
  }
  r.left_camber->value = Angle::from_si(std::nan(""));
  EXPECT_EQ(append_reading("", r).diagnostics.at(0).message.code, "splice-unreadable");
  Signed bad;
  bad.step.value = "x";
  bad.who.value = "\xFF";
  EXPECT_EQ(append_signed("", bad).diagnostics.at(0).message.code, "splice-unreadable");
}

}  // namespace
}  // namespace trammel
