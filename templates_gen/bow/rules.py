"""Rules of the frog on its stick over the whole travel, and of the hair line."""

import numpy as np

from templates_gen.bow.dims.travel import OVERALL, Travel
from templates_gen.checks import Along, Bound, NotMeasured, Severity, at_least, at_most, rule
from templates_gen.parameters import Pattern

PRACTICE = "common practice, no source"


@rule(
    "bow.travel",
    "the slot is long enough to tighten the hair and to rehair the bow",
    dims=Travel,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: ((d.stick.eyelet_rear + d.stick.eyelet_front) / 2, 0.0)),
    solid=NotMeasured("a length along the bow, not a wall"),
)
def travel(d: Travel) -> Bound:
    return at_least(d.length, 0.011 * d.hair.length + 4.0)


@rule(
    "bow.tightens",
    "the frog can be drawn back at least 2 mm from its position in play",
    dims=Travel,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (d.stick.eyelet_rear, 0.0)),
    solid=NotMeasured("a place along the bow, not a wall"),
)
def tightens(d: Travel) -> Bound:
    return at_least(d.eyelet_in_play, d.stick.eyelet_rear + 2.0)


@rule(
    "bow.slackens",
    "the frog can move far enough forward to slacken the hair",
    dims=Travel,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (d.stick.eyelet_front, 0.0)),
    solid=NotMeasured("a place along the bow, not a wall"),
)
def slackens(d: Travel) -> Bound:
    return at_most(d.eyelet_in_play + d.slackening, d.stick.eyelet_front)


@rule(
    "bow.no_overhang",
    "the frog never projects behind the butt",
    dims=Travel,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (0.0, -d.stick.params.across_flats_butt / 2)),
    solid=Along(("stick: butt", "frog: heel + heel: outside"), poses=("rearmost",)),
)
def no_overhang(d: Travel) -> Bound:
    return at_least(d.stick.frog_rear, 0.0)


@rule(
    "bow.slot_covered",
    "the frog covers the slot over its whole travel",
    dims=Travel,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (d.stick.mortise_front, -d.stick.least_across_flats / 2)),
    solid=NotMeasured("places along the bow, not a wall"),
)
def slot_covered(d: Travel) -> Bound:
    return at_least(d.least_cover, 0.0)


@rule(
    "bow.leather",
    "the frog, at its foremost, clears the thumb leather",
    dims=Travel,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=(
        "bow-frog-on-stick",
        lambda d: (d.leather.from_butt, -d.stick.across_flats(d.leather.from_butt) / 2),
    ),
    solid=NotMeasured("the thumb leather is not built as a solid"),
)
def leather(d: Travel) -> Bound:
    return at_least(d.leather.from_butt, d.stick.frog_front + 0.5)


@rule(
    "bow.handle",
    "the handle is octagonal as far as the frog reaches",
    dims=Travel,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (d.stick.mortise_front, d.stick.least_across_flats / 2)),
    solid=NotMeasured("places along the bow, not a wall"),
)
def handle(d: Travel) -> Bound:
    reach = d.stick.mortise_front - d.frog.seat.eyelet.from_heel + d.frog.params.length_top
    return at_least(d.stick.params.handle_length, reach + 5.0)


@rule(
    "bow.hair_clears",
    "the slack hair clears the stick along its whole length",
    dims=Travel,
    basis=PRACTICE,
    place=("bow-hair-line", lambda d: (d.stick.camber.deepest * d.stick.chord, 0.0)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def hair_clears(d: Travel) -> Bound:
    return at_least(d.least_gap, 0.0)


@rule(
    "bow.hair_near",
    "the slack hair comes near the stick at the deepest point of the camber",
    dims=Travel,
    severity=Severity.WARNING,
    basis="H. Saint-George, The Bow, for violin, viola and cello, taken as a gap of 0 to 3 mm; "
    "for basses common practice, no source",
    place=("bow-hair-line", lambda d: (d.stick.camber.deepest * d.stick.chord, d.least_gap)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def hair_near(d: Travel) -> Bound:
    # Bass bows are cambered less than their frogs are high.
    return at_most(d.least_gap, 9.0 if d.frog.ferrule.family.bass else 3.0)


@rule(
    "bow.length_adds_up",
    "frog, hair and head add up to the length of the stick",
    dims=Travel,
    basis="common practice, no source; the playing hair ends near the face's rear edge",
    solid=NotMeasured("lengths along the bow, not a wall"),
)
def length_adds_up(d: Travel) -> Bound:
    return at_most(np.abs(d.length_left), 5.0)


@rule(
    "bow.overall",
    "the bow is about as long as is usual in its family (distance from the middle of the usual "
    "range)",
    dims=Pattern,
    severity=Severity.WARNING,
    basis="H. Saint-George, The Bow, and museum catalogues; basses: common practice, no source",
    place=("bow-frog-on-stick", lambda d: (0.0, 0.0)),
    solid=NotMeasured("a length along the bow, not a wall"),
)
def overall(p: Pattern) -> Bound:
    low, high = OVERALL[p.family.name]
    return at_most(np.abs(p.derive(Travel).overall - (low + high) / 2), (high - low) / 2)
