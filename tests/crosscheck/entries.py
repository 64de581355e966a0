"""Reads the calendar of the program's own example with the icalendar library and compares every entry.

    python tests/crosscheck/entries.py EXAMPLE

EXAMPLE is the built example `calendar`. Every entry has what went in: texts with commas, semicolons, line ends,
quotes, backslashes, letters of several octets and 200 signs; days and times; nothing else. Lines end in CR LF, have
75 octets at most, and are UTF-8 each by itself (RFC 5545, section 3.1).

Not named calendar: that would stand before the module of Python. Exit 0 when all is well, 1 when not.
"""

import json
import subprocess
import sys
from datetime import date, datetime, timedelta, timezone

from icalendar import Calendar

EXPECTED = 17
"""Entries of the example."""


def run(*arguments):
    return subprocess.run(arguments, capture_output=True, check=True).stdout


def lines(octets):
    yield "ends in CR LF", octets.endswith(b"\r\n")
    found = octets.split(b"\r\n")
    yield "no other line ends", not any(b"\r" in line or b"\n" in line for line in found)
    yield "75 octets at most", max(map(len, found)) <= 75
    yield "some lines are folded", any(line.startswith(b" ") for line in found)
    for line in found:
        line.decode("utf-8")
    yield "letters are whole", True


def entry(event, expected):
    # A tab is the only control sign that a text may hold.
    for name in ("uid", "summary", "description"):
        found = event.get(name)
        yield name, ("" if found is None else str(found)) == expected[name]
    categories = event.get("categories")
    yield "categories", ([] if categories is None else [str(c) for c in categories.cats]) == expected["categories"]
    yield "stamp", event["dtstamp"].dt == datetime(2026, 3, 2, 8, tzinfo=timezone.utc)
    when = expected["when"]
    start, end = event["dtstart"].dt, event["dtend"].dt
    if "first" in when:
        yield "first day", type(start) is date and start == date.fromisoformat(when["first"])
        yield "last day", type(end) is date and end - timedelta(days=1) == date.fromisoformat(when["last"])
    else:
        yield "starts", start == datetime.fromisoformat(when["starts"]) and start.tzinfo is None
        yield "ends", end == datetime.fromisoformat(when["ends"]) and end.tzinfo is None
    yield "nothing else", not event.errors and not event.subcomponents


def main():
    (example,) = sys.argv[1:]
    octets = run(example)
    expected = [json.loads(line) for line in run(example, "entries").decode("utf-8").splitlines()]
    calendar = Calendar.from_ical(octets)
    checks = [("file", what, holds) for what, holds in lines(octets)]
    checks.append(("calendar", "made by", str(calendar["prodid"]) == "-//Hodful//Hodful; cross-check//EN"))
    checks.append(("calendar", "version", str(calendar["version"]) == "2.0"))
    checks.append(("calendar", "entries", len(calendar.events) == len(expected) == EXPECTED))
    for event, wanted in zip(calendar.events, expected):
        checks.extend((wanted["uid"], what, holds) for what, holds in entry(event, wanted))
    wrong = [f"{where}: {what}" for where, what, holds in checks if not holds]
    print(f"{len(expected)} entries, {len(checks)} comparisons")
    for line in wrong[:20]:
        print(f"    FAILED {line}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
