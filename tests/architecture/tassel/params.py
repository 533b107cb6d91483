"""What the maker states of the tassel."""

from templates_gen.parameters import FloatOrArray, Scale, mm, section


@section("tassel", "Tassel")
class Tassel:
    """A disc of leather with a hole, behind the button."""

    diameter: FloatOrArray = mm(
        "Diameter of the disc", "D_t", low=10, high=60, scale=Scale.CHARACTER
    )
    hole: FloatOrArray = mm("Diameter of its hole", "d_t", low=1, high=30, scale=Scale.CHARACTER)
    thickness: FloatOrArray = mm("Thickness of the leather", low=0.5, high=4, scale=Scale.NEVER)
    gap: FloatOrArray = mm("From the button's end to the disc", low=-5, high=20, scale=Scale.NEVER)
