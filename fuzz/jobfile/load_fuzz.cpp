// Any bytes as a job with its cart and kit, or a survey: the first byte says which of the four they are. A value or a
// diagnostic comes back, every diagnostic can be shown, and what can be read takes an entry at its end. Seeds: the
// files below tests/cases/bad and examples, each behind a byte `0`, `1`, `2` or `3` or as they are.
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <map>

#include "jobfile/load.h"
#include "jobfile/splice.h"

namespace {

using namespace trammel;

const char* const cart =
    "format = \"trammel cart 1\"\nname = \"c\"\nwheelbase = \"1855 mm\"\n[rear]\nlayout = \"live axle\"\n"
    "located_by = \"two trailing arms and track bar\"\naxle_centre = \"-1855 0 280 mm\"\n"
    "half_track = \"480 mm\"\n[[rear.link]]\nname = \"track bar\"\nchassis = \"-1900 380 320 mm\"\n"
    "axle = \"-1900 -380 310 mm\"\n[[rear.link]]\nname = \"left arm\"\nchassis = \"-1300 350 300 mm\"\n"
    "axle = \"-1800 350 250 mm\"\n[[rear.link]]\nname = \"right arm\"\nchassis = \"-1300 -350 300 mm\"\n"
    "axle = \"-1800 -350 250 mm\"\n";
const char* const kit =
    "format = \"trammel kit 1\"\nname = \"k\"\n[[fastener]]\nid = \"F1\"\nat = \"x\"\nstack = \"y\"\n";
const char* const job = "format = \"trammel job 1\"\nname = \"j\"\ncart = \"cart.toml\"\nkits = [\"kit.toml\"]\n";

struct MapFiles : Files {
  std::map<std::string, std::string> bytes;
  std::variant<std::string, FileFault> read(const std::string& path, const std::string&) override {
    const auto file = bytes.find(path);
    if (file == bytes.end()) return FileFault::missing;
    return file->second;
  }
};

void hold(bool law, const char* name) {
  if (law) return;
  std::cerr << "broken: " << name << "\n";
  std::abort();
}

template <class T>
void check(const Loaded<T>& loaded) {
  hold(loaded.value.has_value() == loaded.diagnostics.empty(), "a value or a diagnostic");
  hold(loaded.value || !render(loaded.diagnostics).empty(), "every diagnostic can be shown");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
  MapFiles files;
  files.bytes = {{"job.toml", job}, {"cart.toml", cart}, {"kit.toml", kit}};
  const char* const names[] = {"job.toml", "cart.toml", "kit.toml", "survey.toml"};
  files.bytes[names[data[0] % 4]] = text;
  check(load_job(files, "job.toml"));
  check(load_cart(files, "cart.toml"));
  check(load_kit(files, "kit.toml"));
  check(load_survey(files, "survey.toml"));

  Reading reading;
  reading.left_camber = Valued<Angle>{0.5 * units::degree, {}, Basis::measured, {}};
  const Spliced spliced = append_reading(text, reading);
  hold(spliced.text.compare(0, text.size(), text) == 0, "the old text stays");
  hold(spliced.text.size() > text.size() || !spliced.diagnostics.empty(), "an entry or a diagnostic");
  return 0;
}
