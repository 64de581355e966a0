"""Holds random faces against shapely and numpy: outlines, openings, reveals, edges.

Reads on standard input the lines that the program's own example writes:

    cargo run --release -p hodful-geometry --example crosscheck -- faces 2000 20261125 | python tests/crosscheck/faces.py

Each line is one face: what goes in, and what the program makes of it. Everything is built again from what
goes in (openings.py, surfaces.py), and every figure is held to the limit of the way it comes about:

    closed      closed forms
    quadrature  splayed arches, integrated numerically on both sides
    polygons    straight sides cut or overlapped, through a polygon engine
    arcs        areas of holes whose arcs are cut or overlapped, drawn as chords of 1/128 of a radian
    chords      lines of such arcs that the face cuts, and what hangs on them

Differences are relative to the figure, but: openings to the holes before any cut or overlap, and where arcs are
drawn to the face; lines and reveals that a cut leaves a little of to a hundredth of the whole; coves to the
height of the face; growth to the length of the edges and the side of a square of the face's area.

The run must also show what it claims: every outline and opening, overlaps and cuts in a third of the faces
each, and a hundred faces whose openings the even-odd rule gets wrong by more than a hundredth of the field.

Exit 0 when all is well, 1 when not. Not here: layers and volumes (layers.py).
"""

import json
import math
import sys
from collections import Counter, defaultdict

from surfaces import Face

LIMITS = {"closed": 1e-9, "quadrature": 1e-6, "polygons": 1e-7, "arcs": 1e-6, "chords": 1e-6}
ORDER = list(LIMITS)

FOLDS = 1e-4
"""Limit of growth where an arch is splayed: the fold at its springing starts steeper than its area."""

OUTLINES = {"rectangle", "gable", "raked", "polygon", "curved"}
OPENINGS = {"rectangle", "segmental", "semicircular", "elliptical", "circle", "polygon"}

SAME = 1e-9
"""Share of a cut part within which rule and surface are the same."""


class Comparison:
    """The worst difference of every figure on every way."""

    def __init__(self):
        self.worst = defaultdict(float)
        self.count = Counter()
        self.missed = []

    def add(self, name, way, ours, reference, scale, where, limit=0.0):
        limit = max(limit, LIMITS[way])
        # A millimetre, or a square one, is the least anything is held to.
        difference = float(abs(ours - reference) / max(scale, 1.0))
        self.count[name, way] += 1
        self.worst[name, way] = max(self.worst[name, way], difference)
        # Written so that what is not a number fails as well.
        if not difference <= limit:
            self.missed.append(
                f"{where}: {name} is {ours!r}, not {float(reference)!r} ({difference:.1e}, {way})"
            )

    def report(self):
        names = list(dict.fromkeys(name for name, _ in self.count))
        print(f"{'':12}" + "".join(f"{way + ' ' + format(LIMITS[way], '.0e'):>19}" for way in ORDER))
        for name in names:
            row = f"{name:12}"
            for way in ORDER:
                count = self.count[name, way]
                row += f"{self.worst[name, way]:.1e} in {count:>6}".rjust(19) if count else " " * 19
            print(row)


def worse(*ways):
    return max(ways, key=ORDER.index)


def way_of_outline(face):
    return "polygons" if face.outline.kind == "polygon" and face.outline.trimmed else "closed"


def bent(made, part):
    """Whether a part of an arched opening is more than its lines say."""
    return made.springing is not None and part.name in ("jambs", "head") and part.extra() != 0


def way_of_part(face, copy, part):
    """How the figures of a part of a reveal come about."""
    splayed = bent(copy.opening, part)
    way = "quadrature" if splayed else "closed"
    if copy.clear:
        return way
    if part.arc is not None or splayed:
        if face.outline.kind == "polygon" or not face.cut_by_floor(copy):
            return "chords"
    return worse(way, "polygons") if face.outline.kind == "polygon" else way


def compare_parts(comparison, face, line, where):
    """Every part of every opening. Gives the worst way."""
    worst = "closed"
    for measured in line["measured"]:
        index, first = measured["opening"], measured["first_copy"]
        copies = face.copies[index][first : first + measured["copies"]]
        parts = copies[0].opening.parts
        if [p.name for p in parts] != [p["part"] for p in measured["parts"]]:
            comparison.missed.append(f"{where}, opening {index}: other parts")
            continue
        for copy in copies:
            for part, ours in zip(parts, measured["parts"]):
                way = way_of_part(face, copy, part)
                worst = worse(worst, way)
                row = face.lining(copy, part)
                place = f"{where}, opening {index}, {part.name}"
                for name, reference, whole in (
                    ("frame_line", row.frame, part.frame_length),
                    ("face_line", row.face, part.face_length),
                    ("reveal_area", row.area, part.area),
                ):
                    scale = max(reference, whole / 100)
                    comparison.add(name, way, ours[name], reference, scale, place)
    return worst


def compare_face(comparison, line, where):
    face = Face(line)
    ours, reference = line["total"], face.measure()
    parts = compare_parts(comparison, face, line, where)
    base, holes = way_of_outline(face), face.way()
    if face.cut or face.overlapping:
        holes = worse(holes, base)
    sides = worse(base, parts)

    def add(name, way, scale=None, limit=0.0):
        scale = abs(reference[name]) if scale is None else scale
        comparison.add(name, way, ours[name], reference[name], scale, where, limit)

    add("outline", base)
    drawn = sum(copy.opening.hole_area for copy in face.every)
    add("openings", holes, reference["outline"] if holes == "arcs" else drawn)
    for sums in (ours, reference):
        sums["net"] = sums["outline"] - sums["openings"]
    add("net", worse(base, holes))
    for name in ("reveals", "edges", "strips", "edge_length", "lath"):
        add(name, sides)
    _, low, _, high = face.outline.shape.bounds
    tall = sum(e["radius"] ** 2 * (math.tan(e["turn"] / 2) - e["turn"] / 2) for e in line["ends"])
    add("coves", base, max(reference["coves"], tall * (high - low)))
    if face.growth_known() and not face.cut:
        scale = reference["edge_length"] + math.sqrt(reference["outline"])
        splayed = any(bent(made, part) for made in face.openings for part in made.parts)
        add("growth", worse(sides, holes), scale, FOLDS if splayed else 0.0)
    return face, reference


def rule_and_surface(face):
    """Cut parts of reveals by the rule of the two lines and by the surface itself, with the whole part."""
    for copy in face.every:
        for part in copy.opening.parts:
            surface = None if copy.clear else face.surface(copy, part)
            if surface is not None:
                rule = face.lining(copy, part).area
                if surface > 0 or rule > 0:
                    yield float(rule), float(surface), float(part.area)


def look_at_rule(rows, missed):
    """What the rule for cut reveals costs: the surface is known wherever it is plane, square or a cone."""
    same = sum(abs(rule - surface) <= SAME * part for rule, surface, part in rows)
    worst = max(abs(rule - surface) / part for rule, surface, part in rows)
    together = sum(row[0] for row in rows) / sum(row[1] for row in rows) - 1
    print(
        f"{len(rows)} cut parts of reveals against the surface itself: the rule is exact for {same},"
        f" off by {worst:.2f} of the part at worst, by {together:+.2%} in all"
    )
    if same < 2 / 3 * len(rows) or worst > 0.75 or abs(together) > 0.02:
        missed.append("the rule for cut reveals is further from the surface than it is known to be")


def main():
    comparison = Comparison()
    seen, outlines, kinds = Counter(), Counter(), Counter()
    rule = []
    for number, text in enumerate(sys.stdin):
        face, reference = compare_face(comparison, json.loads(text), f"face {number}")
        outlines[face.outline.kind] += 1
        kinds.update(made.kind for made in face.openings)
        seen["faces"] += 1
        seen["holes"] += len(face.every)
        seen["overlapping"] += face.overlapping
        seen["cut"] += face.cut
        seen["repeated"] += any(len(copies) > 1 for copies in face.copies)
        seen["splayed"] += any(p.splay > 0 for made in face.openings for p in made.parts)
        wrong = reference["outline"] - face.even_odd
        seen["wrong by even-odd"] += abs(wrong / reference["net"] - 1) > 0.01
        rule.extend(rule_and_surface(face))

    comparison.report()
    for what in (outlines, kinds, seen):
        print(", ".join(f"{n} {name}" for name, n in what.items()))
    missed = comparison.missed
    look_at_rule(rule, missed)
    for name, share in (
        ("overlapping", 1 / 3),
        ("cut", 1 / 3),
        ("repeated", 1 / 6),
        ("splayed", 1 / 3),
        ("wrong by even-odd", 1 / 20),
    ):
        if seen[name] < share * seen["faces"]:
            missed.append(f"only {seen[name]} faces of {seen['faces']} are {name}")
    if seen["faces"] < 2000:
        missed.append(f"only {seen['faces']} faces")
    for what, wanted in ((outlines, OUTLINES), (kinds, OPENINGS)):
        missed.extend(f"no {kind}" for kind in wanted if not what[kind])
    for text in missed[:20]:
        print(text)
    print(f"faces: {sum(comparison.count.values())} figures compared, {len(missed)} missed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
