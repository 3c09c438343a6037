// Where the bytes of job files come from. jobfile opens nothing itself: the disk stands behind this.
#pragma once

#include <cstddef>
#include <string>
#include <variant>

namespace trammel {

enum class FileFault {
  missing,
  folder,      // it is a folder
  too_big,     // larger than largest_file; found out without reading it all
  unreadable,  // no permission, or the disk failed
  outside      // its real place, links followed, is not below the folder asked for
};

inline constexpr std::size_t largest_file = std::size_t{8} << 20;

struct Files {
  virtual ~Files() = default;
  // The bytes of a file. `inside` is a folder which the file must not leave once its links are followed;
  // empty where any place will do.
  virtual std::variant<std::string, FileFault> read(const std::string& path, const std::string& inside) = 0;
};

}  // namespace trammel
