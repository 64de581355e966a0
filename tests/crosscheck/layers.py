"""Holds the volume of plaster layers against closed triangle meshes that trimesh weighs.

Reads on standard input the lines that the program's own example writes:

    cargo run --release -p hodful-geometry --example crosscheck -- layers | python tests/crosscheck/layers.py

Each line is a solid: the faces that make it up, and three layers with the volume that the program gives,
t·(A + growth·(2a + t)/2) by Steiner's formula. The same layer is built as a mesh (solids.py) from what went in.

The program leaves terms of third order out where three planes meet, and the wedge against the frame of a
splayed reveal, and says so. Here each solid states what is left out as a polynomial of the two offsets, worked
out on paper beside it; mesh and formula must differ by that, to one part in a million of the layer. Where nothing
is left out they must agree.

Exit 0 when all is well, 1 when not. Not here: areas of faces (faces.py).
"""

import json
import math
import sys

import numpy as np
from shapely.geometry import Polygon

import solids

LIMIT = 1e-6
"""Relative to the layer."""

SHARE = 0.01
"""Of a term left out: the difference must be that term to one part in a hundred."""

MESHES = {}


def solid(*names):
    def enter(build):
        for name in names:
            MESHES[name] = build
        return build

    return enter


def cube(a, b):
    return b**3 - a**3


def square(a, b):
    return b**2 - a**2


def angles(part):
    return (part["reveal"]["splay"][key] for key in ("jambs", "head", "sill"))


def one(line):
    """The face of a pierced wall: its outline, the opening, and the depth of the reveal."""
    face = line["faces"][0]
    shape, spec = face["outline"], face["openings"][0]
    length, height = shape["length"], shape["height"]
    outline = [(0, 0), (length, 0), (length, height), (0, height)]
    return outline, spec, spec["from_outside"]


def corner(line):
    first, second = (face["outline"] for face in line["faces"])
    end = line["faces"][0]["ends"][0]
    return (first["length"], second["length"]), end["turn"], end["radius"], first["height"]


@solid(
    "external corner, sharp",
    "external corner, rounded",
    "external corner, 70 degrees, sharp",
    "external corner, 120 degrees, rounded",
)
def external(line, a, b):
    return solids.external_corner(*corner(line), a, b), 0.0


@solid(
    "internal angle, square", "internal angle, coved", "internal angle, 60 degrees, coved"
)
def internal(line, a, b):
    """A cove is in the mesh, as it is in the volume compared."""
    return solids.internal_angle(*corner(line), a, b), 0.0


@solid("round tower, outside", "quarter of a tower, outside")
def tower_outside(line, a, b):
    shape = line["faces"][0]["outline"]
    return solids.tower(shape["radius"], shape["sweep"], shape["height"], a, b), 0.0


@solid("round tower, inside")
def tower_inside(line, a, b):
    shape = line["faces"][0]["outline"]
    radius = shape["radius"] - line["faces"][0]["thickness"]
    return solids.tower(radius, shape["sweep"], shape["height"], -a, -b), 0.0


def rectangle(spec):
    """Left, right, low and high of a frame."""
    left, low = spec["from_left"], spec["sill"]
    return left, left + spec["shape"]["width"], low, low + spec["shape"]["height"]


def around(left, right, low, high, j, h, s):
    return [(left - j, low - s), (right + j, low - s), (right + j, high + h), (left - j, high + h)]


@solid("square window, both sides")
def window(line, a, b):
    """Each side of the wall by itself: the void (W - 2x)(H - 2x)(d + x) has x³ four times; growth has it not."""
    meshes = []
    for face in line["faces"]:
        spec, shape = face["openings"][0], face["outline"]
        depth = spec["from_outside"]
        if face["side"] == "inside":
            depth = face["thickness"] - spec["from_outside"] - spec["frame_depth"]
        outline = around(0, shape["length"], 0, shape["height"], 0, 0, 0)
        frame = rectangle(spec)
        meshes += solids.pierced(
            outline, lambda z, x, f=frame: around(*f, -x, -x, -x), lambda x: [], depth, a, b
        )
    return meshes, 2 * 4 * cube(a, b)


@solid("window, rounded edges")
def rounded(line, a, b):
    """Edges are rounded about a line r behind both surfaces and meet at mitres.

    The void above z = d - r widens to W + 2r - 2R cos φ with R = r + x. Its volume by x against growth leaves
    (12 - 4π) r² + (8 - 4π) r x + 8 x².
    """
    outline, spec, depth = one(line)
    frame, r = rectangle(spec), spec["reveal"]["radius"]

    def section(z, x):
        if z <= depth - r:
            out = -x
        else:
            rise = (z - (depth - r)) / (r + x)
            out = r - (r + x) * math.sqrt(max(0.0, 1 - rise * rise))
        return around(*frame, out, out, out)

    def levels(x):
        angle = math.pi / 2 * np.arange(solids.STEPS + 1) / solids.STEPS
        return list(depth - r + (r + x) * np.sin(angle))

    left_out = (12 - 4 * math.pi) * r * r * (b - a)
    left_out += (8 - 4 * math.pi) * r * square(a, b) / 2 + 8 * cube(a, b) / 3
    return solids.pierced(outline, section, levels, depth, a, b), left_out


@solid("window, jambs splayed to 70 degrees")
def splayed_jambs(line, a, b):
    """The wedge between the slant and the frame, tan θ·x²/2 on both jambs, is more than growth says."""
    outline, spec, depth = one(line)
    left, right, low, high = rectangle(spec)
    jamb, _, _ = angles(spec)

    def side(z, x):
        out = z * math.tan(jamb) - x / math.cos(jamb)
        return left - out, right + out

    wedge = 2 * (high - low) * math.tan(jamb) * square(a, b) / 2
    return solids.jambs_alone(outline, side, low, high, depth, a, b), -wedge


@solid("window, splayed three ways")
def splayed(line, a, b):
    """Wedges against the frame, and at the corners the x³ of the void's integral."""
    outline, spec, depth = one(line)
    frame = rectangle(spec)
    width, height = frame[1] - frame[0], frame[3] - frame[2]
    splays = list(angles(spec))

    def section(z, x):
        return around(*frame, *(z * math.tan(t) - x / math.cos(t) for t in splays))

    jamb, head, sill = splays
    wedge = 2 * height * math.tan(jamb) + width * (math.tan(head) + math.tan(sill))
    p, q = math.tan(jamb), 1 / math.cos(jamb)
    s, t = math.tan(head) + math.tan(sill), 1 / math.cos(head) + 1 / math.cos(sill)
    # -∫ 2(zp - xq)(zs - xt) dz up to d + x, the x³ of it.
    third = -2 * (p * s / 3 - (p * t + q * s) / 2 + q * t)
    left_out = -wedge * square(a, b) / 2 - third * cube(a, b)
    return solids.pierced(outline, section, lambda x: [], depth, a, b), left_out


@solid("round window, square reveal", "round window, splayed")
def round_window(line, a, b):
    """-∫ π(R + z tan θ - x/cos θ)² dz up to d + x: its x³, and the wedge against the frame."""
    outline, spec, depth = one(line)
    radius = spec["shape"]["diameter"] / 2
    centre = (spec["from_left"] + radius, spec["sill"] + radius)
    splay = spec["reveal"]["splay"]["ring"]
    p, q = math.tan(splay), 1 / math.cos(splay)

    def section(z, x):
        return solids.circle(radius + z * p - x * q, centre)[:-1]

    third = -math.pi * (p * p / 3 - p * q + q * q)
    left_out = -2 * math.pi * radius * p * square(a, b) / 2 - third * cube(a, b)
    return solids.pierced(outline, section, lambda x: [], depth, a, b), left_out


@solid("window of six corners")
def six_corners(line, a, b):
    """The opening shrinks by P·x - x²·Σ tan(turn/2), over d + x: x³ as often as that sum, hollow corners against it."""
    outline, spec, depth = one(line)
    corners = np.array(spec["shape"]["corners"]) + (spec["from_left"], spec["sill"])
    frame = Polygon(corners)
    heading = np.arctan2(*np.diff([*corners, corners[0]], axis=0).T[::-1])
    turns = np.diff([*heading, heading[0]])
    turns = (turns + math.pi) % (2 * math.pi) - math.pi
    meshes = solids.door(outline, lambda x: frame.buffer(-x, **solids.MITRE), depth, a, b)
    return meshes, float(np.sum(np.tan(turns / 2))) * cube(a, b)


@solid("arched door, semicircular", "arched door, segmental")
def arched(line, a, b):
    """The opening shrinks to area(x), and the volume by x is V(x) = (outline - area(x))·(d + x).

    Growth has its first two powers of x, in which area(x) is A - L·x + K·x², K half the angle of the arch and
    tan(ψ/2) at each springing, ψ the turn there.
    """
    outline, spec, depth = one(line)
    shape = spec["shape"]
    half, rise = shape["width"] / 2, shape["rise"]
    radius = (half * half + rise * rise) / (2 * rise)
    middle, centre = spec["from_left"] + half, shape["springing"] + rise - radius
    # Half the angle of the arch on the frame.
    angle = math.asin(min(1.0, half / radius))

    def opening(x):
        wide, reach = half - x, radius - x
        high = math.sqrt(max(0.0, reach * reach - wide * wide))
        at = math.atan2(wide, high)
        arc = solids.circle(reach, (middle, centre), math.pi / 2 - at, 2 * at)
        # Far under the floor, and upright from there: the ends of the arc are a hair outside the jambs.
        arc[0], arc[-1] = (middle + wide, centre + high), (middle - wide, centre + high)
        return Polygon([(middle - wide, -100), (middle + wide, -100), *arc])

    def area(x):
        wide, reach = half - x, radius - x
        high = math.sqrt(max(0.0, reach * reach - wide * wide))
        at = math.atan2(wide, high)
        return 2 * wide * (centre + high) + reach * reach * at - wide * high

    def volume(x):
        return (Polygon(outline).area - area(x)) * (depth + x)

    edge = 2 * shape["springing"] + 2 * radius * angle
    bend = angle + 2 * math.tan((math.pi / 2 - angle) / 2)
    first = Polygon(outline).area - area(0) + edge * depth
    second = 2 * edge - 2 * bend * depth
    left_out = first * (b - a) + second * square(a, b) / 2 - (volume(b) - volume(a))
    return solids.door(outline, opening, depth, a, b), left_out


def main():
    missed = compared = 0
    exact = 0
    names = set()
    for text in sys.stdin:
        line = json.loads(text)
        name = line["name"]
        build = MESHES.get(name)
        if build is None:
            print(f"no mesh for {name}")
            missed += 1
            continue
        names.add(name)
        worst = 0.0
        share = 0.0
        for layer in line["layers"]:
            a, b = layer["offset"], layer["offset"] + layer["thickness"]
            meshes, left_out = build(line, a, b)
            volume = sum(mesh.volume for mesh in meshes)
            ours = layer["volume"] + line["coves"]
            error = abs(ours - volume - left_out) / volume
            worst = max(worst, error)
            share = max(share, abs(left_out) / volume)
            compared += 1
            # Written so that what is not a number fails as well.
            term = abs(ours - volume - left_out) <= SHARE * abs(left_out) if left_out else True
            if not (error <= LIMIT and term):
                missed += 1
                print(f"{name}, {a} to {b}: {ours} by formula, {volume} by mesh, {left_out} left out")
        exact += share == 0
        said = f"{share:.1e} of it left out by design" if share else "nothing left out"
        print(f"{name:40} worst {worst:.1e} of a layer; {said}")
    for name in MESHES.keys() - names:
        print(f"nothing to compare for {name}")
        missed += 1
    print(f"layers: {compared} volumes of {len(names)} solids compared, {exact} solids exact, {missed} missed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
