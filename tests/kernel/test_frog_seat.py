"""The seat on the solid: angle, taper, and contact with the stick in play."""

import math

import pytest
from kernel.bench import built, having, pattern

from templates_gen.bow.dims import frames
from templates_gen.mechanics.assembly import Frame

pytestmark = pytest.mark.kernel

FACET = math.sqrt(2) - 1  # of a regular octagon 1 across flats, any handbook
every_frog = pytest.mark.parametrize("stem", having("frog"))


@pytest.fixture(scope="module")
def solids():
    from templates_gen.kernel import solids

    return solids


def stretches(solids, solid, x):
    """The straight edges of a section square to the stick's axis, as pairs of (y, z)."""
    found = []
    for edge in solids.section_edges(solid, "x", x):
        a, middle, b = (solids.to_plane("x", edge.positionAt(t)) for t in (0, 0.5, 1))
        between = [(p + q) / 2 for p, q in zip(a, b, strict=True)]
        # A plane cuts a ruled face in a straight line, whatever its curve type in the kernel.
        if math.dist(middle, between) < 1e-9:
            found.append((a, b))
    return found


def seat(solids, stem, x):
    """Land and both sides at x: of the lining if there is one, else of the frog.

    Each as (lower end, upper end); the land as (left, right).
    """
    part = "underslide" if stem in having("underslide") else "frog"
    clear = pattern(stem).values["frog.clear_height"]
    near = [
        (a, b)
        for a, b in stretches(solids, built(stem, part).solid, x)
        if min(a[1], b[1]) > clear - 0.25
    ]
    land = [
        tuple(sorted(e)) for e in near if abs(e[0][1] - e[1][1]) < 1e-6 and e[0][0] * e[1][0] < 0
    ]
    assert len(land) == 1
    (left, right) = land[0]
    diagonals = []
    for foot in (left, right):
        (upper,) = [
            b if math.dist(a, foot) < 1e-6 else a
            for a, b in near
            if min(math.dist(a, foot), math.dist(b, foot)) < 1e-6 and abs(a[1] - b[1]) > 0.1
        ]
        diagonals.append((foot, upper))
    return (left, right), diagonals


def places(stem):
    """Behind the eyelet's shank, and ahead of it."""
    v = pattern(stem).values
    shank, half = v["eyelet.from_heel"], v["eyelet.shank_diameter"] / 2 + 0.3
    return (shank - half - 3.0, shank + half, v["frog.length_top"] - 3.0)


@every_frog
def test_seat_corners_are_135_degrees(stem, solids):
    """An octagon's corner is 135°, in every section of a tapered seat."""
    for x in places(stem):
        (left, right), diagonals = seat(solids, stem, x)
        for foot, upper in diagonals:
            along = (1.0, 0.0) if foot == left else (-1.0, 0.0)
            up = (upper[0] - foot[0], upper[1] - foot[1])
            cosine = (along[0] * up[0] + along[1] * up[1]) / math.hypot(*up)
            assert math.degrees(math.acos(cosine)) == pytest.approx(135.0, abs=1e-6)
        assert right[0] == pytest.approx(-left[0], abs=1e-9)


@every_frog
def test_seat_tapers_with_the_handle(stem, solids):
    """Facet in proportion to flats: the land narrows by 0.41421 a′, its height rises by a′/2."""
    v = pattern(stem).values
    thins = v["stick.across_flats_handle_end"] - v["stick.across_flats_butt"]
    taper = thins / v["stick.handle_length"]
    rear, _, front = places(stem)
    (back, _), _ = seat(solids, stem, rear)
    (fore, _), _ = seat(solids, stem, front)
    long = front - rear
    assert 2 * (back[0] - fore[0]) / long == pytest.approx(FACET * taper, abs=1e-9)
    assert (fore[1] - back[1]) / long == pytest.approx(-taper / 2, abs=1e-9)


@every_frog
def test_land_is_narrower_than_the_least_facet_by_the_relief(stem, solids):
    """At the frog's foremost position, for every point of the frog."""
    v = pattern(stem).values
    foremost = v["stick.mortise_from_butt"] + v["stick.mortise_length"] - v["eyelet.length"] / 2
    thins = v["stick.across_flats_handle_end"] - v["stick.across_flats_butt"]
    for x in places(stem):
        on_stick = foremost - v["eyelet.from_heel"] + x
        flats = v["stick.across_flats_butt"] + thins * on_stick / v["stick.handle_length"]
        (left, right), _ = seat(solids, stem, x)
        assert right[0] - left[0] == pytest.approx(FACET * flats - v["frog.land_relief"], abs=1e-6)


@every_frog
def test_in_play_the_stick_rests_on_both_sides_and_clears_the_land(stem, solids):
    """The stick's axis is half its flats from each side; the land is farther."""
    p = pattern(stem)
    v = p.values
    heel, bottom = frames.positions(p)["play"]
    thins = v["stick.across_flats_handle_end"] - v["stick.across_flats_butt"]
    for x in places(stem):
        flats = v["stick.across_flats_butt"] + thins * (heel + x) / v["stick.handle_length"]
        (left, _), diagonals = seat(solids, stem, x)
        for foot, upper in diagonals:
            (y0, z0), (y1, z1) = ((y, z + bottom) for y, z in (foot, upper))
            away = abs(y0 * (z1 - z0) - z0 * (y1 - y0)) / math.hypot(y1 - y0, z1 - z0)
            assert away == pytest.approx(flats / 2, abs=1e-6)
        assert -(left[1] + bottom) > flats / 2 + v["frog.land_relief"] / 2 - 1e-6


@pytest.mark.parametrize("stem", ["violin", "bass-german", "whimbrel"])
def test_in_play_seat_and_stick_touch_without_overlap(stem):
    """No gap and no common volume; a hundredth nearer they overlap."""
    from templates_gen.kernel import assembly

    p = pattern(stem)
    part = "underslide" if stem in having("underslide") else "frog"
    x, z = frames.positions(p)["play"]
    stick = built(stem, "stick").solid

    def put(lifted):
        return assembly.placed(built(stem, part).solid, Frame((x, 0.0, z + lifted)))

    assert put(0.0).distance(stick) < 1e-6
    assert assembly.overlap_volume(put(0.0), stick) < 1e-6
    assert assembly.overlap_volume(put(0.01), stick) > 0.01
