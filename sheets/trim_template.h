// The cut line of a panel in full size, over as many sheets as it takes, to be joined at their marks.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

// Where the sheets of one template lie in the panel's plane, metres; column by row, only those with something on them.
struct TemplateTiles {
  double left = 0, top = 0;      // panel place of the first sheet's upper left corner
  double width = 0, height = 0;  // of one sheet's field
  double lap = 0;                // by which neighbours cover each other
  struct Tile {
    int column = 0, row = 0;
  };
  std::vector<Tile> tiles;
  int columns = 0, rows = 0;
};
TemplateTiles tiles_of(const TrimResult& trim, double field_width, double field_height);

void lay_template(const Given& given, Book& book, const TrimResult& trim);

}  // namespace trammel::sheets
