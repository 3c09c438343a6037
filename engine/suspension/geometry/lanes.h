// One block of lanes as plain numbers: what passes between many_poses.cpp and the files with their own instructions.
#pragma once

#include "suspension/linkage/corner_points.h"

namespace trammel::suspension {

inline constexpr int outputs_a_row = 11;

struct Block {
  const CornerPoints<double>* layout = nullptr;     // guide, angles and mounts
  const double* coordinates = nullptr;              // [point][x, y, z][lane], points in the order of each_point()
  const double *rises = nullptr, *racks = nullptr;  // [row][lane]
  int rows = 0;
  double radius = 0;
  double* out = nullptr;  // [row][output][lane]
  bool* good = nullptr;   // [row]: every lane could be done
};

void block_avx2(const Block& block);
void block_avx512(const Block& block);

}  // namespace trammel::suspension
