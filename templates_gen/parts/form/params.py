"""What the maker states of the bending form."""

from templates_gen.parameters import FloatOrArray, Scale, mm, section
from templates_gen.parameters.stock import DRILL


@section("form", "Bending form")
class Form:
    """A board whose edge carries the stick's top while it is bent."""

    depth: FloatOrArray = mm(
        "From the clamping edge to the deepest of the curve",
        low=20,
        high=200,
        scale=Scale.CHARACTER,
        tol=0.5,
    )
    beyond: FloatOrArray = mm(
        "How far it runs on, straight, beyond either end of the camber",
        low=0,
        high=150,
        scale=Scale.CHARACTER,
        tol=0.5,
    )
    hole_diameter: FloatOrArray = mm(
        "Holes for clamps", low=4, high=25, scale=Scale.NEVER, stock=DRILL
    )
    hole_spacing: FloatOrArray = mm(
        "From hole to hole", low=30, high=250, scale=Scale.CHARACTER, tol=0.5
    )
