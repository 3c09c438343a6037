// The drawing half of the command line, started by `trammel sheet`: it alone is linked to the fonts.
#include <fmt/core.h>

#include <exception>
#include <filesystem>

#include "cli/arguments.h"
#include "cli/json.h"
#include "cli/words.h"
#include "sheets/sheets.h"
#include "shop/open.h"

namespace {

using namespace trammel;

int draw(const cli::Asked& asked) {
  const OpenedJob opened = asked.booklet ? open_kit_or_job(asked.path) : open_and_assess(asked.path);
  fmt::print(stderr, "{}", render(opened.file.diagnostics));
  if (!opened.assessment) return 2;
  SheetOptions options;
  options.paper = asked.letter ? Paper::letter : Paper::a4;
  options.print.systems = asked.systems;
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
  for (const Sheet& sheet : sheets) {
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

}  // namespace

int main(int argc, char** argv) {
  try {
    const cli::Arguments arguments = cli::read_arguments(argc, argv);
    if (arguments.asked) return draw(*arguments.asked);
    fmt::print("{}", arguments.answered.out);
    fmt::print(stderr, "{}", arguments.answered.err);
    return arguments.answered.status;
  } catch (const std::exception& e) {
    fmt::print(stderr, "{}\n", cli::say("our-fault", {{"what", std::string(e.what())}}));
    return 3;
  }
}
