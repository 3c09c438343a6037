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


def dead_links(root):
    for page in pages(root):
        for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
            if "://" not in target and not (page.parent / target).exists():
                yield f"{page.relative_to(root)}: nothing at {target}"


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
    literals = set(re.findall(r'"(-?[a-z][a-z0-9_-]*)"', text))
    whole = {word.replace("_", "-") for word in literals}
    prefixes = tuple(word for word in literals if re.fullmatch(r"[a-z].*-", word))
    endings = tuple(word for word in literals if re.fullmatch(r"-[a-z]{3,}.*", word))
    for path in sorted((root / "messages/en").glob("*.toml")):
        for code in tomllib.loads(path.read_text(encoding="utf-8")):
            ended = any(code.endswith(e) and code[: -len(e)] in whole for e in endings)
            if code not in whole and not ended and not code.startswith(prefixes):
                yield f"messages/en/{path.name}: {code} is said nowhere"


def main(root, program):
    faults = [*dead_links(root), *large_pictures(root), *commands_without_a_line(root, program), *dev_commands(root), *unused_messages(root)]
    print("\n".join(faults) if faults else "docs: links, pictures, commands and messages agree")
    stale = make_pages.main(root, True) + make_outputs.main(root, program, True)
    return 1 if faults or stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve())))
