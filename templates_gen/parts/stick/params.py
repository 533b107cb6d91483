"""Parameters of the stick."""

from templates_gen.parameters import (
    DRILL,
    FloatOrArray,
    Mark,
    Points,
    Scale,
    choice,
    mm,
    points,
    ratio,
    section,
)
from templates_gen.shapes.camber import CamberKind
from templates_gen.shapes.graduation import GraduationKind
from templates_gen.shapes.stick_section import SectionKind


@section("stick", "Stick")
class Stick:
    """The stick; the frog runs on its handle."""

    length: FloatOrArray = mm(
        "Length from the nose of the head to the butt's shoulder, before the stick is bent",
        "L_st",
        low=450,
        high=850,
        scale=Scale.LENGTH,
        tol=0.5,
    )
    across_flats_butt: FloatOrArray = mm(
        "Width of the handle across flats at the butt",
        "a_b",
        low=5,
        high=18,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    across_flats_handle_end: FloatOrArray = mm(
        "Width of the handle across flats at its front end",
        "a_he",
        low=5,
        high=18,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    bottom_facet: FloatOrArray = mm(
        "Width of the handle's bottom facet under the frog, as planed",
        low=1,
        high=10,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    handle_length: FloatOrArray = mm(
        "Length of the octagonal handle", "L_hd", low=60, high=200, scale=Scale.HAND, tol=1.0
    )
    mortise_from_butt: FloatOrArray = mm(
        "Distance of the stick mortise's rear end from the butt's shoulder",
        "x_m",
        low=8,
        high=60,
        scale=Scale.STICK,
        tol=0.2,
    )
    mortise_length: FloatOrArray = mm(
        "Length of the stick mortise", "l_m", low=8, high=50, scale=Scale.STICK, tol=0.1
    )
    mortise_width: FloatOrArray = mm(
        "Width of the stick mortise", "w_m", low=2, high=12, scale=Scale.NEVER, tol=0.03
    )
    mortise_depth: FloatOrArray = mm(
        "Depth of the stick mortise from the bottom facet",
        "d_m",
        low=3,
        high=16,
        scale=Scale.STICK,
    )
    nipple_diameter: FloatOrArray = mm(
        "Diameter of the nipple at the butt", "d_n", low=3, high=12, scale=Scale.NEVER
    )
    nipple_length: FloatOrArray = mm(
        "Length of the nipple", "l_n", low=0.5, high=6, scale=Scale.STICK, tol=0.1
    )
    rear_bore: FloatOrArray = mm(
        "Diameter of the rear bore for the screw, from the butt to the mortise",
        "d_rb",
        low=1.5,
        high=7,
        scale=Scale.NEVER,
        stock=DRILL,
        after="screw.diameter",
    )
    front_bore: FloatOrArray = mm(
        "Diameter of the front bore, which guides the screw's plain tip",
        "d_fb",
        low=1,
        high=6,
        scale=Scale.NEVER,
        stock=DRILL,
        after="screw.diameter",
    )
    diameter_head: FloatOrArray = mm(
        "Diameter just behind the head",
        "a_h",
        low=3,
        high=12,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    camber_depth: FloatOrArray = mm(
        "Depth of the camber without hair, below a straight edge from ferrule to head",
        "cam",
        low=4,
        high=40,
        scale=Scale.HEIGHT,
        tol=0.3,
    )
    section: SectionKind = choice(
        "Cross-section ahead of the handle: round, octagonal, or a D that keeps the lower facets",
        SectionKind,
    )
    blend_length: FloatOrArray = mm(
        "Length over which the octagon of the handle runs out; done by hand, on no template",
        low=5,
        high=200,
        scale=Scale.LENGTH,
        tol=1.0,
    )
    graduation: GraduationKind = choice(
        "How the diameter tapers: by the published rule, evenly, or as measured", GraduationKind
    )
    stations: Points = points(
        "Measured thickness: distance from the butt's shoulder, and diameter there",
        least=3,
        x_low=0.0,
        x_high=850.0,
        y_low=3.0,
        y_high=20.0,
        marks=(
            Mark("0", "stick.across_flats_butt"),
            Mark("stick.handle_length", "stick.across_flats_handle_end"),
            Mark("stick.length - head.face_length", "stick.diameter_head"),
        ),
    )
    camber: CamberKind = choice(
        "How the bend is distributed: evenly, for even strain, for tension, or as measured",
        CamberKind,
    )
    camber_points: Points = points(
        "Measured camber: distance from the ferrule's front, and depth below the straight edge",
        least=5,
        x_low=0.0,
        x_high=800.0,
        y_low=0.0,
        y_high=40.0,
        marks=(
            Mark("stick.length - head.face_length - frog.front_at_play"),
            Mark(y="stick.camber_depth"),
        ),
    )
    over_bend: FloatOrArray = ratio(
        "Depth of the bending form divided by that of the camber: the stick springs back",
        low=1.0,
        high=1.5,
        scale=Scale.NEVER,
    )
    bent_oversize: FloatOrArray = mm(
        "Oversize of the stick when it is bent: how much thicker than finished",
        low=0.0,
        high=5,
        scale=Scale.STICK,
        tol=0.1,
    )
