"""What a solid left behind, as plain numbers, and its cache. No solid modeller here."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path as FilePath
from typing import Any

#: The packages and modules whose sources shape a solid, or what is noted of it.
_SHAPING = (
    *("geometry", "shapes", "kernel", "parts", "bow", "registry", "mechanics/assembly"),
    *("checks/solid", "pipeline/walls", "pipeline/solids", "pipeline/witness"),
)


@dataclass(frozen=True)
class Witness:
    """One part's solid, or the bow put together, in numbers.

    Args:
        part: the part, or ``bow``.
        volume: mm³.
        centroid: x, y, z in the part's own frame (mm).
        section_error: farthest its sections stand from the outlines they were built from (mm).
        walls: least distance (mm) between its faces, by the check that asks for the wall.
        overlaps: volume (mm³) shared by two parts, by place of the frog's travel and pair.
    """

    part: str
    volume: float
    centroid: tuple[float, float, float]
    section_error: float
    walls: Mapping[str, float] = field(default_factory=dict)
    overlaps: Mapping[str, float] = field(default_factory=dict)


@cache
def _sources() -> str:
    """Hash of every source that shapes a solid, and of the modeller's version."""
    digest = hashlib.sha256()
    root = FilePath(__file__).parents[1]
    for package in _SHAPING:
        for source in sorted([*(root / package).rglob("*.py"), *root.glob(f"{package}.py")]):
            digest.update(source.relative_to(root).as_posix().encode())
            digest.update(source.read_bytes())
    for library in ("cadquery", "cadquery-ocp"):
        try:
            digest.update(version(library).encode())
        except PackageNotFoundError:
            digest.update(b"none")
    return digest.hexdigest()


def key(part: str, recipe: Any) -> str:
    """What a witness is kept under: all the builder gets, and all that shapes it."""
    return hashlib.sha256(f"{part}\n{recipe!r}\n{_sources()}".encode()).hexdigest()


def folder() -> FilePath:
    """Where witnesses are kept."""
    base = os.environ.get("XDG_CACHE_HOME") or str(FilePath.home() / ".cache")
    return FilePath(base) / "templates-gen"


def recall(part: str, name: str) -> Witness | None:
    """A witness kept earlier; a missing or damaged one is simply not there."""
    try:
        raw = json.loads((folder() / f"{name}.json").read_text("utf-8"))
        x, y, z = (float(v) for v in raw["centroid"])
        kept = Witness(
            str(raw["part"]),
            float(raw["volume"]),
            (x, y, z),
            float(raw["section_error"]),
            {str(k): float(v) for k, v in raw["walls"].items()},
            {str(k): float(v) for k, v in raw["overlaps"].items()},
        )
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
    return kept if kept.part == part else None


def keep(witness: Witness, name: str) -> None:
    """Keep a witness; a cache that cannot be written costs time, never an error."""
    target = folder() / f"{name}.json"
    draft = target.with_suffix(f".{os.getpid()}.tmp")
    try:
        folder().mkdir(parents=True, exist_ok=True)
        draft.write_text(json.dumps(asdict(witness)), "utf-8")
        draft.replace(target)
    except OSError:
        return
