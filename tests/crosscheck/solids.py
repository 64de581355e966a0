"""Closed triangle meshes of the plaster between two offsets from a background, for trimesh to weigh.

A layer is one or more closed pieces that touch and do not overlap: on a pierced wall the plate in front of the
background and the lining of the opening. A piece is a stack of sections, each of one outer ring and holes, with as
many corners at every level. Offsets of straight outlines come from shapely's buffer. All in millimetres.
Not here: what the program makes of the same solids, and any comparing.
"""

import math

import numpy as np
import trimesh
from shapely.geometry import LineString, Polygon
from trimesh.creation import triangulate_polygon

TURN = 4096
"""Corners of a whole turn, drawn so that they enclose as much as the circle."""

STEPS = 512
"""Levels over a quarter of a rounded edge, straight between one and the next: 5e-8 of a layer on the window here."""


def circle(radius, centre=(0.0, 0.0), start=0.0, sweep=2 * math.pi):
    """Corners of an arc, anticlockwise, both ends included; enclosing the sector's own area."""
    count = max(8, round(sweep / (2 * math.pi) * TURN))
    step = sweep / count
    angle = start + step * np.arange(count + 1)
    out = radius * math.sqrt(step / math.sin(step))
    return np.column_stack([centre[0] + out * np.cos(angle), centre[1] + out * np.sin(angle)])


def stack(levels):
    """A closed mesh from levels (z, rings); ring 0 is the outside. Rings keep their corners from level to level."""
    sizes = [len(ring) for ring in levels[0][1]]
    starts = np.concatenate([[0], np.cumsum(sizes)])
    total = starts[-1]
    corners = np.vstack(
        [np.column_stack([np.vstack(rings), np.full(total, z)]) for z, rings in levels]
    )
    faces = []
    for level in range(len(levels) - 1):
        for ring, size in enumerate(sizes):
            here = level * total + starts[ring] + np.arange(size)
            next_ = level * total + starts[ring] + (np.arange(size) + 1) % size
            faces.append(np.column_stack([here, next_, next_ + total]))
            faces.append(np.column_stack([here, next_ + total, here + total]))
    # Holes go round the other way, so that one rule gives every wall its outside.
    below = cap(levels[0][1])
    above = cap(levels[-1][1]) + (len(levels) - 1) * total
    faces += [below[:, ::-1], above]
    mesh = trimesh.Trimesh(corners, np.vstack(faces), process=False)
    if not (mesh.is_watertight and mesh.is_winding_consistent):
        raise ValueError("the mesh is not closed")
    return mesh


def cap(rings):
    """Triangles of a section by the numbers of its corners, seen anticlockwise."""
    polygon = Polygon(rings[0], rings[1:])
    if not polygon.is_valid:
        raise ValueError("a section crosses itself")
    points, triangles = triangulate_polygon(polygon)
    # The same doubles come back, in another order.
    number = {tuple(corner): i for i, corner in enumerate(np.vstack(rings))}
    triangles = np.array([number[tuple(p)] for p in points])[triangles]
    flat = np.vstack(rings)[triangles]
    (ax, ay), (bx, by) = (flat[:, 1] - flat[:, 0]).T, (flat[:, 2] - flat[:, 0]).T
    turned = ax * by - ay * bx < 0
    triangles[turned] = triangles[turned][:, ::-1]
    return triangles


def ccw(ring):
    ring = np.asarray(ring, float)
    return ring if Polygon(ring).exterior.is_ccw else ring[::-1]


def cw(ring):
    return ccw(ring)[::-1]


def extruded(shape, low, high):
    """Closed meshes of every piece of a polygon between two levels."""
    meshes = []
    for piece in getattr(shape, "geoms", [shape]):
        if piece.area > 0:
            rings = [ccw(piece.exterior.coords[:-1])]
            rings += [cw(hole.coords[:-1]) for hole in piece.interiors]
            meshes.append(stack([(low, rings), (high, rings)]))
    return meshes


# --- Corners of walls, in plan ---------------------------------------------------------------------

DEEP = 2000.0
"""How far the background reaches behind a corner, and past the ends of the two faces."""

BAND = 300.0
"""How far from the two faces anything belongs to their layers."""

MITRE = {"join_style": "mitre", "mitre_limit": 1000.0}
ROUND = {"join_style": "round", "quad_segs": 1024}


def corner_plan(lengths, turn):
    """Two faces that meet at the origin: what lies behind them, longer than they are, and where their layers are."""
    first, second = lengths
    ahead = np.array([math.cos(turn), -math.sin(turn)])
    across = np.array([math.sin(turn), math.cos(turn)])
    left, right = np.array([-first - DEEP, 0.0]), (second + DEEP) * ahead
    behind = Polygon([left, (0, 0), right, right - DEEP * across, left - (0, DEEP)])
    # Square to each face at its far end, and near the two.
    ends = LineString([(-first, 0), (0, 0), second * ahead])
    band = ends.buffer(BAND, cap_style="flat", **MITRE)
    return behind, band


def external_corner(lengths, turn, radius, height, a, b):
    background, band = corner_plan(lengths, turn)
    if radius > 0:
        core = background.buffer(-radius, **MITRE)
        inner, outer = (core.buffer(radius + x, **ROUND) for x in (a, b))
    else:
        inner, outer = background.buffer(a, **MITRE), background.buffer(b, **MITRE)
    return extruded(outer.difference(inner).intersection(band), 0, height)


def internal_angle(lengths, turn, cove, height, a, b):
    """The layer in a room's corner, with the cove that fills it round."""
    # The room is what the background of an external corner is, seen from the other side.
    room, band = corner_plan(lengths, turn)
    outer, inner = room.buffer(-a, **MITRE), room.buffer(-b, **MITRE)
    if cove > 0:
        inner = room.buffer(-(b + cove), **MITRE).buffer(cove, **ROUND)
    return extruded(outer.difference(inner).intersection(band), 0, height)


# --- Towers ----------------------------------------------------------------------------------------


def tower(radius, sweep, height, a, b):
    """Between two radii from the face; inwards when the offsets are below nothing."""
    low, high = sorted((radius + a, radius + b))
    if sweep >= 2 * math.pi - 1e-12:
        rings = [circle(high)[:-1], circle(low)[:-1][::-1]]
    else:
        rings = [np.vstack([circle(high, sweep=sweep), circle(low, sweep=sweep)[::-1]])]
    return [stack([(0, rings), (height, rings)])]


# --- Openings --------------------------------------------------------------------------------------


def pierced(outline, section, levels, depth, a, b):
    """Plate and lining around an opening with a reveal all the way round.

    `section(z, x)` gives the corners of the opening, z in front of the frame, when its sides have grown by x;
    `levels(x)` the levels where it must be cut, between frame and face.
    """
    steps = sorted({0.0, depth + a, *(z for z in (*levels(a), *levels(b)) if z < depth + a)})
    lining = [(z, [ccw(section(z, a)), cw(section(z, b))]) for z in steps]
    steps = sorted({depth + a, depth + b, *(z for z in levels(b) if depth + a < z < depth + b)})
    plate = [(z, [ccw(outline), cw(section(z, b))]) for z in steps]
    return [stack(lining), stack(plate)]


def door(outline, opening, depth, a, b):
    """The same for an opening with square reveals that reaches the floor; `opening(x)` is a polygon."""
    wall = Polygon(outline)
    lining = opening(a).difference(opening(b)).intersection(wall)
    return extruded(lining, 0, depth + a) + extruded(wall.difference(opening(b)), depth + a, depth + b)


def jambs_alone(outline, side, low, high, depth, a, b):
    """Two splayed jambs between a head and a sill that stay bare; `side(z, x)` gives the two u."""
    pieces = []
    for hand in (0, 1):
        levels = []
        for z in (0.0, depth + a):
            p, q = side(z, a)[hand], side(z, b)[hand]
            levels.append((z, [ccw([(p, low), (q, low), (q, high), (p, high)])]))
        pieces.append(stack(levels))
    plate = []
    for z in (depth + a, depth + b):
        p, q = side(z, b)
        plate.append((z, [ccw(outline), cw([(p, low), (q, low), (q, high), (p, high)])]))
    return [*pieces, stack(plate)]
