"""Parameters of the slide."""

from templates_gen.parameters import FloatOrArray, Scale, degrees, mm, section


@section("slide", "Slide")
class Slide:
    """The dovetailed strip under the frog, and the channel it runs in."""

    length: FloatOrArray = mm(
        "Length, from the ferrule to the heel plate", "L_s", low=12, high=60, scale=Scale.FROG
    )
    width_front: FloatOrArray = mm(
        "Width at the bottom plane, ferrule end",
        "w_s",
        low=4,
        high=22,
        scale=Scale.HAIR_WIDTH,
        tol=0.03,
    )
    width_taper: FloatOrArray = mm(
        "Taper: how much narrower it is at the heel", low=0.0, high=1.5, scale=Scale.NEVER, tol=0.02
    )
    thickness: FloatOrArray = mm(
        "Thickness; the channel is as deep",
        "t_s",
        low=0.8,
        high=4,
        scale=Scale.NEVER,
        tol=0.03,
    )
    dovetail_deg: FloatOrArray = degrees(
        "Angle of the dovetail's flank from the vertical", "β", low=5, high=30, scale=Scale.NEVER
    )
    channel_fit: FloatOrArray = mm(
        "Play of the slide in its channel: how much wider the channel is",
        low=-0.1,
        high=0.3,
        scale=Scale.NEVER,
        tol=0.02,
    )
