// Compiled with the processor's own instructions, see CMakeLists.txt; called only where it has them.
#include "suspension/geometry/register_lanes.h"
// After it: the kernel finds the functions of its scalar there.
#include "suspension/geometry/lanes_kernel.h"

namespace trammel::suspension {

void block_avx512(const Block& block) { run_block<Lanes<xsimd::avx512f>>(block); }

}  // namespace trammel::suspension
