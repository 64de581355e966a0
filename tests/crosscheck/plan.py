"""Holds the walls of random plans against shapely: inside lengths, outlines, corners, what is refused.

    python tests/crosscheck/plan.py path/to/plan_walls

Plans are drawn here: rectangles, L shapes, rounds, regular polygons, and rings of any turns with re-entrant
corners, measured outside or inside. Each is given to the program as sizes and turns. What it must make of them
comes from shapely: the other face is the polygon offset by the thickness with mitred corners
(`Polygon.buffer(..., join_style="mitre")`), and rounded corners are the polygon eroded with mitres and dilated
with arcs.

A plan must be refused just when the offset loses a side, falls apart or vanishes, or when a corner is too round
for its sides. Where a side is left with less than 5 mm, either is let pass.

Lengths of walls are written to a hundredth of a millimetre, insets as well: a length on a face is a sum of up to
three of them. Outlines are held to a thousandth of a millimetre where they come from the plan.

Exit 0 when all is well, 1 when not. Not here: areas, heights and volumes.
"""

import json
import math
import random
import subprocess
import sys
from collections import Counter

from shapely.geometry import Point, Polygon

COUNT, SEED = 3000, 20261125

WRITTEN = 0.005
"""Rounding of one written length, mm."""
DRAWN = 1e-3
"""Of the corners on plan, mm."""
ENDS = 0.2
"""Of outlines drawn from written lengths and turns, mm: a dozen roundings each way, and turns to a ten-thousandth
of a degree."""
CHORDS = 1e-5
"""Relative, of arcs drawn as chords of a 2048th of a turn."""
DOUBTFUL = 5.0
"""Sides so short, mm, that rounding may decide whether they are there."""


def turns_and_lengths(points):
    sides = [
        (b[0] - a[0], b[1] - a[1]) for a, b in zip(points, points[1:] + points[:1])
    ]
    lengths = [math.hypot(*side) for side in sides]
    turns = [
        math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])
        for a, b in zip(sides, sides[1:] + sides[:1])
    ]
    return turns, lengths


def laid(points):
    """The points moved so that the first is the origin and the first side runs along the first axis."""
    (x, y), (px, py) = points[0], points[1]
    size = math.hypot(px - x, py - y)
    c, s = (px - x) / size, (py - y) / size
    return [((a - x) * c + (b - y) * s, (b - y) * c - (a - x) * s) for a, b in points]


def skyline(rand):
    """Columns of different heights on one base: square corners, many of them re-entrant."""
    heights, last = [], 0
    for _ in range(rand.randint(2, 6)):
        height = rand.choice([h for h in range(3000, 12001, 500) if abs(h - last) >= 1000])
        heights.append(height)
        last = height
    widths = [rand.randrange(1500, 6000, 10) for _ in heights]
    right = sum(widths)
    points, x = [(0, 0), (right, 0)], right
    for width, height in reversed(list(zip(widths, heights))):
        points += [(x, height), (x - width, height)]
        x -= width
    return points


def star(rand):
    """Corners round a middle, near and far."""
    count = rand.randint(3, 12)
    angles = sorted(rand.uniform(0, 2 * math.pi) for _ in range(count))
    return [
        (r * math.cos(a), r * math.sin(a))
        for a in angles
        for r in [rand.uniform(3000, 12000)]
    ]


def regular(rand):
    count = rand.randint(3, 16)
    radius = rand.uniform(2500, 9000)
    return [
        (radius * math.cos(2 * math.pi * i / count), radius * math.sin(2 * math.pi * i / count))
        for i in range(count)
    ]


def drawable(points, distance):
    """Rings that a plan can give, and whose offset shapely does not simplify: it leaves out corners that stand
    off their chord by less than a hundredth of the distance."""
    polygon = Polygon(points)
    if not polygon.is_valid or polygon.exterior.is_ccw is False or polygon.area < 1e6:
        return False
    turns, lengths = turns_and_lengths(points)
    if any(abs(t) > math.radians(169.9) or abs(t) < math.radians(2) for t in turns):
        return False
    offs = [
        a * b * abs(math.sin(t)) / max(math.hypot(a + b * math.cos(t), b * math.sin(t)), 1)
        for a, b, t in zip(lengths, lengths[1:] + lengths[:1], turns)
    ]
    return min(lengths) > 20 and min(offs) > distance / 20


def rings(rand):
    while True:
        points = rand.choice([skyline, star, regular])(rand)
        turned = rand.randrange(len(points))
        points = points[turned:] + points[:turned]
        thickness = rand.randrange(80, 900)
        if drawable(points, thickness):
            return points, thickness


def corner_list(shape, count):
    """The corners of an offset polygon, anticlockwise; None when it is not one ring with as many corners."""
    if shape.geom_type != "Polygon" or shape.is_empty or shape.interiors:
        return None
    points = list(shape.exterior.coords)[:-1]
    if not shape.exterior.is_ccw:
        points.reverse()
    return points if len(points) == count else None


def side_by_side(points, along, distance):
    """The corners of an offset polygon in the order of those it comes from: each of its sides at the distance to
    the left of the side it belongs to."""
    if points is None:
        return None

    def off(turned):
        total = 0.0
        for a, b, p in zip(along, along[1:] + along[:1], points[turned:] + points[:turned]):
            cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
            total += abs(cross / math.dist(a, b) - distance) + math.dist(a, p) / 1e9
        return total

    turned = min(range(len(points)), key=off)
    return points[turned:] + points[:turned]


class Case:
    def __init__(self, number, rand):
        self.measured = rand.choice(["outside", "outside", "inside"])
        kind = rand.choice(["rectangle", "ell", "round", "ring", "ring", "ring", "ring", "ring"])
        self.kind, self.number = kind, number
        self.radius = rand.choice([0, 25, 100, 300])
        if kind == "round":
            self.thickness = rand.randrange(80, 900)
            self.diameter = rand.randrange(500, 12000)
            self.texts = [f"{self.diameter} mm"]
            return
        if kind == "rectangle":
            length, width = rand.randrange(1000, 15000), rand.randrange(1000, 9000)
            self.points = [(0, 0), (length, 0), (length, width), (0, width)]
            self.texts = [f"{length} mm", f"{width} mm"]
            self.thickness = rand.randrange(80, 900)
        elif kind == "ell":
            length, width = rand.randrange(3000, 15000), rand.randrange(3000, 9000)
            cut, deep = rand.randrange(500, length - 500), rand.randrange(500, width - 500)
            up, along = width - deep, length - cut
            self.points = [(0, 0), (length, 0), (length, up), (along, up), (along, width), (0, width)]
            self.texts = [f"{t} mm" for t in (length, width, cut, deep)]
            self.thickness = rand.randrange(80, 900)
        else:
            points, self.thickness = rings(rand)
            self.points = laid(points)
            turns, lengths = turns_and_lengths(points)
            self.texts = [
                text
                for t, l in zip(turns, lengths)
                for text in (f"{l:.9f} mm", f"{'left' if t > 0 else 'right'} {abs(math.degrees(t)):.12f}")
            ]

    def line(self):
        return "\t".join(
            [self.kind, self.measured, f"{self.thickness} mm", f"{self.radius} mm", *self.texts]
        )


class Checks:
    def __init__(self):
        self.count, self.worst, self.missed = Counter(), Counter(), []

    def near(self, what, ours, reference, limit, where):
        difference = abs(ours - reference)
        self.count[what] += 1
        self.worst[what] = max(self.worst[what], difference)
        if not difference <= limit:
            self.missed.append(f"{where}: {what} is {ours!r}, not {reference!r}")

    def true(self, what, holds, where):
        self.count[what] += 1
        if not holds:
            self.missed.append(f"{where}: {what}")

    def outline(self, what, ours, reference, limit, where):
        """Each corner of one outline at the corner of the other, whatever corner they begin with."""
        if len(ours) != len(reference):
            self.missed.append(f"{where}: {what} has {len(ours)} corners, not {len(reference)}")
            return
        begin = min(range(len(reference)), key=lambda i: math.dist(reference[i], ours[0]))
        turned = reference[begin:] + reference[:begin]
        self.near(what, max(map(math.dist, ours, turned)), 0.0, limit, where)


def compare_round(checks, case, made, where):
    outside = case.diameter / 2 + (case.thickness if case.measured == "inside" else 0)
    inside = outside - case.thickness
    if "faults" in made:
        checks.true("refused for no room only", inside < DOUBTFUL, where)
        return
    [wall] = made["walls"]
    checks.near("radius", wall["radius"], outside, WRITTEN, where)
    checks.near("sweep", wall["sweep"], 2 * math.pi, 1e-12, where)
    for name, radius in (("outside", outside), ("inside", inside)):
        drawn = Polygon(made["ring"][name])
        exact = Point(0, outside).buffer(radius, quad_segs=512)
        checks.near("circle drawn, relative", drawn.area / exact.area, 1.0, 2e-3, where)
        apart = drawn.hausdorff_distance(exact) / radius
        checks.near("distance of its chords, relative", apart, 0.0, 1e-3, where)


def compare_ring(checks, case, made, where):
    given = Polygon(case.points)
    count = len(case.points)
    thickness = case.thickness if case.measured == "inside" else -case.thickness
    offset = given.buffer(thickness, join_style="mitre", mitre_limit=1e4)
    other = side_by_side(corner_list(offset, count), case.points, -thickness)
    turns, _ = turns_and_lengths(case.points)
    # Sides of the other face by their own straight lines; not above nothing where they vanish.
    least = min(
        length + thickness * (math.tan(before / 2) + math.tan(after / 2))
        for length, before, after in zip(
            turns_and_lengths(case.points)[1], turns[-1:] + turns[:-1], turns
        )
    )
    outside = case.points if case.measured == "outside" else other
    inside = other if case.measured == "outside" else case.points
    rounds = True
    if other is not None:
        out_turns, out_lengths = turns_and_lengths(list(outside))
        takes = [case.radius * math.tan(t / 2) if t > 0 else 0 for t in out_turns]
        in_turns, _ = turns_and_lengths(list(inside))
        room = [
            length - before - after
            for length, before, after in zip(out_lengths, takes[-1:] + takes[:-1], takes)
        ]
        rounds = min(room) >= 0
        checks.true("turns stay", len(in_turns) == len(out_turns), where)
    if "faults" in made:
        sound = other is not None and least > DOUBTFUL and rounds
        checks.true(f"refused with reason ({made['faults'][:1]})", not sound, where)
        return "refused"
    checks.true("taken with reason", (other is not None or least < DOUBTFUL) and rounds, where)
    if other is None:
        return "doubtful"

    # On plan: the first corner of the outside at the origin, the first side along the first axis.
    x, y = outside[0]
    outside = [(a - x, b - y) for a, b in outside]
    inside = [(a - x, b - y) for a, b in inside]
    checks.outline("corners on plan", made["corners"], outside, DRAWN, where)
    checks.outline("outside drawn from walls", made["ring"]["outside"], outside, ENDS, where)
    checks.outline("inside drawn from walls", made["ring"]["inside"], inside, ENDS, where)

    (turns, out_lengths), (_, in_lengths) = map(turns_and_lengths, (outside, inside))
    plastered = 0.0
    for at, wall in enumerate(made["walls"]):
        place = f"{where}, wall {at + 1}"
        for name, lengths in (("outside", out_lengths), ("inside", in_lengths)):
            ours = wall["length"] - sum(wall[name])
            checks.near(f"length {name}", ours, lengths[at], 3 * WRITTEN + DRAWN, place)
        checks.true("no inset is negative", min(wall["outside"] + wall["inside"]) >= 0, place)
        convex = turns[at] > 0
        ends = {end["face"]: end for end in wall["ends"]}
        checks.true("a corner for each face", len(ends) == 2 == len(wall["ends"]), place)
        for face, external in (("outside", convex), ("inside", not convex)):
            end = ends[face]
            checks.true(
                "kind of corner", end["angle"] == ("external" if external else "internal"), place
            )
            checks.true("at the right end", end["end"] == "right", place)
            checks.near("turn", end["turn"], abs(turns[at]), 1e-6, place)
        radius = ends["outside"]["radius"] or 0.0
        checks.true("radius", radius == (case.radius if convex else 0), place)
        arc = radius * (ends["outside"]["turn"] - 2 * math.tan(ends["outside"]["turn"] / 2))
        plastered += wall["length"] - sum(wall["outside"]) + arc
    sums = sum(w["length"] - sum(w["inside"]) for w in made["walls"])
    checks.near("perimeter inside", sums, Polygon(inside).length, 3 * WRITTEN * count, where)

    shape = Polygon(outside)
    eroded = shape.buffer(-case.radius, join_style="mitre", mitre_limit=1e4)
    if case.radius and corner_list(eroded, count) is not None:
        rounded = eroded.buffer(case.radius, quad_segs=512)
        checks.near(
            "perimeter with rounded corners, relative",
            plastered / rounded.length,
            1.0,
            CHORDS,
            where,
        )
    return "taken"


def main():
    rand = random.Random(SEED)
    cases = [Case(number, rand) for number in range(COUNT)]
    ran = subprocess.run(
        [sys.argv[1]],
        input="".join(case.line() + "\n" for case in cases),
        capture_output=True,
        text=True,
        check=True,
    )
    lines = ran.stdout.splitlines()
    checks, seen = Checks(), Counter()
    checks.true("a line for every plan", len(lines) == COUNT, "all")
    for case, line in zip(cases, lines):
        made = json.loads(line)
        where = f"plan {case.number} ({case.kind}, {case.measured})"
        if case.kind == "round":
            compare_round(checks, case, made, where)
            seen["refused" if "faults" in made else "taken", case.kind] += 1
        else:
            seen[compare_ring(checks, case, made, where), case.kind] += 1
            seen["re-entrant"] += min(turns_and_lengths(case.points)[0]) < 0
    # The run must show what it claims.
    for what in ("rectangle", "ell", "round", "ring"):
        checks.true(f"{what} taken and refused", seen["taken", what] > 50 and seen["refused", what] > 5, "all")
    checks.true("re-entrant corners in a third of the plans", seen["re-entrant"] > COUNT / 3, "all")
    for what in checks.count:
        if what in checks.worst:
            print(f"{what:45} {checks.worst[what]:.1e} in {checks.count[what]:>6}")
        elif "refused with" not in what:
            print(f"{what:45} {'':>8} in {checks.count[what]:>6}")
    print(", ".join(f"{name}: {count}" for name, count in sorted(seen.items(), key=str)))
    for missed in checks.missed[:30]:
        print(missed)
    if checks.missed:
        print(f"{len(checks.missed)} differences")
    return 1 if checks.missed else 0


if __name__ == "__main__":
    sys.exit(main())
