#!/usr/bin/env bash
# Runs each benchmark program, medians of seven, and says on what: commit, processor, compiler.
set -euo pipefail
cd "$(dirname "$0")/.."
echo "commit    $(git rev-parse --short HEAD 2>/dev/null || echo unknown)$(git diff --quiet 2>/dev/null || echo ', with changes')"
echo "processor $(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -1), $(nproc) cores"
echo "compiler  $("$(sed -n 's/^CMAKE_CXX_COMPILER:[^=]*=//p' build/CMakeCache.txt)" --version | head -1)"
for program in build/bench/bench_*; do
  [ -x "$program" ] || continue
  echo
  echo "== $(basename "$program")"
  "$program" --benchmark_repetitions=7 --benchmark_report_aggregates_only=true --benchmark_enable_random_interleaving=true \
    2>/dev/null | grep -E 'Benchmark|_median|ratio' || true
done

# The everyday command as a whole process: processor time and peak memory of its start, work and end.
echo
echo "== trammel check examples/shuttle, whole process, median of 11"
python3 - <<'PY'
import os, subprocess
spent, peak = [], 0.0
for _ in range(11):
    process = subprocess.Popen(["build/trammel", "check", "examples/shuttle", "--json"], stdout=subprocess.DEVNULL)
    _, _, used = os.wait4(process.pid, 0)
    spent.append(1e3 * (used.ru_utime + used.ru_stime))
    peak = max(peak, used.ru_maxrss / 1024)
print(f"{sorted(spent)[5]:.1f} ms of processor time, {peak:.1f} MB at most")
PY
