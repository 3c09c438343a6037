#include <fmt/core.h>

#include <filesystem>

#include "cli/commands.h"
#include "cli/json.h"
#include "cli/words.h"
#include "shop/open.h"

namespace trammel::cli {
namespace {

// A text as it stands between the quotation marks of TOML.
std::string quoted(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out;
}

}  // namespace

// Starts a kit: a folder with a kit.toml to fill in. A file that is there already is left alone.
int new_kit(const Asked& asked) {
  const std::filesystem::path folder(asked.folder), file = folder / "kit.toml";
  std::error_code failed;
  if (std::filesystem::exists(file, failed)) {
    fmt::print(stderr, "{}\n", say("new-kit-exists", {{"path", file.string()}}));
    return 2;
  }
  std::filesystem::create_directories(folder, failed);
  const std::string name = asked.name.empty() ? short_name(asked.folder) : asked.name;
  const std::string text = help_text(Message{"new-kit-file", {{"name", quoted(name)}}}) + "\n";
  const std::string why = failed ? failed.message() : write_file(file.string(), text);
  if (!why.empty()) {
    fmt::print(stderr, "{}\n", say("sheet-not-written", {{"path", file.string()}, {"why", why}}));
    return 2;
  }
  if (asked.json)
    print_json({{"file", file.string()}, {"name", name}});
  else
    fmt::print("{}\n", say("new-kit-written", {{"path", file.string()}}));
  return 0;
}

}  // namespace trammel::cli
