// A PDF as poppler's own readers see it: the outside witnesses of what is printed.
#pragma once

#include <string>
#include <vector>

#include "sheets/sheets.h"

namespace trammel::sheets {

Sheet sheet_of(const std::vector<Sheet>& sheets, const std::string& name);

struct Picture {
  int width = 0, height = 0;
  std::string rgb;
  bool dark(int x, int y, int below = 100) const {
    return static_cast<unsigned char>(rgb[3 * (std::size_t(y) * width + x)]) < below;
  }
};
Picture picture_of(const std::string& ppm);

// A PDF in a file of its own for as long as it is looked at.
class Stored {
 public:
  explicit Stored(const std::string& pdf);
  ~Stored();
  std::string text() const;
  std::string info() const;
  std::string pixels(int dots_per_inch, int page) const;  // 8-bit RGB, PPM

 private:
  std::string path_;
};

// Words as they are read, however the lines break.
std::string in_one_line(std::string text);

}  // namespace trammel::sheets
