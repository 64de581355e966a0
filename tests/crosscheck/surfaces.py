"""The surfaces of one face of a wall, from its parameters, a second way.

Outlines and holes are polygons of shapely; what the face cuts off is found by cutting lines and polygons.
Lengths in millimetres, angles in radians. A face comes as the dictionary that the program's example prints
(see faces.py). Not here: the formulas of an opening (openings.py), and any comparing.

Source of the growth: Steiner's formula for parallel surfaces.
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from openings import Opening, Part, opening

HAIR = 2e-9
"""Millimetres by which a face is widened before lines are cut with it: a line along its edge is inside."""

WHOLE = 1e-8
"""Share of a hole that may be missing when it counts as whole: rounding, or the chords of a tangent circle."""

SAG = 2e-7
"""Share of a hole's size by which its drawn corners may lie outside its arcs."""

END = 1e-4
"""Millimetres that a corner may lie from the end of a face whose upright edge it bounds."""


@dataclass
class Outline:
    """The part of a face that is plastered, openings not yet taken out."""

    kind: str
    shape: object
    trimmed: bool
    radius: float
    """Of the face on plan: above nothing outside, below inside, nothing where it is flat."""
    stretch: float
    """What one millimetre along the outside measures here."""
    floor: float

    def __post_init__(self):
        self.widened = self.shape.buffer(HAIR, join_style="mitre")
        shapely.prepare(self.widened)

    def inside(self, line):
        """Length of a line inside."""
        return self.widened.intersection(line).length

    def end(self, end):
        """Length of the vertical edge at an end."""
        at = self.shape.bounds[0 if end == "left" else 2]
        length = 0.0
        for piece in getattr(self.shape, "geoms", [self.shape]):
            ring = shapely.get_coordinates(piece)
            on_end = np.abs(ring[:, 0] - at) < END
            both = on_end[:-1] & on_end[1:]
            length += float(np.sum(np.abs(np.diff(ring[:, 1]))[both]))
        return length


def outline(face):
    shape, inset = face["outline"], face["inset"]
    kind = shape["kind"]
    radius, stretch = 0.0, 1.0
    if kind == "rectangle":
        wall = box(0, 0, shape["length"], shape["height"])
    elif kind == "gable":
        length, eaves = shape["length"], shape["eaves"]
        ridge = (shape["ridge_from_left"], shape["ridge"])
        wall = Polygon([(0, 0), (length, 0), (length, eaves), ridge, (0, eaves)])
    elif kind == "raked":
        length = shape["length"]
        wall = Polygon([(0, 0), (length, 0), (length, shape["right"]), (0, shape["left"])])
    elif kind == "polygon":
        wall = Polygon(shape["corners"])
    else:
        radius = out = shape["radius"]
        length = shape["sweep"] * out if "sweep" in shape else shape["length"]
        if face["side"] == "inside":
            radius = face["thickness"] - out
            stretch = -radius / out
        wall = box(0, 0, length * stretch, shape["height"])
    left, bottom, right, top = wall.bounds
    floor = bottom + inset["bottom"]
    trimmed = any(inset.values())
    if trimmed:
        lowered = affinity.translate(wall, 0, -inset["top"])
        keep = box(left + inset["left"], floor, right - inset["right"], top - inset["top"])
        wall = wall.intersection(lowered).intersection(keep)
    return Outline(kind, wall, trimmed, radius, stretch, floor)


@dataclass
class Copy:
    """One copy of an opening on a face."""

    opening: Opening
    at: tuple
    """Lower left of the frame's box."""
    hole: object
    area: float
    """Of the hole inside the face."""
    whole: bool
    """Whether nothing of that area is cut off."""
    clear: bool
    """Whether its box is inside; else its lines are cut, for a tip that shows in no area may be long."""
    apart: bool = True

    def put(self, shape):
        return affinity.translate(shape, *self.at)


@dataclass
class Lining:
    """A part of one copy's reveal, as far as it is inside the face."""

    part: Part
    frame: float
    """Length of its lines on the frame."""
    face: float
    area: float
    folds: list
    """Share of each fold."""
    turning: float
    """Share of its curve."""


class Face:
    """A face measured the second way."""

    def __init__(self, face):
        self.face = face
        self.outline = outline(face)
        self.openings = [opening(o, face["side"], face["thickness"]) for o in face["openings"]]
        self.copies = [self.place(*pair) for pair in zip(self.openings, face["openings"])]
        self.every = [copy for copies in self.copies for copy in copies]
        self.cut = any(not copy.whole for copy in self.every)
        self.find_overlaps()
        self.overlapping = any(not copy.apart for copy in self.every)
        self.holes, self.even_odd = self.areas()

    def place(self, made, spec):
        copies = []
        for i in range(spec["count"]):
            left = spec["from_left"] + i * (spec["spacing"] or 0.0)
            # On a wall curved on plan the middle keeps its angle at the centre.
            left = (left + made.width / 2) * self.outline.stretch - made.width / 2
            at = (left, spec["sill"])
            hole = affinity.translate(made.hole, *at)
            outside = hole.difference(self.outline.shape).area
            left, low, right, high = hole.bounds
            sag = SAG * (right - left + high - low)
            frame = box(left + sag, low + sag, right - sag, high - sag)
            clear = bool(self.outline.widened.covers(frame))
            whole = clear or outside <= WHOLE * hole.area
            area = made.hole_area if whole else made.hole_area - outside
            copies.append(Copy(made, at, hole, area, whole, clear))
        return copies

    def find_overlaps(self):
        tree = shapely.STRtree([copy.hole for copy in self.every])
        for i, copy in enumerate(self.every):
            for k in tree.query(copy.hole):
                other = self.every[k]
                if k > i:
                    common = copy.hole.intersection(other.hole).area
                    if common > WHOLE * min(copy.hole.area, other.hole.area):
                        copy.apart = other.apart = False

    def areas(self):
        """Area of the holes in the face, overlaps once; and under the even-odd rule, which is wrong."""
        alone = sum(copy.area for copy in self.every if copy.apart)
        crowd = [copy.hole for copy in self.every if not copy.apart]
        if not crowd:
            return alone, alone
        odd = crowd[0]
        for hole in crowd[1:]:
            odd = odd.symmetric_difference(hole)
        once = shapely.union_all(crowd)
        return tuple(alone + s.intersection(self.outline.shape).area for s in (once, odd))

    def way(self):
        """How the area of the holes can be had.

        'closed': whole holes apart from each other, rectangles however they are cut or overlap on a face that is
        no polygon, and arched holes that the floor cuts under their springing. 'arcs': an arc is cut or overlapped.
        'polygons': straight sides alone are.
        """
        profile = self.outline.kind != "polygon"
        ways = {"closed"}
        for copy in self.every:
            if copy.clear and copy.apart:
                continue
            if copy.opening.has_arc():
                closed = profile and copy.apart and self.cut_by_floor(copy)
                ways.add("closed" if closed else "arcs")
            else:
                closed = profile and copy.opening.kind == "rectangle"
                ways.add("closed" if closed else "polygons")
        return next(way for way in ("arcs", "polygons", "closed") if way in ways)

    def cut_by_floor(self, copy):
        """Whether only the floor cuts it, and under the springing."""
        springing, floor = copy.opening.springing, self.outline.floor
        if springing is None or copy.at[1] + springing < floor:
            return False
        left, _, right, top = copy.hole.bounds
        return self.outline.widened.covers(copy.hole.intersection(box(left, floor, right, top)))

    def length(self, copy, lines):
        return sum(self.outline.inside(copy.put(line)) for line in lines)

    def lining(self, copy, part):
        """A part by the rule: the mean of what is inside of its two lines, a curve in the share of its line on the face."""
        if copy.clear:
            full = [1.0] * len(part.folds)
            return Lining(part, part.frame_length, part.face_length, part.area, full, 1.0)
        folds = [self.fold_share(copy, *fold[1:]) for fold in part.folds]
        if part.arc is not None:
            share = part.arc.share(self.outline.widened, copy.at)
            frame, face = part.frame_length * share, part.face_length * share
            return Lining(part, frame, face, part.area * share, folds, share)
        frame, face = self.length(copy, part.frame), self.length(copy, part.face)
        area = (frame + face) / 2 * part.depth / math.cos(part.splay)
        head = copy.opening.head
        if head is not None and part.name == "jambs":
            # What a splayed arch adds to its jambs goes with the arch.
            area += part.extra() * head.share(self.outline.widened, copy.at)
        return Lining(part, frame, face, area, folds, 0.0)

    def fold_share(self, copy, start, end):
        start, end = np.add(start, copy.at), np.add(end, copy.at)
        if np.linalg.norm(end - start) < HAIR:
            return float(self.outline.widened.covers(Point(start)))
        line = LineString([start, end])
        return self.outline.inside(line) / line.length

    def surface(self, copy, part):
        """Area of what is inside of a cut part, from the surface itself; None where only the rule is known.

        A surface of even splay θ is as large as its picture square to the wall over sin θ. A square one is cut in its
        own plane.
        """
        shape = self.outline.widened
        bent = abs(part.extra()) > HAIR * part.area
        if part.splay > 0:
            seen = part.between
            if seen is None:
                if part.arc is not None or bent:
                    return None
                pairs = zip(part.frame, part.face)
                seen = [Polygon([*a.coords, *reversed(b.coords)]).buffer(0) for a, b in pairs]
            else:
                seen = [seen]
            seen = [shape.intersection(copy.put(s)) for s in seen]
            return sum(s.area for s in seen) / math.sin(part.splay)
        if part.arc is not None:
            return None if part.turns else part.area * self.lining(copy, part).turning
        if bent:
            return None
        return sum(self.square(copy, part, *pair) for pair in zip(part.frame, part.face))

    def square(self, copy, part, frame, face):
        """The same for one line of a square part, which may be longer on the face than on the frame."""
        frame, face = (shapely.get_coordinates(copy.put(line)) for line in (frame, face))
        start, end = min((*frame, *face), key=tuple), max((*frame, *face), key=tuple)
        length = np.linalg.norm(end - start)
        if length == 0:
            return 0.0
        along = (end - start) / length

        def places(points):
            return [float(np.dot(p - start, along)) for p in points]

        (a, b), (c, d) = places(frame), places(face)
        own = Polygon([(a, 0), (b, 0), (d, part.depth), (c, part.depth)])
        area = 0.0
        cut = self.outline.widened.intersection(LineString([start, end]))
        for piece in getattr(cut, "geoms", [cut]):
            if piece.geom_type == "LineString" and not piece.is_empty:
                x, y = places(shapely.get_coordinates(piece)[[0, -1]])
                area += own.intersection(box(x, 0, y, part.depth)).area
        return area

    def measure(self):
        """Every sum over the face. Growth is None where an arch stands on a splayed sill."""
        sums = dict.fromkeys(
            ("strips", "reveals", "edges", "edge_length", "lath", "growth", "coves"), 0.0
        )
        for copy in self.every:
            radius = copy.opening.radius
            for part in copy.opening.parts:
                row = self.lining(copy, part)
                strip = radius * part.mean(lambda turn: np.tan(turn / 2)) * row.face
                sums["strips"] += strip
                sums["reveals"] += row.area - strip
                sums["edges"] += radius * part.mean(lambda turn: turn) * row.face
                sums["edge_length"] += row.face
                sums["lath"] += copy.opening.lath * row.face
                edge = part.mean(lambda turn: turn if radius > 0 else 2 * np.tan(turn / 2))
                sums["growth"] += edge * row.face + part.turning * row.turning
                sums["growth"] += sum(f[0] * share for f, share in zip(part.folds, row.folds))
        for end in self.face["ends"]:
            self.add_end(sums, end)
        sums["outline"] = self.outline.shape.area
        sums["openings"] = self.holes
        sums["field"] = sums["outline"] - sums["openings"] - sums["strips"]
        if self.outline.radius:
            sums["growth"] += sums["field"] / self.outline.radius
        return sums

    def add_end(self, sums, end):
        length = self.outline.end(end["end"])
        radius, turn = end["radius"], end["turn"]
        half = math.tan(turn / 2)
        if end["angle"] == "external":
            sums["edge_length"] += length
            sums["strips"] += 2 * radius * half * length
            sums["edges"] += radius * turn * length
            sums["growth"] += (turn if radius > 0 else 2 * half) * length
        else:
            sums["growth"] -= 2 * half * length
            # A kite between the two tangents less a sector.
            sums["coves"] += length * (radius * radius * half - radius * radius * turn / 2)

    def growth_known(self):
        return all(made.growth_known for made in self.openings)
