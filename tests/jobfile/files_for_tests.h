// Files for tests: from a map, and from a folder of the source tree seen as the working folder.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "jobfile/files.h"
#include "shop/files.h"

namespace trammel {

// Keeps what was asked for, so that a test can see what was not read.
struct MapFiles : Files {
  std::map<std::string, std::string> bytes;
  std::map<std::string, FileFault> faults;
  std::vector<std::string> asked;

  std::variant<std::string, FileFault> read(const std::string& path, const std::string&) override {
    asked.push_back(path);
    if (const auto fault = faults.find(path); fault != faults.end()) return fault->second;
    if (const auto file = bytes.find(path); file != bytes.end()) return file->second;
    return FileFault::missing;
  }
};

struct FolderFiles : Files {
  explicit FolderFiles(std::string f) : folder(std::move(f)) {}
  std::string folder;
  DiskFiles disk;
  std::variant<std::string, FileFault> read(const std::string& path, const std::string& inside) override {
    return disk.read(folder + "/" + path, inside.empty() ? inside : folder + "/" + inside);
  }
};

}  // namespace trammel
