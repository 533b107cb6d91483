"""The heads of the five families in a row, each seen from the player's right."""

import templates_gen as tg

APART = 40.0  # from middle to middle, mm

for row, family in enumerate(("violin", "viola", "cello", "bass-french", "bass-german")):
    head = tg.solid(tg.new(family), "head")
    show_object(head.translate((0, row * APART, 0)), name=family)
