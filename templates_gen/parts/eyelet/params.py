"""What the maker states of the eyelet."""

from templates_gen.parameters import Num, Scale, mm, section


@section("eyelet", "Eyelet")
class Eyelet:
    """The ring on the screw, its shank set in the frog."""

    length: Num = mm(
        "Body along the bow", "l_e", low=2, high=12, scale=Scale.NEVER, tol=0.05, measured=True
    )
    width: Num = mm(
        "Body across", "w_e", low=2, high=10, scale=Scale.NEVER, tol=0.03, measured=True
    )
    height_above_axis: Num = mm(
        "Body above the screw's axis",
        "k_e",
        low=1,
        high=6,
        scale=Scale.NEVER,
        tol=0.03,
        measured=True,
    )
    from_heel: Num = mm(
        "Its axis from the frog's heel",
        "d_r",
        low=8,
        high=50,
        scale=Scale.LENGTH,
        tol=0.1,
    )
    shank_diameter: Num = mm(
        "Shank, over its thread", "d_sh", low=1.5, high=7, scale=Scale.NEVER, measured=True
    )
    shank_length: Num = mm(
        "Shank in the frog, from the ebony under the lining",
        "l_sh",
        low=3,
        high=22,
        scale=Scale.NEVER,
        tol=0.2,
    )


@section("screw", "Screw")
class Screw:
    """The screw, told from the butt's shoulder with the button home."""

    diameter: Num = mm(
        "Major diameter", "d_sc", low=1.8, high=8, scale=Scale.NEVER, tol=0.02, measured=True
    )
    length: Num = mm(
        "Length outside the button", "L_sx", low=25, high=110, scale=Scale.NEVER, tol=0.2
    )
    bearing_depth: Num = mm(
        "Depth of the front bore, ahead of the stick mortise",
        "l_b",
        low=3,
        high=30,
        scale=Scale.NEVER,
        tol=0.2,
    )
    thread_start: Num = mm(
        "Where the thread begins", low=5, high=60, scale=Scale.NEVER, tol=0.1
    )
    thread_end: Num = mm("Where the thread ends", low=10, high=100, scale=Scale.NEVER, tol=0.1)
