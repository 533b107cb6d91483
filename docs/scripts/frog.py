"""A double bass frog from three numbers. Change a number and run the script again."""

import templates_gen as tg

LENGTH = 60.0  # along the bottom, with the heel, mm
WIDTH = 22.5  # of the ferrule, mm
EYE = 12.0  # diameter of the eye, mm

settings = {"frog.length_bottom": LENGTH, "ferrule.outer_width": WIDTH, "frog.eye_diameter": EYE}
# ``scale`` changes all that depends on a number, where ``set`` changes the number alone.
p = tg.scale(tg.new("bass-french", "Dunlin"), settings=settings).pattern
print(tg.check(p).summary)
show_object(tg.solid(p, "frog"), name="frog", options={"color": "black"})
