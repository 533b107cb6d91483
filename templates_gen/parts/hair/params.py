"""Parameters of the hair."""

from templates_gen.parameters import FloatOrArray, Scale, mm, quantity, section, whole


@section("hair", "Hair")
class Hair:
    """The ribbon of hair."""

    length: FloatOrArray = mm(
        "Playing length, from the ferrule to the back of the head",
        "L_hair",
        low=350,
        high=800,
        scale=Scale.LENGTH,
        tol=1.0,
    )
    ribbon_width_frog: FloatOrArray = mm(
        "Hair ribbon width at the frog",
        "w_hf",
        low=6,
        high=30,
        scale=Scale.HAIR_WIDTH,
        tol=0.1,
    )
    ribbon_width_tip: FloatOrArray = mm(
        "Hair ribbon width at the tip",
        "w_ht",
        low=4,
        high=28,
        scale=Scale.HAIR_WIDTH,
        tol=0.1,
    )
    count: FloatOrArray = whole("Number of hairs", "n_h", low=60, high=500, scale=Scale.HAIR_WIDTH)
    tension_n: FloatOrArray = quantity(
        "Tension of all the hair when the bow is tightened for playing",
        unit="N",
        low=5,
        high=300,
        scale=Scale.HAND,
    )
