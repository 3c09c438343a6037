#!/usr/bin/env python3
"""Fills the pages' blocks of output and of files with what the program prints and the files hold.

Usage: make_outputs.py ROOT PROGRAM [--check]. In *.md of ROOT and ROOT/docs a block is filled that stands behind
  <!-- output: check examples/shuttle --brief -->   what PROGRAM prints for these arguments, stdout then stderr
  <!-- output 1-20: plan examples/shuttle -->       lines 1 to 20 of it
  <!-- file: examples/first-job/cart.toml -->       a file
With --check nothing is written; exit status 1 names each page that is not current.
"""
import pathlib
import re
import shlex
import subprocess
import sys

BLOCK = re.compile(r"(<!-- (output|file)(?: (\d+)-(\d+))?: (.*?) -->\n```[a-z]*\n)(.*?)(^```$)", re.S | re.M)


def fill(root, program, text):
    def content(match):
        head, kind, first, last, what, _, tail = match.groups()
        if kind == "file":
            body = (root / what).read_text(encoding="utf-8")
        else:
            ran = subprocess.run([program, *shlex.split(what)], cwd=root, capture_output=True, text=True, check=False)
            body = ran.stdout + ran.stderr
            if first:
                body = "\n".join(body.split("\n")[int(first) - 1:int(last)]) + "\n"
            body = f"$ trammel {what}\n{body}"
        return head + body.rstrip("\n") + "\n" + tail
    return BLOCK.sub(content, text)


def main(root, program, check):
    stale = []
    for path in sorted([*root.glob("*.md"), *(root / "docs").glob("*.md")]):
        text = path.read_text(encoding="utf-8")
        filled = fill(root, program, text)
        if filled == text:
            continue
        if check:
            stale.append(f"{path.relative_to(root)} shows output that is not current: run tools/make_outputs.py . build/trammel")
        else:
            path.write_text(filled, encoding="utf-8")
    print("\n".join(stale) if stale else "outputs: current")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve()), "--check" in sys.argv))
