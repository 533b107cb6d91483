"""What the maker states of the head."""

from templates_gen.parameters import Num, Scale, mm, section


@section("head", "Head")
class Head:
    """The head of the bow."""

    height: Num = mm(
        "From the face of its plate to the top of the stick",
        "H_h",
        low=12,
        high=50,
        scale=Scale.HEIGHT,
    )
