"""Format what `fit` found, as text 80 columns wide and as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from templates_gen.bench import worse
from templates_gen.bench.fit.adapt import Fitted
from templates_gen.bench.fit.stations import Stations
from templates_gen.bench.fit.wood import Wood
from templates_gen.bench.scale import table as scale_table
from templates_gen.bow.dims.masses import BANDS
from templates_gen.parameters import Pattern, wrapped
from templates_gen.parts.material.dims import found_out
from templates_gen.parts.material.params import StickWood


def table(f: Fitted) -> str:
    """Return the wood, the bow, what comes off where, the changes, and the worse checks."""
    return "\n".join(
        [
            *_wood(f.wood),
            *_outliers(f.wood),
            *_before(f.source),
            *_bow(f),
            *_stations(f.stations, f.wood),
            *scale_table.moved(f.scaled),
            *worse.lines(f.worse),
        ]
    )


def _wood(w: Wood) -> Iterator[str]:
    for name, value, off, unit, by in (
        ("density", w.density, w.density_off, "kg/m³", w.density_by),
        ("modulus", w.modulus, w.modulus_off, "GPa", w.modulus_by),
    ):
        how = f", {by.description}" if by.description else ""
        yield f"  {name}   {value:8.2f} ± {off:.2f} {unit}{how}"


def _bow(f: Fitted) -> Iterator[str]:
    usual = BANDS[f.pattern.family.name]
    yield f"  diameters × {f.factor:.4f}"
    yield (
        f"  the bow would weigh {f.mass:.1f} g (usual {usual.mass[0]:g} to {usual.mass[1]:g}) and "
        f"balance {f.balance:.0f} mm"
    )
    yield (
        f"  ahead of the ferrule (usual {usual.balance[0]:g} to {usual.balance[1]:g}); "
        f"buckles at {f.buckling:.1f} N"
    )


def _before(p: Pattern) -> Iterator[str]:
    if any(found_out(p)):
        yield "  the measured wood of the file counts as measured before; for another blank"
        yield f'  fit a file whose material.stick_wood is not "{StickWood.MEASURED}"'


def _outliers(w: Wood) -> Iterator[str]:
    if w.outliers is None:
        return
    times = f"{w.outliers.times:.1f} times further apart than their ± allow"
    yield f"  conflicting: {times}; measure again"
    for what, unit, name, value in w.outliers.description:
        yield f"    {what} by {name:<16} {value:8.2f} {unit}"


def _stations(s: Stations, found: Wood) -> Iterator[str]:
    if s.short:
        yield f"  too short by {s.short:.1f} mm: the rear of the pattern's face is at {s.reach:.1f}"
    if not s.rows:
        if found.weighed or found.tapped:
            yield "  no stations measured: the stick is assumed as thick as the pattern's"
        return
    yield f"  next stage: {s.oversize:g} mm over finished"
    yield f"  {'at mm':>7} {'is':>7} {'finished':>9} {'next':>7} {'take off':>9}"
    for row in s.rows:
        note = "  too thin" if row.lacks else "  thinner already" if row in s.ahead else ""
        numbers = f"{row.measured:7.2f} {row.finished:9.2f} {row.next:7.2f} {max(row.off, 0):9.2f}"
        yield f"  {row.x:7.1f} {numbers}{note}"
    for x, thick in s.head:
        yield f"  {x:7.1f} {thick:7.2f}      head: leave its block as it is"
    yield from _unmeasured(s)
    yield from _thin(s)


def _unmeasured(s: Stations) -> Iterator[str]:
    if not s.unmeasured:
        return
    where = ", ".join(f"{a:.0f} to {b:.0f}" for a, b in s.unmeasured)
    text = (
        f"thickness not measured from {where} mm: it is inferred, and the ± allows for it; "
        f"for a smaller ± measure at {s.missing} too"
    )
    yield wrapped("  ", text, 2)


def _thin(s: Stations) -> Iterator[str]:
    places = len(s.rows)
    if s.ahead:
        worst = -min(row.off for row in s.ahead)
        yield (
            f"  already thinner than {s.oversize:g} mm over finished at {len(s.ahead)} of {places} "
            f"places, by up to {worst:.2f}"
        )
    if s.thin:
        row = max(s.thin, key=lambda row: row.lacks)
        most = f"by up to {row.lacks:.2f} mm at {row.x:g}"
        yield f"  too thin at {len(s.thin)} of {places} places, {most}"
        allowed = f"{s.allows:.3f} of these, {s.allows**4:.2f} of the stiffness"
        yield f"  this wood allows diameters × {allowed};"
        yield "  try --keep mass, or take another blank"


def as_data(f: Fitted) -> dict[str, Any]:
    """Return the same as plain data, numbers unrounded."""
    w = f.wood
    return {
        "density_kg_m3": {
            "value": w.density,
            "off": w.density_off,
            "measured": w.weighed,
            "by": w.density_by.value,
        },
        "modulus_gpa": {
            "value": w.modulus,
            "off": w.modulus_off,
            "measured": w.tapped,
            "by": w.modulus_by.value,
        },
        "factor": f.factor,
        "total_g": f.mass,
        "balance_from_ferrule_mm": f.balance,
        "buckling_n": f.buckling,
        "at_odds": None
        if w.outliers is None
        else {
            "times": w.outliers.times,
            "says": [
                {"what": what, "unit": unit, "by": name, "value": value}
                for what, unit, name, value in w.outliers.description
            ],
        },
        "short_mm": f.stations.short,
        "next_oversize_mm": f.stations.oversize,
        "stations": [
            {
                "x_mm": s.x,
                "measured_mm": s.measured,
                "finished_mm": s.finished,
                "next_mm": s.next,
                "off_mm": s.off,
                "lacks_mm": s.lacks,
            }
            for s in f.stations.rows
        ],
        "head": [{"x_mm": x, "measured_mm": thick} for x, thick in f.stations.head],
        "not_measured_mm": [[a, b] for a, b in f.stations.unmeasured],
        "changes": scale_table.changes(f.scaled),
        "worse": worse.as_data(f.worse),
    }
