#!/usr/bin/env python3
"""Holds the drawings against the files and the numbers that they are made of.

Usage: drawings_test.py ROOT BUILD. The SVG is read as XML, and every stroke's places are taken from it. Outside the
program: the cart files, read by Python's own TOML reader, and the scale worked out from where the drawing says that the
cart's origin lies. The worst error is printed.
"""
import json
import pathlib
import re
import subprocess
import sys
import tomllib
import xml.etree.ElementTree as ElementTree

ROOT, BUILD = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
CARTS = "tests/cases/carts/"
# Every layout: the file, the axle, and the cart file with its points.
AXLES = [("examples/shuttle", "front", "examples/shuttle/cart.toml"),
         ("examples/shuttle", "rear", "examples/shuttle/cart.toml"),
         ("examples/load-cart", "front", "examples/load-cart/cart.toml"),
         ("examples/load-cart", "rear", "examples/load-cart/cart.toml"),
         ("examples/first-job", "front", None),
         (CARTS + "trailing-arms", "rear", CARTS + "trailing-arms/cart.toml"),
         (CARTS + "leaf-rear", "rear", CARTS + "leaf-rear/cart.toml"),
         (CARTS + "half-shaft", "rear", CARTS + "half-shaft/cart.toml")] + [
            (CARTS + name, axle, CARTS + name)
            for name, axle in (("beam-on-leaf.toml", "front"), ("centre-link-front.toml", "front"),
                               ("coil-over-knuckle-lopsided.toml", "front"), ("four-links.toml", "rear"),
                               ("iavsd-front.toml", "front"), ("strut-front.toml", "front"),
                               ("swing-axle.toml", "front"), ("swing-axle.toml", "rear"),
                               ("trailing-arm-rear.toml", "rear"), ("transverse-leaf-front.toml", "front"))]
# Points of an axle that are no part of its picture.
NOT_DRAWN = {"pitman_shaft", "stand", "bump_stop", "line", "oil", "hole", "axle_centre"}
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
faults = []


def run(*arguments):
    done = subprocess.run([BUILD / "trammel", *arguments], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode > 1:
        sys.exit(f"{arguments}: {done.stderr}")
    return done.stdout


def drawn(file, axle, *options):
    """The drawing as XML, with what it says of itself."""
    svg = BUILD / "tests" / "drawn.svg"
    run("travel", file, "--axle", axle, "--draw", str(svg), *options)
    root = ElementTree.fromstring(svg.read_bytes())
    names = {"s": "http://www.w3.org/2000/svg"}
    return root, root.find("s:title", names).text, root.find("s:desc", names).text


def strokes(root):
    """Every path outside the letters as (style, places)."""
    found = []

    def walk(element, in_letters):
        name = element.tag.rsplit("}", 1)[-1]
        in_letters = in_letters or name in ("defs", "symbol", "clipPath")
        if name == "path" and not in_letters:
            move = re.fullmatch(r"matrix\(([^)]*)\)", element.get("transform", ""))
            a, b, c, d, e, f = (map(float, re.split("[ ,]+", move[1])) if move else (1, 0, 0, 1, 0, 0))
            numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", element.get("d"))]
            places = list(zip(numbers[::2], numbers[1::2]))
            look = element.get("style", "") + "".join(f"{k}:{v};" for k, v in element.attrib.items())
            found.append((look, [(a * x + c * y + e, b * x + d * y + f) for x, y in places]))
        for child in element:
            walk(child, in_letters)

    walk(root, False)
    return found


def mark(line):
    """The middle of a mark: a pivot's square, a joint's circle, a hub's cross."""
    x, y = [p[0] for p in line], [p[1] for p in line]
    small = 0 < max(max(x) - min(x), max(y) - min(y)) < 10
    return [((max(x) + min(x)) / 2, (max(y) + min(y)) / 2)] if small else []


def points_of(table):
    """Every point below an axle of a cart file as ([names], (x, y, z) in metres)."""
    def walk(path, value):
        if isinstance(value, dict):
            for key, below in value.items():
                if key not in NOT_DRAWN:
                    yield from walk(path + [key], below)
        elif isinstance(value, list):
            for below in value:
                yield from walk(path, below)
        elif isinstance(value, str):
            point = re.fullmatch(r"\s*(-?[\d.]+)\s+(-?[\d.]+)\s+(-?[\d.]+)\s*(mm|cm|m|in)\b.*", value)
            if point:
                scale = MILLIMETRES[point[4]] / 1000
                yield path, tuple(float(point[i]) * scale for i in (1, 2, 3))

    for path, at in walk([], table):
        yield path, at
        if path[0] == "left" and "right" not in table:
            yield ["right"] + path[1:], (at[0], -at[1], at[2])


class Views:
    """Where the drawing says that it puts a point of the cart, in each view."""

    def __init__(self, told):
        number = r"(-?[\d.]+)"
        self.views = re.findall(rf"from (\w+): x = {number}, y = {number}, {number} points a metre", told)
        self.scale = float(re.match(r"1 : ([\d.]+)", told)[1])

    def places(self, at, side_view):
        for seen_from, x, y, k in self.views:
            across = {"ahead": at[1], "behind": -at[1], "left": -at[0]}[seen_from]
            if seen_from != "left" or side_view:
                yield seen_from, (float(x) + across * float(k), float(y) - at[2] * float(k))


def elevations():
    worst, count = 0.0, 0
    for file, axle, cart in AXLES:
        root, _, told = drawn(file, axle)
        views = Views(told)
        # The scale: a metre of the cart in points of the paper, 72 of them an inch.
        for _, _, _, k in views.views:
            if abs(float(k) - 1000 / 25.4 * 72 / views.scale) > 1e-5:
                faults.append(f"{file} {axle}: {k} points a metre is not 1 : {views.scale}")
        places = [place for _, line in strokes(root) for place in list(line) + mark(line)]
        expected = []
        rest = json.loads(run("travel", file, "--axle", axle, "--rise=0mm", "--json"))["poses"][0]
        for side in ("left", "right"):
            for name, at in rest[side].get("points", {}).items():
                expected.append((f"{side}.{name}", tuple(at), side == "left"))
        if cart:
            # As the cart stood: full where no kit is on, a ghost where one has moved it.
            for path, at in points_of(tomllib.loads((ROOT / cart).read_text(encoding="utf-8"))[axle]):
                expected.append((".".join(path), at, at[1] > 0.02))
        if len(expected) < 6:
            faults.append(f"{file} {axle}: only {len(expected)} points to look for")
        for name, at, side_view in expected:
            for seen_from, (x, y) in views.places(at, side_view):
                error = min(((x - px) ** 2 + (y - py) ** 2) ** 0.5 for px, py in places)
                worst, count = max(worst, error), count + 1
                if error > 0.02:
                    faults.append(f"{file} {axle} from {seen_from}: nothing drawn at {name}, nearest {error:.2f} pt")
    print(f"worst error of {count} places in the elevations: {worst:.4f} pt")


elevations()
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
