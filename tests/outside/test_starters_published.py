"""Compare the starters, through ``weigh``, with published data of real bows.

Sources, beside each figure below:
E   Encyclopaedia Britannica, 11th ed. 1911, vol. 4, "Bow": violin stick 29.34 to 29.528 in; centre
    of gravity from the frog 7½ to 7¾ in (violin), 175 to 180 mm (cello); cello hair 60 to 62 cm.
S   H. Saint-George, The Bow, 3rd ed. 1922: viola 740 mm, cello 720 to 730 mm long (read to the
    half centimetre); ch. VII, weights from light to heavy, from grains.
A   A. Askenfelt and K. Guettler, TMH-QPSR 38(2-3), 1997: playing tension of violin hair 55 to 60 N.
G   C. Gough, JASA 130(6), 2011: the pull across the ends is comparable with the stick's buckling
    load.
"""

import math

import pytest
from outside.maker import FAMILIES, PARAMS, stated

from templates_gen import weigh
from templates_gen.bench.weigh import table
from templates_gen.bench.weigh.levers import levers
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bow.dims.masses import pieces
from templates_gen.bow.dims.travel import Travel
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.pipeline import rendering

INCH = 25.4
#: Whole length, button closed (mm). E, S, S.
LENGTHS = {
    "violin": (29.34 * INCH, 29.528 * INCH),
    "viola": (737.5, 742.5),
    "cello": (717.5, 732.5),
}
#: Centre of gravity ahead of the frog (mm). E; E prints "19 cm (7½ to 7¾ in)" for the violin.
BALANCES = {"violin": (190.0, 7.75 * INCH), "cello": (175.0, 180.0)}
#: g, light and heavy. S.
WEIGHTS = {"violin": (55.1, 61.6), "viola": (64.8, 71.3), "cello": (74.5, 81.0)}
#: Playing tension of violin hair (N). A.
PLAYED = (55.0, 60.0)


def weighed(family):
    """Weigh a starter by its dimensions; its solids agree within 1 % (see below)."""
    p = stated(family)
    parts = p.derive(Volumes).parts
    return Weighed(p, parts, pieces(p, parts))


@pytest.mark.parametrize("family", LENGTHS)
def test_starter_has_the_published_length(family):
    low, high = LENGTHS[family]
    assert low <= float(stated(family).derive(Travel).overall) <= high


def test_cello_hair_has_the_published_length():
    assert 600.0 <= stated("cello").values["hair.length"] <= 620.0  # E


@pytest.mark.parametrize("family", WEIGHTS)
def test_starter_has_the_published_mass(family):
    low, high = WEIGHTS[family]
    assert low <= weighed(family).total <= high


@pytest.mark.parametrize("family", BALANCES)
def test_starter_has_the_published_balance(family):
    low, high = BALANCES[family]
    assert low <= weighed(family).from_ferrule <= high


@pytest.mark.kernel
@pytest.mark.parametrize("family", WEIGHTS)
def test_solids_of_starter_have_the_published_mass_and_balance(family):
    w = weigh(rendering.read(str(PARAMS / f"{family}.toml")))
    low, high = WEIGHTS[family]
    assert low <= w.total <= high
    if family in BALANCES:
        low, high = BALANCES[family]
        # Solids and dimensions differ by up to a millimetre.
        assert low - 1.0 <= w.from_ferrule <= high + 1.0


def test_violin_keeps_camber_and_does_not_buckle_at_the_published_tension():
    w = weighed("violin")
    played = w.pattern.values["hair.tension_n"]
    assert PLAYED[0] <= played <= PLAYED[1]  # A
    s = w.stick
    camber = {pull: left for pull, _, left in s.pulls}
    assert 0.0 < camber[played] < 0.5 * camber[0.0]
    low, high = s.window
    assert low <= played <= high
    assert 0.4 < played / s.buckling < 1.0  # G


def test_average_wood_of_the_species_loses_its_camber_at_that_tension():
    """The Wood Database, Paubrasilia echinata: 20.2 GPa. So that modulus is too low: makers
    choose the stiffer part of the species (Alves, Longui and Amano, IAWA Journal 29(3), 2008)."""
    p = stated("violin", {"material.stick_wood": "pernambuco"})
    parts = p.derive(Volumes).parts
    s = Weighed(p, parts, pieces(p, parts)).stick
    assert s.modulus == pytest.approx(20.2)
    assert s.pulls[3][2] == pytest.approx(0.0, abs=1e-9)


def test_speed_of_sound_is_that_of_pernambuco():
    """√(E/ρ); 5.0 to 5.9 km/s in pernambuco of 1060 to 1220 kg/m³ (after U. Wegst, American Journal
    of Botany 93, 2006, read second-hand)."""
    s = weighed("violin").stick
    assert 5.0 <= math.sqrt(s.modulus * 1e9 / s.density) / 1e3 <= 5.9


@pytest.mark.parametrize("family", FAMILIES)
def test_no_check_of_a_starter_fails(family):
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    assert [c.result.rule.id for c in rendering.check(p) if c.result.verdict == "fail"] == []


#: What a maker states of the wood, and what `weigh` prints of it.
WOODS = [
    ({}, "1050 kg/m³, 28.0 GPa, bow-grade pernambuco from the table", (False, False)),
    (
        {"material.stick_wood": "measured", "material.stick_density": 1010.0},
        "1010 kg/m³ measured; 28.0 GPa from the table",
        (True, False),
    ),
    (
        {"material.stick_wood": "measured", "material.stick_modulus": 24.5},
        "1050 kg/m³ from the table; 24.5 GPa measured",
        (False, True),
    ),
    (
        {
            "material.stick_wood": "measured",
            "material.stick_density": 1010.0,
            "material.stick_modulus": 24.5,
        },
        "1010 kg/m³, 24.5 GPa, both measured",
        (True, True),
    ),
    (
        {"material.stick_wood": "measured"},
        "1050 kg/m³, 28.0 GPa, both from the table: state what you measured",
        (False, False),
    ),
]


@pytest.mark.parametrize(("changes", "description", "measured"), WOODS)
def test_weigh_reports_which_wood_value_was_measured(changes, description, measured):
    p = stated("violin", changes)
    parts = p.derive(Volumes).parts
    w = Weighed(p, parts, pieces(p, parts))
    assert f"stick: {description}\n" in table.table(w, levers(w))
    found = table.as_data(w, ())["stick"]
    assert (found["density_measured"], found["modulus_measured"]) == measured
    assert found["measured"] is all(measured)


def test_usual_value_with_its_own_tolerance_counts_as_measured(tmp_path):
    file = tmp_path / "dunlin.toml"
    file.write_text(
        'units = "mm"\nbased_on = "violin"\n[pattern]\nname = "Dunlin"\n[material]\n'
        'stick_wood = "measured"\nstick_density = 1010\nstick_modulus = {value = 28, tol = 0.4}\n',
        "utf-8",
    )
    p = rendering.read(str(file))
    parts = p.derive(Volumes).parts
    assert Weighed(p, parts, pieces(p, parts)).stick.measured
