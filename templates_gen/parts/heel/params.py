"""Parameters of the heel and its plate."""

from enum import StrEnum

from templates_gen.parameters import SHEET, WIRE, FloatOrArray, Scale, choice, degrees, mm, section


class HeelKind(StrEnum):
    """Kind of heel plate."""

    ONE_PIECE = "one-piece"
    TWO_PIECE = "two-piece"
    NONE = "none"


@section("heel", "Heel and heel plate")
class Heel:
    """The rear end of the frog, and the sheet metal that may cover it."""

    kind: HeelKind = choice("Heel plate: bent from one piece, of two pieces, or none", HeelKind)
    plate_thickness: FloatOrArray = mm(
        "Sheet thickness of the heel plate",
        "t_hp",
        low=0.2,
        high=1.5,
        scale=Scale.NEVER,
        stock=SHEET,
        tol=0.02,
    )
    leg_length: FloatOrArray = mm(
        "Length of the bottom leg, from the heel", low=2, high=16, scale=Scale.FROG
    )
    rear_leg: FloatOrArray = mm(
        "Length of the rear leg, up the heel", low=4, high=40, scale=Scale.HEIGHT
    )
    bottom_radius: FloatOrArray = mm(
        "Radius of the heel at the bottom", low=0.3, high=10, scale=Scale.CHARACTER
    )
    top_radius: FloatOrArray = mm(
        "Radius of the heel at the top", low=0.2, high=6, scale=Scale.CHARACTER
    )
    lean_deg: FloatOrArray = degrees(
        "Angle at which the rear face leans forward", low=0, high=15, scale=Scale.CHARACTER
    )
    pin_diameter: FloatOrArray = mm(
        "Diameter of the pins that hold the plate",
        low=0.4,
        high=2.5,
        scale=Scale.NEVER,
        stock=WIRE,
        measured=True,
    )
    pin_length: FloatOrArray = mm(
        "Length of the pins in the ebony", low=1, high=12, scale=Scale.NEVER, tol=0.1
    )
    pin_from_edge: FloatOrArray = mm(
        "Distance of each pin's centre from its end of the rear leg",
        low=0.8,
        high=12,
        scale=Scale.NEVER,
        tol=0.1,
    )
    filing_allowance: FloatOrArray = mm(
        "Filing allowance on each edge of the plate",
        low=0.0,
        high=3,
        scale=Scale.NEVER,
        tol=0.0,
    )
