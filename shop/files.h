// Job files on the disk, with the links of a path followed before anything is read.
#pragma once

#include "jobfile/files.h"

namespace trammel {

class DiskFiles : public Files {
 public:
  std::variant<std::string, FileFault> read(const std::string& path, const std::string& inside) override;
};

}  // namespace trammel
