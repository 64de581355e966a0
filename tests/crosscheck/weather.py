"""Holds the reading of EPW files against pvlib, hour by hour, and lowest temperatures of days against published files.

    python tests/crosscheck/weather.py EXAMPLE SYNTHETIC SHIPPED [FOLDER]

EXAMPLE is the built example `weather`, SYNTHETIC the built example `synthetic_weather`, SHIPPED the invented file that
comes with the program. Compared with `pvlib.iotools.read_epw`:

- the invented year and months, and variants of them made here: minute 0, CR LF, a byte order mark, missing codes, a
  short gap, hours out of order, years that jump;
- with FOLDER, EPW files of the National Renewable Energy Laboratory (TMY3) that lie in it: besides all hours the
  days with a low of 0 °C or less, by month, counted here from the text of the file with nothing but `csv`.

Exit 0 when all is well, 1 when not. Not here: typed days and tables.
"""

import csv
import json
import math
import pathlib
import subprocess
import sys
import tempfile

import pandas as pd
from pvlib.iotools import read_epw

COLUMNS = {
    # ours: theirs, their unit in ours, missing from here on
    "dry_bulb": ("temp_air", 1, 99.9),
    "humidity": ("relative_humidity", 100, 999),
    "pressure": ("atmospheric_pressure", 1, 999999),
    "wind": ("wind_speed", 1, 999),
    "sun": ("ghi", 1, 9999),
    "beam": ("dni", 1, 9999),
    "diffuse": ("dhi", 1, 9999),
    "cloud": ("total_sky_cover", 10, 99),
    "rain": ("liquid_precipitation_depth", 1, 999),
}

CLOSE = 1e-12
"""Relative: a division is all that is between the two."""

PUBLISHED = {
    "USA_IL_Chicago.OHare.Intl.AP.725300_TMY3.epw": (-22.8, [29, 22, 20, 5, 0, 0, 0, 0, 0, 3, 13, 29]),
    "USA_AK_Northway.AP.702910_TMY3.epw": (-46.0, [31, 28, 31, 26, 15, 2, 0, 5, 19, 25, 30, 31]),
}
"""The lowest temperature and the days with a low of 0 °C or less of each month, read off the files once."""


def ours(example, path):
    run = subprocess.run([example, path], capture_output=True, text=True)
    if run.returncode:
        sys.exit(f"{path} was refused: {run.stderr}")
    first, *hours = map(json.loads, run.stdout.splitlines())
    return first, hours


def compare(example, path, ordered=True):
    """How many values are compared, how far off the worst is, and what is wrong."""
    head, hours = ours(example, path)
    theirs, about = read_epw(str(path))
    wrong, compared, worst = [], 0, 0.0
    for name, value in zip(("city", "latitude", "longitude", "TZ", "altitude"), head["place"]):
        compared += 1
        if value != about[name]:
            wrong.append(f"{name}: {value}, not {about[name]}")
    if not ordered:
        theirs = theirs.sort_index()
    if len(hours) != len(theirs):
        return compared, worst, [*wrong, f"{len(hours)} hours, not {len(theirs)}"]
    for hour, (begins, row) in zip(hours, theirs.iterrows()):
        compared += 1
        if pd.Timestamp(hour["begins"]) != begins.tz_localize(None):
            wrong.append(f"{begins}: begins {hour['begins']}")
        for own, (column, parts, missing) in COLUMNS.items():
            value, expected = hour[own], float(row[column])
            if own in ("dry_bulb", "humidity", "pressure") and expected >= missing:
                continue
            compared += 1
            gone = math.isnan(expected) or expected >= missing or expected < 0 and own not in ("dry_bulb",)
            if gone or value is None:
                if not (gone and value is None):
                    wrong.append(f"{begins} {own}: {value}, not {expected}")
                continue
            expected = min(expected, 100) if own == "humidity" else expected
            off = abs(value * parts - expected) / max(1.0, abs(expected))
            worst = max(worst, off)
            if off > CLOSE:
                wrong.append(f"{begins} {own}: {value}, not {expected}")
    return compared, worst, wrong


def lows(path):
    """Of each day of a file, by month and day, with nothing but the csv module."""
    found = {}
    with open(path, newline="", encoding="latin-1") as lines:
        for row in list(csv.reader(lines))[8:]:
            day = int(row[1]), int(row[2])
            found[day] = min(found.get(day, math.inf), float(row[6]))
    return found


def frosts(days):
    return [sum(1 for (m, _), low in days.items() if m == month and low <= 0) for month in range(1, 13)]


def published(example, path):
    _, hours = ours(example, path)
    own = {}
    for hour in hours:
        stamp = pd.Timestamp(hour["begins"])
        day = stamp.month, stamp.day
        own[day] = min(own.get(day, math.inf), hour["dry_bulb"])
    lowest, by_month = PUBLISHED[path.name]
    if own != lows(path):
        yield "lows of days differ from those in the text"
    if (min(own.values()), frosts(own)) != (lowest, by_month):
        yield f"{min(own.values())} and {frosts(own)}, not {lowest} and {by_month}"


def cells(text, change):
    """The text with the cells of every hour changed by a function of its place and its cells."""
    head, hours = text.split("\n")[:8], text.rstrip("\n").split("\n")[8:]
    changed = [",".join(change(at, line.split(","))) for at, line in enumerate(hours)]
    return "\n".join([*head, *changed]) + "\n"


def with_cell(column, value, only=lambda at: True):
    def change(at, row):
        return [*row[: column - 1], value, *row[column:]] if only(at) else row

    return change


def variants(text):
    yield "as it is", text, True
    yield "minute 0", cells(text, with_cell(5, "0")), True
    yield "CR LF", text.replace("\n", "\r\n"), True
    yield "byte order mark", "\ufeff" + text, True
    yield "missing codes", cells(text, with_cell(22, "999", lambda at: at % 5 == 0)), True
    yield "missing sun", cells(text, with_cell(14, "9999", lambda at: at % 7 == 0)), True
    yield "pressure missing", cells(text, with_cell(10, "999999", lambda at: at % 100 == 9)), True
    yield "a short gap", cells(text, with_cell(7, "99.9", lambda at: 500 <= at < 503)), True
    yield "one year", cells(text, with_cell(1, "2023")), True
    lines = text.split("\n")
    lines[100], lines[200] = lines[200], lines[100]
    yield "out of order", cells("\n".join(lines), with_cell(1, "2023")), False


def report(name, compared, worst, wrong):
    print(f"{name}: {compared} comparisons, worst {worst:.1e}")
    for line in wrong[:10]:
        print(f"    FAILED {line}")
    return bool(wrong)


def main():
    example, synthetic, shipped, *folder = sys.argv[1:]
    year = subprocess.run([synthetic], capture_output=True, text=True, check=True).stdout
    spring = subprocess.run([synthetic, "3", "5"], capture_output=True, text=True, check=True).stdout
    failed = False
    if pathlib.Path(shipped).read_text(encoding="utf-8") != spring:
        print("    FAILED the file that comes with the program is not what its example writes")
        failed = True
    with tempfile.TemporaryDirectory() as scratch:
        for source, text in (("year", year), ("spring", spring)):
            for name, changed, ordered in variants(text):
                path = pathlib.Path(scratch) / "variant.epw"
                path.write_text(changed, encoding="utf-8", newline="")
                failed |= report(f"{source}, {name}", *compare(example, path, ordered))
    found = [path for path in pathlib.Path(*folder).rglob("*.epw") if path.name in PUBLISHED] if folder else []
    for path in found:
        compared, worst, wrong = compare(example, path)
        failed |= report(path.name, compared + 13, worst, [*wrong, *published(example, path)])
    if folder and len(found) != len(PUBLISHED):
        sys.exit(f"{len(found)} published files, not {len(PUBLISHED)}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
