#!/usr/bin/env bash
# The main job on an invented cart, from its files to the printed sheets: every command in the order of the work.
set -uo pipefail
cd "$(dirname "$0")/.."
trammel=build/trammel
job=examples/shuttle
out=build/demo
mkdir -p "$out"

say() { printf '\n\033[1m%s\033[0m\n' "$*" | { [ -t 1 ] && cat || sed 's/\x1b\[[0-9;]*m//g'; }; }
# A step of the demo: what it shows, then the command as a person would type it. Nothing but 0 and 1 is an answer.
show() {
  say "── $1"
  shift
  echo "\$ $*"
  "$@"
  local status=$?
  [ "$status" -le 1 ] || { echo "demo: '$*' ended with status $status" >&2; exit 1; }
}

say "Shuttle 7 of Skerry Quay is invented, and so is every number in it."
show "The cheaper kit first: can it be done?" "$trammel" check "$job/cheaper-job.toml" --brief
show "Why not, and what that means" "$trammel" explain bump-steer
show "The kit that moves the rack too" "$trammel" check "$job"
show "What it does to the front wheels over bumps, before the kit" "$trammel" travel "$job" --stock --rise=-40mm,0mm,40mm
show "and with it" "$trammel" travel "$job" --rise=-40mm,0mm,40mm
show "The live axle behind, with the kit" "$trammel" travel "$job" --axle rear --rise=-40mm,0mm,40mm --roll=0deg,3deg
show "One fastener alone, with the torque of another one by mistake" "$trammel" fastener "M10 8.8 45 lbf·ft light oil"
show "The work, step by step" "$trammel" plan "$job"
show "The wheels, from the readings made so far" "$trammel" align "$job"
show "The same job booked to its end: may the cart be given back?" "$trammel" release "$job/finished-job.toml"
show "The sheets" "$trammel" sheet "$job" --into "$out" --pictures
say "The sheets lie in $out: one PDF file each, and each page as a picture."
