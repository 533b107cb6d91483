"""Rules of the head's face, plate and ribbon. Part of ``rules``."""

from templates_gen.checks import Bound, NotMeasured, Severity, at_least, at_most, rule
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.params import PlateKind

PRACTICE = "common practice, no source"


@rule(
    "head.ribbon",
    "the mortise is wide enough for the ribbon to leave it flat",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("head-face", lambda d: (d.params.mortise_from_rear, 0.0)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def ribbon(d: HeadDims) -> Bound:
    return at_most(d.tip.ribbon_width_tip, d.params.mortise_width + 1.2)


@rule(
    "head.face_narrows",
    "the face narrows toward the nose",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis="geometry",
    place=("head-face", lambda d: (d.params.face_width_front_at, d.params.face_width_front / 2)),
    solid=NotMeasured("two given widths, not a wall"),
)
def face_narrows(d: HeadDims) -> Bound:
    s = d.params
    return at_least(s.width, s.face_width_front)


@rule(
    "head.plate",
    "the tip plate is thick enough to protect the head",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.flat, 0.0)),
    solid=NotMeasured("the tip plate is not built as a solid"),
)
def plate(d: HeadDims) -> Bound:
    s = d.params
    return at_least(s.plate_thickness, 0.5 if s.plate_kind is PlateKind.METAL else 0.7)


@rule(
    "head.wider_than_ribbon",
    "the face is wider than the ribbon",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-face", lambda d: (0.0, d.params.width / 2)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def wider_than_ribbon(d: HeadDims) -> Bound:
    return at_least(d.params.width - d.tip.ribbon_width_tip, 1.8)


@rule(
    "head.narrower_than_ferrule",
    "the head is narrower than the ferrule",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("head-face", lambda d: (0.0, d.params.width / 2)),
    solid=NotMeasured("two given widths, not a wall"),
)
def narrower_than_ferrule(d: HeadDims) -> Bound:
    return at_least(d.ferrule.params.outer_width - d.params.width, 1.5)


@rule(
    "head.ribbon_least",
    "the ribbon is not much narrower at the tip than at the frog",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("head-face", lambda d: (d.params.mortise_from_rear, 0.0)),
    unit="1",
    solid=NotMeasured("the hair is not built as a solid"),
)
def ribbon_least(d: HeadDims) -> Bound:
    return at_least(d.tip.ribbon_width_tip / d.hair.ribbon_width, 0.75 if d.family.bass else 0.68)


@rule(
    "head.ribbon_most",
    "the ribbon is narrower at the tip than at the frog",
    dims=HeadDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("head-face", lambda d: (d.params.mortise_from_rear, 0.0)),
    unit="1",
    solid=NotMeasured("the hair is not built as a solid"),
)
def ribbon_most(d: HeadDims) -> Bound:
    return at_most(d.tip.ribbon_width_tip / d.hair.ribbon_width, 0.90 if d.family.bass else 0.80)
