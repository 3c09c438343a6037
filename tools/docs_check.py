#!/usr/bin/env python3
"""Checks that the papers and the program say the same.

Usage: docs_check.py ROOT PROGRAM. Faults are printed one a line; exit status 1 where there is any.
Keys of files and findings need no check of their own: their pages are made from the schemas and messages, and a page
that is not current is a fault. The same holds for every block of output and of files (make_pages.py, make_outputs.py).
"""
import pathlib
import re
import subprocess
import sys
import tomllib

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import make_outputs
import make_pages

LARGEST_PICTURE = 200_000  # bytes


def pages(root):
    return sorted(p for p in root.rglob("*.md") if not {"build", "cases"} & set(p.relative_to(root).parts))


def anchors(page):
    """What a link may name behind #: each heading in small letters, marks left out, hyphens for spaces."""
    headings = re.findall(r"^#+ (.*)$", re.sub(r"^```.*?^```$", "", page.read_text(encoding="utf-8"), flags=re.S | re.M), re.M)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}


def dead_links(root):
    """Every link within the papers finds its file and heading, and every page of docs is linked from somewhere."""
    linked = set()
    for page in pages(root):
        for target, anchor in re.findall(r"\]\(([^)#\s]*)(?:#([^)\s]*))?\)", page.read_text(encoding="utf-8")):
            if "://" in target:
                continue
            file = (page.parent / target).resolve() if target else page.with_name(page.name.replace(".intro", ""))
            linked |= {file} - {page}
            if not file.exists():
                yield f"{page.relative_to(root)}: nothing at {target}"
            elif anchor and file.suffix == ".md" and anchor not in anchors(file):
                yield f"{page.relative_to(root)}: {target}#{anchor} has no such heading"
    for page in (root / "docs").glob("*.md"):
        if page not in linked and not page.stem.endswith(".intro"):
            yield f"{page.relative_to(root)}: no page links to it"


def limits_held(text):
    """The codes of a judge's limits: given to a check as they are, or to a helper of the same file that makes it."""
    yield from re.findall(r'LimitCheck \w+\{"([a-z-]+)"', text)
    for helper in re.findall(r"const auto (\w+) = \[[^\]]*\]\([^)]*\bcode\b[^)]*\)[^{]*\{\s*LimitCheck \w+\{code", text):
        yield from re.findall(rf'\b{helper}\("([a-z-]+)"', text)


def limits_without_a_line(root):
    """Every limit that the verdict holds stands in docs/limits.md with its source."""
    judges = (root / "assess").glob("judge_*.cpp")
    held = {code for judge in judges for code in limits_held(judge.read_text(encoding="utf-8"))}
    if len(held) < 10:
        yield "assess/judge_*.cpp: no limits found"
    table = (root / "docs/limits.md").read_text(encoding="utf-8")
    for code in sorted(held):
        if not re.search(rf"^\|[^|]*\b{code}\b", table, re.M):
            yield f"docs/limits.md: nothing on {code}"


def large_pictures(root):
    for picture in (root / "docs/pictures").glob("*"):
        if picture.stat().st_size > LARGEST_PICTURE:
            yield f"{picture.relative_to(root)}: {picture.stat().st_size} bytes; {LARGEST_PICTURE} are the most"


def said(program, *arguments):
    return subprocess.run([program, *arguments], capture_output=True, text=True, check=False).stdout


def commands_without_a_line(root, program):
    """Every command has a part in the manual that names each of its options, and a case."""
    commands = re.findall(r"^  ([a-z]+) [A-Z]", said(program, "--help"), re.M)
    if len(commands) < 5:
        yield "trammel --help lists no commands"
    manual = (root / "docs/commands.md").read_text(encoding="utf-8")
    cases = "\n".join(p.read_text(encoding="utf-8") for p in (root / "tests/cases/commands").glob("*/arguments"))
    for command in commands:
        part = re.search(rf"^## {command}$(.*?)(?=^## |\Z)", manual, re.S | re.M)
        if not part:
            yield f"docs/commands.md has no part on {command}"
        options = re.findall(r"^  (--[a-z-]+)", said(program, command, "--help"), re.M)
        if not options:
            yield f"trammel {command} --help lists no options"
        for option in options if part else []:
            if not re.search(rf"{option}\b", part[1]):
                yield f"docs/commands.md, {command}: nothing on {option}"
        if not re.search(rf"^{command}\b", cases, re.M):
            yield f"tests/cases/commands has no case of {command}"


def dev_commands(root):
    """What the papers say of ./dev is a branch of it, and what it lists as help is one too."""
    door = (root / "dev").read_text(encoding="utf-8")
    known = {word for branch in re.findall(r"^  ([a-z][a-z |-]*)\)", door, re.M) for word in re.split(r"[ |]+", branch)}
    for page in [root / "dev", *pages(root)]:
        for command in re.findall(r"\./dev ([a-z]+)", page.read_text(encoding="utf-8")):
            if command not in known:
                yield f"{page.relative_to(root)}: ./dev has no {command}"


def unused_messages(root):
    """A code must stand in the sources as it is, or be built from a literal that ends, or begins, in a hyphen."""
    rooms = ["assess", "cli", "engine", "job", "jobfile", "messages", "record", "server", "sheets", "shop"]
    text = "\n".join(f.read_text(encoding="utf-8") for room in rooms for f in (root / room).rglob("*") if f.suffix in {".cpp", ".h"})
    literals = set(re.findall(r'"@?(-?[a-z][a-z0-9_-]*)"', text))
    whole = {word.replace("_", "-") for word in literals}
    prefixes = tuple(word for word in literals if re.fullmatch(r"[a-z].*-", word))
    endings = tuple(word for word in literals if re.fullmatch(r"-[a-z]{3,}.*", word))
    for path in sorted((root / "messages/en").glob("*.toml")):
        for code in tomllib.loads(path.read_text(encoding="utf-8")):
            ended = any(code.endswith(e) and code[: -len(e)] in whole for e in endings)
            if code not in whole and not ended and not code.startswith(prefixes):
                yield f"messages/en/{path.name}: {code} is said nowhere"


def main(root, program):
    faults = [*dead_links(root), *large_pictures(root), *limits_without_a_line(root), *commands_without_a_line(root, program), *dev_commands(root), *unused_messages(root)]
    print("\n".join(faults) if faults else "docs: links, pictures, limits, commands and messages agree")
    stale = make_pages.main(root, True) + make_outputs.main(root, program, True)
    return 1 if faults or stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve())))
