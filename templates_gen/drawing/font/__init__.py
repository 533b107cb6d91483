"""The one font every sheet is lettered in: DejaVu Sans Condensed 2.37, unaltered.

NOTICE. Copyright (c) 2003 by Bitstream, Inc. (Bitstream Vera is a trademark of Bitstream, Inc.);
glyphs from Arev copyright (c) 2006 by Tavmjong Bah; the DejaVu changes are in the public domain.
It may be used, copied, embedded and passed on freely; the whole licence travels inside the file,
in its name table (entry 13).

``widths.json`` holds the widths, so that no font library is needed at run time: that of the sign
drawn for an unknown character, and for each width the characters that have it (runs of code
points, first and length). ``python tests/unit/test_drawing_text.py`` rebuilds it; as a test that
file holds it against the font itself.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

#: Units of the font's own grid to an em, and the height of its capital H on that grid.
UNITS_PER_EM: Final = 2048
CAP_UNITS: Final = 1493

#: Height of a capital as a part of the font size: font size = cap height / CAP_HEIGHT.
CAP_HEIGHT: Final = CAP_UNITS / UNITS_PER_EM

_HERE = Path(__file__).parent


def font_path() -> Path:
    """Where the font file lies, for a writer that embeds it."""
    return _HERE / "DejaVuSansCondensed.ttf"


def widths_path() -> Path:
    """Where the table of widths lies."""
    return _HERE / "widths.json"


def font_size(cap_height: float) -> float:
    """Size of the font (the em) whose capitals stand ``cap_height`` high, in the same unit."""
    return cap_height / CAP_HEIGHT
