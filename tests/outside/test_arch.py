"""Compare the ferrule's arch, from parameter file to cut strip, with independent numbers."""

import math

import pytest
from outside.maker import drawn, on, stated
from scipy.integrate import quad
from scipy.special import ellipe

from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.tolerances import FIT_DISTANCE

#: Starter, curve, and what must differ from the starter so that the curve can be.
ARCHES = {
    "violin half ellipse": ("violin", {"ferrule.arch_kind": "half-ellipse"}),
    "cello half ellipse": ("cello", {"ferrule.arch_kind": "half-ellipse"}),
    "bass half ellipse": ("bass-french", {"ferrule.arch_kind": "half-ellipse"}),
    "tall half ellipse": ("violin", {"ferrule.arch_kind": "half-ellipse", "ferrule.height": 9.0}),
    "flat half ellipse": (
        "bass-french",
        {"ferrule.arch_kind": "half-ellipse", "ferrule.height": 6.0},
    ),
    "half circle": ("violin", {"ferrule.arch_kind": "half-circle", "ferrule.height": 8.5}),
    "segment": ("violin", {"ferrule.arch_kind": "segment"}),
    "flat segment": ("bass-french", {"ferrule.arch_kind": "segment", "ferrule.height": 7.0}),
    "flat top": ("viola", {"ferrule.arch_kind": "flat-top"}),
}
ELLIPSES = [name for name in ARCHES if "ellipse" in name]


def numbers(p):
    """Outside width, height of the arch above the plate, wall, outside corner radius."""
    v = p.values
    rise = v["ferrule.height"] - v["ferrule.plate_thickness"]
    return (
        v["ferrule.outer_width"],
        rise,
        v["ferrule.arch_thickness"],
        v["ferrule.arch_corner_radius"],
    )


def handbook_length(kind, w, h, t, r):
    """Length of the line in the middle of the wall.

    Source: any handbook's circle, circular segment and complete elliptic integral; the ellipse by
    scipy.special.ellipe, an independent library.
    """
    a, b = (w - t) / 2, h - t / 2
    if kind == "half-ellipse":
        long, short = max(a, b), min(a, b)
        return 2 * long * ellipe(1 - (short / long) ** 2)
    if kind == "half-circle":
        return math.pi * a + 2 * (h - w / 2)
    if kind == "segment":
        chord, rise = w - t, h - t / 2
        radius = (chord**2 / 4 + rise**2) / (2 * rise)
        return radius * 2 * math.asin(chord / (2 * radius))
    return 2 * (h - r) + (w - 2 * r) + math.pi * (r - t / 2)


def finished_length(drawing):
    """Return the distance between the two filing lines in the strip's file."""
    left, right = sorted(e.corners[0][0].real for e in on(drawing, "SCRIBE"))
    return right - left


@pytest.mark.parametrize("name", ARCHES)
def test_developed_length(name):
    p = stated(*ARCHES[name])
    expected = handbook_length(p.values["ferrule.arch_kind"], *numbers(p))
    assert float(p.derive(FerruleDims).arch_length) == pytest.approx(expected, rel=1e-9)
    assert finished_length(drawn(p, "ferrule-arch-strip")) == pytest.approx(expected, abs=2e-6)


@pytest.mark.parametrize("name", ELLIPSES)
def test_half_ellipse_by_quadrature(name):
    """The arc's length element summed by QUADPACK, which knows of no elliptic integral."""
    p = stated(*ARCHES[name])
    w, h, t, _ = numbers(p)
    a, b = (w - t) / 2, h - t / 2
    expected, _ = quad(
        lambda u: math.hypot(a * math.sin(u), b * math.cos(u)), 0, math.pi, epsrel=1e-12
    )
    assert float(p.derive(FerruleDims).arch_length) == pytest.approx(expected, abs=1e-6)
    assert finished_length(drawn(p, "ferrule-arch-strip")) == pytest.approx(expected, abs=2e-6)


@pytest.mark.parametrize("name", ELLIPSES)
def test_error_of_ramanujans_approximation(name):
    """Ramanujan's first formula lacks h³/512 of the true perimeter, and more in higher powers.

    Source: S. Ramanujan 1914, the perimeter's series in h = ((a − b)/(a + b))² (from memory;
    the coefficients re-derived: 1/256 of the exact series less 1/512 of the formula's).
    """
    p = stated(*ARCHES[name])
    w, h, t, _ = numbers(p)
    a, b = (w - t) / 2, h - t / 2
    ramanujan = math.pi / 2 * (3 * (a + b) - math.sqrt((3 * a + b) * (a + 3 * b)))
    lacks = float(p.derive(FerruleDims).arch_length) / ramanujan - 1
    cube = ((a - b) / (a + b)) ** 6
    assert 0.9 * cube / 512 - 1e-13 <= lacks <= 1.5 * cube / 512 + 1e-13


def test_ramanujan_shows_an_arch_flat_enough():
    """The test above means something only if the formula's error is large enough to see."""
    p = stated(*ARCHES["flat half ellipse"])
    w, h, t, _ = numbers(p)
    a, b = (w - t) / 2, h - t / 2
    assert ((a - b) / (a + b)) ** 6 / 512 > 1e-6


def item(drawing, layer):
    (found,) = [i for i in drawing.items if i.layer == layer and i.closed]
    return found


@pytest.mark.parametrize("name", [n for n in ARCHES if "segment" not in n])
def test_faces_are_parallels_of_the_neutral_line(name):
    """Areas of the ferrule's D and of its opening.

    Source: Steiner's formula for parallels of a convex curve, here of one that stands square on
    the plate: the area between it and its parallel at distance d is L d ± π d²/2.
    """
    p = stated(*ARCHES[name])
    kind, (w, h, t, r) = p.values["ferrule.arch_kind"], numbers(p)
    a, b = (w - t) / 2, h - t / 2
    length = handbook_length(kind, w, h, t, r)
    under = {
        "half-ellipse": math.pi * a * b / 2,
        "half-circle": math.pi * a * a / 2 + 2 * a * (b - a),
        "flat-top": 2 * a * b - (2 - math.pi / 2) * (r - t / 2) ** 2,
    }[kind]
    d = t / 2
    drawing = drawn(p, "ferrule-mandrel")
    wander = FIT_DISTANCE * length if kind == "half-ellipse" else 2e-6 * length
    opening = under - length * d + math.pi * d * d / 2
    assert item(drawing, "OUTLINE").area == pytest.approx(opening, abs=wander)
    outside = under + length * d + math.pi * d * d / 2 + w * p.values["ferrule.plate_thickness"]
    assert item(drawing, "HIDDEN").area == pytest.approx(outside, abs=wander)


@pytest.mark.parametrize("name", ["segment", "flat segment"])
def test_opening_of_a_segment(name):
    """Source: any handbook's circular segment, A = R² (q − sin q)/2, q the angle at its centre."""
    p = stated(*ARCHES[name])
    w, h, t, _ = numbers(p)
    a, b = (w - t) / 2, h - t / 2
    centre = b - (a * a + b * b) / (2 * b)
    radius = (a * a + b * b) / (2 * b) - t / 2
    q = 2 * math.acos(-centre / radius)
    opening = item(drawn(p, "ferrule-mandrel"), "OUTLINE")
    assert opening.area == pytest.approx(radius**2 * (q - math.sin(q)) / 2, abs=2e-5)
    assert opening.box[3] - opening.box[1] == pytest.approx(h - t, abs=2e-6)
