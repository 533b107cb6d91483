"""Read stated values by key, and calculate a few lengths from them by simple arithmetic.

Shared by tests that calculate the expected result by hand; no formula of the package is used.
An octagon's facet is 0.41421 (tan 22.5°, any handbook) of its width over flats, the knot is
0.2 √(n/0.75) + 0.5 and the ribbon is hairs of 0.2 mm packed to 0.75 (common practice, no source).
"""

from __future__ import annotations

from math import pi, radians, sqrt, tan
from typing import Any

from templates_gen.parameters import Pattern

FACET = tan(radians(22.5))


class Bow:
    """Stated values by key, and the few lengths that many limits need."""

    def __init__(self, p: Pattern) -> None:
        self.p = p
        self.bass = p.identity.family.name.startswith("bass")

    def __call__(self, key: str) -> Any:
        return self.p.values[key]

    def handle(self, x: float) -> float:
        """Handle across flats at a place from the butt: it tapers evenly."""
        butt, end = self("stick.across_flats_butt"), self("stick.across_flats_handle_end")
        return float(butt + (end - butt) * x / self("stick.handle_length"))

    @property
    def slot_end(self) -> float:
        return float(self("stick.mortise_from_butt") + self("stick.mortise_length"))

    @property
    def rearmost(self) -> float:
        """The eyelet's axis with the frog drawn back to the end of the slot."""
        return float(self("stick.mortise_from_butt") + self("eyelet.length") / 2)

    @property
    def foremost(self) -> float:
        return float(self.slot_end - self("eyelet.length") / 2)

    @property
    def in_play(self) -> float:
        return float(self("frog.front_at_play") - self("frog.length_bottom")) + float(
            self("eyelet.from_heel")
        )

    @property
    def tip_foremost(self) -> float:
        """The thumb projection's tip with the frog at the front end of the slot."""
        return self.foremost - float(self("eyelet.from_heel")) + float(self("frog.length_top"))

    @property
    def knot(self) -> float:
        return 0.2 * sqrt(self("hair.count") / 0.75) + 0.5

    @property
    def ribbon(self) -> float:
        """Thickness of the hair laid flat at the frog."""
        return float(self("hair.count") * pi / 4 * 0.2**2 / 0.75 / self("hair.ribbon_width_frog"))

    @property
    def step(self) -> float:
        """The step under the tongue: plate, hair and wedge."""
        return (
            float(self("ferrule.plate_thickness") + self("ferrule.wedge_thickness")) + self.ribbon
        )

    @property
    def shoulder(self) -> float:
        return float(self("frog.length_bottom") - self("ferrule.length"))

    @property
    def throat(self) -> float:
        return self.shoulder - float(self("frog.throat_depth"))

    @property
    def front_wall(self) -> float:
        """Front wall of the hair mortise."""
        return float(self("frog.hair_mortise_from_heel") + self("frog.hair_mortise_length"))

    @property
    def leg_zone(self) -> float:
        return self.shoulder - float(self("slide.length"))

    @property
    def head_narrowest(self) -> float:
        """Least width of the head's mortise (mm): at its rear, or at the foot of its front wall.

        The front wall leans forward by its undercut, and the sides run on as they taper.
        """
        rear, front = self("head.mortise_width"), self("head.mortise_width_front")
        reach = self("head.mortise_depth") * tan(radians(self("head.mortise_undercut_deg")))
        foot = front + (front - rear) / self("head.mortise_length") * reach
        return float(min(rear, foot))

    @property
    def head_mortise_front(self) -> float:
        return float(self("head.mortise_from_rear") + self("head.mortise_length"))
