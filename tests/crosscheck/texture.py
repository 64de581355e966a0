"""Holds the texture classes of the half-percent grid against two public libraries, soiltexture and pedotri.

Reads on standard input the lines that the program's own example writes, sand, silt, clay and class:

    cargo run --release -p hodful-soils --example texture_grid | python tests/crosscheck/texture.py

Inside the classes all three must agree. On the lines between classes the libraries do not follow the printed rules
(their polygons take a point on a line as it comes), so there a difference is let pass only where the class that the
library gives touches that very point; such differences are counted. The printed rules themselves are written down
here a second time, in whole numbers, and must give the program's class everywhere, lines included.

soiltexture gives no class at all for some points, without a word: these are counted too, and let pass only where
two classes meet or on the rim of the triangle.

Source of the rules: USDA, Soil Survey Manual (Handbook 18), ch. 3, the definitions of the twelve classes.

Exit 0 when all is well, 1 when not. Not here: how shares of a soil are found.
"""

import sys
from collections import Counter

import numpy as np
import pedotri
import soiltexture

POINTS = 201 * 202 // 2
"""Of a grid of 0.5 %: 200 steps along each side of the triangle."""

HALVES = 2
"""Shares are counted in halves of a percent, so that everything below is exact."""


def rules(sand, silt, clay, below):
    """Which classes hold, all in halves of a percent. `below` is how a limit counts that the rule puts outside:
    strictly as printed, or touching as well."""

    def p(percent):
        return percent * HALVES

    def above(value, limit):
        return below(limit, value)

    light = silt * 2 + clay * 3  # twice silt + 1.5 clay
    loam = silt + clay * 2
    held = {
        "sand": below(light, p(30)),
        "loamy sand": light >= p(30) and below(loam, p(30)),
        "sandy loam": loam >= p(30)
        and (
            (clay >= p(7) and below(clay, p(20)) and above(sand, p(52)))
            or (below(clay, p(7)) and below(silt, p(50)))
        ),
        "loam": clay >= p(7) and below(clay, p(27)) and silt >= p(28) and below(silt, p(50)) and sand <= p(52),
        "silt loam": (silt >= p(50) and clay >= p(12) and below(clay, p(27)))
        or (silt >= p(50) and below(silt, p(80)) and below(clay, p(12))),
        "silt": silt >= p(80) and below(clay, p(12)),
        "sandy clay loam": clay >= p(20) and below(clay, p(35)) and below(silt, p(28)) and above(sand, p(45)),
        "clay loam": clay >= p(27) and below(clay, p(40)) and above(sand, p(20)) and sand <= p(45),
        "silty clay loam": clay >= p(27) and below(clay, p(40)) and sand <= p(20),
        "sandy clay": clay >= p(35) and above(sand, p(45)),
        "silty clay": clay >= p(40) and silt >= p(40),
        "clay": clay >= p(40) and sand <= p(45) and below(silt, p(40)),
    }
    return {name for name, holds in held.items() if holds}


def printed(point):
    return rules(*point, below=lambda value, limit: value < limit)


def touching(point):
    return rules(*point, below=lambda value, limit: value <= limit)


def read(lines):
    """Points in halves of a percent, and the program's class at each."""
    grid = {}
    for line in lines:
        *shares, name = line.rstrip("\n").split("\t")
        point = tuple(int(float(share) * HALVES) for share in shares)
        if sum(point) != 100 * HALVES or min(point) < 0 or point in grid:
            sys.exit(f"not a point of the grid: {line!r}")
        grid[point] = name
    if len(grid) != POINTS:
        sys.exit(f"{len(grid)} points, not {POINTS}")
    return grid


def compare(library, grid, theirs, silent):
    """Counts differences and tells how many of them are not let pass."""
    count = Counter()
    pairs = Counter()
    failed = []
    for point, name in theirs.items():
        near = touching(point)
        place = "on lines" if len(near) > 1 else "inside"
        count[place] += 1
        if name is None:
            count["no class"] += 1
            if not silent or (len(near) == 1 and min(point) > 0):
                failed.append((point, name))
        elif name != grid[point]:
            count[f"different {place}"] += 1
            pairs[f"{grid[point]} / {name}"] += 1
            if name not in near or len(near) == 1:
                failed.append((point, name))
    print(
        f"{library}: {count['inside']} points inside classes, {count['different inside']} different; "
        f"{count['on lines']} on lines, {count['different on lines']} different; {count['no class']} without a class"
    )
    for pair, times in sorted(pairs.items()):
        print(f"    {times:4} {pair}")
    for (sand, silt, clay), name in failed[:10]:
        shares = f"sand {sand / HALVES} silt {silt / HALVES} clay {clay / HALVES}"
        print(f"    FAILED {shares}: {grid[sand, silt, clay]}, theirs {name}")
    return len(failed)


def main():
    grid = read(sys.stdin)
    points = list(grid)
    wrong = [point for point in points if printed(point) != {grid[point]}]
    for point in wrong[:10]:
        print(f"    FAILED {point} in halves of a percent: {grid[point]}, by the rules {printed(point)}")
    print(f"rules as printed: {len(points)} points, {len(wrong)} different")

    sand, _, clay = (np.array(axis) / HALVES for axis in zip(*points))
    names = pedotri.classify(sand, clay, "USDA")
    theirs = {point: name and name.replace("_", " ") for point, name in zip(points, names, strict=True)}
    failed = compare("pedotri", grid, theirs, silent=False)

    names = [soiltexture.getTexture(s, c, "USDA") for s, c in zip(sand.tolist(), clay.tolist(), strict=True)]
    failed += compare("soiltexture", grid, dict(zip(points, names, strict=True)), silent=True)

    # The comparison must be able to fail: every class is met, and points lie on both sides.
    if len(set(grid.values())) != 12:
        sys.exit(f"{len(set(grid.values()))} classes on the grid, not 12")
    return 1 if wrong or failed else 0


if __name__ == "__main__":
    sys.exit(main())
