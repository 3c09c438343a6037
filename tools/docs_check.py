#!/usr/bin/env python3
"""Checks that the papers and the program say the same.

Usage: docs_check.py ROOT PROGRAM. Faults are printed one a line; exit status 1 where there is any.
"""
import pathlib
import re
import subprocess
import sys
import tomllib

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import make_outputs
import make_pages


def pages(root):
    return sorted([*root.glob("*.md"), *(root / "docs").glob("*.md")])


def dead_links(root):
    for page in pages(root):
        for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
            if "://" not in target and not (page.parent / target).exists():
                yield f"{page.relative_to(root)}: nothing at {target}"


def commands_without_a_line(root, program):
    said = subprocess.run([program, "--help"], capture_output=True, text=True, check=False).stdout
    manual = (root / "docs/commands.md").read_text(encoding="utf-8")
    commands = re.findall(r"^  ([a-z]+) [A-Z]", said, re.M)
    if len(commands) < 5:
        yield "trammel --help lists no commands"
    cases = "\n".join(p.read_text(encoding="utf-8") for p in (root / "tests/cases/commands").glob("*/arguments"))
    for command in commands:
        if f"## {command}" not in manual:
            yield f"docs/commands.md has no part on {command}"
        if not re.search(rf"^{command}\b", cases, re.M):
            yield f"tests/cases/commands has no case of {command}"


def dev_commands(root):
    door = (root / "dev").read_text(encoding="utf-8")
    for page in pages(root):
        for command in re.findall(r"\./dev ([a-z]+)", page.read_text(encoding="utf-8")):
            if not re.search(rf"^  {command}[ |)]|[|] {command}\b|^  {command}\)", door, re.M) and f"./dev {command}" not in door:
                yield f"{page.relative_to(root)}: ./dev has no {command}"


def unused_messages(root):
    """A code must stand in the sources as it is, or be built from a literal that ends in a hyphen."""
    files = subprocess.run(["git", "ls-files", "-co", "--exclude-standard", "*.cpp", "*.h"], cwd=root, capture_output=True, text=True, check=True).stdout.split()
    text = "\n".join((root / f).read_text(encoding="utf-8") for f in files if not f.startswith("tests/") and (root / f).exists())
    literals = set(re.findall(r'"([a-z][a-z0-9_-]*)"', text))
    whole = {word.replace("_", "-") for word in literals}
    prefixes = tuple(word for word in literals if word.endswith("-"))
    for path in sorted((root / "messages/en").glob("*.toml")):
        for code in tomllib.loads(path.read_text(encoding="utf-8")):
            if code not in whole and not (prefixes and code.startswith(prefixes)):
                yield f"messages/en/{path.name}: {code} is said nowhere"


def main(root, program):
    faults = [*dead_links(root), *commands_without_a_line(root, program), *dev_commands(root), *unused_messages(root)]
    print("\n".join(faults) if faults else "docs: links, commands and messages agree")
    stale = make_pages.main(root, True) + make_outputs.main(root, program, True)
    return 1 if faults or stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), str(pathlib.Path(sys.argv[2]).resolve())))
