"""The surfaces of one face of a wall, from its parameters, by reference libraries and schoolbook formulas.

A second way to everything that the program measures on a face: outlines and holes are polygons of
shapely, arcs are drawn with 4096 corners to the turn, splayed reveals are surfaces in space that numpy
integrates, folds are angles between normals. Lengths in millimetres, angles in radians. A face comes as
the dictionary that the program's example prints (see faces.py). Not here: any comparing.

Sources: areas and lengths of circle, segment and ellipse as in any table of mensuration (for instance
the NIST Digital Library of Mathematical Functions, 19.30, for the length of an ellipse, here by
quadrature of its definition); volumes between parallel surfaces by Steiner's formula.
"""

import math
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import LineString, Polygon, box

TURN = 4096
"""Corners of a whole turn. The sliver between one chord of an equal-area polygon and its arc is
r²·δ³/12 = 3e-10 r², three thousand times under the tolerance of a cut arc."""

HAIR = 1e-8
"""Millimetres by which a face is widened before lines are cut with it: a line along its edge is inside."""

WHOLE = 1e-8
"""Share of a hole that may be missing when it counts as whole: rounding, not a cut."""

GAUSS = np.polynomial.legendre.leggauss(64)


def over(a, b, f):
    """Integral of f over a..b by Gauss quadrature; f takes an array."""
    x, w = GAUSS
    half = (b - a) / 2
    return half * np.dot(w, f(a + half * (x + 1)))


def over_rooted(a, b, f):
    """The same where f may start or end like a square root (tanh-sinh quadrature, Takahasi and Mori 1974)."""
    s = np.arange(-320, 321) / 80
    arg = math.pi / 2 * np.sinh(s)
    # Distance from the nearer end, which keeps its digits.
    near = 1 / (np.exp(np.abs(arg)) * np.cosh(arg)) / 2
    weight = math.pi / 2 * np.cosh(s) / np.cosh(arg) ** 2 / 2 / 80
    inside = near > 0
    x = np.where(s < 0, a + (b - a) * near, b - (b - a) * near)
    return (b - a) * np.sum((weight * f(x))[inside])


# --- The outline of a face -------------------------------------------------------------------------


@dataclass
class Outline:
    """The part of a face that is plastered, openings not yet taken out."""

    shape: object
    kind: str
    inset: bool
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
        left, _, right, _ = self.shape.bounds
        at = left if end == "left" else right
        length = 0.0
        for piece in pieces(self.shape):
            ring = np.asarray(piece.exterior.coords)
            for (u, v), (p, q) in zip(ring, ring[1:]):
                if abs(u - at) < 1e-4 and abs(p - at) < 1e-4:
                    length += abs(q - v)
        return length


def pieces(shape):
    return [g for g in getattr(shape, "geoms", [shape]) if g.geom_type == "Polygon"]


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
        out = shape["radius"]
        length = shape["sweep"] * out if "sweep" in shape else shape["length"]
        radius = out
        if face["side"] == "inside":
            stretch = (out - face["thickness"]) / out
            radius = -(out - face["thickness"])
        wall = box(0, 0, length * stretch, shape["height"])
    left, bottom, right, top = wall.bounds
    trimmed = any(inset.values())
    floor = bottom + inset["bottom"]
    if trimmed:
        lowered = affinity.translate(wall, 0, -inset["top"])
        keep = box(left + inset["left"], floor, right - inset["right"], top - inset["top"])
        wall = wall.intersection(lowered).intersection(keep)
    return Outline(wall, kind, trimmed, radius, stretch, floor)


# --- Curves ----------------------------------------------------------------------------------------


def arc_points(centre, radii, start, sweep):
    """Corners of an arc, on it."""
    n = max(8, math.ceil(abs(sweep) / (2 * math.pi) * TURN))
    a = start + sweep * np.arange(n + 1) / n
    return np.column_stack([centre[0] + radii[0] * np.cos(a), centre[1] + radii[1] * np.sin(a)])


@dataclass
class Arc:
    """An arc of a circle or an ellipse with axes along u and v."""

    centre: tuple
    radii: tuple
    start: float
    sweep: float

    @property
    def line(self):
        return LineString(arc_points(self.centre, self.radii, self.start, self.sweep))

    @property
    def length(self):
        a, b = self.radii
        if a == b:
            return a * self.sweep
        return sum(
            over(x, x + self.sweep / 64, lambda t: np.hypot(a * np.sin(t), b * np.cos(t)))
            for x in self.start + self.sweep * np.arange(64) / 64
        )

    def corners(self):
        """Corners whose chords enclose as much with the centre as the arc; the ends are on it."""
        points = arc_points(self.centre, self.radii, self.start, self.sweep)
        step = self.sweep / (len(points) - 1)
        out = math.sqrt(step / math.sin(step))
        middle = np.asarray(self.centre)
        points[1:-1] = middle + out * (points[1:-1] - middle)
        return points


# --- Openings --------------------------------------------------------------------------------------


@dataclass
class Part:
    """A part of a reveal. Lines are given from the lower left of the frame's box."""

    name: str
    splay: float
    depth: float
    frame: list
    """Lines on the frame."""
    face: list
    """The same lines on the face."""
    area: float
    """Of the surface between them, whole."""
    curved: bool = False
    frame_length: float = 0.0
    face_length: float = 0.0
    turn: object = None
    """Turn from face to reveal along the edge: a number, or places and weights for an ellipse."""
    folds: list = field(default_factory=list)
    """Growth of each fold inside the reveal, with its ends in the plane of the wall."""
    turning: float = 0.0
    """Growth by the curve of the part itself."""

    def growth_of_edge(self, radius):
        """Surface gained per millimetre of offset and of edge."""
        turns, weights = self.turns()
        gain = turns if radius > 0 else 2 * np.tan(turns / 2)
        return float(np.dot(gain, weights))

    def mean_turn(self):
        turns, weights = self.turns()
        return float(np.dot(turns, weights))

    def mean_half_tangent(self):
        turns, weights = self.turns()
        return float(np.dot(np.tan(turns / 2), weights))

    def turns(self):
        if self.turn is None:
            return np.array([math.pi / 2 - self.splay]), np.array([1.0])
        return self.turn


@dataclass
class Opening:
    """An opening on one face: hole and parts from the lower left of the frame's box."""

    kind: str
    places: list
    """Lower left of the frame's box, copy by copy."""
    hole: object
    hole_area: float
    parts: list
    radius: float
    lath: float
    springing: float
    """Of the hole's arch, from the lower left of the frame's box; None without one."""
    knows_growth: bool

    @property
    def has_arc(self):
        return self.kind in ("segmental", "semicircular", "elliptical", "circle")


def openings(face, outline_):
    return [opening(spec, face, outline_) for spec in face["openings"]]


def opening(spec, face, outline_):
    shape = dict(spec["shape"])
    kind = shape["kind"]
    if face["side"] == "outside":
        depth = spec["from_outside"]
    else:
        depth = face["thickness"] - spec["from_outside"] - spec["frame_depth"]
    reveal = spec["reveal"] or {"plastered": [], "splay": {}, "radius": 0.0, "lath": 0.0}
    splay, plastered = reveal["splay"], set(reveal["plastered"])

    def angle(part):
        # On an opening with jambs, head and sill a ring stands for those with no splay of their own.
        return splay.get(part, 0.0) or splay.get("ring", 0.0)

    def wanted(part):
        return part in plastered or "ring" in plastered

    make = {
        "rectangle": rectangle,
        "segmental": arched,
        "semicircular": arched,
        "elliptical": arched,
        "circle": circle,
        "polygon": many_sided,
    }[kind]
    width, hole, area, parts, springing, knows = make(shape, depth, angle, wanted)
    places = []
    for copy in range(spec["count"]):
        left = spec["from_left"] + copy * (spec["spacing"] or 0.0)
        # On a wall curved on plan the middle keeps its angle.
        left = (left + width / 2) * outline_.stretch - width / 2
        places.append((left, spec["sill"]))
    return Opening(kind, places, hole, area, parts, reveal["radius"], reveal["lath"], springing, knows)


def slant_normal(direction, splay):
    """Normal of a reveal's plane towards the void; `direction` points from the part into the void, in the wall's plane."""
    return np.array([direction[0] * math.cos(splay), direction[1] * math.cos(splay), math.sin(splay)])


def fold(n, m, along):
    """Surface lost per millimetre of offset where two planes meet in an internal angle."""
    between = math.atan2(np.linalg.norm(np.cross(n, m)), np.dot(n, m))
    return -2 * math.tan(between / 2) * np.linalg.norm(along)


RIGHT, LEFT, UP, DOWN = (1, 0), (-1, 0), (0, 1), (0, -1)


def rectangle(shape, depth, angle, wanted):
    w, h = shape["width"], shape["height"]
    j, t, s = (depth * math.tan(angle(part)) for part in ("jambs", "head", "sill"))
    parts = []
    if wanted("jambs"):
        parts.append(upright(w, h, -s, h + t, j, depth, angle("jambs")))
    if wanted("head"):
        part = level("head", h, w, h + t, j, depth, angle("head"))
        if wanted("jambs"):
            part.folds = folds_of(w, h, t, j, depth, angle("jambs"), angle("head"), DOWN)
        parts.append(part)
    if wanted("sill"):
        part = level("sill", 0, w, -s, j, depth, angle("sill"))
        if wanted("jambs"):
            part.folds = folds_of(w, 0, -s, j, depth, angle("jambs"), angle("sill"), UP)
        parts.append(part)
    hole = box(-j, -s, w + j, h + t)
    return w, hole, (w + 2 * j) * (h + t + s), parts, None, True


def trapezoid(frame, face, depth, splay):
    """Area of a plane reveal between two parallel lines."""
    return (frame + face) / 2 * depth / math.cos(splay)


def upright(width, height, low, high, out, depth, splay):
    frame = [LineString([(u, 0), (u, height)]) for u in (0, width)]
    face = [LineString([(u, low), (u, high)]) for u in (-out, width + out)]
    area = 2 * trapezoid(height, high - low, depth, splay)
    return straight("jambs", splay, depth, frame, face, area)


def level(name, at, width, to, out, depth, splay):
    frame = [LineString([(0, at), (width, at)])]
    face = [LineString([(-out, to), (width + out, to)])]
    return straight(name, splay, depth, frame, face, trapezoid(width, width + 2 * out, depth, splay))


def straight(name, splay, depth, frame, face, area):
    part = Part(name, splay, depth, frame, face, area)
    part.frame_length = sum(line.length for line in frame)
    part.face_length = sum(line.length for line in face)
    return part


def folds_of(width, at, rise, out, depth, jamb, other, into):
    """Both folds between a jamb and a level part, with their ends on frame and face."""
    lost = fold(slant_normal(RIGHT, jamb), slant_normal(into, other), (out, rise, depth))
    left = ((0, at), (-out, at + rise))
    right = ((width, at), (width + out, at + rise))
    return [(lost, *left), (lost, *right)]


def circle(shape, depth, angle, wanted):
    r = shape["diameter"] / 2
    splay = angle("ring")
    out = r + depth * math.tan(splay)
    curve = Arc((r, r), (out, out), 0, 2 * math.pi)
    parts = []
    if wanted("ring"):
        # Frustum of a cone.
        area = math.pi * (r + out) * math.hypot(depth, out - r)
        part = Part("ring", splay, depth, [], [curve.line], area, curved=True)
        part.frame_length, part.face_length = 2 * math.pi * r, 2 * math.pi * out
        part.turning = -2 * math.pi * depth
        parts.append(part)
    return 2 * r, Polygon(curve.corners()), math.pi * out * out, parts, None, True


def many_sided(shape, depth, angle, wanted):
    corners = np.asarray(shape["corners"], float)
    corners = corners - corners.min(axis=0)
    ring = Polygon(corners)
    if not ring.exterior.is_ccw:
        corners = corners[::-1]
        ring = Polygon(corners)
    splay = angle("ring")
    out = depth * math.tan(splay)
    n = len(corners)
    sides = np.roll(corners, -1, axis=0) - corners
    lengths = np.linalg.norm(sides, axis=1)
    outward = np.column_stack([sides[:, 1], -sides[:, 0]]) / lengths[:, None]
    # A moved corner lies at the distance `out` from both its sides.
    moved = np.array(
        [
            corners[i] + np.linalg.solve(np.array([outward[i - 1], outward[i]]), [out, out])
            for i in range(n)
        ]
    )
    hole = Polygon(moved)
    parts = []
    if wanted("ring"):
        frame = [LineString([corners[i], corners[(i + 1) % n]]) for i in range(n)]
        face = [LineString([moved[i], moved[(i + 1) % n]]) for i in range(n)]
        area = sum(trapezoid(a.length, b.length, depth, splay) for a, b in zip(frame, face))
        part = straight("ring", splay, depth, frame, face, area)
        for i in range(n):
            normals = [slant_normal(-outward[k], splay) for k in (i - 1, i)]
            lost = fold(*normals, (*(moved[i] - corners[i]), depth))
            hollow = np.cross([*outward[i - 1], 0], [*outward[i], 0])[2] > 0
            part.folds.append((lost if hollow else -lost, corners[i], moved[i]))
        parts.append(part)
    return corners[:, 0].max(), hole, hole.area, parts, None, True


def arched(shape, depth, angle, wanted):
    w, springing, rise = shape["width"], shape["springing"], shape["rise"]
    elliptical = shape["kind"] == "elliptical"
    jamb, top, bottom = angle("jambs"), angle("head"), angle("sill")
    j, t, s = (depth * math.tan(a) for a in (jamb, top, bottom))
    half = w / 2
    parts = []
    if elliptical:
        head = Ellipse(half, rise, springing)
    else:
        head = Circular(half, rise, springing)
    high, hole_arc, hole_head = head.on_face(depth, jamb, top)
    if wanted("jambs"):
        part = upright(w, springing, -s, high, j, depth, jamb)
        part.area = head.jambs(depth, jamb, top, s)
        parts.append(part)
    # Where the arch starts at the sill its fold with it is known for a square reveal only.
    footless = springing > 0
    knows = footless or not (j or t or s)
    if wanted("head"):
        area, turning, springings = head.band(depth, jamb, top)
        part = Part("head", top, depth, [], [hole_arc.line], area, curved=True)
        part.frame_length, part.face_length = head.arc.length, hole_arc.length
        part.turning = turning
        part.turn = head.turn(depth, jamb, top)
        if wanted("jambs") and footless:
            ends = ((0, springing), (-j, high)), ((w, springing), (w + j, high))
            part.folds = [(springings, *end) for end in ends]
        parts.append(part)
    if wanted("sill"):
        part = level("sill", 0, w, -s, j, depth, bottom)
        if footless and wanted("jambs"):
            part.folds = folds_of(w, 0, -s, j, depth, jamb, bottom, UP)
        elif not footless and wanted("head"):
            lost = fold(slant_normal(head.into, 0), slant_normal(UP, 0), (0, 0, depth))
            part.folds = [(lost, (0, 0), (0, 0)), (lost, (w, 0), (w, 0))]
        parts.append(part)
    hole = Polygon([(-j, -s), (w + j, -s), *hole_arc.corners()])
    return w, hole, (w + 2 * j) * (high + s) + hole_head, parts, high, knows


@dataclass
class Circular:
    """A segmental or semicircular head on its frame. Its arc on the face has the same centre."""

    half: float
    rise: float
    springing: float

    def __post_init__(self):
        span = 2 * self.half
        # Equal to the last bit for half a circle, where the angle hangs on the difference.
        full = self.rise == self.half
        self.r = self.half if full else (span**2 + 4 * self.rise**2) / (8 * self.rise)
        self.centre = (self.half, self.springing + self.rise - self.r)
        self.arc = self.between(self.half, self.r, self.r - self.rise)
        # Into the void, square to the arc at its foot.
        self.into = (np.array(self.centre) - (0, self.springing)) / self.r

    def between(self, half, r, high):
        a = math.atan2(half, high)
        return Arc(self.centre, (r, r), math.pi / 2 - a, 2 * a)

    def widths(self, z, jamb, top):
        half, r = self.half + z * math.tan(jamb), self.r + z * math.tan(top)
        # (r - half)(r + half), with no difference of nearly equal numbers where both start equal.
        apart = (self.r - self.half) + z * (math.tan(top) - math.tan(jamb))
        high = np.sqrt(np.maximum(apart, 0) * (r + half))
        return half, r, high

    def on_face(self, depth, jamb, top):
        half, r, high = self.widths(depth, jamb, top)
        arc = self.between(half, r, float(high))
        area = r * r / 2 * (arc.sweep - math.sin(arc.sweep))
        return self.centre[1] + float(high), arc, area

    def jambs(self, depth, jamb, top, out_sill):
        def height(z):
            _, _, high = self.widths(z, jamb, top)
            return self.centre[1] + high + z / depth * out_sill

        return 2 * over_rooted(0, depth, height) / math.cos(jamb)

    def band(self, depth, jamb, top):
        def angle(z):
            half, _, high = self.widths(z, jamb, top)
            return np.arctan2(half, high)

        def arc(z):
            _, r, _ = self.widths(z, jamb, top)
            return 2 * r * angle(z) / math.cos(top)

        def lost(z):
            # The jamb's plane against the cone at its foot.
            half, r, high = self.widths(z, jamb, top)
            n = np.column_stack(
                [half / r * math.cos(top), -high / r * math.cos(top), np.full_like(z, math.sin(top))]
            )
            m = slant_normal(RIGHT, jamb)
            cross = np.linalg.norm(np.cross(n, m), axis=1)
            between = np.arctan2(cross, n @ m)
            climb = np.divide(
                r * math.tan(top) - half * math.tan(jamb), high, out=np.zeros_like(z), where=high > 0
            )
            return -2 * np.tan(between / 2) * np.sqrt(1 + math.tan(jamb) ** 2 + climb**2)

        area = over_rooted(0, depth, arc)
        turning = -over_rooted(0, depth, lambda z: 2 * angle(z))
        return area, turning, over_rooted(0, depth, lost)

    def turn(self, depth, jamb, top):
        return None


@dataclass
class Ellipse:
    """Half an ellipse on its frame; both axes grow evenly towards the face."""

    half: float
    rise: float
    springing: float
    into = RIGHT

    def __post_init__(self):
        self.arc = Arc((self.half, self.springing), (self.half, self.rise), 0, math.pi)

    def on_face(self, depth, jamb, top):
        a, b = self.half + depth * math.tan(jamb), self.rise + depth * math.tan(top)
        return self.springing, Arc((self.half, self.springing), (a, b), 0, math.pi), math.pi * a * b / 2

    def jambs(self, depth, jamb, top, out_sill):
        return 2 * trapezoid(self.springing, self.springing + out_sill, depth, jamb)

    def band(self, depth, jamb, top):
        """Area and mean curvature of the surface r(a, z), from its derivatives."""
        p, q = math.tan(jamb), math.tan(top)
        x, w = GAUSS
        z = depth * (x + 1) / 2
        area = turning = 0.0
        count = 128
        for k in range(count):
            a = math.pi / count * (k + (x + 1) / 2)
            along, across = np.meshgrid(a, z, indexing="ij")
            weight = np.outer(w, w) * (math.pi / count / 2) * (depth / 2)
            cos, sin = np.cos(along), np.sin(along)
            m, n = self.half + across * p, self.rise + across * q
            zero, one = np.zeros_like(cos), np.ones_like(cos)
            ra = np.stack([-m * sin, n * cos, zero], -1)
            rz = np.stack([p * cos, q * sin, one], -1)
            raa = np.stack([-m * cos, -n * sin, zero], -1)
            raz = np.stack([-p * sin, q * cos, zero], -1)
            normal = np.cross(ra, rz)
            size = np.linalg.norm(normal, axis=-1)
            normal = normal / size[..., None]
            e, f, g = (np.sum(u * v, -1) for u, v in ((ra, ra), (ra, rz), (rz, rz)))
            l, mm = (np.sum(u * normal, -1) for u in (raa, raz))
            mean = (g * l - 2 * f * mm) / (e * g - f * f)
            area += np.sum(weight * size)
            turning += np.sum(weight * size * mean)
        return area, -abs(turning), 0.0

    def turn(self, depth, jamb, top):
        """Turns along the edge and the share of its length each has."""
        if not (jamb or top):
            return None
        p, q = math.tan(jamb), math.tan(top)
        a, b = self.half + depth * p, self.rise + depth * q
        x, w = GAUSS
        count = 128
        t = np.concatenate([math.pi / count * (k + (x + 1) / 2) for k in range(count)])
        weight = np.tile(w, count)
        speed = np.hypot(a * np.sin(t), b * np.cos(t))
        # Speed of the curve square to itself as the depth grows.
        slope = (p * b * np.cos(t) ** 2 + q * a * np.sin(t) ** 2) / speed
        weight = weight * speed
        return math.pi / 2 - np.arctan(slope), weight / weight.sum()


# --- A whole face ----------------------------------------------------------------------------------


@dataclass
class Lined:
    """A part of one copy's reveal, as far as it is inside the face."""

    part: Part
    frame: float
    face: float
    area: float
    whole: bool
    folds: list
    """Share of each fold inside."""
    turning: float
    """Share of the curve inside."""


@dataclass
class Copy:
    """One copy of an opening on a face."""

    opening: Opening
    at: tuple
    hole: object
    covered: float
    """Area of the hole inside the face."""
    whole: bool
    apart: bool = True


class Face:
    """A face measured the second way. Areas in mm², lengths in mm."""

    def __init__(self, face):
        self.face = face
        self.outline = outline(face)
        self.openings = openings(face, self.outline)
        self.copies = [[self.copy(o, at) for at in o.places] for o in self.openings]
        every = [c for copies in self.copies for c in copies]
        self.overlapping = self.find_overlaps(every)
        self.cut = any(not c.whole for c in every)
        holes = [c.hole for c in every]
        self.holes_area, self.even_odd = self.areas(every, holes)

    def copy(self, of, at):
        hole = affinity.translate(of.hole, *at)
        covered = self.outline.shape.intersection(hole).area
        whole = covered >= hole.area * (1 - WHOLE)
        return Copy(of, at, hole, of.hole_area if whole else covered, whole)

    def find_overlaps(self, every):
        found = False
        tree = shapely.STRtree([c.hole for c in every])
        for i, c in enumerate(every):
            for k in tree.query(c.hole):
                other = every[k]
                if k > i:
                    common = c.hole.intersection(other.hole).area
                    if common > WHOLE * min(c.hole.area, other.hole.area):
                        c.apart = other.apart = False
                        found = True
        return found

    def areas(self, every, holes):
        """Area of the holes in the face, overlaps once; the same under the even-odd rule."""
        alone = sum(c.covered for c in every if c.apart)
        crowd = [c.hole for c in every if not c.apart]
        if not crowd:
            return alone, alone
        union = shapely.union_all(crowd)
        odd = crowd[0]
        for hole in crowd[1:]:
            odd = odd.symmetric_difference(hole)
        shape = self.outline.shape
        return alone + union.intersection(shape).area, alone + odd.intersection(shape).area

    def reach(self):
        """How the area of the holes comes about: 'closed', 'polygons' or 'arcs'.

        'closed' has a closed form: whole holes apart from each other, and rectangles however they are cut or overlap
        on a face with straight sides, and arched holes cut by the floor under their springing. 'arcs' has an arc
        cut or overlapped, 'polygons' only straight sides.
        """
        profile = self.outline.kind != "polygon"
        worst = "closed"
        for copies in self.copies:
            for c in copies:
                if c.whole and c.apart:
                    continue
                if c.opening.has_arc and not (profile and c.apart and self.cut_by_floor(c)):
                    return "arcs"
                if not profile or c.opening.kind == "polygon":
                    worst = "polygons"
        return worst

    def cut_by_floor(self, c):
        """Whether only the floor cuts it, and under the springing."""
        if c.opening.springing is None or c.at[1] + c.opening.springing < self.outline.floor:
            return False
        left, _, right, top = c.hole.bounds
        kept = box(left, self.outline.floor, right, top)
        return self.outline.widened.covers(c.hole.intersection(kept))

    def lined(self, c):
        """The parts of one copy."""
        rows = []
        for part in c.opening.parts:
            if c.whole:
                shares = [1.0] * len(part.folds)
                rows.append(
                    Lined(part, part.frame_length, part.face_length, part.area, True, shares, 1.0)
                )
                continue
            face = sum(self.length(line, c.at) for line in part.face)
            share = 1.0
            if part.curved:
                share = face / sum(line.length for line in part.face)
                frame, face = part.frame_length * share, part.face_length * share
                area = part.area * share
            else:
                frame = sum(self.length(line, c.at) for line in part.frame)
                slant = part.depth / math.cos(part.splay)
                area = (frame + face) / 2 * slant
            folds = [self.share_of_fold(f, c.at) for f in part.folds]
            rows.append(Lined(part, frame, face, area, False, folds, share))
        if not c.whole:
            # What an arched head has its jambs more than a trapezoid goes in the share of the arch.
            heads = [self.curve_share(c)]
            for row in rows:
                if row.part.name == "jambs":
                    p = row.part
                    extra = p.area - trapezoid(p.frame_length, p.face_length, p.depth, p.splay)
                    row.area += extra * heads[0]
        return rows

    def curve_share(self, c):
        if c.opening.springing is None:
            return 0.0
        arc = LineString(np.asarray(c.opening.hole.exterior.coords)[2:-1])
        return self.length(arc, c.at) / arc.length

    def length(self, line, at):
        return self.outline.inside(affinity.translate(line, *at))

    def share_of_fold(self, fold_, at):
        _, start, end = fold_
        start, end = np.add(start, at), np.add(end, at)
        if np.linalg.norm(end - start) < 1e-6:
            return float(self.outline.widened.covers(shapely.Point(start)))
        line = LineString([start, end])
        return self.outline.inside(line) / line.length

    def measure(self):
        """Sums over the face."""
        sums = dict.fromkeys(
            ("strips", "reveals", "edges", "edge_length", "lath", "growth", "coves"), 0.0
        )
        for of, copies in zip(self.openings, self.copies):
            for c in copies:
                for row in self.lined(c):
                    part = row.part
                    edge = row.face if part.depth > 0 else 0.0
                    strip = of.radius * part.mean_half_tangent() * edge
                    sums["strips"] += strip
                    sums["reveals"] += row.area - strip
                    sums["edges"] += of.radius * part.mean_turn() * edge
                    sums["edge_length"] += edge
                    sums["lath"] += edge * of.lath
                    sums["growth"] += part.growth_of_edge(of.radius) * edge
                    sums["growth"] += part.turning * row.turning
                    sums["growth"] += sum(f[0] * share for f, share in zip(part.folds, row.folds))
        for end in self.face["ends"]:
            length = self.outline.end(end["end"])
            r, turn = end["radius"], end["turn"]
            if end["angle"] == "external":
                sums["edge_length"] += length
                sums["strips"] += 2 * r * math.tan(turn / 2) * length
                sums["edges"] += r * turn * length
                sums["growth"] += (turn if r > 0 else 2 * math.tan(turn / 2)) * length
            else:
                sums["growth"] -= 2 * math.tan(turn / 2) * length
                # Kite between the two tangents, less the sector.
                sums["coves"] += length * (r * r * math.tan(turn / 2) - r * r * turn / 2)
        sums["outline"] = self.outline.shape.area
        sums["openings"] = self.holes_area
        sums["field"] = sums["outline"] - sums["openings"] - sums["strips"]
        if self.outline.radius:
            sums["growth"] += sums["field"] / self.outline.radius
        return sums
