#!/usr/bin/env python3
"""Checks that includes point down the order of rooms in include_order.txt, never up, across or in a loop.

Usage: include_order.py [ROOT]. Prints each fault as file:line: text; exit status 1 where there is one.
"""
import pathlib
import re
import subprocess
import sys


def read_order(path):
    layers, forbidden, current = {}, {}, None
    for line in path.read_text().splitlines():
        text = line.split("#")[0].rstrip()
        if not text:
            continue
        if text.startswith("layers"):
            current = layers.setdefault(text[6:].strip(), {})
        elif text.startswith("forbid"):
            rooms, headers = text[6:].split(":")
            for room in rooms.split(","):
                forbidden.setdefault(room.strip(), set()).update(headers.split())
        else:
            rank = len(set(current.values()))
            for room in text.split(","):
                current[room.strip()] = rank
    return layers, forbidden


def place(parts, ranks):
    """The room of a path, without the engine folder above it."""
    if parts and parts[0] == "engine":
        parts = parts[1:]
    return parts if parts and parts[0] in ranks else None


def faults(root):
    layers, forbidden = read_order(root / "tools/include_order.txt")
    ranks = layers[""]
    files = subprocess.run(["git", "ls-files", "-co", "--exclude-standard", "*.h", "*.cpp"], cwd=root,
                           capture_output=True, text=True, check=True).stdout.split()
    for name in files:
        own = place(pathlib.PurePath(name).parts, ranks)
        if own is None or not (root / name).exists():
            continue
        room = own[0]
        for number, line in enumerate((root / name).read_text().splitlines(), 1):
            system = re.match(r"\s*#\s*include\s*<([\w./+-]+)>", line)
            if system and system[1] in forbidden.get(room, ()):
                yield f"{name}:{number}: {room} must not use <{system[1]}>"
            quoted = re.match(r'\s*#\s*include\s*"([^"]+)"', line)
            if not quoted:
                continue
            other = place(pathlib.PurePath(quoted[1]).parts, ranks)
            if other is None:
                yield f'{name}:{number}: write the include from its room, not "{quoted[1]}"'
            elif other[0] != room and ranks[other[0]] >= ranks[room]:
                yield f"{name}:{number}: {room} must not include {other[0]}, which is not below it"
            elif other[0] == room and room in layers and len(own) > 2 and len(other) > 2:
                inner = layers[room]
                if own[1] != other[1] and inner.get(other[1], 99) >= inner.get(own[1], -1):
                    yield f"{name}:{number}: {room}/{own[1]} must not include {room}/{other[1]}, which is not below it"


if __name__ == "__main__":
    top = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ".").resolve()
    found = list(faults(top))
    print("\n".join(found) if found else "include order: every include points down")
    sys.exit(1 if found else 0)
