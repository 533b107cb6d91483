"""The least bending radius, compared with the bent stick as drawn, read from its DXF."""

import cmath
import math
from itertools import pairwise

import numpy as np
import pytest
from outside.maker import FAMILIES, drawn, on, stated

from templates_gen import registry

(RULE,) = (r for r in registry.rules() if r.id == "stick.bend_radius")
#: The bend is averaged over this length (mm) of the drawn stick: arcs follow a curve within 5 µm,
#: which over a shorter length would itself look like a bend.
WINDOW = 50.0


def claimed(p):
    return float(RULE.bound(p).measured)


def headings(corners):
    """Return x and heading at both ends of each arc. Source: bulge = tan(turn / 4) (DXF)."""
    rows = []
    for (a, bulge), (b, _) in pairwise(corners):
        half, chord = 2 * math.atan(bulge), cmath.phase(b - a)
        rows += [(a.real, chord - half), (b.real, chord + half)]
    return np.array(rows).T


def sharpest_drawn(p):
    """Return the least mean radius of the middle line over any window."""
    (card,) = on(drawn(p, "form-camber-card"), "OUTLINE")
    first = min(range(len(card.corners)), key=lambda n: abs(card.corners[n][0]))
    corners = [*card.corners[first:], *card.corners[:first]]
    low = max(range(len(corners)), key=lambda n: corners[n][0].real)
    back = corners[low + 1 :]
    top = list(zip([z for z, _ in back[::-1]], [-b for _, b in back[-2::-1]] + [0.0], strict=True))
    sides = [headings(corners[: low + 1]), headings(top)]
    x = np.linspace(WINDOW, sides[0][0].max() - WINDOW, 2000)
    turned = [np.interp(x + WINDOW / 2, *side) - np.interp(x - WINDOW / 2, *side) for side in sides]
    return WINDOW / np.abs(np.mean(turned, axis=0)).max()


@pytest.mark.parametrize("camber", ["uniform", "even-strain", "tension"])
@pytest.mark.parametrize("family", FAMILIES)
def test_the_drawn_stick_is_bent_no_more_sharply_than_claimed(family, camber):
    p = stated(family, {"stick.camber": camber, "stick.over_bend": 1.0})
    shown = sharpest_drawn(p)
    assert claimed(p) < 1.03 * shown
    # Arcs and the window flatten the sharpest place, of the tension law most.
    assert claimed(p) > (0.75 if camber == "tension" else 0.9) * shown


def test_a_sudden_change_of_taper_counts_as_a_bend():
    """The handle tapers by 1.6 in 110, ahead of it the stick does not: half of it is bent away."""
    steep = {"stick.across_flats_butt": 10.2, "stick.across_flats_handle_end": 8.6}
    p = stated("violin", {**steep, "stick.graduation": "linear", "stick.diameter_head": 8.5})
    even = stated("violin", {"stick.across_flats_butt": 8.6, "stick.across_flats_handle_end": 8.6,
                             "stick.graduation": "linear", "stick.diameter_head": 8.5})  # fmt: skip
    v = p.values
    corner = abs(1.6 / v["stick.handle_length"] - 0.1 / 600) / 2 * v["stick.over_bend"]
    apart = float(WINDOW / 4)
    more = 1 / claimed(p) - 1 / claimed(even)
    assert more == pytest.approx(corner / apart, rel=0.1)


def test_over_bend_multiplies_the_bend():
    once, more = (stated("cello", {"stick.over_bend": k}) for k in (1.0, 1.2))
    assert claimed(once) == pytest.approx(1.2 * claimed(more), rel=1e-12)
