"""What the maker states of the stick."""

from templates_gen.parameters import Num, Scale, mm, section


@section("stick", "Stick")
class Stick:
    """The stick; the frog runs on its handle."""

    across_flats_butt: Num = mm(
        "Handle across flats at the butt",
        "a_b",
        low=5,
        high=18,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    across_flats_handle_end: Num = mm(
        "Handle across flats at its front end",
        "a_he",
        low=5,
        high=18,
        scale=Scale.STICK,
        tol=0.03,
        measured=True,
    )
    handle_length: Num = mm(
        "Length of the octagonal handle", "L_hd", low=60, high=200, scale=Scale.HAND, tol=1.0
    )
    mortise_from_butt: Num = mm(
        "Rear end of the stick mortise, from the butt's shoulder",
        "x_m",
        low=8,
        high=60,
        scale=Scale.STICK,
        tol=0.2,
    )
    mortise_length: Num = mm(
        "Length of the stick mortise", "l_m", low=8, high=50, scale=Scale.STICK, tol=0.1
    )
