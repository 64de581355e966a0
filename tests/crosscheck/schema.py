"""Holds the project files against the JSON Schema with an independent validator.

Run it from the root of the repository: python tests/crosscheck/schema.py
It needs the package jsonschema (the caller pins its version). Every example and demo project, and what
a new project starts from, must be valid; every copy of one with a single fault in it must not be. Not
here: whether the committed schema is the one that the program gives (a Rust test), and what the program
itself makes of a fault.
"""

import copy
import json
import sys
from pathlib import Path

from jsonschema import Draft202012Validator

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "assets/schema/hodful-project.schema.json"
EXAMPLE = ROOT / "crates/project-file/tests/files/larkfield.hodful.json"
START = ROOT / "assets/start.hodful.json"


def put(*path_and_value):
    """A fault: the value put at a path, or the key at the path removed when the value is Ellipsis."""
    *path, key, value = path_and_value

    def fault(project):
        for step in path:
            project = project[step]
        if value is ...:
            del project[key]
        else:
            project[key] = value

    return fault


WINDOW = ("walls", 0, "openings", 0)

FAULTS = {
    "unknown key of the project": put("colour", "ochre"),
    "unknown key of a wall": put("walls", 0, "hieght", "9'"),
    "unknown key of an opening": put(*WINDOW, "silll", "3'"),
    "unknown key of a face": put("walls", 0, "faces", "outside", "colour", "ochre"),
    "unknown side": put("walls", 0, "faces", "outsid", {}),
    "unknown key of a shape": put("walls", 0, "shape", "diameter", "9'"),
    "key of another kind of shape": put("walls", 0, "shape", "ridge", "9'"),
    "unknown kind of shape": put("walls", 0, "shape", "kind", "oval"),
    "missing kind": put("walls", 0, "shape", "kind", ...),
    "missing height": put("walls", 0, "shape", "height", ...),
    "missing sill": put(*WINDOW, "sill", ...),
    "missing name": put("name", ...),
    "missing version": put("version", ...),
    "later version": put("version", 2),
    "another format": put("format", "hodful-rule"),
    "bare number as a length": put("walls", 0, "thickness", 18),
    "text without a number": put("walls", 0, "thickness", "thick"),
    "null": put("walls", 0, "thickness", None),
    "unknown word": put("backgrounds", "adobe", "kind", "mud"),
    "unknown part of a reveal": put(*WINDOW, "reveals", "outside", "plastered", ["jamb"]),
    "text as a count": put(*WINDOW, "count", "3"),
    "broken count": put(*WINDOW, "count", 2.5),
    "negative count": put(*WINDOW, "count", -1),
    "list of coats as one coat": put("build_ups", "outside bale", {"coat": "scratch"}),
    "parts as a list": put("mixes", "base", "parts", [7, 3]),
    "polygon corner of three": put(
        "walls", 0, "shape", {"kind": "polygon", "corners": [["0", "0"], ["1 m", "0"], ["0", "1 m", "2 m"]]}
    ),
}


def main():
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    wrong = 0

    files = [EXAMPLE, START, *sorted((ROOT / "demo-projects").glob("*.hodful.json"))]
    for file in files:
        for error in validator.iter_errors(json.loads(file.read_text(encoding="utf-8"))):
            wrong += 1
            print(f"{file.name}: {error.json_path}: {error.message}")

    example = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    for name, fault in FAULTS.items():
        broken = copy.deepcopy(example)
        fault(broken)
        if validator.is_valid(broken):
            wrong += 1
            print(f"not refused: {name}")

    print(f"{len(files)} files valid, {len(FAULTS)} faults refused" if not wrong else f"{wrong} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
