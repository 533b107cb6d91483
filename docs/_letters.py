"""Put letters on drawings: one for each word of the trade that a drawing shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from templates_gen.drawing.sheet import Stroke
from templates_gen.drawing.view import Leader, View
from templates_gen.geometry import Point

#: Offset of a letter from the place it names, to the right and up (mm).
ABOVE, BELOW, LEFT, RIGHT = (3.0, 8.0), (3.0, -10.0), (-9.0, 2.0), (9.0, 2.0)


@dataclass(frozen=True)
class Lettered:
    """A drawing and the words to letter on it.

    Args:
        title: what the view shows.
        strokes: its lines.
        named: by word, the place it names and the offset of its letter (mm).
    """

    title: str
    strokes: tuple[Stroke, ...]
    named: Mapping[str, tuple[Point, Point]]

    def view(self, letters: Mapping[str, str]) -> View:
        """Draw the lines, with a leader to each place.

        Args:
            letters: the letter of each word.
        """
        leaders = tuple(
            Leader((x, z), (x + dx, z + dz), letters[word])
            for word, ((x, z), (dx, dz)) in self.named.items()
        )
        return View(self.title, self.strokes, leaders)
