"""Rules of the bow under tension, of its weight and its balance."""

import numpy as np

from templates_gen.bow.dims.masses import BANDS, Masses
from templates_gen.bow.dims.tension import LEAST_CAMBER, MOST_OF_BUCKLING, Tension
from templates_gen.checks import Bound, NotMeasured, Severity, at_least, at_most, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.head.params import Head
from templates_gen.parts.leather.params import Leather
from templates_gen.parts.material.dims import found_out
from templates_gen.parts.material.params import Lapping, Material
from templates_gen.parts.stick.params import Stick

PRACTICE = "common practice, no source"


def _tightened(p: Pattern) -> Tension:
    """Derive the stick under tension, recording only the parameters a maker changes for it.

    The modulus is recorded only where it was measured: the uncertainty of a table is not a
    tolerance. The tolerances of all other parameters move hair and stick by less than 0.1 mm, and
    cures are sought among the recorded parameters.
    """
    stick, frog, head, material = p[Stick], p[Frog], p[Head], p[Material]
    _ = (p[Hair].tension_n, stick.camber_depth, stick.diameter_head)
    _ = (frog.clear_height, head.height)
    if found_out(p)[1]:
        _ = (material.stick_modulus,)
    return p.unwatched().derive(Tension)


@rule(
    "bow.hair_clears_in_play",
    "the tightened hair clears the stick",
    dims=Pattern,
    basis=PRACTICE,
    solid=NotMeasured("the hair is not built as a solid"),
)
def hair_clears_in_play(p: Pattern) -> Bound:
    d = _tightened(p)
    return at_least(d.clear_in_play, d.least_clear)


@rule(
    "bow.camber_in_play",
    "enough camber remains when the hair is tightened",
    dims=Pattern,
    severity=Severity.WARNING,
    basis=PRACTICE,
    solid=NotMeasured("the solid is the straight stick"),
)
def camber_in_play(p: Pattern) -> Bound:
    return at_least(_tightened(p).camber_in_play, LEAST_CAMBER)


@rule(
    "bow.pull",
    "the pull of the hair stays well below the load at which the stick buckles sideways",
    dims=Pattern,
    severity=Severity.WARNING,
    basis=PRACTICE,
    unit="N",
    solid=NotMeasured("a force"),
)
def pull(p: Pattern) -> Bound:
    d = _tightened(p)
    return at_most(d.hair.tension_n, MOST_OF_BUCKLING * d.buckling)


@rule(
    "bow.hair_strength",
    "the pull on each hair is low enough for the hair to bear",
    dims=Pattern,
    severity=Severity.WARNING,
    basis=PRACTICE,
    unit="N",
    solid=NotMeasured("a force"),
)
def hair_strength(p: Pattern) -> Bound:
    hair = p[Hair]
    return at_most(hair.tension_n / hair.count, 1.0)


def _masses(p: Pattern) -> Masses:
    """Derive the masses, recording only the parameters a maker changes for the weight.

    Every dimension changes the weight, but their tolerances do not add up, and a wider dovetail is
    no cure for a light bow.
    """
    lapping, leather, stick = p[Lapping], p[Leather], p[Stick]
    _ = (lapping.length, lapping.gauge, leather.length, stick.diameter_head)
    return p.unwatched().derive(Masses)


@rule(
    "bow.mass",
    "the bow weighs about what is usual in its family (distance from the middle of the usual "
    "range)",
    dims=Pattern,
    severity=Severity.WARNING,
    basis="H. Saint-George, The Bow, ch. VII, widened; basses: common practice, no source",
    unit="g",
    solid=NotMeasured("a mass"),
)
def mass(p: Pattern) -> Bound:
    low, high = BANDS[p.family.name].mass
    return at_most(np.abs(_masses(p).total - (low + high) / 2), (high - low) / 2)


@rule(
    "bow.balance",
    "the bow balances about where is usual in its family (distance from the middle of the "
    "usual range)",
    dims=Pattern,
    severity=Severity.WARNING,
    basis="Encyclopaedia Britannica 1911, Bow, ± 12; others: common practice, no source",
    solid=NotMeasured("a centre of mass"),
)
def balance(p: Pattern) -> Bound:
    low, high = BANDS[p.family.name].balance
    from_ferrule = _masses(p).balance - p.values["frog.front_at_play"]
    return at_most(np.abs(from_ferrule - (low + high) / 2), (high - low) / 2)
