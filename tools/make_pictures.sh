#!/usr/bin/env bash
# Takes the README's pictures from the example's sheets and fills the pages' blocks of output.
# Usage: tools/make_pictures.sh [PROGRAM] [PAGE]: build/trammel, and page 8 of the work sheet, where not given.
set -euo pipefail
program=$(realpath "${1:-$(dirname "$0")/../build/trammel}")
cd "$(dirname "$0")/.."
drawn=$(mktemp -d)
trap 'rm -rf "$drawn"' EXIT
"$program" sheet examples/shuttle --pictures --into "$drawn" >/dev/null
mkdir -p docs/pictures
cp "$drawn/shuttle-work-sheet-${2:-8}.png" docs/pictures/work-sheet.png
for sheet in quote-sheet torque-record alignment-sheet geometry-sheet owner-page; do
  cp "$drawn/shuttle-$sheet-1.png" "docs/pictures/$sheet.png"
done
python3 tools/make_pages.py .
python3 tools/make_outputs.py . "$program"
