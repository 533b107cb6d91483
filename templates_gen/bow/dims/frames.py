"""Where each part stands: in the frog, and with the frog on the stick.

Frames are told as an origin, the direction of the part's own x, and that of its own z.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.bow.dims.travel import Travel
from templates_gen.parameters import Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.parts.stick.dims import WITH_HEAD

Vector = tuple[float, float, float]

ALONG: Vector = (1.0, 0.0, 0.0)
UP: Vector = (0.0, 0.0, 1.0)


@dataclass(frozen=True)
class Frame:
    """A part's place in another frame (mm)."""

    origin: Vector
    x: Vector = ALONG
    z: Vector = UP

    def moved(self, dx: float, dz: float) -> Frame:
        """The same a little farther along and up."""
        x, y, z = self.origin
        return Frame((x + dx, y, z + dz), self.x, self.z)


#: Parts that stay with the stick, in its frame; the button's own x runs away from the head.
WITH_STICK = {
    "stick": Frame((0.0, 0.0, 0.0)),
    "screw": Frame((0.0, 0.0, 0.0)),
    "button": Frame((0.0, 0.0, 0.0), (-1.0, 0.0, 0.0)),
}


def in_frog(p: Pattern) -> dict[str, Frame]:
    """Each part that travels with the frog, in the frog's frame."""
    d = p.derive(Travel).frog
    shoulder = float(d.shoulder)
    own = Frame((0.0, 0.0, 0.0))
    return {
        # The ferrule's own z runs along the bow, its x across.
        "ferrule": Frame(
            (shoulder, 0.0, float(d.ferrule.params.plate_thickness)), (0.0, 1.0, 0.0), ALONG
        ),
        # The slide's own x runs from the ferrule to the heel.
        "slide": Frame((shoulder, 0.0, 0.0), (-1.0, 0.0, 0.0)),
        "heel": own,
        "underslide": own,
        "eyelet": own,
        "frog": own,
    }


def head(p: Pattern) -> Frame:
    """The head on the unbent stick: its own bent length runs on where that ends, as thick."""
    d, n = p.derive(HeadDims), neck(p)
    join = float(d.bow.face_rear) - WITH_HEAD
    turn, reach = n.end - float(d.rise), n.under - float(d.bow.diameter(join)) / 2
    sine, cosine = math.sin(turn), math.cos(turn)
    # The middle of the bent length's end, told in the head's frame and turned.
    x, z = n.centre[0] - reach * sine, n.centre[1] - reach * cosine
    along, up = (cosine, 0.0, sine), (-sine, 0.0, cosine)
    return Frame((join - x * along[0] - z * up[0], 0.0, -x * along[2] - z * up[2]), along, up)


def positions(p: Pattern) -> dict[str, tuple[float, float]]:
    """The frog's heel on the stick, x and z of its bottom plane (mm), by the place of its travel.

    The frog hangs on the diagonals: where the handle is thinner it lies nearer the axis.
    """
    t = p.derive(Travel)
    play, from_heel = float(t.eyelet_in_play), float(t.frog.seat.eyelet.from_heel)
    taper, axis = float(t.stick.taper), float(t.frog.seat.axis_height)
    places = {
        "rearmost": float(t.stick.eyelet_rear),
        "play": play,
        "foremost": float(t.stick.eyelet_front),
    }
    return {
        name: (x - from_heel, -axis - taper * (x - play) / math.sqrt(2))
        for name, x in places.items()
    }
