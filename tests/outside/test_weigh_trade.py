"""Compare mass and balance of the starters with books and the trade."""

import math
from itertools import pairwise

import pytest
from outside.maker import FAMILIES, PARAMS, stated

from templates_gen import weigh
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.parts.stick.dims_sections import StickSections
from templates_gen.pipeline import rendering

#: Violin, viola, cello: H. Saint-George, The Bow, ch. VII, light to heavy from grains, widened by
#: two or three grams; balance from the front of the frog: Encyclopaedia Britannica, 11th ed. 1911,
#: vol. 4, "Bow": violin 190, cello 175 to 180, ± 12. Viola and basses, and the widening: common
#: practice, no source; a bass bow weighs about 135 g, and players ask for 130 to 140.
BANDS = {
    "violin": ((55, 65), (178, 202)),
    "viola": ((64, 75), (168, 198)),
    "cello": ((74, 90), (163, 190)),
    "bass-french": ((125, 145), (135, 180)),
    "bass-german": ((125, 145), (135, 185)),
}


def within(value, band):
    return band[0] <= value <= band[1]


@pytest.mark.parametrize("family", FAMILIES)
def test_mass_and_balance_of_starters_are_usual(family):
    """From the dimensions alone."""
    p = stated(family)
    m = p.derive(Masses)
    mass, balance = BANDS[family]
    assert within(m.total, mass)
    assert within(m.balance - p.values["frog.front_at_play"], balance)


@pytest.mark.kernel
@pytest.mark.parametrize("family", FAMILIES)
def test_mass_and_balance_of_starters_by_solids_are_usual(family):
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    w = weigh(p)
    mass, balance = BANDS[family]
    assert within(w.total, mass)
    assert within(w.from_ferrule, balance)
    # The integration without solids, which the checks use, agrees.
    near = p.derive(Masses)
    assert float(near.total) == pytest.approx(w.total, rel=5e-4)
    assert float(near.balance) == pytest.approx(w.from_butt, abs=0.1)


#: A ridge as measured on a head for bass, full where the two arcs are hollow (invented).
FULL = ((12, 32.6), (15, 32.6), (18, 31.2), (21, 28.6), (24, 25), (27, 20.4), (30, 15), (33, 8.8))


@pytest.mark.kernel
@pytest.mark.parametrize(
    ("family", "size"), [("violin", 0.65), ("cello", 0.85), ("bass-french", 1.0)]
)
def test_head_with_measured_ridge_weighs_the_same_as_its_solid(tmp_path, family, size):
    """Face and height go with the ridge, which was measured on a head for bass."""
    points = [[round(size * x, 2), round(size * z, 2)] for x, z in (*FULL, (36, 5.6))]
    head = {"face_length": 38.0 * size, "height": 31.6 * size, "ridge_points": points}
    lines = "\n".join(f"{key} = {value}" for key, value in head.items())
    file = tmp_path / "ruff.toml"
    top = f'units = "mm"\nbased_on = "{family}"\n[pattern]\nname = "Ruff"\n[head]\n'
    file.write_text(f"{top}{lines}\n", "utf-8")
    p = rendering.read(str(file))
    w, near = weigh(p), p.derive(Masses)
    assert float(p.derive(Volumes).parts["head"].volume) == pytest.approx(
        w.bulk["head"].volume, rel=3e-3
    )
    assert float(near.balance) == pytest.approx(w.from_butt, abs=0.1)


@pytest.mark.kernel
@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_stick_volume_agrees_with_its_solid(family):
    """The solid of the stick ends 60 mm behind the face's rear edge, where the head's solid begins,
    and its octagon ends abruptly where the maker's fades out."""
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    sections = p.derive(StickSections)
    seen = rendering.witnesses(p)["stick"].volume
    d = sections.dims
    places = [float(d.face_rear) - 60 + 0.5 * i for i in range(121)]
    areas = [math.pi / 4 * float(d.diameter(x)) ** 2 for x in places]
    last = sum((a + b) / 2 * 0.5 for a, b in pairwise(areas))
    running_out = float(sections.bulk[0] + sections.nipple) - last - seen
    handle = math.pi / 4 * float(d.params.across_flats_handle_end) ** 2
    corners = (0.8284271 / (math.pi / 4) - 1) * handle * float(d.params.blend_length)
    assert 0 < running_out < corners
    assert running_out / seen < 0.004


def test_mass_of_light_and_silver_lappings():
    """Common practice, no source: lapping with its leather about 1.5 to 2 g light, and of stout
    silver wire wound long 6 to 7 g."""

    def grip(changes):
        pieces = stated("violin", changes).derive(Masses).pieces
        return sum(float(q.mass) for q in pieces if q.name in ("lapping", "leather"))

    light = {"lapping.kind": "whalebone substitute", "lapping.gauge": 0.5, "lapping.length": 70.0}
    assert 1.5 <= grip(light) <= 2.1
    silver = {"lapping.kind": "silver wire", "lapping.gauge": 0.3, "lapping.length": 84.0}
    assert 6.0 <= grip(silver) <= 7.0


def test_silver_lapping_moves_the_balance_back():
    light, silver = (
        stated(
            "violin", {"lapping.kind": kind, "lapping.gauge": gauge, "lapping.length": 70.0}
        ).derive(Masses)
        for kind, gauge in (("whalebone substitute", 0.5), ("silver wire", 0.28))
    )
    assert silver.total > light.total + 2
    assert silver.balance < light.balance - 4
