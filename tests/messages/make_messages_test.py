"""The generator refuses a duplicate code, a missing help or line, a stray brace, another key and a bad code."""
import pathlib
import subprocess
import sys
import tempfile

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
print(f"{len(BAD)} faults refused")
