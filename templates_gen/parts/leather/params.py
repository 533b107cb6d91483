"""Parameters of the thumb leather."""

from templates_gen.parameters import FloatOrArray, Scale, mm, section


@section("leather", "Thumb leather")
class Leather:
    """The leather in front of the frog."""

    from_butt: FloatOrArray = mm(
        "Distance of its rear edge from the butt's shoulder",
        "x_l",
        low=30,
        high=140,
        scale=Scale.FROG,
        tol=0.3,
    )
    length: FloatOrArray = mm(
        "Length along the bow", "L_l", low=15, high=90, scale=Scale.HAND, tol=0.5
    )
    thickness: FloatOrArray = mm(
        "Thickness of the leather", "t_l", low=0.3, high=2.5, scale=Scale.NEVER
    )
