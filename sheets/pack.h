// What the kits' packs hold, laid out and counted: pieces of the booklet and of the pack sheet.
//
// Parts that the kits bring, then the fasteners of the work. Of a fastener that the cart has already only the new ones
// are counted; it keeps its place on the mat for what comes off.
#pragma once

#include "sheets/room.h"

namespace trammel::sheets {

struct Laid {
  const Part* part = nullptr;
  const FastenerLine* fastener = nullptr;
};
std::vector<Laid> laid_on_the_mat(const Given& given);
int how_many(const Part& part);             // as the kit counts; where it does not, one, or one on each side
std::size_t pieces(const FastenerLine& f);  // places where it sits

void lay_mat(const Given& given, Book& book);
// What to count and measure before the cart is touched.
void lay_pack_check(const Given& given, Book& book);

// A heading in large type with its help under it, by code.
void lay_heading(const Given& given, Book& book, const char* code);
double draw_heading(Canvas& canvas, const Given& given, const Box& room, const char* code);

}  // namespace trammel::sheets
