"""All numerical tolerances, each with its reason (mm unless stated)."""

from __future__ import annotations

from typing import Final

#: Points closer than this are one point: far below any tool, far above rounding error.
SAME_POINT: Final = 1e-9

#: A check passes within this, so that a clearance exactly at its limit passes.
BOUND: Final = 1e-6

#: Greatest distance of fitted arcs from their curve: a tenth of a fine pencil line.
FIT_DISTANCE: Final = 0.005

#: Greatest kink between fitted arcs (degrees); not noticeable when filing.
FIT_KINK_DEG: Final = 0.05

#: Accuracy of an offset's distance.
OFFSET: Final = 1e-6

#: Decimals to which writers round coordinates (a nanometre) and bulges.
COORDINATE_DECIMALS: Final = 6
BULGE_DECIMALS: Final = 12

#: Greatest distance of a solid's section from the outline it was built from.
SECTION: Final = 1e-6

#: Relative accuracy of volumes: of prisms, cones and tori; of other solids.
VOLUME_EXACT: Final = 1e-6
VOLUME_FREE: Final = 1e-5

#: Greatest common volume of two parts that touch (mm³).
OVERLAP: Final = 1e-6
