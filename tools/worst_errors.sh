#!/usr/bin/env bash
# Prints what the tests saw against their outside checks, room by room: the lines behind docs/checks.md.
# Usage: tools/worst_errors.sh [FOLDER OF TEST PROGRAMS], build/tests where not given.
set -euo pipefail
for program in "${1:-$(dirname "$0")/../build/tests}"/test_*; do
  [ -f "$program" ] && [ -x "$program" ] || continue
  echo "== ${program##*/test_}"
  "$program" --gtest_brief=1 2>/dev/null | grep -E '^ *(worst|mutants|GUM|independent box|orthants|rms |[0-9]+ (corners|mm misreads)|.*(worst error|caught of))' || true
done
