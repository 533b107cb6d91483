"""What fitting found, in words for a screen of 80 columns and as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from templates_gen.bench.fit import Fitted
from templates_gen.bow.dims_mass import BANDS


def table(f: Fitted) -> str:
    """The wood, the bow it would make, what comes off where, and which checks are worse."""
    return "\n".join([*_wood(f), *_bow(f), *_stations(f), *_checks(f)])


def _wood(f: Fitted) -> Iterator[str]:
    w = f.wood
    for name, value, off, unit, found in (
        ("density", w.density, w.density_off, "kg/m³", w.weighed),
        ("modulus", w.modulus, w.modulus_off, "GPa", w.tapped),
    ):
        whence = "" if found else ", by the table: not measured"
        yield f"  {name}   {value:8.2f} ± {off:.2f} {unit}{whence}"


def _bow(f: Fitted) -> Iterator[str]:
    usual = BANDS[f.pattern.family.name]
    yield f"  diameters × {f.factor:.4f}"
    yield (
        f"  the bow would weigh {f.mass:.1f} g (usual {usual.mass[0]:g} to {usual.mass[1]:g}) and "
        f"balance {f.balance:.0f} mm"
    )
    yield (
        f"  ahead of the ferrule (usual {usual.balance[0]:g} to {usual.balance[1]:g}); "
        f"gives way sideways at {f.buckling:.1f} N"
    )


def _stations(f: Fitted) -> Iterator[str]:
    if not f.stations:
        if f.wood.weighed or f.wood.tapped:
            yield "  no stations were measured: the stick is taken to be as thick as the pattern's"
        return
    yield f"  next stage: {f.oversize:g} mm over finished"
    yield f"  {'at mm':>7} {'is':>7} {'finished':>9} {'next':>7} {'take off':>9}"
    for s in f.stations:
        note = "  too thin" if s.measured < s.finished else ""
        off = max(s.off, 0.0)
        yield f"  {s.x:7.1f} {s.measured:7.2f} {s.finished:9.2f} {s.next:7.2f} {off:9.2f}{note}"


def _checks(f: Fitted) -> Iterator[str]:
    for before, after in f.worse:
        yield (
            f"  {after.rule.id}: {before.verdict} → {after.verdict}, "
            f"spare {before.margin:+.2f} → {after.margin:+.2f} {after.rule.unit}"
        )
    if not f.worse:
        yield "  no check is worse than before"


def as_data(f: Fitted) -> dict[str, Any]:
    """The same as plain data, numbers unrounded."""
    w = f.wood
    return {
        "density_kg_m3": {"value": w.density, "off": w.density_off, "measured": w.weighed},
        "modulus_gpa": {"value": w.modulus, "off": w.modulus_off, "measured": w.tapped},
        "factor": f.factor,
        "total_g": f.mass,
        "balance_from_ferrule_mm": f.balance,
        "buckling_n": f.buckling,
        "next_oversize_mm": f.oversize,
        "stations": [
            {
                "x_mm": s.x,
                "measured_mm": s.measured,
                "finished_mm": s.finished,
                "next_mm": s.next,
                "off_mm": s.off,
            }
            for s in f.stations
        ],
        "worse": [
            {"id": b.rule.id, "was": a.verdict, "is": b.verdict, "margin": b.margin}
            for a, b in f.worse
        ],
    }
