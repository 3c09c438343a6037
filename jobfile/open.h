// Opens a file and those that it includes, as one tree.
//
// Included tables are merged and lists appended, in the order of `include`; a key set twice is a fault
// that names both places. Every path lies below the folder of the first file.
#pragma once

#include <optional>
#include <string>

#include "jobfile/files.h"
#include "jobfile/report.h"

namespace trammel {

class Opener {
 public:
  Opener(Files& files, Report& report) : files_(files), report_(report) {}

  // The first file: a path as the person gave it; a folder stands for `in_folder` inside it.
  // `include` is followed only where `includes` says so; it stays a key like any other elsewhere.
  enum class Includes { followed, not_followed };
  std::optional<Node> open_first(const std::string& path, const std::string& in_folder, Includes includes);

  // A file that the text at `named` asks for, seen from the first file's folder.
  std::optional<Node> open_named(const Node& named);

 private:
  std::optional<Node> open(const std::string& path, const Place& asked, int length);
  std::optional<Node> open_included(const Node& named, const std::string& from);
  bool merge_includes(Node& root, const std::string& path);
  bool merge(Node& into, Node&& from);
  std::optional<std::string> below(const std::string& folder, const Node& named);

  Files& files_;
  Report& report_;
  std::string folder_;              // of the first file, ending with `/` or empty
  std::vector<std::string> stack_;  // files being read, to find a circle
};

}  // namespace trammel
