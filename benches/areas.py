"""The other side of the comparison: net areas of faces by a polygon library.

Reads rings from a file, builds all polygons once, and then measures as often as it is told. Not here: any limit.

Orders come on standard input, one a line; each gets one line back, numbers with blanks between:
    load FILE   reads and builds; gives the number of faces, of holes a face, and of faces whose holes overlap
    union N     the net area of all faces, as difference(outline, union of the holes), on N threads
    apart N     the same, but only overlapping holes are united; those apart go as one multipolygon built beforehand
both measures give the seconds they took, those of the processor, and the sum of the areas in square millimetres.
"""

import platform
import sys
import time
from concurrent.futures import ThreadPoolExecutor

import numpy
import shapely

# Slices for each thread, so that neither waits for the other at the end.
SLICES = 8


def chain(file):
    """Polygons from the counts of rings and corners, the ends of the rings, and the corners."""
    rings, corners = numpy.fromfile(file, "<u8", 2)
    ends = numpy.fromfile(file, "<u8", rings).astype(numpy.int64)
    points = numpy.fromfile(file, "<f8", 2 * corners).reshape(-1, 2)
    places = numpy.repeat(numpy.arange(rings), numpy.diff(ends, prepend=0))
    return shapely.polygons(shapely.linearrings(points, indices=places))


class Faces:
    """Outlines, their holes row by row, and the holes of each face as one geometry."""

    def __init__(self, path):
        with open(path, "rb") as file:
            self.outlines = chain(file)
            holes = chain(file)
        self.holes = holes.reshape(len(self.outlines), -1)
        count = self.holes.shape[1]
        rows = numpy.repeat(numpy.arange(len(self.outlines)), count)
        self.together = shapely.multipolygons(holes, indices=rows)
        # A multipolygon is valid only when its parts share no more than single points.
        self.overlap = ~shapely.is_valid(self.together)
        self.overlap.setflags(write=False)

    def union(self, part):
        united = shapely.union_all(self.holes[part], axis=1)
        return shapely.area(shapely.difference(self.outlines[part], united)).sum()

    def apart(self, part):
        holes = self.together[part].copy()
        overlap = self.overlap[part]
        holes[overlap] = shapely.union_all(self.holes[part][overlap], axis=1)
        return shapely.area(shapely.difference(self.outlines[part], holes)).sum()

    def timed(self, measure, threads):
        count = len(self.outlines)
        slices = 1 if threads == 1 else threads * SLICES
        bounds = [count * i // slices for i in range(slices + 1)]
        parts = [slice(a, b) for a, b in zip(bounds, bounds[1:])]
        start, work = time.perf_counter(), time.process_time()
        if threads == 1:
            total = sum(map(measure, parts))
        else:
            with ThreadPoolExecutor(threads) as pool:
                total = sum(pool.map(measure, parts))
        return time.perf_counter() - start, time.process_time() - work, total


def main():
    print("shapely", shapely.__version__, "GEOS", shapely.geos_version_string, "numpy", numpy.__version__,
          "Python", platform.python_version(), flush=True)
    faces = None
    for line in sys.stdin:
        order, argument = line.split(maxsplit=1)
        argument = argument.strip()
        if order == "load":
            faces = Faces(argument)
            print(len(faces.outlines), faces.holes.shape[1], int(faces.overlap.sum()), flush=True)
        else:
            measure = {"union": faces.union, "apart": faces.apart}[order]
            print(*map(float, faces.timed(measure, int(argument))), flush=True)


if __name__ == "__main__":
    main()
