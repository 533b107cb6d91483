"""Parameters of the head."""

from enum import StrEnum

from templates_gen.parameters import (
    SHEET,
    FloatOrArray,
    Mark,
    Points,
    Scale,
    choice,
    degrees,
    mm,
    points,
    ratio,
    section,
)


class PlateKind(StrEnum):
    """Material of the tip plate."""

    METAL = "metal"
    BONE = "bone"


@section("head", "Head")
class Head:
    """The head of the bow. x runs forward from the rear edge of its face, z toward the stick."""

    height: FloatOrArray = mm(
        "Height from the face of the plate to the top of the stick",
        "H_h",
        low=12,
        high=50,
        scale=Scale.HEIGHT,
    )
    width: FloatOrArray = mm(
        "Width of the face at its rear, where it is widest",
        "W_h",
        low=6,
        high=30,
        scale=Scale.HAIR_WIDTH,
    )
    face_length: FloatOrArray = mm(
        "Length of the face along the plate", "L_h", low=15, high=60, scale=Scale.HEIGHT
    )
    face_width_front: FloatOrArray = mm(
        "Width of the face where the nose's curve begins",
        "W_2",
        low=4,
        high=28,
        scale=Scale.HAIR_WIDTH,
    )
    face_width_front_at: FloatOrArray = mm(
        "Distance from the face's rear edge to where the nose's curve begins",
        "x_2",
        low=6,
        high=40,
        scale=Scale.HEIGHT,
    )
    nose_width: FloatOrArray = mm("Width of the nose", "W_n", low=1, high=12, scale=Scale.CHARACTER)
    nose_rise: FloatOrArray = mm(
        "Rise of the face at the nose", "z_n", low=0.5, high=8, scale=Scale.CHARACTER
    )
    nose_thickness: FloatOrArray = mm(
        "Thickness of the nose", "t_n", low=0.4, high=4, scale=Scale.CHARACTER
    )
    back_deg: FloatOrArray = degrees(
        "Angle between the back of the head and the face, in the wood",
        "α",
        low=70,
        high=115,
        scale=Scale.CHARACTER,
    )
    back_radius: FloatOrArray = mm(
        "Radius from the back of the head into the stick",
        "r_b",
        low=3,
        high=20,
        scale=Scale.CHARACTER,
    )
    cheek_lean_deg: FloatOrArray = degrees(
        "Inward lean of each cheek, from the face up past the mortise",
        low=0,
        high=15,
        scale=Scale.CHARACTER,
        tol=0.2,
    )
    crown_fraction: FloatOrArray = ratio(
        "Where the ridge leaves the stick's top line, as a fraction of the face",
        low=0.1,
        high=0.7,
        scale=Scale.CHARACTER,
    )
    ridge_deg: FloatOrArray = degrees(
        "Slope of the ridge where it comes down onto the nose",
        "δ",
        low=10,
        high=120,
        scale=Scale.CHARACTER,
        tol=1.0,
    )
    ridge_ratio: FloatOrArray = ratio(
        "Ratio of the first leg of the ridge's two arcs to the second",
        "ρ",
        low=0.15,
        high=4.0,
        scale=Scale.CHARACTER,
    )
    ridge_points: Points = points(
        "Measured ridge, in place of its two arcs: x from the face's rear edge and height "
        "over the face, from crown to nose",
        least=8,
        x_low=0.0,
        x_high=60.0,
        y_low=0.0,
        y_high=60.0,
        marks=(
            Mark("0", "head.height", exact=False),
            Mark("head.face_length", "head.nose_rise + head.nose_thickness", exact=False),
        ),
    )
    ridge_width: FloatOrArray = mm(
        "Width of the ridge at the crown, 0 for a sharp one", low=0.0, high=3, scale=Scale.CHARACTER
    )
    chamfer_width: FloatOrArray = mm(
        "Width of the chamfer along the cheeks' rear edges", low=0.2, high=4, scale=Scale.CHARACTER
    )
    mortise_from_rear: FloatOrArray = mm(
        "Distance of the head mortise's rear end from the face's rear edge",
        low=2,
        high=16,
        scale=Scale.HEIGHT,
        tol=0.1,
    )
    mortise_length: FloatOrArray = mm(
        "Head mortise length", "l_mh", low=4, high=24, scale=Scale.KNOT, tol=0.1
    )
    mortise_width: FloatOrArray = mm(
        "Head mortise width at its rear", "w_mh", low=3, high=24, scale=Scale.HAIR_WIDTH
    )
    mortise_width_front: FloatOrArray = mm(
        "Head mortise width at its front", low=3, high=24, scale=Scale.HAIR_WIDTH
    )
    mortise_depth: FloatOrArray = mm(
        "Head mortise depth from the plate's face",
        "d_mh",
        low=3,
        high=24,
        scale=Scale.KNOT,
        tol=0.1,
    )
    mortise_undercut_deg: FloatOrArray = degrees(
        "Undercut angle of the head mortise's front wall",
        low=0,
        high=20,
        scale=Scale.NEVER,
        tol=1.0,
    )
    plate_kind: PlateKind = choice("Material of the tip plate", PlateKind)
    plate_thickness: FloatOrArray = mm(
        "Tip plate thickness", "t_tp", low=0.2, high=3, scale=Scale.NEVER, stock=SHEET, tol=0.03
    )
    liner_thickness: FloatOrArray = mm(
        "Ebony liner thickness", "t_tl", low=0.2, high=3, scale=Scale.NEVER, tol=0.05
    )
    filing_allowance: FloatOrArray = mm(
        "Filing allowance on each edge of plate and liner",
        low=0.0,
        high=3,
        scale=Scale.NEVER,
        tol=0.0,
    )
