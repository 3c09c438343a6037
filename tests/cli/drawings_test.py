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


# A curve's name, where its values stand in the printed numbers, and how many of its units one of those is.
CURVES = {"camber": ("wheel", "camber_deg", 1), "toe": ("wheel", "toe_deg", 1), "caster": ("wheel", "caster_deg", 1),
          "inclination": ("wheel", "steering_axis_inclination_deg", 1), "half-track": ("wheel", "half_track_m", 1000),
          "offset": ("wheel", "steering_axis_offset_at_ground_m", 1000), "trail": ("wheel", "caster_trail_m", 1000),
          "roll-centre": ("wheel", "roll_centre_height_m", 1000), "motion-ratio": ("wheel", "motion_ratio", 1),
          "side-shift": ("axle", "lateral_shift_m", 1000), "forward-shift": ("axle", "long_shift_m", 1000),
          "axle-steer": ("axle", "steer_deg", 1), "nose-up": ("axle", "pinion_nose_up_deg", 1)}
# Which of them each has: the axle, and how far it is drawn.
DRAWN = [("examples/shuttle", "front", -40, 40), ("examples/load-cart", "front", -40, 40),
         (CARTS + "leaf-rear", "rear", -50, 50), (CARTS + "strut-front.toml", "front", -40, 40),
         (CARTS + "four-links.toml", "rear", -40, 40)]


def field(told, name):
    """What a field's corners are, as functions from value to paper."""
    number = r"(-?[\d.e+-]+)"
    at = re.search(rf"{name}: x {number} at {number}, {number} at {number}; y {number} at {number}, {number} at {number}", told)
    if not at:
        return None
    x0, px0, x1, px1, y0, py0, y1, py1 = map(float, at.groups())
    return (lambda x: px0 + (x - x0) / (x1 - x0) * (px1 - px0), lambda y: py0 + (y - y0) / (y1 - y0) * (py1 - py0))


def heights(line, x):
    """Where a stroke passes x; places in one line with their neighbours are left out of a drawing, so between them too."""
    for (ax, ay), (bx, by) in zip(line, line[1:]):
        if ax - 0.01 <= x <= bx + 0.01 and bx > ax:
            yield ay + (by - ay) * min(1, max(0, (x - ax) / (bx - ax)))


def curves():
    worst, worst_band, values, bands, kinds = 0.0, 0.0, 0, 0, set()
    for file, axle, lowest, highest in DRAWN:
        rises = list(range(lowest, highest + 1, 10))
        asked = ["travel", file, "--axle", axle, "--rise=" + ",".join(f"{r}mm" for r in rises), "--json"]
        now, stock = json.loads(run(*asked, "--spread")), json.loads(run(*asked, "--stock"))
        u = {round(1000 * s["rise_m"]): s for s in now["standard_uncertainties"] if s["side"] == "left"}
        first = now["poses"][0]
        for name, (where, key, unit) in CURVES.items():
            part = "left" if where == "wheel" else "axle"
            if key not in first.get(part, {}):
                continue
            done = subprocess.run([BUILD / "trammel", "travel", file, "--axle", axle, "--curve", name, "--draw",
                                   BUILD / "tests" / "drawn.svg"], cwd=ROOT, capture_output=True, text=True, check=False)
            if done.returncode:
                if "has no curve" not in done.stderr:
                    faults.append(f"{file} {axle} {name}: {done.stderr}")
                continue
            root = ElementTree.fromstring((BUILD / "tests" / "drawn.svg").read_bytes())
            told = root.find("{http://www.w3.org/2000/svg}desc").text
            lines = [(look, line) for look, line in strokes(root) if line and line[-1][0] - line[0][0] > 200]
            kinds.add(name)
            value = {r: abs(p[part][key]) * unit if name == "half-track" else p[part][key] * unit
                     for r, p in zip(rises, now["poses"])}
            was = {r: abs(p[part][key]) * unit if name == "half-track" else p[part][key] * unit
                   for r, p in zip(rises, stock["poses"])}
            shown = [("values", value, "stroke-width:1.5;"), ("values", was, "stroke-width:0.9;"),
                     ("difference", {r: value[r] - was[r] for r in rises}, "stroke-width:1.5;")]
            for frame, expected, pen in shown:
                place = field(told, frame)
                if place is None or (frame == "values" and pen == "stroke-width:0.9;" and not field(told, "difference")):
                    continue
                x, y = place
                for r in rises:
                    found = [h for look, line in lines if pen in look for h in heights(line, x(r))]
                    error = min((abs(h - y(expected[r])) for h in found), default=1e9)
                    worst, values = max(worst, error), values + 1
                    if error > 0.02:
                        faults.append(f"{file} {axle} {name}, {frame} at {r} mm: {error:.3f} pt off")
                    if pen == "stroke-width:0.9;":
                        continue
                    # The band's two edges stand as far above the curve as below, on both sides of it.
                    edges = [h for look, line in lines if "stroke-width:0.35;" in look for h in heights(line, x(r))]
                    above = [h for h in edges if h <= y(expected[r]) + 0.01]
                    below = [h for h in edges if h >= y(expected[r]) - 0.01]
                    if not above or not below:
                        faults.append(f"{file} {axle} {name}, {frame} at {r} mm: the curve is not in its band")
                    elif frame == "values" and part == "left":
                        wide = abs(y(expected[r] + 2 * u[r][key] * unit) - y(expected[r]))
                        error = min(abs(y(expected[r]) - h - wide) for h in above)
                        worst_band, bands = max(worst_band, error), bands + 1
                        if error > 0.05:
                            faults.append(f"{file} {axle} {name} at {r} mm: the band is {error:.3f} pt off")
    if len(kinds) < len(CURVES):
        faults.append(f"no cart has the curves {set(CURVES) - kinds}")
    print(f"worst error of {values} values on curves: {worst:.4f} pt; of {bands} bands: {worst_band:.4f} pt")


elevations()
curves()
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
