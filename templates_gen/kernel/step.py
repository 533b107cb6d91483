"""Write solids to reproducible STEP files: no clock, no counters of the process."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from itertools import count
from pathlib import Path
from typing import Any

from templates_gen.errors import KernelError
from templates_gen.kernel.objects import assembly

_CLOCK = re.compile(rb"(FILE_NAME\('[^']*',)'[^']*'")
_USAGE = re.compile(rb"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'[0-9]+'([^;]*);")
_POINT = re.compile(rb"((?:CARTESIAN_POINT|DIRECTION)\('[^']*',\([^()]*\))\s*\)")
_REAL = re.compile(rb"-?[0-9]+\.[0-9]*(?:E[+-]?[0-9]+)?")
_TRANSLATOR = re.compile(rb"'Open CASCADE STEP translator [0-9. ]*'")


def step(solids: Mapping[str, Any], title: str) -> bytes:
    """Write named solids as one STEP file (AP214), millimetres.

    Raises:
        KernelError: the translator fails.
    """
    whole = assembly(title, solids)
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "solids.step"
        whole.export(str(target))
        if not target.exists():
            raise KernelError(f"{title}: the STEP translator wrote nothing")
        raw = target.read_bytes()
    raw = _CLOCK.sub(rb"\1'1970-01-01T00:00:00'", raw, count=1)
    # Number the usages per file, not per process.
    uses = count(1)
    raw = _USAGE.sub(lambda m: _use(m, next(uses)), raw)
    # Put each point on one line and round its coordinates.
    raw = _POINT.sub(lambda m: _REAL.sub(_rounded, b"".join(m.group(1).split())) + b")", raw)
    return _TRANSLATOR.sub(b"'templates-gen'", raw)


def _use(found: re.Match[bytes], number: int) -> bytes:
    """Renumber a usage and put it on one line: the line breaks depend on the old number."""
    rest = re.sub(rb"\s*\n\s*", b"", found.group(2))
    return found.group(1) + b"'%d'" % number + rest + b";"


def _rounded(number: re.Match[bytes]) -> bytes:
    """Round a coordinate to eleven digits: the last ones vary between processes."""
    value = float(number.group(0))
    digits = f"{value:.11g}" if abs(value) > 1e-10 else "0"
    whole, e, power = digits.partition("e")
    text = whole if "." in whole else f"{whole}."
    return f"{text}E{power}".encode() if e else text.encode()
