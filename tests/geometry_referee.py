"""What shapely sees of our outlines, and outlines at random to show it."""

import math

import shapely
from hypothesis import reject
from hypothesis import strategies as st

from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.geometry.measure import meet

#: Chord error of an arc as the referee sees it (mm); its areas and distances are off by as much.
CHORD = 1e-6


def sample(path: Path, n: int):
    """Points evenly along it (both ends of an open path among them)."""
    step = path.length / (n if path.closed else n - 1)
    return [path.point_at(i * step) for i in range(n)]


def line_of(path: Path, chord: float = CHORD):
    points = flatten(path, chord)
    return shapely.LinearRing(points) if path.closed else shapely.LineString(points)


def polygon_of(path: Path, chord: float = CHORD):
    return shapely.Polygon(flatten(path, chord))


def buffered(polygon, distance: float):
    """A parallel by GEOS, itself held to its distance.

    GEOS can be silently wrong on finely flattened hollows: thin them out, and where that does not
    help the referee has nothing to say.
    """
    for share in (1e-4, 3e-4, 5e-5):
        seen = polygon.simplify(share * abs(distance)).buffer(distance, quad_segs=128)
        if seen.is_empty:
            return seen
        edge = shapely.points(shapely.get_coordinates(seen.boundary.segmentize(0.2)))
        if abs(shapely.distance(edge, polygon.boundary) - abs(distance)).max() < 3e-3:
            return seen
    return reject()


def crossings(a: Path, b: Path):
    """Every point two paths share, each once, in the order of the first."""
    points = []
    for piece in a.segments:
        for p in sorted((p for q in b.segments for p in meet(piece, q)), key=piece.nearest):
            if all(math.dist(p, q) > 1e-6 for q in points):
                points.append(p)
    return points


@st.composite
def outlines(draw, bulge: float = 0.4) -> Path:
    """Closed, counter-clockwise, free of crossings; sharp and rounded, out and in."""
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
