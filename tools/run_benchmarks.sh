#!/usr/bin/env bash
# Runs each benchmark program, medians of seven, and says on what: commit, processor, compiler.
set -euo pipefail
cd "$(dirname "$0")/.."
echo "commit    $(git rev-parse --short HEAD 2>/dev/null || echo unknown)$(git diff --quiet 2>/dev/null || echo ', with changes')"
echo "processor $(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -1), $(nproc) cores"
echo "compiler  $(sed -n 's/^CMAKE_CXX_COMPILER:[^=]*=//p' build/CMakeCache.txt | xargs -I{} {} --version | head -1)"
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
for _ in $(seq 11); do
  python3 - <<'PY'
import os, resource, subprocess
subprocess.run(["build/trammel", "check", "examples/shuttle", "--json"], stdout=subprocess.DEVNULL, check=False)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(f"{1e3 * (used.ru_utime + used.ru_stime):.1f} {used.ru_maxrss / 1024:.1f}")
PY
done | sort -n | sed -n '6s/\(.*\) \(.*\)/\1 ms of processor time, \2 MB at most/p'
