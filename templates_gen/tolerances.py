"""Every tolerance of the machinery, once, each with its reason (millimetres unless named)."""

from __future__ import annotations

from typing import Final

#: Two points closer than this are one point: far below any tool, far above rounding noise.
SAME_POINT: Final = 1e-9

#: A bound holds within this; a clearance of exactly its limit holds.
BOUND: Final = 1e-6

#: A free curve's arcs stand this close to it: a tenth of a fine pencil line's wander.
FIT_DISTANCE: Final = 0.005

#: Two pieces that should be tangent may turn by this much (degrees); a file cannot feel it.
FIT_KINK_DEG: Final = 0.05

#: A parallel stands at its distance within this.
OFFSET: Final = 1e-6

#: Writers round coordinates to this many decimals (a nanometre) and bulges to twelve.
COORDINATE_DECIMALS: Final = 6
BULGE_DECIMALS: Final = 12

#: A solid's section lies this close to the outline it was built from.
SECTION: Final = 1e-6

#: Volumes agree to this, relative: prisms, cones and tori; other solids.
VOLUME_EXACT: Final = 1e-6
VOLUME_FREE: Final = 1e-5

#: Two parts that touch share no more than this volume (mm³).
OVERLAP: Final = 1e-6
