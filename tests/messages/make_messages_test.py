"""The generator refuses a duplicate code, a missing help or line, a stray brace, another key and a bad code."""
import pathlib
import subprocess
import sys
import tempfile
import tomllib

GOOD = '[a-code]\nline = "it is {value}"\nhelp = "why {{so}}"\n'
BAD = {
    "duplicate": (GOOD, GOOD, "stands in"),
    "no help": (GOOD, '[b]\nline = "x"\n', "has no help"),
    "empty help": (GOOD, '[b]\nline = "x"\nhelp = " "\n', "has no help"),
    "no line": (GOOD, '[b]\nhelp = "x"\n', "has no line"),
    "open brace": (GOOD, '[b]\nline = "{value"\nhelp = "x"\n', "stray brace"),
    "close brace": (GOOD, '[b]\nline = "x"\nhelp = "value}"\n', "stray brace"),
    "bad name": (GOOD, '[b]\nline = "{Some Value}"\nhelp = "x"\n', "stray brace"),
    "other key": (GOOD, '[b]\nline = "x"\nhelp = "x"\nnote = "y"\n', "unknown key"),
    "bad code": (GOOD, '[B_c]\nline = "x"\nhelp = "x"\n', "small letters"),
    "not toml": (GOOD, "[b\n", "two.toml"),
}


def run(one, two):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder)
        (path / "one.toml").write_text(one)
        (path / "two.toml").write_text(two)
        out = path / "out" / "table.h"
        done = subprocess.run([sys.executable, sys.argv[1], folder, str(out)], capture_output=True, text=True)
        return done.returncode, done.stderr, out.read_text() if out.exists() else None


code, said, table = run(GOOD, '[b]\nline = "x"\nhelp = "y"\n')
assert code == 0 and table.index('"a-code"') < table.index('"b"'), said
for name, (one, two, words) in BAD.items():
    code, said, table = run(one, two)
    assert code == 1 and words in said and table is None, f"{name}: {code} {said}"


# A translation may leave out a help, and must have the names of English.
def translated(text):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder)
        for name, body in (("en", GOOD), ("xx", text)):
            (path / name).mkdir()
            (path / name / "one.toml").write_text(body)
        done = subprocess.run([sys.executable, sys.argv[1], str(path / "xx"), str(path / "table.h"), "xx", str(path / "en")],
                              capture_output=True, text=True)
        return done.returncode, done.stderr


assert translated('[a-code]\nline = "es ist {value}"\n')[0] == 0
for text, words in (('[a-code]\nline = "es ist"\n', "other names"), ('[b]\nline = "x"\n', "does not stand in English"),
                    ('[a-code]\nhelp = "x"\n', "has no line")):
    code, said = translated(text)
    assert code == 1 and words in said, said

# All that a printed sheet can say is there in every language, by the file it stands in.
PRINTED = ("sheets", "booklet", "work", "alignment", "geometry", "loads", "fasteners", "drawing")
SCREEN_ONLY = ("option-", "study-", "times-unreadable", "drawing-no-map", "drawing-no-curve", "drawing-nothing")
messages = pathlib.Path(sys.argv[1]).parent.parent / "messages"
for folder in sorted(p for p in messages.iterdir() if p.is_dir() and p.name != "en"):
    known = set()
    for path in folder.glob("*.toml"):
        known |= tomllib.loads(path.read_text(encoding="utf-8")).keys()
    for room in PRINTED:
        english = tomllib.loads((messages / "en" / f"{room}.toml").read_text(encoding="utf-8"))
        missing = [code for code in english if code not in known and not code.startswith(SCREEN_ONLY)]
        assert not missing, f"messages/{folder.name} lacks of {room}.toml: {', '.join(missing)}"
print(f"{len(BAD)} faults refused")
