"""Holds what the reader of typed values makes of units against pint, to 1e-12 relative.

Reads lines of JSON on standard input, as written by

    cargo run -p hodful-quantities --example unit_table | python tests/crosscheck/units.py

each with `kind`, `text` (what was typed), `plain` (the same as plain arithmetic with pint's names of
units) and `value` (what was read, in mm, mm2, mm3, kg, kg/mm3, rad, s or as a plain number). The caller
installs pint 0.25. Exit 0 when all agree, 1 when one does not or a kind is missing, 2 on bad input.
"""

import json
import sys

import pint

BASE = {
    "length": "millimeter",
    "area": "millimeter**2",
    "volume": "millimeter**3",
    "mass": "kilogram",
    "density": "kilogram / millimeter**3",
    "ratio": "dimensionless",
    "angle": "radian",
    "time": "second",
}
TOLERANCE = 1e-12  # relative; both sides work in 53-bit floating point, with a few roundings each


def main() -> int:
    units = pint.UnitRegistry()
    base = {kind: units.Unit(name) for kind, name in BASE.items()}
    counts = dict.fromkeys(BASE, 0)
    worst = dict.fromkeys(BASE, 0.0)
    failures = 0
    for number, line in enumerate(sys.stdin, start=1):
        try:
            case = json.loads(line)
            kind, value = case["kind"], float(case["value"])
            expected = units.Quantity(units.parse_expression(case["plain"])).m_as(base[kind])
        except (ValueError, KeyError, TypeError, pint.PintError) as error:
            print(f"line {number}: {error!r}: {line.strip()}", file=sys.stderr)
            return 2
        error = abs(value - expected) / abs(expected)
        counts[kind] += 1
        worst[kind] = max(worst[kind], error)
        # Written so that a value that is not a number fails as well.
        if not error <= TOLERANCE:
            failures += 1
            print(f"'{case['text']}' was read as {value!r}; pint has {expected!r} ({error:.1e})")
    for kind, count in counts.items():
        print(f"{kind}: {count} compared, worst relative difference {worst[kind]:.1e}")
    missing = [kind for kind, count in counts.items() if count == 0]
    if missing:
        print(f"nothing to compare for: {', '.join(missing)}")
    return 1 if failures or missing else 0


if __name__ == "__main__":
    sys.exit(main())
