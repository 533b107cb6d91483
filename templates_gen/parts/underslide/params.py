"""Parameters of the underslide."""

from enum import StrEnum

from templates_gen.parameters import SHEET, FloatOrArray, Scale, choice, mm, section


class UnderslideKind(StrEnum):
    """Whether the seat is lined."""

    LINED = "lined"
    NONE = "none"


@section("underslide", "Underslide")
class Underslide:
    """The metal lining of the frog's seat."""

    kind: UnderslideKind = choice("Whether the seat is lined or bare ebony", UnderslideKind)
    thickness: FloatOrArray = mm(
        "Sheet thickness of the lining",
        "t_u",
        low=0.1,
        high=1.2,
        scale=Scale.NEVER,
        stock=SHEET,
        tol=0.02,
    )
    bend_radius: FloatOrArray = mm(
        "Inside radius of the two pressed bends",
        low=0.05,
        high=1,
        scale=Scale.NEVER,
        tol=0.01,
    )
    filing_allowance: FloatOrArray = mm(
        "Filing allowance on each edge of the lining",
        low=0.0,
        high=3,
        scale=Scale.NEVER,
        tol=0.0,
    )
