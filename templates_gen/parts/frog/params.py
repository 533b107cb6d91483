"""Parameters of the frog."""

from enum import StrEnum

from templates_gen.parameters import FloatOrArray, Scale, choice, degrees, mm, section


class EyeKind(StrEnum):
    """Kind of eye set in the flank."""

    PLAIN = "plain"
    RINGED = "ringed"
    NONE = "none"


@section("frog", "Frog")
class Frog:
    """The block of ebony."""

    length_bottom: FloatOrArray = mm(
        "Length at the bottom, from the ferrule's front to the heel",
        "L_fb",
        low=25,
        high=90,
        scale=Scale.FROG,
    )
    length_top: FloatOrArray = mm(
        "Length at the top, from the thumb projection to the heel",
        "L_ft",
        low=25,
        high=90,
        scale=Scale.FROG,
    )
    clear_height: FloatOrArray = mm(
        "Height from the bottom plane to the stick's bottom facet",
        "h_f",
        low=10,
        high=60,
        scale=Scale.HEIGHT,
    )
    overall_height: FloatOrArray = mm(
        "Height from the bottom plane to the top edges",
        "h_fo",
        low=11,
        high=66,
        scale=Scale.HEIGHT,
    )
    width_heel: FloatOrArray = mm(
        "Width of the heel at the bottom", "W_hl", low=7, high=32, scale=Scale.HAIR_WIDTH
    )
    width_top: FloatOrArray = mm("Width at the top edges", "W_t", low=5, high=20, scale=Scale.STICK)
    width_waist: FloatOrArray = mm(
        "Width of the waist between the hollowed flanks",
        "W_w",
        low=4,
        high=20,
        scale=Scale.STICK,
    )
    flank_band: FloatOrArray = mm(
        "Height of the straight band below the hollow", "z_b", low=1, high=10, scale=Scale.NEVER
    )
    front_at_play: FloatOrArray = mm(
        "Distance from the butt's shoulder to the ferrule's front at playing tension",
        "x_fp",
        low=35,
        high=110,
        scale=Scale.FROG,
        tol=0.0,
    )
    land_relief: FloatOrArray = mm(
        "Relief of the land: how much narrower it is than the narrowest facet it meets",
        low=0.0,
        high=0.5,
        scale=Scale.NEVER,
        tol=0.03,
    )
    hair_mortise_length: FloatOrArray = mm(
        "Length of the hair mortise", "l_hm", low=4, high=30, scale=Scale.KNOT, tol=0.1
    )
    hair_mortise_width: FloatOrArray = mm(
        "Width of the hair mortise", "w_hm", low=3, high=22, scale=Scale.HAIR_WIDTH
    )
    hair_mortise_depth: FloatOrArray = mm(
        "Depth of the hair mortise below the channel's floor",
        "d_hm",
        low=2,
        high=24,
        scale=Scale.KNOT,
        tol=0.1,
    )
    hair_mortise_from_heel: FloatOrArray = mm(
        "Distance of the hair mortise's rear end from the heel",
        "x_hm",
        low=3,
        high=30,
        scale=Scale.FROG,
        tol=0.1,
    )
    lip_radius: FloatOrArray = mm(
        "Radius of the lip over which the hair leaves its mortise",
        low=0.2,
        high=4,
        scale=Scale.NEVER,
        tol=0.1,
    )
    eye_kind: EyeKind = choice("Eye in the flank: plain, with a metal ring, or none", EyeKind)
    eye_diameter: FloatOrArray = mm(
        "Diameter of the eye, or of its ring", "d_eye", low=2, high=20, scale=Scale.HEIGHT
    )
    eye_thickness: FloatOrArray = mm(
        "Depth of the eye's recess", "t_eye", low=0.3, high=2.5, scale=Scale.NEVER
    )
    eye_forward: FloatOrArray = mm(
        "Distance of the eye ahead of the middle between heel and throat",
        low=-20,
        high=20,
        scale=Scale.CHARACTER,
        tol=0.1,
    )
    eye_up: FloatOrArray = mm(
        "Distance of the eye above half the frog's height",
        low=-20,
        high=20,
        scale=Scale.CHARACTER,
        tol=0.1,
    )
    throat_depth: FloatOrArray = mm(
        "Depth of the throat, behind the shoulder", "d_th", low=1, high=24, scale=Scale.HAND
    )
    throat_centre_height: FloatOrArray = mm(
        "Height of the throat's deepest point above the bottom plane",
        "z_d",
        low=5,
        high=50,
        scale=Scale.HEIGHT,
    )
    throat_straight: FloatOrArray = mm(
        "Length of the straight between the throat's arcs", low=0, high=15, scale=Scale.CHARACTER
    )
    thumb_tip_thickness: FloatOrArray = mm(
        "Thickness of the thumb projection at its tip",
        "t_tt",
        low=0.6,
        high=8,
        scale=Scale.HAND,
    )
    thumb_slope_deg: FloatOrArray = degrees(
        "Slope of the thumb projection's lower line", "θ", low=0, high=30, scale=Scale.HAND
    )
