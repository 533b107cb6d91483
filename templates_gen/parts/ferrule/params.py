"""Parameters of the ferrule."""

from templates_gen.parameters import SHEET, FloatOrArray, Scale, choice, mm, section
from templates_gen.shapes.arch import ArchKind


@section("ferrule", "Ferrule")
class Ferrule:
    """The metal ring that holds the hair flat at the front of the frog."""

    outer_width: FloatOrArray = mm(
        "Outside width; the frog is as wide there",
        "W_f",
        low=8,
        high=34,
        scale=Scale.HAIR_WIDTH,
    )
    height: FloatOrArray = mm(
        "Height, from the underside of the plate to the top of the arch",
        "H_f",
        low=4,
        high=18,
        scale=Scale.HEIGHT,
    )
    length: FloatOrArray = mm(
        "Length along the bow", "L_f", low=5, high=24, scale=Scale.FROG, tol=0.1
    )
    arch_kind: ArchKind = choice("Curve of the arch", ArchKind)
    arch_corner_radius: FloatOrArray = mm(
        "Outside corner radius of the arch (a flat top only)",
        low=0.5,
        high=15,
        scale=Scale.HEIGHT,
    )
    arch_thickness: FloatOrArray = mm(
        "Thickness of the arch", "t_a", low=0.3, high=2, scale=Scale.NEVER, stock=SHEET, tol=0.02
    )
    plate_thickness: FloatOrArray = mm(
        "Thickness of the flat plate",
        "t_p",
        low=0.4,
        high=3,
        scale=Scale.NEVER,
        stock=SHEET,
        tol=0.02,
    )
    wedge_thickness: FloatOrArray = mm(
        "Thickness of the spread wedge at its thick end, the front",
        "t_w",
        low=0.3,
        high=3,
        scale=Scale.NEVER,
    )
    wedge_taper: FloatOrArray = mm(
        "Taper of the spread wedge: how much thinner its rear end is, which goes in first",
        low=0.0,
        high=1.5,
        scale=Scale.NEVER,
    )
    tongue_fit: FloatOrArray = mm(
        "Play of the frog's tongue in the ferrule, side to side and in height",
        low=0.0,
        high=0.5,
        scale=Scale.NEVER,
        tol=0.02,
    )
    tongue_taper: FloatOrArray = mm(
        "Taper of the tongue: how much narrower its front end is",
        low=0.0,
        high=0.6,
        scale=Scale.NEVER,
        tol=0.03,
    )
    filing_allowance: FloatOrArray = mm(
        "Filing allowance on each end and edge of the sheet",
        low=0.0,
        high=3,
        scale=Scale.NEVER,
        tol=0.0,
    )
