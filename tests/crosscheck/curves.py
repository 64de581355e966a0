"""Quadrature, and arcs of circles and ellipses as corners for shapely.

Nothing of walls or openings is known here. Sources: Gauss-Legendre nodes from numpy; tanh-sinh quadrature
from Takahasi and Mori, Double exponential formulas for numerical integration, 1974; the length of an
ellipse by quadrature of its definition (NIST Digital Library of Mathematical Functions, 19.30).
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely

TURN = 4096
"""Corners of a whole turn. The sliver between one chord of an equal-area polygon and its arc is
r²·δ³/12 = 3e-10 r², three thousand times under the tolerance of a cut arc."""

NODES, WEIGHTS = np.polynomial.legendre.leggauss(16)

PANELS = 24
"""Panels of 16 nodes over a quarter of an ellipse: an ellipse twenty times as long as wide settles to 1e-13."""


def nodes(a, b, panels=1):
    """Places and weights over a..b."""
    step = (b - a) / panels
    middles = a + step * (np.arange(panels) + 0.5)
    places = middles[:, None] + step / 2 * NODES
    return places.ravel(), np.tile(WEIGHTS * step / 2, panels)


def over_rooted(a, b, f):
    """Integral of f over a..b, where f may start or end like a square root."""
    s = np.arange(-320, 321) / 80
    bend = math.pi / 2 * np.sinh(s)
    # Distance from the nearer end, so that no digits of it are lost.
    near = (b - a) / (1 + np.exp(2 * np.abs(bend)))
    weights = (b - a) * math.pi / 4 * np.cosh(s) / np.cosh(bend) ** 2 / 80
    places = np.where(s < 0, a + near, b - near)
    kept = weights > 0
    return float(np.dot(weights[kept], f(places[kept])))


@dataclass
class Arc:
    """An arc of a circle or an ellipse with axes along u and v, anticlockwise."""

    centre: tuple
    radii: tuple
    start: float
    sweep: float

    def points(self, out=1.0):
        n = max(8, math.ceil(self.sweep / (2 * math.pi) * TURN))
        angle = self.start + self.sweep * np.arange(n + 1) / n
        reach = np.full(n + 1, out)
        reach[[0, -1]] = 1.0
        (u, v), (a, b) = self.centre, self.radii
        return np.column_stack([u + a * reach * np.cos(angle), v + b * reach * np.sin(angle)])

    def corners(self):
        """Corners whose chords enclose as much with the centre as the arc does; the two ends are on it."""
        step = self.sweep / max(8, math.ceil(self.sweep / (2 * math.pi) * TURN))
        return self.points(math.sqrt(step / math.sin(step)))

    def length(self):
        a, b = self.radii
        if a == b:
            return a * self.sweep
        # Only halves of an ellipse occur whole: twice a quarter.
        return self.stretch(0, math.pi / 2) * self.sweep / (math.pi / 2)

    def stretch(self, start, end):
        """Length between two angles."""
        a, b = self.radii
        angle, weights = nodes(start, end, PANELS)
        return float(np.dot(weights, np.hypot(a * np.sin(angle), b * np.cos(angle))))

    def share(self, shape, at):
        """Share of its length inside a polygon, with the arc moved by `at`: no chords, but the roots where sides cross it."""
        middle = np.add(self.centre, at)
        # Seen as a circle of radius 1 about the origin.
        rings = [r for p in shapely.get_parts(shape) for r in (p.exterior, *p.interiors)]
        cuts = [0.0, self.sweep]
        for ring in rings:
            corners = (shapely.get_coordinates(ring) - middle) / self.radii
            start, way = corners[:-1], np.diff(corners, axis=0)
            # |start + s·way| = 1, a quadratic in s.
            p = np.sum(way * way, axis=1)
            q = np.sum(start * way, axis=1)
            r = np.sum(start * start, axis=1) - 1
            root = q * q - p * r
            for sign in (-1, 1):
                ok = root >= 0
                s = (-q[ok] + sign * np.sqrt(root[ok])) / p[ok]
                x, y = (start[ok] + s[:, None] * way[ok])[(s >= 0) & (s <= 1)].T
                angle = (np.arctan2(y, x) - self.start) % (2 * math.pi)
                cuts.extend(angle[angle < self.sweep])
        cuts = np.sort(cuts)
        inside = whole = 0.0
        for start, end in zip(cuts, cuts[1:]):
            if end > start:
                length = self.stretch(self.start + start, self.start + end)
                angle = self.start + (start + end) / 2
                place = middle + np.multiply(self.radii, (math.cos(angle), math.sin(angle)))
                whole += length
                inside += length * shapely.covers(shape, shapely.Point(place))
        return inside / whole
