"""Check the effect of the hair's tension on a rod that has a handbook solution.

Source: Euler's column with hinged ends, P = π² E I / L²; I of a regular octagon 0.05474 a⁴, of a
circle π d⁴/64 (any handbook). Bands of mass, balance and length: H. Saint-George, The Bow, 1922,
and Encyclopaedia Britannica 1911, "Bow"; basses common practice, no source.
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from outside.by_hand import FACET, Bow
from outside.maker import FAMILIES, PARAMS

from templates_gen.bow import catalogue
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.tension import Tension, camber_left, least
from templates_gen.parameters import Pattern
from templates_gen.parts.material.params import StickWood
from templates_gen.pipeline import rendering
from templates_gen.shapes.graduation import GraduationKind
from templates_gen.shapes.stick_section import SectionKind

RULES = {rule.id: rule for rule in catalogue.rules()}
E = 22.0e3  # N/mm²


def starter(family: str) -> Pattern:
    return rendering.read(str(PARAMS / f"{family}.toml"))


def rod(family: str, section: SectionKind = SectionKind.OCTAGON) -> Bow:
    """A stick of one thickness and one stated modulus, without camber's own law."""
    p = starter(family)
    wide = p.values["stick.across_flats_butt"]
    changes = {
        "stick.across_flats_handle_end": wide,
        "stick.diameter_head": wide,
        "stick.section": section,
        "stick.graduation": GraduationKind.LINEAR,
        "material.stick_wood": StickWood.MEASURED,
        "material.stick_modulus": E / 1e3,
    }
    return Bow(p.with_many(changes))


def span(b: Bow) -> float:
    """From the ferrule in play to the face's rear edge."""
    face = b("stick.length") - b("head.face_length")
    return float(face - b("frog.front_at_play"))


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_octagonal_rod_buckles_at_eulers_load(family: str) -> None:
    b = rod(family)
    wide = float(b("stick.across_flats_butt"))
    inertia = 0.05473785 * wide**4
    load = pi**2 * E * inertia / span(b) ** 2
    found = RULES["bow.pull"].bound(b.p)
    assert float(found.limit) == pytest.approx(0.7 * load, rel=0.015)
    assert float(found.measured) == b("hair.tension_n")


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_round_rod_buckles_before_an_octagonal_one(family: str) -> None:
    """By the ratio of their inertias ahead of the handle and its blend, 0.04909 to 0.05474."""
    thick = float(RULES["bow.pull"].bound(rod(family).p).limit)
    thin = float(RULES["bow.pull"].bound(rod(family, SectionKind.ROUND).p).limit)
    assert 0.04909 / 0.05474 < thin / thick < 1.0


def test_twice_the_modulus_carries_twice_the_tension() -> None:
    b = rod("violin")
    twice = b.p.with_("material.stick_modulus", 2 * E / 1e3)
    one, two = (float(RULES["bow.pull"].bound(p).limit) for p in (b.p, twice))
    assert two == pytest.approx(2 * one)


@pytest.mark.parametrize("family", FAMILIES)
def test_hair_without_tension_is_the_slack_hair(family: str) -> None:
    t = starter(family).derive(Tension)
    assert t.gaps(0.0) == pytest.approx(t.unstrung - t.thickness / 2, abs=1e-9)
    slack = float(RULES["bow.hair_clears"].bound(starter(family)).measured)
    assert float(least(t.gaps(0.0))) == pytest.approx(slack, abs=0.05)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_pull_lifts_the_middle_and_leaves_the_ends(family: str) -> None:
    t = starter(family).derive(Tension)
    before, after = t.gaps(0.0), t.gaps(10.0)
    assert after[[0, -1]] == pytest.approx(before[[0, -1]], abs=1e-9)
    middle = len(before) // 2
    assert after[middle] > before[middle] + 0.1


def test_a_small_pull_lifts_a_rod_as_a_beam_under_its_moment() -> None:
    """Source: y″ = y₀″ − T y / EI; to first order the lift is twice integrated T y₀ / EI."""
    b = rod("bass-french")
    t = b.p.derive(Tension)
    inertia = 0.05473785 * float(b("stick.across_flats_butt")) ** 4
    pull = 0.01
    lift = (t.gaps(pull) - t.gaps(0.0)) / pull
    heights, long = np.asarray(t.unstrung), span(b)
    x = np.linspace(0.0, long, len(heights))
    # The moment of the pull bends the stick away from the hair.
    moment = heights / (E * inertia)
    step = x[1] - x[0]
    slope = np.concatenate([[0.0], np.cumsum((moment[1:] + moment[:-1]) / 2 * step)])
    bent = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
    meant = bent[-1] * x / long - bent
    assert np.max(np.abs(lift)) == pytest.approx(np.max(np.abs(meant)), rel=0.02)
    assert abs(int(np.argmax(np.abs(lift))) - int(np.argmax(np.abs(meant)))) <= 1


def test_camber_is_the_greatest_depth_under_the_straight_edge() -> None:
    u = np.linspace(0.0, 1.0, 101)
    gaps = 9.0 + 4.0 * u - 5.0 * 4 * u * (1 - u)
    assert float(camber_left(gaps)) == pytest.approx(5.0, abs=1e-9)
    assert float(least(gaps)) == pytest.approx(gaps.min())


# --- bands ------------------------------------------------------------------------------------

#: Half the width of each band.
MASS = {"violin": 5.0, "viola": 5.5, "cello": 8.0, "bass-french": 10.0, "bass-german": 10.0}
BALANCE = {
    "violin": (178.0, 202.0),
    "viola": (168.0, 198.0),
    "cello": (163.0, 190.0),
    "bass-french": (135.0, 180.0),
    "bass-german": (135.0, 185.0),
}
LONG = {
    "violin": (726.0, 750.0),
    "viola": (735.0, 750.0),
    "cello": (703.0, 735.0),
    "bass-french": (685.0, 720.0),
    "bass-german": (705.0, 770.0),
}


@pytest.mark.parametrize("family", FAMILIES)
def test_mass_balance_and_length_are_judged_by_their_bands(family: str) -> None:
    p = starter(family)
    b = Bow(p)
    assert float(RULES["bow.mass"].bound(p).limit) == pytest.approx(MASS[family])
    low, high = BALANCE[family]
    found = RULES["bow.balance"].bound(p)
    ahead = float(p.derive(Masses).balance) - b("frog.front_at_play")
    assert float(found.limit) == pytest.approx((high - low) / 2)
    assert float(found.measured) == pytest.approx(abs(ahead - (low + high) / 2))
    low, high = LONG[family]
    found = RULES["bow.overall"].bound(p)
    # A shallow bow's chord is shorter than its arc by 8 c²/3L. Source: any handbook, segments.
    bend = 8 * b("stick.camber_depth") ** 2 / (3 * b("hair.length"))
    whole = b("stick.length") - bend + b("button.length")
    assert float(found.limit) == pytest.approx((high - low) / 2)
    assert float(found.measured) == pytest.approx(abs(whole - (low + high) / 2), abs=0.15)
    assert {RULES[f"bow.{n}"].severity.value for n in ("mass", "balance", "overall", "pull")} == {
        "warning"
    }


def test_inertia_of_the_octagon_by_the_handbook() -> None:
    """I = 0.05473785 a⁴: eight triangles of base 0.41421 a and height a / 2."""
    triangle = FACET * 0.5**3 / 4 + 0.5 * FACET**3 / 48
    assert 8 * triangle / 2 == pytest.approx(0.05473785, rel=1e-6)
