#!/usr/bin/env python3
"""Fills the pages' blocks of output and of files with what the program prints and the files hold.

Usage: make_outputs.py ROOT PROGRAM [--check] [--long]. In *.md of ROOT and ROOT/docs a block is filled that stands behind
  <!-- output: check examples/shuttle --brief -->        what PROGRAM prints for these arguments, stdout then stderr
  <!-- output 1-20: plan examples/shuttle -->            lines 1 to 20 of it, … where lines are left out
  <!-- output "  7  " to " 12  ": plan examples/shuttle -->   from the line that begins so to before the one that begins so
  <!-- file: examples/first-job/cart.toml -->            a file
  <!-- table: study survey --count 40 -->                what PROGRAM prints, a table of the page up to <!-- end -->
  <!-- long table: study alignment --count=200 | rows: study alignment --count=200 --fleet=beam -->   a table of minutes up to
      <!-- end -->: made with --long alone; --check makes the rows that stand behind the bar and looks for them in it
With --check nothing is written; exit status 1 names each page that is not current.
"""
import pathlib
import re
import shlex
import subprocess
import sys

BLOCK = re.compile(r'(<!-- (output|file)(?: (\d+)-(\d+)| "(.*?)" to "(.*?)")?: (.*?) -->\n```[a-z]*\n)(.*?)(^```$)', re.S | re.M)
TABLE = re.compile(r"(<!-- table: (.*?) -->\n)(.*?)(^<!-- end -->$)", re.S | re.M)
LONG = re.compile(r"(<!-- long table: (.*?) \| rows: (.*?) -->\n)(.*?)(^<!-- end -->$)", re.S | re.M)


def run(root, program, what):
    ran = subprocess.run([program, *shlex.split(what)], cwd=root, capture_output=True, text=True, check=False)
    return ran.stdout + ran.stderr


def begins(lines, text, after=0):
    for i in range(after, len(lines)):
        if lines[i].startswith(text):
            return i
    raise SystemExit(f"outputs: no line begins with {text!r}")


def cut(body, first, last):
    """Lines first to last, from 0, and … where some are left out."""
    lines = body.rstrip("\n").split("\n")
    while lines[last - 1:last] == [""]:
        last -= 1
    return "\n".join([*["…"] * (first > 0), *lines[first:last], *["…"] * (last < len(lines))])


def missing_rows(root, program, text):
    """Rows of long tables that the program makes anew and that do not stand there."""
    return [row for _, _, what, body, _ in LONG.findall(text)
            for row in run(root, program, what).splitlines()[2:] if row not in body.splitlines()]


def fill(root, program, text, long):
    def content(match):
        head, kind, first, last, start, stop, what, _, tail = match.groups()
        if kind == "file":
            body = (root / what).read_text(encoding="utf-8")
        else:
            body = run(root, program, what)
            if first:
                body = cut(body, int(first) - 1, int(last))
            if start:
                lines = body.split("\n")
                begin = begins(lines, start)
                body = cut(body, begin, begins(lines, stop, begin + 1))
            body = f"$ trammel {what}\n{body}"
        return head + body.rstrip("\n") + "\n" + tail
    text = TABLE.sub(lambda m: m[1] + run(root, program, m[2]) + m[4], text)
    if long:
        text = LONG.sub(lambda m: m[1] + run(root, program, m[2]) + m[5], text)
    return BLOCK.sub(content, text)


def main(root, program, check, long=False):
    stale = []
    for path in sorted([*root.glob("*.md"), *(root / "docs").glob("*.md")]):
        text = path.read_text(encoding="utf-8")
        filled = fill(root, program, text, long)
        if check and missing_rows(root, program, text):
            stale.append(f"{path.relative_to(root)} shows a long table that is not current: run tools/make_outputs.py . build/trammel --long")
        if filled == text:
            continue
        if check:
            stale.append(f"{path.relative_to(root)} shows output that is not current: run tools/make_outputs.py . build/trammel")
        else:
            path.write_text(filled, encoding="utf-8")
    print("\n".join(stale) if stale else "outputs: current")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve()), "--check" in sys.argv, "--long" in sys.argv))
