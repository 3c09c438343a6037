#!/usr/bin/env bash
# Draws the README's pictures from the example's sheets and fills the pages' blocks of output. Needs ./dev build.
set -euo pipefail
cd "$(dirname "$0")/.."
out=build/pictures
rm -rf "$out" && mkdir -p "$out" docs/pictures
build/trammel sheet examples/shuttle --into "$out" >/dev/null
# sheet, page
for page in "work-sheet ${1:-3}" "torque-record 1" "alignment-sheet 1" "owner-page 1"; do
  set -- $page
  pdftoppm -r 60 -gray -png -singlefile -f "$2" -l "$2" "$out/shuttle-$1.pdf" "docs/pictures/$1"
done
python3 tools/make_pages.py .
python3 tools/make_outputs.py . build/trammel
