"""Parameters of the bending form."""

from templates_gen.parameters import DRILL, FloatOrArray, Scale, mm, section


@section("form", "Bending form")
class Form:
    """A board; the top of the stick is bent against its edge."""

    depth: FloatOrArray = mm(
        "Depth of the board from the clamping edge to the deepest point of the curve",
        low=20,
        high=200,
        scale=Scale.CHARACTER,
        tol=0.5,
    )
    beyond: FloatOrArray = mm(
        "Straight extension beyond each end of the camber",
        low=0,
        high=150,
        scale=Scale.CHARACTER,
        tol=0.5,
    )
    hole_diameter: FloatOrArray = mm(
        "Diameter of the holes for clamps", low=4, high=25, scale=Scale.NEVER, stock=DRILL
    )
    hole_spacing: FloatOrArray = mm(
        "Spacing of the holes", low=30, high=250, scale=Scale.CHARACTER, tol=0.5
    )
