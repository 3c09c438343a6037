#!/usr/bin/env python3
"""Makes the table of messages from messages/LANGUAGE/*.toml.

Usage: make_messages.py FOLDER OUTPUT [LANGUAGE ENGLISH_FOLDER]. With a language the table is one of translations: each code
must stand in the English folder too, with the same {names}; what is not translated stays English, and so does a help that a
translation leaves out. A file holds one table a code:
  [code-in-kebab-case]
  line = "one sentence with {names}"
  help = \"\"\"what it means and what to do\"\"\"
Exit status 1, with file and code, for a duplicate code, a missing line or help, another key, or a stray brace.
"""
import pathlib
import re
import sys
import tomllib

NAME = re.compile(r"\{[a-z][a-z0-9_]*\}")
CODE = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def stray_brace(text):
    rest = NAME.sub("", text.replace("{{", "").replace("}}", ""))
    return "{" in rest or "}" in rest


def faults_of(code, entry, translated):
    if not CODE.fullmatch(code):
        yield "a code is words of small letters joined by hyphens"
    if not isinstance(entry, dict):
        yield "is not a table"
        return
    for key in ("line", "help"):
        text = entry.get(key)
        if key == "help" and translated and text is None:
            continue
        if not isinstance(text, str) or not text.strip():
            yield f"has no {key}"
        elif stray_brace(text):
            yield f"has a stray brace in its {key}"
    if "\n" in str(entry.get("line", "")).strip():
        yield "has a line of more than one line"
    for key in entry.keys() - {"line", "help"}:
        yield f"has an unknown key {key}"


def literal(text):
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("??", "?\\?")
    return f'"{escaped}"'


def translation_faults(entries, places, english):
    """What a translated table says that English does not."""
    known = {}
    for path in sorted(pathlib.Path(english).glob("*.toml")):
        known |= tomllib.loads(path.read_text(encoding="utf-8"))
    for code, (entry, _) in entries.items():
        if code not in known:
            yield f"{places[code]}: {code} does not stand in English"
        elif set(NAME.findall(entry["line"])) != set(NAME.findall(known[code]["line"])):
            yield f"{places[code]}: {code} has other names in its line than English"


def main(folder, output, language="", english=None):
    entries, places, faults = {}, {}, []
    for path in sorted(pathlib.Path(folder).glob("*.toml")):
        try:
            table = tomllib.loads(path.read_text(encoding="utf-8"))
        except tomllib.TOMLDecodeError as error:
            faults.append(f"{path.name}: {error}")
            continue
        for code, entry in table.items():
            faults += [f"{path.name}: {code} {fault}" for fault in faults_of(code, entry, bool(english))]
            if code in places:
                faults.append(f"{path.name}: {code} stands in {places[code]} too")
            places.setdefault(code, path.name)
            entries.setdefault(code, (entry, path.stem))
    if english and not faults:
        faults += translation_faults(entries, places, english)
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return 1
    rows = [
        f"    {{{literal(code)}, {literal(entry['line'].strip())},\n     {literal(entry.get('help', '').strip())}, {literal(room)}}},"
        for code, (entry, room) in sorted(entries.items())
    ]
    text = "\n".join([
        "// Made by tools/make_messages.py; do not edit.", "#pragma once", "#include <array>",
        '#include "messages/catalogue.h"', "namespace trammel::generated {",
        f"inline constexpr std::array<MessageEntry, {len(rows)}> table{'_' if language else ''}{language} = {{{{", *rows, "}};",
        "}  // namespace trammel::generated", ""])
    target = pathlib.Path(output)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
