"""What the maker states of the underslide."""

from enum import StrEnum

from templates_gen.parameters import FloatOrArray, Scale, choice, mm, section
from templates_gen.parameters.stock import SHEET


class UnderslideKind(StrEnum):
    """Whether the seat is lined."""

    LINED = "lined"
    NONE = "none"


@section("underslide", "Underslide")
class Underslide:
    """The metal lining of the frog's seat."""

    kind: UnderslideKind = choice("Whether the seat is lined or is bare ebony", UnderslideKind)
    thickness: FloatOrArray = mm(
        "Sheet of the lining", "t_u", low=0.1, high=1.2, scale=Scale.NEVER, stock=SHEET, tol=0.02
    )
    bend_radius: FloatOrArray = mm(
        "Inner radius to which its two bends are pressed",
        low=0.05,
        high=1,
        scale=Scale.NEVER,
        tol=0.01,
    )
    filing_allowance: FloatOrArray = mm(
        "Left on each edge of the lining, to be filed off",
        low=0.0,
        high=3,
        scale=Scale.NEVER,
        tol=0.0,
    )
