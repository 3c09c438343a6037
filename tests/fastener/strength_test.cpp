#include "fastener/strength.h"

#include <gtest/gtest.h>

#include "fastener/examples.h"
#include "fastener/shear.h"
#include "fastener/worst.h"
#include "reference/iso898_1_classes.h"
#include "reference/iso898_1_proof_loads.h"
#include "reference/iso898_2_nut_proof_loads.h"
#include "reference/sae_j429_grades.h"

namespace trammel::fastener {
namespace {

Thread thread(std::string_view text) { return std::get<Thread>(read_thread(text)); }

// ISO 898-1:2013 Tables 4 to 7 (S01, S02, S03). Loads are printed to three figures from As printed to three: within
// 0.7 % of the unrounded product. Fine pitch: from memory, computed there as here.
TEST(ProofLoad, EveryRowIsAreaTimesStress) {
  Worst proof("proof load Sp As, ISO 898-1"), ultimate("least ultimate load Rm As, ISO 898-1");
  for (const auto& row : reference::iso898_1_proof_loads) {
    const Thread t = thread(row.thread);
    const auto s = strength(row.property_class, t);
    ASSERT_TRUE(s) << row.thread << row.property_class;
    const std::string where = std::string(row.thread) + " " + std::string(row.property_class);
    EXPECT_LT(proof.see((stress_area(t) * s->proof).si(), row.proof_load_n, where), 0.007) << where;
    EXPECT_LT(ultimate.see((stress_area(t) * s->tensile).si(), row.ultimate_n, where), 0.007) << where;
    EXPECT_EQ(s->proof.in(units::MPa), row.proof_mpa);
    EXPECT_EQ(s->tensile.in(units::MPa), row.rm_min_mpa);
  }
}

TEST(ProofLoad, CoarseIsThePrintedNumberFineIsComputed) {
  const auto coarse = proof_load("8.8", thread("M10"));
  ASSERT_TRUE(coarse);
  EXPECT_EQ(coarse->value.si(), 33700.0);
  EXPECT_EQ(coarse->basis, Basis::as_published);
  const auto fine = proof_load("8.8", thread("M10x1.25"));
  ASSERT_TRUE(fine);
  EXPECT_NEAR(fine->value.si(), 35500.0, 50.0);
  EXPECT_EQ(fine->basis, Basis::derived);
  EXPECT_FALSE(coarse->source.empty() || fine->source.empty());
  EXPECT_TRUE(proof_load("9.8", thread("M10"))->single_source);
  EXPECT_FALSE(coarse->single_source);
  EXPECT_NEAR(breaking_load("10.9", thread("M10"))->value.si(), 60300.0, 1.0);
}

// ISO 898-1: class 8.8 is two materials, parted at M16.
TEST(Strength, Class88IsSplitAtM16) {
  EXPECT_NEAR(strength("8.8", thread("M16"))->proof.in(units::MPa), 580.0, 1e-9);
  EXPECT_NEAR(strength("8.8", thread("M18"))->proof.in(units::MPa), 600.0, 1e-9);
  EXPECT_TRUE(strength("9.8", thread("M16")));
  EXPECT_FALSE(strength("9.8", thread("M18")));
}

// SAE J429 as in Shigley, 9th ed., Table 8-9.
TEST(Strength, SaeGradesBySize) {
  for (const auto& row : reference::sae_j429_grades)
    EXPECT_NEAR(row.proof_ksi * 6.894757, row.proof_mpa, 0.5) << row.grade;
  EXPECT_NEAR(strength("grade 2", thread("3/4-10"))->proof.in(units::psi), 55000.0, 1e-6);
  EXPECT_NEAR(strength("grade 5", thread("1/2-13"))->proof.in(units::psi), 85000.0, 1e-6);
  EXPECT_NEAR(strength("grade 8", thread("1/2-13"))->yield.in(units::psi), 130000.0, 1e-6);
  EXPECT_FALSE(strength("grade 5", thread("M10")));
  EXPECT_FALSE(strength("8.8", thread("3/8-16")));
}

// W25, Naval Ships' Technical Manual ch. 075 (S39): 1/4-20 grade 8, 0.0318 in2 x 120 000 psi = 3816 lb.
TEST(ProofLoad, NavalExample) {
  Worst worst("proof load, NSTM ch. 075");
  const auto load = proof_load("grade 8", thread("1/4-20"));
  ASSERT_TRUE(load);
  EXPECT_LT(worst.see(load->value.in(units::lbf), 3816.0, "W25"), 0.002);
}

// ISO 898-2 nut proof loads (S05) and hot-dip galvanized nuts (S57, ISO 10684).
TEST(NutProofLoad, EveryRow) {
  for (const auto& row : reference::iso898_2_nut_proof_loads) {
    const auto load = nut_proof_load(row.nut_class.substr(0, row.nut_class.find('/')), thread(row.thread));
    ASSERT_TRUE(load) << row.thread << row.nut_class;
    EXPECT_EQ(load->value.si(), row.proof_load_n);
    EXPECT_TRUE(load->single_source);
  }
  EXPECT_FALSE(nut_proof_load("8", thread("M10x1.25")));  // the table read holds coarse threads only
  EXPECT_LT(nut_proof_load("8Z", thread("M8"))->value, nut_proof_load("8", thread("M8"))->value);
}

// ISO 898-2: a nut of class 8, 10 or 12 holds the bolt's proof load of its class.
TEST(NutProofLoad, HoldsTheBoltOfItsClass) {
  for (std::string_view size : {"M5", "M6", "M8", "M10", "M12", "M14", "M16"})
    for (const auto& [nut, bolt] : {std::pair{"8", "8.8"}, {"10", "10.9"}, {"12", "12.9"}})
      EXPECT_GT(nut_proof_load(nut, thread(size))->value, proof_load(bolt, thread(size))->value) << size << nut;
}

TEST(ReadClass, Spellings) {
  EXPECT_EQ(read_bolt_class("8.8"), "8.8");
  EXPECT_EQ(read_bolt_class("class 10.9"), "10.9");
  EXPECT_EQ(read_bolt_class("Grade 5"), "grade 5");
  EXPECT_EQ(read_bolt_class("gr8"), "grade 8");
  EXPECT_EQ(read_bolt_class("SAE 2"), "grade 2");
  EXPECT_FALSE(read_bolt_class("8"));
  EXPECT_FALSE(read_bolt_class("grade 9"));
  EXPECT_EQ(read_nut_class("class 8"), "8");
  EXPECT_EQ(read_nut_class("8z"), "8Z");
  EXPECT_FALSE(read_nut_class("7"));
}

// W33: EN 1993-1-8 Table 3.4, formula and factors from memory.
TEST(Shear, EurocodeFromMemory) {
  Worst worst("shear resistance, EN 1993-1-8 Table 3.4 (from memory)");
  struct Row {
    const char *size, *c;
    double kn;
  };
  for (const Row& r : {Row{"M10", "8.8", 22.3},
                       {"M12", "8.8", 32.4},
                       {"M16", "8.8", 60.3},
                       {"M10", "10.9", 23.2},
                       {"M12", "10.9", 33.7},
                       {"M16", "10.9", 62.8}})
    EXPECT_LT(worst.see(shear_resistance(r.c, thread(r.size))->in(units::kN), r.kn, r.size), 0.003) << r.size << r.c;
  EXPECT_FALSE(shear_resistance("12.9", thread("M10")));
}

// W09, Shigley solutions manual problem 8-40 (S44): Ssy 53.08 kpsi, shear of two 3/8 in shanks n = 2.93.
TEST(Shear, ShigleyProblem) {
  const Pressure yield = shear_yield(92000.0 * units::psi);
  EXPECT_NEAR(yield.in(units::psi), 53084.0, 1.0);
  const Length d = 0.375 * units::inch;
  const Pressure tau = 4000.0 * units::lbf / (2.0 * 0.7853981634 * d * d);
  EXPECT_NEAR(yield / tau, 2.93, 0.005);
}

// W12, NASA TM-106943 eq. 56.
TEST(Shear, WithTension) {
  EXPECT_DOUBLE_EQ(tension_with_shear(1.0, 0.0), 1.0);
  EXPECT_DOUBLE_EQ(tension_with_shear(0.0, 1.0), 1.0);
  EXPECT_NEAR(tension_with_shear(0.6, 0.8), 0.36 + 0.512, 1e-12);
}

}  // namespace
}  // namespace trammel::fastener
