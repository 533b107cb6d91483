"""What the maker states of the thumb leather."""

from templates_gen.parameters import Num, Scale, mm, section


@section("leather", "Thumb leather")
class Leather:
    """The leather in front of the frog."""

    from_butt: Num = mm(
        "Rear edge from the butt's shoulder", low=30, high=140, scale=Scale.FROG, tol=0.3
    )
