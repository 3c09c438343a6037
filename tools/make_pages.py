#!/usr/bin/env python3
"""Makes the pages of the manual that follow from other files.

Usage: make_pages.py ROOT [--check]
  docs/findings.md  every finding and diagnostic, from messages/en/*.toml (not those of cli and sheets)
  docs/tools.md     docs/tools.intro.md, and then the words of every tool, from reference/tool_words.csv and tool_readings.csv
  docs/files.md     docs/files.intro.md, and then every key of the files, from docs/schema/*.json
With --check nothing is written; exit status 1 names each page that is not current.
"""
import csv
import json
import pathlib
import re
import sys
import tomllib

FACES = {"cli", "sheets", "booklet", "drawing"}
TITLES = {"files": "Files that cannot be read as they stand", "geometry": "Geometry and clearance", "loads": "Speed, size, loads and tipping",
          "fasteners": "Fasteners", "work": "Work and ledger", "alignment": "Alignment", "survey": "Survey"}

# Keys for which the schema has no line.
UNSAID = {"reading": "what was read at one stop", "adjustment": "what was turned since the last reading", "rear_reading": "how the rear axle stood at one stop",
          "rear_adjustment": "one link of the rear axle turned", "signed": "a step that is done",
          "torque": "a torque that was reached", "found": "a fastener seen otherwise than the steps have it", "undo": "an earlier entry that is struck", "change[].why": "a line for whoever reads the kit"}


def unfilled(text):
    """A message without its values: what would stand there is put in pointed brackets, as explain has it."""
    text = re.sub(r"(?<!\{)\{([a-z0-9_]+)\}(?!\})", r"‹\1›", text)
    return text.replace("{{", "{").replace("}}", "}")


def findings(root):
    out = ["# Findings and diagnostics", "", "Every code that `trammel` prints in [brackets], with what it means. `trammel explain CODE` prints the same.",
           "Made from messages/en; do not edit.", ""]
    for path in sorted((root / "messages/en").glob("*.toml")):
        if path.stem in FACES:
            continue
        out += [f"## {TITLES.get(path.stem, path.stem)}", ""]
        for code, entry in sorted(tomllib.loads(path.read_text(encoding="utf-8")).items()):
            out += [f"**{code}**: {unfilled(entry['line'])}.  ", unfilled(" ".join(entry["help"].split())), ""]
    return "\n".join(out)


def resolve(schema, node):
    while "$ref" in node:
        part = schema
        for step in node["$ref"].lstrip("#/").split("/"):
            part = part[step]
        node = {**part, **{k: v for k, v in node.items() if k != "$ref"}}
    return node


def kind(schema, node):
    """What is written for a key: a quantity by its name, text, a list, a table."""
    if "$ref" in node:
        name = node["$ref"].rsplit("/", 1)[-1]
        return name.replace("_", " ")
    if "anyOf" in node:
        return " or ".join(dict.fromkeys(kind(schema, n) for n in node["anyOf"]))
    if "const" in node or "enum" in node:
        return "text" if "const" in node else "word"
    if node.get("type") == "array":
        item = node.get("items", {})
        return "tables" if resolve(schema, item).get("type") == "object" else f"list of {kind(schema, item)}"
    words = {"object": "table", "string": "text", "boolean": "true or false"}
    return words.get(node.get("type"), node.get("type", "any value"))


def rows(schema, node, prefix, shown):
    """One row a key; a table that stands in several places is written out once."""
    node = resolve(schema, node)
    required = set(node.get("required", ()))
    for name, raw in node.get("properties", {}).items():
        key = f"{prefix}.{name}" if prefix else name
        child = resolve(schema, raw)
        text = raw.get("description") or child.get("description") or UNSAID.get(key, "")
        if "const" in child:
            text = f"always `{child['const']}`"
        choices = child.get("enum")
        if choices:
            text += ": " + ", ".join(f"`{c}`" for c in choices)
        inner = resolve(schema, child.get("items", child))
        table = "properties" in inner
        shape = json.dumps(inner.get("properties"), sort_keys=True) if table else ""
        if table and shape in shown:
            text += f"; keys as of `{shown[shape]}`"
        yield f"| `{key}` | {kind(schema, raw)} | {'yes' if name in required else ''} | {text.replace('|', '/')} |"
        if table and shape not in shown:
            path = key + ("[]" if "items" in child else "")
            shown[shape] = path
            yield from rows(schema, inner, path, shown)


def files(root):
    out = [(root / "docs/files.intro.md").read_text(encoding="utf-8").rstrip(), ""]
    for name in ("cart", "kit", "job", "survey"):
        path = root / f"docs/schema/{name}.json"
        if not path.exists():
            continue
        schema = json.loads(path.read_text(encoding="utf-8"))
        out += [f"## Keys of a {name} file", "", f"`[]` marks a list. The same as JSON Schema: [schema/{name}.json](schema/{name}.json).", "",
                "| key | written as | needed | what it is |", "|---|---|---|---|", *rows(schema, schema, "", {}), ""]
    return "\n".join(out)


def table(root, name):
    with open(root / f"reference/{name}.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def tools(root):
    """The words of each kind of tool, side by side, and what it reads."""
    words, reads = {}, {}
    for row in table(root, "tool_words"):
        words.setdefault(row["kind"], {}).setdefault(row["language"], []).append(row["word"])
    for row in table(root, "tool_readings"):
        reads.setdefault(row["kind"], []).append(row["reads"] + (f" to {row['step_mm']} mm" if row["step_mm"] else ""))
    out = [(root / "docs/tools.intro.md").read_text(encoding="utf-8").rstrip(), "", "## Words", "",
           "`-heber` ends longer words. What a tool reads is common practice, no source.", "",
           "| kind | English | German | reads |", "|---|---|---|---|"]
    for kind, by in words.items():
        out.append(f"| {kind} | {', '.join(by.get('en', []))} | {', '.join(by.get('de', []))} | {', '.join(reads.get(kind, []))} |")
    return "\n".join(out) + "\n"


def main(root, check):
    stale = []
    for page, text in (("docs/findings.md", findings(root)), ("docs/files.md", files(root)), ("docs/tools.md", tools(root))):
        path = root / page
        if check:
            if not path.exists() or path.read_text(encoding="utf-8") != text:
                stale.append(f"{page} is not current: run tools/make_pages.py .")
        else:
            path.write_text(text, encoding="utf-8")
    print("\n".join(stale) if stale else "pages: current")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ".").resolve(), "--check" in sys.argv))
