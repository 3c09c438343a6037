// The booklet: a kit that was just begun reads and prints as it stands, in both languages, inside its margins.
#include <gtest/gtest.h>

#include <iostream>

#include "assess/assess.h"
#include "jobfile/files_for_tests.h"
#include "jobfile/load.h"
#include "messages/catalogue.h"
#include "sheets/invented_job.h"
#include "sheets/layout.h"
#include "sheets/words.h"
#include "shop/open.h"
#include "work/deed.h"

namespace trammel::sheets {
namespace {

Job begun_kit(const std::string& language) {
  MapFiles files;
  std::string text = help_text(Message{"new-kit-file", {{"name", std::string("Quay kit")}}});
  const auto at = text.find("language = \"en\"");
  EXPECT_NE(at, std::string::npos);
  text.replace(at, 15, "language = \"" + language + "\"");
  files.bytes["kit.toml"] = text;
  const Loaded<Kit> kit = load_kit(files, "kit.toml");
  for (const Diagnostic& d : kit.diagnostics) ADD_FAILURE() << d.place.line << ": " << d.message.code;
  return kit.value ? job_of_kit(*kit.value) : Job{};
}

// What `trammel new kit` writes has no fault in its file and none in its steps; a torque is asked for and not made up.
TEST(NewKit, ReadsAndWalksAsItStands) {
  const Job job = begun_kit("en");
  ASSERT_EQ(job.kits.size(), 1u);
  EXPECT_EQ(job.name.value, "Quay kit");
  const Assessment a = assess_kit(job);
  bool torque_asked_for = false;
  for (const Finding& f : a.findings) {
    EXPECT_NE(f.outcome, Outcome::stop) << word(f.message);
    torque_asked_for |= f.message.code == "torque-missing";
  }
  EXPECT_TRUE(torque_asked_for);
  for (const StepLine& s : a.steps) EXPECT_TRUE(s.faults.empty()) << s.id;
  EXPECT_EQ(a.steps.size(), 4u);
}

double worst_outside(const Job& job, const Assessment& a, Paper paper, int& pages) {
  double worst = 0;
  SheetOptions options;
  options.paper = paper;
  lay_out_booklet(job, a, options, [&](const Book& book) {
    const Box in = book.inside_margins();
    pages = book.pages();
    for (int page = 0; page < book.pages(); ++page) {
      std::vector<Box> texts;
      const Box ink = book.ink(page, &texts);
      EXPECT_FALSE(texts.empty());
      worst = std::max({worst, in.x - ink.x, in.y - ink.y, ink.x + ink.w - in.x - in.w, ink.y + ink.h - in.y - in.h});
    }
  });
  return worst;
}

TEST(Booklet, StaysInsideItsMarginsInBothLanguagesAndOnBothPapers) {
  for (const char* language : {"en", "de"})
    for (const Paper paper : {Paper::a4, Paper::letter}) {
      int pages = 0;
      const Job job = begun_kit(language);
      const double outside = worst_outside(job, assess_kit(job), paper, pages);
      std::cout << "booklet " << language << ": " << pages << " pages, worst outside " << outside << " pt\n";
      EXPECT_LE(outside, 1.0);
      EXPECT_GE(pages, 3);
      const double big = worst_outside(invented_job(), invented_assessment(40, false), paper, pages);
      EXPECT_LE(big, 1.0);
    }
}

// A kit alone, with its accessories, work, repeats and what may be left out.
TEST(Booklet, OfAKitOfFullSizeStaysInsideItsMargins) {
  const OpenedJob kit = open_kit_or_job(TRAMMEL_SOURCE_DIR "/examples/orchard-cart/bough-kit.toml");
  ASSERT_TRUE(kit.assessment);
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    int pages = 0;
    const double outside = worst_outside(*kit.file.value, *kit.assessment, paper, pages);
    std::cout << "booklet of the bough kit: " << pages << " pages, worst outside " << outside << " pt\n";
    EXPECT_LE(outside, 1.0);
  }
}

// A translation has what its author needs; what it does not have stays English.
TEST(Languages, FallBackToEnglish) {
  EXPECT_EQ(word_in("de", Message{"booklet-mat", {}}), "Teilematte");
  EXPECT_EQ(word_in("en", Message{"booklet-mat", {}}), "Parts mat");
  // What only the screen says has no German.
  EXPECT_EQ(word_in("de", Message{"study-column-cart", {}}), word(Message{"study-column-cart", {}}));
  EXPECT_EQ(word_in("de", Message{"booklet-page", {{"page", std::string("2")}, {"pages", std::string("9")}}}),
            "Seite 2 von 9");
}

// The same kit gives the same bytes, and other words in another language.
TEST(Booklet, IsTheSameEachTimeAndSpeaksItsLanguage) {
  const Job en = begun_kit("en"), de = begun_kit("de");
  const Sheet one = draw_booklet(en, assess_kit(en)), again = draw_booklet(en, assess_kit(en));
  EXPECT_EQ(one.pdf, again.pdf);
  EXPECT_NE(one.pdf, draw_booklet(de, assess_kit(de)).pdf);
}

// Every verb of `work` has its words in both languages; what and how stay the author's.
TEST(Booklet, SaysDeedsInItsLanguage) {
  SheetOptions english, german;
  german.language = "de";
  for (const std::string_view verb : work::verb_words) {
    const std::string text = std::string(verb) + " Achse, am Sattel";
    EXPECT_EQ(Words(english).deeds({text}).front(), text);
    const std::string said = Words(german).deeds({text}).front();
    EXPECT_TRUE(said.starts_with("Achse ") && said.ends_with(", am Sattel")) << said;
  }
  EXPECT_EQ(Words(german).deeds({"strap Achse"}).front(), "Achse festgurten");
  EXPECT_EQ(Words(german).deeds({"wobble Achse"}).front(), "wobble Achse");
}

}  // namespace
}  // namespace trammel::sheets
