"""One opening on one side of a wall: its hole and the parts of its reveal, from its parameters.

Areas of splayed reveals are integrals over the surface in space, folds between parts are angles between
their normals. Everything is given from the lower left of the frame's box, in millimetres and radians.
Not here: where on a face the opening is, and what of it the face cuts off.
"""

import math
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon, box

from curves import PANELS, Arc, nodes, over_rooted

RIGHT, UP, DOWN = (1, 0), (0, 1), (0, -1)


@dataclass
class Part:
    """A part of a reveal."""

    name: str
    splay: float
    depth: float
    frame: list
    """Straight lines on the frame."""
    face: list
    """The same lines on the face."""
    area: float
    frame_length: float
    face_length: float
    arc: object = None
    """Of a curve, its line on the face."""
    between: object = None
    """Of a curve of even splay, what lies between frame and face seen square to the wall."""
    turns: tuple = None
    """Turns from face to reveal along the edge with their shares of its length, where they change."""
    folds: list = field(default_factory=list)
    """Growth of each fold inside the reveal, with its place on frame and face."""
    turning: float = 0.0
    """Growth by the curve of the part itself."""

    def mean(self, of):
        """Mean along the edge of a function of the turn."""
        if self.turns is None:
            return float(of(math.pi / 2 - self.splay))
        turns, shares = self.turns
        return float(np.dot(shares, of(turns)))

    def extra(self):
        """What it has more than the mean of its two lines times the slant."""
        return self.area - trapezoid(self.frame_length, self.face_length, self.depth, self.splay)


@dataclass
class Opening:
    """An opening on one side."""

    kind: str
    width: float
    hole: object
    hole_area: float
    parts: list
    radius: float = 0.0
    lath: float = 0.0
    head: object = None
    """Arch of the hole."""
    springing: float = None
    """Of that arch."""
    growth_known: bool = True

    def has_arc(self):
        return self.kind not in ("rectangle", "polygon")


def opening(spec, side, thickness):
    """An opening from its parameters, as the program's example prints them."""
    if side == "outside":
        depth = spec["from_outside"]
    else:
        depth = thickness - spec["from_outside"] - spec["frame_depth"]
    reveal = spec["reveal"] or {"plastered": [], "splay": {}, "radius": 0.0, "lath": 0.0}
    splay, plastered = reveal["splay"], reveal["plastered"]

    def angle(part):
        # On an opening with jambs, head and sill a ring stands for those with no splay of their own.
        return splay.get(part, 0.0) or splay.get("ring", 0.0)

    def wanted(part):
        return depth > 0 and (part in plastered or "ring" in plastered)

    make = {"rectangle": rectangle, "circle": circle, "polygon": many_sided}
    made = make.get(spec["shape"]["kind"], arched)(spec["shape"], depth, angle, wanted)
    made.radius, made.lath = reveal["radius"], reveal["lath"]
    return made


def trapezoid(frame, face, depth, splay):
    """Area of a plane reveal between two parallel lines."""
    return (frame + face) / 2 * depth / math.cos(splay)


def normal(into, splay):
    """Normal of a plane of the reveal on its free side; `into` points from it into the opening."""
    return np.array([into[0] * math.cos(splay), into[1] * math.cos(splay), math.sin(splay)])


def fold(n, m, along):
    """Surface lost per millimetre of offset where two planes meet in an internal angle."""
    turn = math.atan2(np.linalg.norm(np.cross(n, m)), np.dot(n, m))
    return -2 * math.tan(turn / 2) * np.linalg.norm(along)


def straight(name, splay, depth, frame, face):
    frame, face = [LineString(line) for line in frame], [LineString(line) for line in face]
    area = sum(trapezoid(a.length, b.length, depth, splay) for a, b in zip(frame, face))
    lengths = [sum(line.length for line in lines) for lines in (frame, face)]
    return Part(name, splay, depth, frame, face, area, *lengths)


def jambs(width, height, low, high, out, depth, splay):
    frame = [[(u, 0), (u, height)] for u in (0, width)]
    face = [[(u, low), (u, high)] for u in (-out, width + out)]
    return straight("jambs", splay, depth, frame, face)


def level(name, at, width, to, out, depth, splay):
    frame, face = [(0, at), (width, at)], [(-out, to), (width + out, to)]
    return straight(name, splay, depth, [frame], [face])


def folds(width, at, to, out, depth, jamb, other, into):
    """Both folds between a jamb and a level part."""
    lost = fold(normal(RIGHT, jamb), normal(into, other), (out, to - at, depth))
    return [(lost, (0, at), (-out, to)), (lost, (width, at), (width + out, to))]


def rectangle(shape, depth, angle, wanted):
    w, h = shape["width"], shape["height"]
    jamb, head, sill = angle("jambs"), angle("head"), angle("sill")
    j, t, s = (depth * math.tan(a) for a in (jamb, head, sill))
    parts = []
    if wanted("jambs"):
        parts.append(jambs(w, h, -s, h + t, j, depth, jamb))
    if wanted("head"):
        parts.append(level("head", h, w, h + t, j, depth, head))
        if wanted("jambs"):
            parts[-1].folds = folds(w, h, h + t, j, depth, jamb, head, DOWN)
    if wanted("sill"):
        parts.append(level("sill", 0, w, -s, j, depth, sill))
        if wanted("jambs"):
            parts[-1].folds = folds(w, 0, -s, j, depth, jamb, sill, UP)
    return Opening("rectangle", w, box(-j, -s, w + j, h + t), (w + 2 * j) * (h + t + s), parts)


def circle(shape, depth, angle, wanted):
    r, splay = shape["diameter"] / 2, angle("ring")
    out = r + depth * math.tan(splay)
    inner, outer = (Arc((r, r), (x, x), 0, 2 * math.pi) for x in (r, out))
    hole = Polygon(outer.corners())
    parts = []
    if wanted("ring"):
        # Frustum of a cone: mean circumference times slant.
        area = math.pi * (r + out) * math.hypot(depth, out - r)
        lengths = (2 * math.pi * r, 2 * math.pi * out)
        part = Part("ring", splay, depth, [], [], area, *lengths, outer)
        part.between = hole.difference(Polygon(inner.corners())) if splay else None
        part.turning = -2 * math.pi * depth
        parts.append(part)
    return Opening("circle", 2 * r, hole, math.pi * out * out, parts)


def many_sided(shape, depth, angle, wanted):
    corners = np.asarray(shape["corners"], float)
    corners = corners - corners.min(axis=0)
    if not Polygon(corners).exterior.is_ccw:
        corners = corners[::-1]
    splay = angle("ring")
    out = depth * math.tan(splay)
    sides = np.roll(corners, -1, axis=0) - corners
    outward = np.column_stack([sides[:, 1], -sides[:, 0]])
    outward /= np.linalg.norm(outward, axis=1)[:, None]
    count = range(len(corners))
    # A moved corner lies at the distance `out` from both its sides.
    moved = np.array(
        [corners[i] + np.linalg.solve([outward[i - 1], outward[i]], [out, out]) for i in count]
    )
    hole = Polygon(moved)
    parts = []
    if wanted("ring"):
        ends = [(i, (i + 1) % len(corners)) for i in count]
        lines = [[(p[a], p[b]) for a, b in ends] for p in (corners, moved)]
        part = straight("ring", splay, depth, *lines)
        for i in count:
            lost = fold(
                normal(-outward[i - 1], splay),
                normal(-outward[i], splay),
                (*(moved[i] - corners[i]), depth),
            )
            (a, b), (c, d) = outward[i - 1], outward[i]
            hollow = a * d - b * c > 0
            part.folds.append((lost if hollow else -lost, corners[i], moved[i]))
        parts.append(part)
    return Opening("polygon", corners[:, 0].max(), hole, hole.area, parts)


def arched(shape, depth, angle, wanted):
    w, springing, kind = shape["width"], shape["springing"], shape["kind"]
    jamb, top, bottom = angle("jambs"), angle("head"), angle("sill")
    j, t, s = (depth * math.tan(a) for a in (jamb, top, bottom))
    make = Ellipse if kind == "elliptical" else Circular
    head = make(w / 2, shape["rise"], springing, depth, jamb, top)
    high, arc = head.face_springing, head.face_arc
    # Where the arch stands on the sill, its fold with it is known for a square reveal only.
    standing = springing <= 0
    parts = []
    if wanted("jambs"):
        part = jambs(w, springing, -s, high, j, depth, jamb)
        part.area = head.jamb_area(s)
        parts.append(part)
    if wanted("head"):
        area, turning = head.band()
        lengths = (head.arc.length(), arc.length())
        part = Part("head", top, depth, [], [], area, *lengths, arc)
        part.between, part.turning, part.turns = head.between(), turning, head.turns()
        if wanted("jambs") and not standing:
            lost = head.springing_fold()
            ends = (((0, springing), (-j, high)), ((w, springing), (w + j, high)))
            part.folds = [(lost, *end) for end in ends]
        parts.append(part)
    if wanted("sill"):
        part = level("sill", 0, w, -s, j, depth, bottom)
        if wanted("jambs") and not standing:
            part.folds = folds(w, 0, -s, j, depth, jamb, bottom, UP)
        elif wanted("head") and standing:
            lost = fold(normal(head.into, 0), normal(UP, 0), (0, 0, depth))
            part.folds = [(lost, (u, 0), (u, 0)) for u in (0, w)]
        parts.append(part)
    hole = Polygon([(-j, -s), (w + j, -s), *arc.corners()])
    area = (w + 2 * j) * (high + s) + head.face_area
    made = Opening(kind, w, hole, area, parts, head=arc, springing=high)
    made.growth_known = not (standing and (j or t or s))
    return made


@dataclass
class Circular:
    """A segmental or semicircular head. Its arc on the face has the centre of that on the frame."""

    half: float
    rise: float
    springing: float
    depth: float
    jamb: float
    top: float

    def __post_init__(self):
        span, half = 2 * self.half, self.half
        # Equal to the last bit for half a circle, where the angle hangs on the difference.
        full = self.rise == half
        self.r = half if full else (span**2 + 4 * self.rise**2) / (8 * self.rise)
        self.centre = (half, self.springing + self.rise - self.r)
        self.arc = self.between_jambs(half, self.r, self.r - self.rise)
        # From the foot of the arch, square to it.
        self.into = (half / self.r, (self.rise - self.r) / self.r)
        wide, r, high = (float(x) for x in self.at(self.depth))
        self.face_arc = self.between_jambs(wide, r, high)
        self.face_springing = self.centre[1] + high
        sweep = self.face_arc.sweep
        self.face_area = r * r / 2 * (sweep - math.sin(sweep))

    def between_jambs(self, half, r, high):
        angle = math.atan2(half, high)
        return Arc(self.centre, (r, r), math.pi / 2 - angle, 2 * angle)

    def at(self, z):
        """Half width, radius, and height of the springing over the centre, z in front of the frame."""
        half, r = self.half + z * math.tan(self.jamb), self.r + z * math.tan(self.top)
        # r - half without the difference of nearly equal numbers.
        apart = (self.r - self.half) + z * (math.tan(self.top) - math.tan(self.jamb))
        return half, r, np.sqrt(np.maximum(apart, 0) * (r + half))

    def jamb_area(self, sill):
        def height(z):
            return self.centre[1] + self.at(z)[2] + z / self.depth * sill

        return 2 * over_rooted(0, self.depth, height) / math.cos(self.jamb)

    def band(self):
        """Area of the intrados, and its growth: a cone bends by cos θ/r along its circles."""

        def angle(z):
            half, _, high = self.at(z)
            return 2 * np.arctan2(half, high)

        area = over_rooted(0, self.depth, lambda z: angle(z) * self.at(z)[1] / math.cos(self.top))
        return area, -over_rooted(0, self.depth, angle)

    def springing_fold(self):
        """The fold between one jamb and the cone, along the curve where they meet."""

        def lost(z):
            half, r, high = self.at(z)
            cos, sin = math.cos(self.top), math.sin(self.top)
            n = np.column_stack([half / r * cos, -high / r * cos, np.full_like(z, sin)])
            m = normal(RIGHT, self.jamb)
            turn = np.arctan2(np.linalg.norm(np.cross(n, m), axis=1), n @ m)
            climb = r * math.tan(self.top) - half * math.tan(self.jamb)
            climb = np.divide(climb, high, out=np.zeros_like(z), where=high > 0)
            return -2 * np.tan(turn / 2) * np.sqrt(1 + math.tan(self.jamb) ** 2 + climb**2)

        return over_rooted(0, self.depth, lost)

    def between(self):
        if not self.top:
            return None
        # The curves where jambs and cone meet, close at the frame where they may start upright; their ends are the arcs'.
        z = self.depth * np.linspace(0, 1, 257)[1:-1] ** 2
        half, _, high = self.at(z)
        foot = self.centre[1] + high
        left = np.column_stack([self.half - half, foot])
        right = np.column_stack([self.half + half, foot])
        inner, outer = self.arc.points(), self.face_arc.points()
        return shapely.make_valid(Polygon(np.vstack([inner, left, outer[::-1], right[::-1]])))

    def turns(self):
        return None


@dataclass
class Ellipse:
    """Half an ellipse; both axes grow evenly towards the face."""

    half: float
    rise: float
    springing: float
    depth: float
    jamb: float
    top: float
    into = RIGHT

    def __post_init__(self):
        centre = (self.half, self.springing)
        self.arc = Arc(centre, (self.half, self.rise), 0, math.pi)
        a = self.half + self.depth * math.tan(self.jamb)
        b = self.rise + self.depth * math.tan(self.top)
        self.face_arc = Arc(centre, (a, b), 0, math.pi)
        self.face_springing = self.springing
        self.face_area = math.pi * a * b / 2

    def jamb_area(self, sill):
        return 2 * trapezoid(self.springing, self.springing + sill, self.depth, self.jamb)

    def band(self):
        """Area, and growth by the mean curvature, of the surface with points r(angle, z), from its derivatives."""
        p, q = math.tan(self.jamb), math.tan(self.top)
        angle, angle_weight = nodes(0, math.pi / 2, PANELS)
        z, z_weight = nodes(0, self.depth)
        angle, z = (x[..., None] for x in np.meshgrid(angle, z, indexing="ij"))
        weight = np.outer(angle_weight, z_weight)
        cos, sin = np.cos(angle), np.sin(angle)
        a, b = self.half + z * p, self.rise + z * q
        none, one = np.zeros_like(cos), np.ones_like(cos)

        def vector(*axes):
            return np.concatenate(axes, -1)

        along, out = vector(-a * sin, b * cos, none), vector(p * cos, q * sin, one)
        bend, twist = vector(-a * cos, -b * sin, none), vector(-p * sin, q * cos, none)
        n = np.cross(along, out)
        size = np.linalg.norm(n, axis=-1)

        def dot(x, y):
            return np.einsum("ijk,ijk->ij", x, y)

        e, f, g = dot(along, along), dot(along, out), dot(out, out)
        curvature = (g * dot(bend, n) - 2 * f * dot(twist, n)) / size / (e * g - f * f)
        # Twice a quarter; a hollow surface loses as it grows.
        return 2 * float(np.sum(weight * size)), -2 * abs(float(np.sum(weight * size * curvature)))

    def springing_fold(self):
        """Jamb and ellipse meet without a fold."""
        return 0.0

    def between(self):
        return None

    def turns(self):
        if not (self.jamb or self.top):
            return None
        p, q = math.tan(self.jamb), math.tan(self.top)
        a, b = self.face_arc.radii
        angle, weight = nodes(0, math.pi / 2, PANELS)
        speed = np.hypot(a * np.sin(angle), b * np.cos(angle))
        # How fast the curve moves square to itself as the depth grows.
        slope = (p * b * np.cos(angle) ** 2 + q * a * np.sin(angle) ** 2) / speed
        weight = weight * speed
        return math.pi / 2 - np.arctan(slope), weight / weight.sum()
