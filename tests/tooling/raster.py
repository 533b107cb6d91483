"""Render pages with poppler and measure lines in the grey values.

Poppler (C++) shares no code with the PDF writer.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

DPI = 300
_MM = 25.4

needs_poppler = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="poppler is not installed"
)


@dataclass(frozen=True)
class Raster:
    """Darkness of a page, 0 to 255, rows from the top, at a resolution (dots per inch)."""

    dark: np.ndarray
    dpi: float

    def _span(self, low: float, high: float, whole: int) -> slice:
        dots = self.dpi / _MM
        return slice(max(0, round(low * dots)), min(whole, round(high * dots)))

    def _window(self, x: tuple[float, float], y: tuple[float, float]) -> tuple[slice, slice]:
        rows, columns = self.dark.shape
        top = rows / self.dpi * _MM
        return self._span(top - y[1], top - y[0], rows), self._span(x[0], x[1], columns)

    def upright(self, x: tuple[float, float], y: tuple[float, float]) -> float:
        """Return x (mm from the left) of the only vertical line in a window."""
        rows, columns = self._window(x, y)
        return (
            _middle(self.dark[rows, columns].sum(axis=0, dtype=float), columns.start)
            / self.dpi
            * _MM
        )

    def level(self, x: tuple[float, float], y: tuple[float, float]) -> float:
        """Return y (mm from the bottom) of the only horizontal line in a window."""
        rows, columns = self._window(x, y)
        at = _middle(self.dark[rows, columns].sum(axis=1, dtype=float), rows.start)
        return (self.dark.shape[0] - at) / self.dpi * _MM

    def square(self, corner: float = 20.0) -> tuple[float, float]:
        """Measure width and height (mm) of the 50 mm square with its lower left corner there."""
        inside = (corner + 10, corner + 40)
        near, far = (corner - 1.0, corner + 1.5), (corner + 48, corner + 52)
        # Between its upper and lower line, left and right of the text.
        x = [self.upright(at, (corner + 3, corner + 12)) for at in (near, far)]
        y = [
            self.level(inside if at is near else (corner + 5, corner + 45), at)
            for at in (near, far)
        ]
        return (x[1] - x[0], y[1] - y[0])

    def cross(self, x: float, y: float) -> tuple[float, float]:
        """Measure the middle (mm) of the registration cross near a place, by its arms."""
        near = 1.2
        ends = ((-3.8, -2.0), (2.0, 3.8))
        across = [self.upright((x - near, x + near), (y + a, y + b)) for a, b in ends]
        up = [self.level((x + a, x + b), (y - near, y + near)) for a, b in ends]
        return (sum(across) / 2, sum(up) / 2)


def _middle(profile: np.ndarray, start: int) -> float:
    """Return the centroid of the darkness in a row of dots, counted from the page's edge."""
    assert profile.sum() > 0, "no line in the window"
    dots = np.arange(len(profile)) + 0.5
    return start + float((dots * profile).sum() / profile.sum())


def pages(pdf: bytes, dpi: float = DPI, only: tuple[int, int] | None = None) -> list[Raster]:
    """Render the pages of a PDF file, or a range of them (from 1)."""
    which = ["-f", str(only[0]), "-l", str(only[1])] if only else []
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "in.pdf"
        file.write_bytes(pdf)
        command = ["pdftoppm", "-gray", "-r", str(dpi), *which, str(file), str(Path(folder) / "p")]
        subprocess.run(command, check=True)
        return [Raster(_grey(f), dpi) for f in sorted(Path(folder).glob("p*.pgm"))]


def _grey(file: Path) -> np.ndarray:
    kind, width, height, most = (data := file.read_bytes()).split(maxsplit=4)[:4]
    assert (kind, most) == (b"P5", b"255")
    dots = np.frombuffer(data[-int(width) * int(height) :], np.uint8)
    return 255 - dots.reshape(int(height), int(width))
