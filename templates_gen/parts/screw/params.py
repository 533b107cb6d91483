"""Parameters of the screw."""

from templates_gen.parameters import THREAD, FloatOrArray, Scale, mm, section


@section("screw", "Screw")
class Screw:
    """The screw, measured from the butt's shoulder with the button seated."""

    diameter: FloatOrArray = mm(
        "Major diameter",
        "d_sc",
        low=1.8,
        high=8,
        scale=Scale.NEVER,
        stock=THREAD,
        tol=0.02,
        measured=True,
    )
    length: FloatOrArray = mm(
        "Length outside the button", "L_sx", low=25, high=110, scale=Scale.NEVER, tol=0.2
    )
    bearing_depth: FloatOrArray = mm(
        "Depth of the front bore, ahead of the stick mortise",
        "l_b",
        low=3,
        high=30,
        scale=Scale.NEVER,
        tol=0.2,
    )
    thread_start: FloatOrArray = mm(
        "Start of the thread", "x_ts", low=5, high=60, scale=Scale.NEVER, tol=0.1
    )
    thread_end: FloatOrArray = mm(
        "End of the thread", "x_te", low=10, high=100, scale=Scale.NEVER, tol=0.1
    )
