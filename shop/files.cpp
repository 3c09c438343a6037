#include "shop/files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace trammel {

namespace fs = std::filesystem;

namespace {

bool is_below(const fs::path& file, const fs::path& folder) {
  const auto [in_folder, in_file] = std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
  // A trailing slash leaves an empty last part.
  return in_folder == folder.end() || (in_folder->empty() && std::next(in_folder) == folder.end());
}

}  // namespace

std::variant<std::string, FileFault> DiskFiles::read(const std::string& path, const std::string& inside) {
  std::error_code error;
  const fs::path real = fs::canonical(path, error);
  if (error) return error == std::errc::no_such_file_or_directory ? FileFault::missing : FileFault::unreadable;
  if (!inside.empty()) {
    const fs::path folder = fs::canonical(inside, error);
    if (error || !is_below(real, folder)) return FileFault::outside;
  }
  if (fs::is_directory(real, error)) return FileFault::folder;
  if (!fs::is_regular_file(real, error)) return FileFault::unreadable;
  const auto size = fs::file_size(real, error);
  if (error) return FileFault::unreadable;
  if (size > largest_file) return FileFault::too_big;

  std::ifstream in(real, std::ios::binary);
  std::string bytes(size + 1, '\0');  // one more, so that a file that grows meanwhile is noticed
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (in.bad() || (!in && !in.eof())) return FileFault::unreadable;
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  if (bytes.size() > largest_file) return FileFault::too_big;
  return bytes;
}

}  // namespace trammel
