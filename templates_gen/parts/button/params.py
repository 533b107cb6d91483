"""Parameters of the button."""

from enum import StrEnum

from templates_gen.parameters import SHEET, FloatOrArray, Scale, choice, mm, section


class ButtonKind(StrEnum):
    """How the button is built."""

    THREE_PIECE = "three-piece"
    FULL_METAL = "full-metal"


@section("button", "Button")
class Button:
    """The octagonal grip of the screw."""

    kind: ButtonKind = choice(
        "Ebony core between two rings, or a metal shell over a core", ButtonKind
    )
    length: FloatOrArray = mm("Length", "L_bt", low=8, high=60, scale=Scale.HAND, tol=0.1)
    across_flats: FloatOrArray = mm(
        "Width across flats at the butt", "a_bt", low=5, high=20, scale=Scale.STICK, tol=0.03
    )
    across_flats_end: FloatOrArray = mm(
        "Width across flats at its rear end",
        "a_be",
        low=4,
        high=20,
        scale=Scale.STICK,
        after="button.across_flats",
    )
    ring_sheet: FloatOrArray = mm(
        "Sheet thickness of its rings or shell",
        "t_r",
        low=0.3,
        high=1.5,
        scale=Scale.NEVER,
        stock=SHEET,
        tol=0.02,
    )
    ring_width: FloatOrArray = mm("Width of each ring", "l_r", low=1.5, high=8, scale=Scale.HAND)
    counterbore_diameter: FloatOrArray = mm(
        "Diameter of the counterbore that turns on the nipple",
        "d_cb",
        low=3,
        high=12.5,
        scale=Scale.NEVER,
        tol=0.03,
        after="stick.nipple_diameter",
        fits=True,
    )
    counterbore_depth: FloatOrArray = mm(
        "Depth of the counterbore", "l_cb", low=0.8, high=8, scale=Scale.STICK, tol=0.05
    )
