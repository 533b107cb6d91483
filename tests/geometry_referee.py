"""Conversion of paths to shapely, and random outlines."""

import math

import shapely
from hypothesis import reject
from hypothesis import strategies as st

from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.geometry.measure import segment_intersections

#: Chord error (mm) of arcs converted to shapely, and so the error of its distances.
CHORD = 1e-6


def sample(path: Path, n: int):
    """Points equally spaced along a path, both ends of an open one included."""
    step = path.length / (n if path.closed else n - 1)
    return [path.point_at(i * step) for i in range(n)]


def path_intersections(a: Path, b: Path):
    """Points two paths share, by the package's intersections of segments, each once."""
    points = []
    for p in (p for s in a.segments for t in b.segments for p in segment_intersections(s, t)):
        if all(math.dist(p, q) > 1e-6 for q in points):
            points.append(p)
    return points


def line_of(path: Path, chord: float = CHORD):
    points = flatten(path, chord)
    return shapely.LinearRing(points) if path.closed else shapely.LineString(points)


def polygon_of(path: Path, chord: float = CHORD):
    return shapely.Polygon(flatten(path, chord))


def buffered(polygon, distance: float):
    """An offset by GEOS, verified to be at its distance.

    GEOS can be wrong without warning on finely flattened concave arcs: simplify them, and skip the
    example where that does not help.
    """
    for share in (1e-4, 3e-4, 5e-5):
        seen = polygon.simplify(share * abs(distance)).buffer(distance, quad_segs=128)
        if seen.is_empty:
            return seen
        edge = shapely.points(shapely.get_coordinates(seen.boundary.segmentize(0.2)))
        if abs(shapely.distance(edge, polygon.boundary) - abs(distance)).max() < 3e-3:
            return seen
    return reject()


@st.composite
def outlines(draw, bulge: float = 0.4) -> Path:
    """Closed counter-clockwise outlines; sharp and rounded corners, convex and concave."""
    n = draw(st.integers(3, 8))
    share = [draw(st.floats(0.5, 1.5)) for _ in range(n)]
    angles = [math.tau * sum(share[:i]) / sum(share) for i in range(n)]
    vertices = [
        (r * math.cos(a), r * math.sin(a), draw(st.sampled_from([0.0, 1.0])) * b)
        for a in angles
        for r, b in [(draw(st.floats(6, 20)), draw(st.floats(-bulge, bulge)))]
    ]
    return Path(tuple(vertices))


def is_simple(path: Path) -> bool:
    return polygon_of(path, 1e-3).is_valid
