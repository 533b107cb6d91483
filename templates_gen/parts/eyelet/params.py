"""Parameters of the eyelet."""

from templates_gen.parameters import FloatOrArray, Scale, mm, section


@section("eyelet", "Eyelet")
class Eyelet:
    """The ring on the screw, its shank set in the frog."""

    length: FloatOrArray = mm(
        "Length of the body along the bow",
        "l_e",
        low=2,
        high=12,
        scale=Scale.NEVER,
        tol=0.05,
        measured=True,
    )
    width: FloatOrArray = mm(
        "Width of the body",
        "w_e",
        low=2,
        high=10,
        scale=Scale.NEVER,
        tol=0.03,
        measured=True,
        after="stick.mortise_width",
        fits=True,
    )
    height_above_axis: FloatOrArray = mm(
        "Height of the body above the screw's axis",
        "k_e",
        low=1,
        high=6,
        scale=Scale.NEVER,
        tol=0.03,
        measured=True,
    )
    from_heel: FloatOrArray = mm(
        "Distance of its axis from the frog's heel",
        "d_r",
        low=8,
        high=50,
        scale=Scale.FROG,
        tol=0.1,
    )
    shank_diameter: FloatOrArray = mm(
        "Diameter of the shank, over its thread",
        "d_sh",
        low=1.5,
        high=7,
        scale=Scale.NEVER,
        measured=True,
    )
    shank_length: FloatOrArray = mm(
        "Length of the shank in the frog, from the ebony under the lining",
        "l_sh",
        low=3,
        high=22,
        scale=Scale.NEVER,
        tol=0.2,
    )
