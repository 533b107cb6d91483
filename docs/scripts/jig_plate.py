"""A plate that holds a frog blank by its side outline: a pocket to drop it in, four screw holes."""

import cadquery as cq

import templates_gen as tg

THICK, DEEP = 12.0, 8.0  # the plate and its pocket, mm
RIM = 15.0  # of the plate round the frog, mm
CLEAR = 0.1  # between frog and pocket, mm
HOLE = 4.2  # for screws of 4 mm, mm

frog = tg.outline(tg.new("bass-french", "Dunlin"), "frog", "side")
left, bottom, right, top = frog.box
wide, high = right - left + 2 * RIM, top - bottom + 2 * RIM

plate = cq.Workplane("XY").rect(wide, high).extrude(-THICK)
plate = plate.translate(((left + right) / 2, (bottom + top) / 2, 0))
pocket = cq.Workplane("XY").add(frog.to_wire()).toPending().offset2D(CLEAR).extrude(-DEEP)
corners = [(x, y) for x in (left - RIM / 2, right + RIM / 2) for y in (bottom - 8, top + 8)]
holes = cq.Workplane("XY").pushPoints(corners).circle(HOLE / 2).extrude(-THICK)
show_object(plate.cut(pocket).cut(holes), name="jig plate")
