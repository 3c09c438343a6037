// The drawing half of the command line, started by `trammel sheet` and `trammel travel --draw`: it alone is linked to
// the fonts.
#include <fmt/core.h>

#include <algorithm>
#include <exception>
#include <filesystem>

#include "assess/assess.h"
#include "cli/arguments.h"
#include "cli/json.h"
#include "cli/words.h"
#include "sheets/drawing.h"
#include "sheets/sheets.h"
#include "shop/open.h"
#include "shop/travel.h"

namespace {

using namespace trammel;

int draw(const cli::Asked& asked) {
  const OpenedJob opened = asked.booklet ? open_kit_or_job(asked.path) : open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  SheetOptions options;
  options.paper = asked.letter ? Paper::letter : Paper::a4;
  options.print.systems = asked.systems;
  options.language = asked.language;
  if (asked.pictures) options.png_dots_per_inch = 100.0;

  const std::string folder = asked.folder.empty() ? "." : asked.folder;
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) {
    fmt::print(stderr, "{}\n", cli::say("sheet-not-written", {{"path", folder}, {"why", failed.message()}}));
    return 2;
  }
  cli::Json written = cli::Json::array();
  const auto write = [&](const std::string& name, const std::string& bytes) {
    const std::string path = (std::filesystem::path(folder) / name).string();
    const std::string why = write_file(path, bytes);
    if (!why.empty()) fmt::print(stderr, "{}\n", cli::say("sheet-not-written", {{"path", path}, {"why", why}}));
    return why.empty();
  };
  bool all = true;
  const std::vector<Sheet> sheets = asked.booklet
                                        ? std::vector{draw_booklet(*opened.file.value, *opened.assessment, options)}
                                        : draw_sheets(*opened.file.value, *opened.assessment, options);
  const auto wanted = [&](const Sheet& sheet) { return asked.only.empty() || sheet.name == asked.only; };
  if (std::none_of(sheets.begin(), sheets.end(), wanted)) {
    std::string names;
    for (const Sheet& sheet : sheets) names += (names.empty() ? "" : ", ") + sheet.name;
    fmt::print(stderr, "{}\n", cli::say("sheet-no-such", {{"name", asked.only}, {"names", names}}));
    return 2;
  }
  for (const Sheet& sheet : sheets) {
    if (!wanted(sheet)) continue;
    const std::string name = short_name(asked.path) + "-" + sheet.name;
    all &= write(name + ".pdf", sheet.pdf);
    for (std::size_t i = 0; i < sheet.png.size(); ++i)
      all &= write(name + "-" + std::to_string(i + 1) + ".png", sheet.png[i]);
    if (asked.json)
      written.push_back({{"sheet", sheet.name},
                         {"file", (std::filesystem::path(folder) / (name + ".pdf")).string()},
                         {"pages", sheet.pages}});
    else
      fmt::print("{}\n",
                 cli::say("sheet-written", {{"path", (std::filesystem::path(folder) / (name + ".pdf")).string()},
                                            {"pages", std::to_string(sheet.pages)}}));
  }
  if (asked.json) cli::print_json(written);
  if (!all) return 2;
  return opened.assessment->verdict == Verdict::no_go ? 1 : 0;
}

// `trammel travel --draw`: one axle's pictures.
int draw_travel(const cli::Asked& asked) {
  const TravelAnswer answer = axle_to_move({asked.path, asked.axle, asked.stock});
  fmt::print(stderr, "{}", render(answer.diagnostics));
  for (const Message& m : answer.faults) fmt::print(stderr, "{}: {}\n", asked.path, word(m));
  if (!answer.axle) return 2;
  const Job job = job_to_draw({asked.path, asked.axle, asked.stock});
  SheetOptions options;
  options.paper = asked.letter ? Paper::letter : Paper::a4;
  options.print.systems = asked.systems;
  options.language = asked.language;
  const Drawing drawing =
      draw_axle(job, assess(job), {asked.axle, asked.draw.ends_with(".svg"), asked.curve, asked.map}, options);
  if (drawing.why_not) {
    fmt::print(stderr, "{}: {}\n", asked.path, word(*drawing.why_not));
    return 2;
  }
  const std::string why = write_file(asked.draw, drawing.bytes);
  if (!why.empty()) {
    fmt::print(stderr, "{}\n", cli::say("sheet-not-written", {{"path", asked.draw}, {"why", why}}));
    return 2;
  }
  if (asked.json)
    cli::print_json({{"axle", asked.axle}, {"file", asked.draw}, {"pages", drawing.pages}});
  else
    fmt::print("{}\n", cli::say("sheet-written", {{"path", asked.draw}, {"pages", std::to_string(drawing.pages)}}));
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    const cli::Arguments arguments = cli::read_arguments(argc, argv);
    if (arguments.asked) return arguments.asked->draw.empty() ? draw(*arguments.asked) : draw_travel(*arguments.asked);
    fmt::print("{}", arguments.answered.out);
    fmt::print(stderr, "{}", arguments.answered.err);
    return arguments.answered.status;
  } catch (const std::exception& e) {
    fmt::print(stderr, "{}\n", cli::say("our-fault", {{"what", std::string(e.what())}}));
    return 3;
  }
}
