"""Typed values of a project file as exact quantities of pint, and its walls as faces for surfaces.py.

Numbers are fractions, so that nothing is rounded on the way. Read are the spellings that the demo projects use;
whether the program reads every spelling right is checked in units.py. Not here: any arithmetic with the values.
"""

import json
import math
import re
from fractions import Fraction

import pint

units = pint.UnitRegistry(non_int_type=Fraction)

NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
FEET = re.compile(rf"(?P<feet>{NUMBER})'(?: ?(?P<inches>{NUMBER})\")?")
PLAIN = re.compile(rf"(?P<number>{NUMBER}) ?(?P<unit>[^\d].*)?")

NAMES = {
    "%": "percent",
    "deg": "degree",
    "t": "metric_ton",
    "qt": "US_liquid_quart",
    "gal": "US_liquid_gallon",
}


def number(text):
    return sum(Fraction(part) for part in str(text).split())


def read(text):
    """A quantity from what was typed; a number without a unit has no dimension."""
    feet = FEET.fullmatch(text)
    if feet:
        inches = number(feet["inches"] or 0) + 12 * number(feet["feet"])
        return units.Quantity(inches, "inch")
    plain = PLAIN.fullmatch(text)
    if plain is None:
        raise ValueError(f"cannot read {text!r}")
    unit = plain["unit"] or ""
    # lb/ft3 is lb/ft**3; a word of pint's own otherwise.
    parts = [re.sub(r"([a-z])([23])$", r"\1**\2", NAMES.get(p, p)) for p in unit.split("/")]
    return units.Quantity(number(plain["number"]), "/".join(parts))


def exact(quantity, unit):
    """The fraction a quantity is of a unit."""
    return Fraction(quantity.to(unit).magnitude)


def value(text, unit, default=None):
    """What was typed, in a unit, as a fraction; the default where nothing was."""
    if text is None:
        return default
    quantity = read(text)
    # Nothing needs no unit.
    return Fraction(0) if quantity.magnitude == 0 else exact(quantity, unit)


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file, parse_float=Fraction)


def mm(text):
    return float(value(text, "mm", Fraction(0)))


def angle(text):
    """In radians."""
    return math.radians(float(value(text, "degree", Fraction(0))))


def faces(project):
    """Every plastered face as surfaces.py wants it, with what else of it counts: (wall, side, face, typed)."""
    for wall in project["walls"]:
        for side in ("outside", "inside"):
            typed = wall["faces"].get(side)
            if typed is not None:
                yield wall, side, face(wall, side, typed), typed


def face(wall, side, typed):
    inset = typed.get("inset", {})
    return {
        "outline": outline(wall["shape"]),
        "thickness": mm(wall["thickness"]),
        "side": side,
        "inset": {key: mm(inset.get(key)) for key in ("left", "right", "top", "bottom")},
        "openings": [opening(o, side) for o in wall.get("openings", [])],
        "ends": [end(e) for e in wall.get("ends", []) if e["face"] == side],
    }


def corners(pairs):
    return [[mm(u), mm(v)] for u, v in pairs]


def outline(shape):
    made = {"kind": shape["kind"]}
    for key, text in shape.items():
        if key == "corners":
            made[key] = corners(text)
        elif key == "sweep":
            made[key] = angle(text)
        elif key != "kind":
            made[key] = mm(text)
    if shape["kind"] == "gable":
        made.setdefault("ridge_from_left", made["length"] / 2)
    return made


def opening(typed, side):
    shape, frame = typed["shape"], typed.get("frame", {})
    made = {"kind": shape["kind"]}
    if shape["kind"] == "arched":
        made["kind"] = shape.get("head", "segmental")
        made["width"], made["springing"] = mm(shape["width"]), mm(shape["springing"])
        made["rise"] = mm(shape["rise"]) if "rise" in shape else made["width"] / 2
    elif shape["kind"] == "polygon":
        made["corners"] = corners(shape["corners"])
    else:
        made |= {key: mm(text) for key, text in shape.items() if key != "kind"}
    return {
        "shape": made,
        "from_left": mm(typed["from_left"]),
        "sill": mm(typed["sill"]),
        "from_outside": mm(frame.get("from_outside")),
        "frame_depth": mm(frame.get("depth")),
        "count": typed.get("count", 1),
        "spacing": mm(typed.get("spacing")),
        "reveal": reveal(typed.get("reveals", {}).get(side)),
    }


def reveal(typed):
    if typed is None:
        return None
    return {
        "plastered": typed["plastered"],
        "splay": {part: angle(text) for part, text in typed.get("splay", {}).items()},
        "radius": mm(typed.get("radius")),
        "lath": mm(typed.get("lath")),
    }


def end(typed):
    key = "radius" if typed["angle"] == "external" else "cove"
    return {
        "end": typed["end"],
        "angle": typed["angle"],
        "radius": mm(typed.get(key)),
        "turn": angle(typed.get("turn", "90 deg")),
    }
