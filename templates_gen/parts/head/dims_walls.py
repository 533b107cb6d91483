"""Least wood round the head mortise. Frame of ``dims``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.head.dims import CHEEK_ABOVE, HeadDims


@dataclass(frozen=True)
class HeadWalls(Dims):
    """Walls beside and ahead of the mortise."""

    head: HeadDims

    @cached_property
    def beside(self) -> FloatOrArray:
        """Least wood (mm) between a side of the mortise and the cheek.

        The head is convex, so the wall is least at a corner of the mortise's side: at its rear or
        its front, at the face or at full depth, where the undercut foot may lie beside the nose's
        curve.
        """
        d, s = self.head, self.head.params
        rear, front, foot = s.mortise_from_rear, d.mortise_front, d.mortise_foot
        widths = s.mortise_width, s.mortise_width_front, d.mortise_foot_width
        at_face = np.minimum(self._wall(rear, widths[0], 0.0), self._wall(front, widths[1], 0.0))
        deep = s.mortise_depth
        at_depth = np.minimum(self._wall(rear, widths[0], deep), self._wall(foot, widths[2], deep))
        return np.minimum(at_face, at_depth)

    @cached_property
    def beside_rear(self) -> FloatOrArray:
        """Wood (mm) beside the mortise's rear corner, in the face."""
        s = self.head.params
        return self._in_plan(s.mortise_from_rear, s.mortise_width / 2)[0]

    def _wall(self, x: FloatOrArray, width: FloatOrArray, up: FloatOrArray) -> FloatOrArray:
        """Return the distance (mm) from a corner of the mortise at a height to the cheek."""
        d = self.head
        level, outward = self._in_plan(x, width / 2 + d.cheek_lean * up)
        lower = level / np.hypot(1.0, d.cheek_lean * outward)
        # Above the mortise the cheek leans in more; the nearer of the two counts.
        steeper = (d.upper_lean - d.cheek_lean) * (d.params.mortise_depth + CHEEK_ABOVE - up)
        upper = (level + steeper * outward) / np.hypot(1.0, d.upper_lean * outward)
        return np.minimum(lower, upper)

    def _in_plan(self, x: FloatOrArray, y: FloatOrArray) -> tuple[FloatOrArray, FloatOrArray]:
        """Return the distance (mm) from a point in the plan to its outline, and its part across.

        It is square to the straight side, or farther ahead along the radius of the nose's curve,
        which is hollow (a negative radius) where the nose is hardly narrower.
        """
        d, s = self.head, self.head.params
        grows = (s.face_width_front - s.width) / 2 / s.face_width_front_at
        steep = np.hypot(1.0, grows)
        straight = (d.half_width(x) - y) / steep
        ahead = x - s.face_width_front_at + (y - s.face_width_front / 2) * grows
        cx, cy, radius = d.nose_curve
        reach = np.hypot(x - cx, y - cy)
        curved = ahead > 0.0
        return (
            np.where(curved, np.sign(radius) * (np.abs(radius) - reach), straight),
            np.where(curved, np.abs(y - cy) / np.maximum(reach, 1e-9), 1.0 / steep),
        )

    @cached_property
    def to_nose(self) -> FloatOrArray:
        """Least wood (mm) between the mortise's front wall and the nose's upright front.

        The undercut wall comes nearer with height, up to the lesser height of wall and nose.
        """
        d, s = self.head, self.head.params
        lean = np.radians(s.mortise_undercut_deg)
        top = s.nose_rise + s.nose_thickness
        ahead = s.face_length - d.mortise_front
        along = np.clip(
            ahead * np.sin(lean) + top * np.cos(lean), 0.0, s.mortise_depth / np.cos(lean)
        )
        to_top = np.hypot(ahead - along * np.sin(lean), top - along * np.cos(lean))
        level = np.clip(s.mortise_depth, s.nose_rise, top)
        to_foot = np.hypot(s.face_length - d.mortise_foot, level - s.mortise_depth)
        return np.minimum(to_top, to_foot)
