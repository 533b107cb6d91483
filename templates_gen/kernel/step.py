"""Solids as STEP files whose bytes do not depend on the clock or on what was written before."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from itertools import count
from pathlib import Path
from typing import Any

from templates_gen.errors import KernelError
from templates_gen.kernel import open_kernel

open_kernel()
import cadquery as cq  # noqa: E402

_CLOCK = re.compile(rb"(FILE_NAME\('[^']*',)'[^']*'")
_USED = re.compile(rb"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'[0-9]+'([^;]*);")
_PLACE = re.compile(rb"((?:CARTESIAN_POINT|DIRECTION)\('[^']*',\([^()]*\))\s*\)")
_REAL = re.compile(rb"-?[0-9]+\.[0-9]*(?:E[+-]?[0-9]+)?")
_COUNTED = re.compile(rb"'Open CASCADE STEP translator [0-9. ]*'")


def step(solids: Mapping[str, Any], title: str) -> bytes:
    """Named solids in their places as one STEP file (AP214), millimetres.

    Raises:
        KernelError: the translator fails.
    """
    whole = cq.Assembly(name=title)
    for name, solid in solids.items():
        whole.add(solid, name=name)
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "solids.step"
        whole.export(str(target))
        if not target.exists():
            raise KernelError(f"{title}: the STEP translator wrote nothing")
        raw = target.read_bytes()
    raw = _CLOCK.sub(rb"\1'1970-01-01T00:00:00'", raw, count=1)
    # Uses are counted from the process's start; here from the file's.
    uses = count(1)
    raw = _USED.sub(lambda m: _use(m, next(uses)), raw)
    # The translator breaks a long line where it will; a place stands on one line here.
    raw = _PLACE.sub(lambda m: _REAL.sub(_steady, b"".join(m.group(1).split())) + b")", raw)
    return _COUNTED.sub(b"'templates-gen'", raw)


def _use(found: re.Match[bytes], number: int) -> bytes:
    """A use by its own number, on one line: where the translator breaks it hangs on the old one."""
    rest = re.sub(rb"\s*\n\s*", b"", found.group(2))
    return found.group(1) + b"'%d'" % number + rest + b";"


def _steady(number: re.Match[bytes]) -> bytes:
    """A coordinate to eleven figures: the last few change from one process to the next."""
    value = float(number.group(0))
    figures = f"{value:.11g}" if abs(value) > 1e-10 else "0"
    whole, e, power = figures.partition("e")
    text = whole if "." in whole else f"{whole}."
    return f"{text}E{power}".encode() if e else text.encode()
