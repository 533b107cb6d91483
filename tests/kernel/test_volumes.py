"""Volumes of the solids against closed forms and, for the frog, against scipy's quadrature."""

import math

import numpy as np
import pytest
from kernel.bench import BUILDERS, FILES, built, pattern, recipe
from scipy.integrate import quad
from scipy.optimize import brentq

from templates_gen.parts.frog.dims import FrogDims
from templates_gen.tolerances import VOLUME_EXACT, VOLUME_FREE

pytestmark = pytest.mark.kernel
each_file = pytest.mark.parametrize("stem", FILES)


def volume(stem, part):
    return built(stem, part).solid.Volume()


@each_file
def test_ferrule_is_what_stands_round_its_opening(stem):
    r = recipe(stem, "ferrule")
    expected = (r.outside.area - r.opening.area) * pattern(stem).values["ferrule.length"]
    assert volume(stem, "ferrule") == pytest.approx(expected, rel=VOLUME_EXACT)


@each_file
def test_slide_is_a_tapered_dovetail(stem):
    """L t (mean width + t tan β): the mean of its width along, and half the spread at the floor."""
    v = pattern(stem).values
    length, thick = v["slide.length"], v["slide.thickness"]
    mean = v["slide.width_front"] - v["slide.width_taper"] / 2
    mean += thick * math.tan(math.radians(v["slide.dovetail_deg"]))
    assert volume(stem, "slide") == pytest.approx(length * thick * mean, rel=VOLUME_EXACT)


@each_file
def test_heel_plate_is_two_legs_and_a_bend(stem):
    """Its section: two rectangles and a sector of a ring."""
    v = pattern(stem).values
    t, outer = v["heel.plate_thickness"], v["heel.bottom_radius"]
    turn = math.radians(90 + v["heel.lean_deg"])
    straight = v["heel.leg_length"] + v["heel.rear_leg"] - 2 * outer * math.tan(turn / 2)
    section = straight * t + turn / 2 * (outer**2 - (outer - t) ** 2)
    expected = section * v["frog.width_heel"]
    assert volume(stem, "heel") == pytest.approx(expected, rel=VOLUME_EXACT)


@each_file
def test_underslide_is_three_strips_less_a_hole(stem):
    """Each strip as thick as the sheet, mitred where two meet: t tan 22.5° less on the outside.

    On a handle that does not taper, so that the section is the same all along.
    """
    p = pattern(stem)
    p = p.with_("stick.across_flats_butt", p.values["stick.across_flats_handle_end"])
    p = p.with_("heel.lean_deg", 0.0)
    v, d = p.values, p.derive(FrogDims).seat
    t, wing = v["underslide.thickness"], float(d.stop) * math.sqrt(2)
    section = (float(d.land) + 2 * wing) * t + 2 * t * t * math.tan(math.pi / 8)
    length = v["frog.length_top"] - v["heel.top_radius"] - v["frog.thumb_tip_thickness"] / 2
    hole = math.pi / 4 * float(d.shank_hole) ** 2 * t
    # The hole lies wholly within the land, so it takes a plain disc.
    assert float(d.shank_hole) < float(d.land)
    underslide = BUILDERS["underslide"]
    solid = underslide.build(underslide.recipe(p)).solid
    assert solid.Volume() == pytest.approx(section * length - hole, rel=VOLUME_EXACT)


def frog_volume(stem):
    """Width, less the trench's, over the frog's side, as a sum round its edge (Green's theorem).

    ∫∫ f dx dz = ∮ (∫ f dx) dz, where f is the width at (x, z): the plan's even taper, from
    z = floor up less the trench's width. Each piece of the edge is summed by QUADPACK.
    """
    p, side = pattern(stem), recipe(stem, "frog").side
    d, v = p.derive(FrogDims), p.values
    heel = v["frog.width_heel"]
    shoulder = v["frog.length_bottom"] - v["ferrule.length"]
    slope = (v["ferrule.outer_width"] - heel) / shoulder
    seat = d.seat
    heights, widths = trench(
        float(seat.land), float(seat.land_height), float(seat.lining), float(seat.stop)
    )

    def summed(x, z):
        taken = np.interp(z, heights, widths) if z >= heights[0] else 0.0
        return x * (heel - taken) + slope * x * x / 2

    total = 0.0
    for piece in side.segments:
        if piece.start[1] == piece.end[1] and piece.is_line:
            continue  # level: dz is nothing

        def speed(u, piece=piece):
            x, z = piece.point(u)
            return summed(x, z) * piece.tangent(u)[1] * piece.length

        total += quad(speed, 0.0, 1.0, points=crossings(piece, heights), limit=400)[0]
    return total


def trench(land, level, lining, stop):
    """Heights at which the trench's flank turns, and its whole width there, from the floor up."""
    floor = (level - lining, land + 2 * lining * math.tan(math.pi / 8))
    diagonal = lining * math.sqrt(0.5)
    under = (level + stop - diagonal, land + 2 * (stop + diagonal))
    edge = (level + stop, land + 2 * stop)
    top = (level + 50.0, land + 100.0)
    return np.transpose([floor, under, edge, top])


def crossings(piece, heights):
    """Fractions of a piece at which it passes the heights, for the quadrature to stop at."""
    looks = np.linspace(0.0, 1.0, 41)
    found = []
    for level in heights:
        off = [piece.point(u)[1] - level for u in looks]
        for a, b, va, vb in zip(looks, looks[1:], off, off[1:], strict=False):
            if va * vb < 0:
                found.append(brentq(lambda u, h=level: piece.point(u)[1] - h, a, b, xtol=1e-15))
    return found or None


@each_file
def test_frog_by_quadrature(stem):
    assert volume(stem, "frog") == pytest.approx(frog_volume(stem), rel=VOLUME_FREE)
