"""Format what `weigh` found, as text 80 columns wide and as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from templates_gen.bench import worse
from templates_gen.bench.weigh.levers import Lever
from templates_gen.bench.weigh.stick import LOAD, StickFigures
from templates_gen.bench.weigh.target import Target, TargetSolution
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bow.dims.masses import BANDS
from templates_gen.bow.dims.tension import PARALLEL
from templates_gen.parameters import wrapped, written
from templates_gen.parts.material.params import StickWood


def table(w: Weighed, levers: tuple[Lever, ...]) -> str:
    """Return pieces, totals, stick and levers, a line each."""
    return "\n".join([*_pieces(w), "", *_stick(w, w.stick), "", *_levers(levers)])


def _pieces(w: Weighed) -> Iterator[str]:
    yield f"  {'':<22} {'g':>7}  {'at mm':>7}  of"
    for q in w.pieces:
        yield f"  {q.name:<22} {float(q.mass):7.2f}  {float(q.x):7.1f}  {q.material}"
    yield f"  {'total':<22} {w.total:7.2f}  {w.from_butt:7.1f}  from the butt's shoulder"
    usual = BANDS[w.pattern.family.name]
    yield f"  balances {w.from_ferrule:.1f} mm ahead of the ferrule in play"
    (least, most), (rear, front) = usual.mass, usual.balance
    yield f"  usual in the family: {least:g} to {most:g} g, {rear:g} to {front:g} mm"


def _stick(w: Weighed, s: StickFigures) -> Iterator[str]:
    kind = str(w.pattern.values["material.stick_wood"])
    yield f"  stick: {_wood(s, kind)}"
    yield f"  accuracy: {_trust(s)}"
    tones = ", ".join(f"{t:.1f}" for t in s.stick_tones)
    yield f"  natural frequencies: free stick {tones} Hz; bow {s.bow_tones[0]:.1f} Hz"
    yield f"  deflection under {LOAD:g} N midway from ferrule to head: {s.deflection:.2f} mm"
    yield f"  buckles at {s.buckling:.1f} N; strain in play {s.strain * 100:.2f} %"
    if s.straight_at is not None:
        yield f"  camber by the tension law: straight at {s.straight_at:.2f} N"
    way = "rises" if s.face_to_frog > 0 else "dips"
    yield (
        f"  in play the face {way} {abs(s.face_to_frog):.1f}° more than the frog's bottom "
        f"(usual within {PARALLEL:g}°)"
    )
    yield f"  moment of inertia about its balance {s.moment_of_inertia / 1e6:.2f} g·m²"
    yield f"  {'pull N':>8} {'clear mm':>9} {'camber mm':>10}"
    for pull, clear, left in s.pulls:
        mark = "  in play" if abs(pull - float(w.pattern.values["hair.tension_n"])) < 1e-9 else ""
        yield f"  {pull:8.1f} {clear:9.2f} {left:10.2f}{mark}"
    if s.window is None:
        yield "  no pull leaves both clearance and camber"
    else:
        low, high = s.window
        yield f"  from {low:.0f} to {high:.0f} N the hair clears the stick and some camber is left"


def _wood(s: StickFigures, kind: str) -> str:
    """Return density and modulus, each with its source: measured, or the table."""
    density, modulus = f"{s.density:.0f} kg/m³", f"{s.modulus:.1f} GPa"
    if s.measured:
        return f"{density}, {modulus}, both measured"
    if s.density_measured:
        return f"{density} measured; {modulus} from the table"
    if s.modulus_measured:
        return f"{density} from the table; {modulus} measured"
    if kind == StickWood.MEASURED:
        return f"{density}, {modulus}, both from the table: state what you measured"
    return f"{density}, {modulus}, {kind} from the table"


def _trust(s: StickFigures) -> str:
    if s.measured:
        return "frequency about 2 %, mass 1 g, balance 4 mm"
    if s.density_measured:
        return "mass 1 g, balance 4 mm, frequency about 10 %: tap the blank for better"
    return "frequency about 10 %; weigh and tap the blank for better"


def _levers(levers: tuple[Lever, ...]) -> Iterator[str]:
    yield f"  {'effect of a change':<52} {'g':>7} {'mm':>7}"
    for lever in levers:
        yield f"  {lever.description:<52} {lever.mass:+7.2f} {lever.balance:+7.2f}"


def reached(found: TargetSolution, target: Target) -> str:
    """Return what to change, the mass and balance it gives, and the checks it makes worse."""
    wants = [f"{target.mass:g} g"] if target.mass is not None else []
    wants += [f"{target.balance:g} mm"] if target.balance is not None else []
    then = f"{found.then.total:.2f} g, balance {found.then.from_ferrule:.1f} mm"
    wanted = " and ".join(wants)
    lines = [f"  for {wanted}:" if found.met else f"  {wanted} cannot be reached; nearest:"]
    lines += [f"    {key} = {written(value)}" for key, value in found.changes.items()]
    lines += [] if found.changes else ["    nothing to change"]
    lines.append(f"  then {then}")
    if found.changes:
        lines.append("  edit these in the file; `scale --set` would change other values too")
    if not found.met:
        ends = ", ".join(found.stuck) or "none"
        lines.append(wrapped("  ", f"at the end of their usual band: {ends}"))
    elif not found.sound:
        lines.append("  no change found reaches it without failing checks; this fails the fewest")
    lines += worse.lines(found.worse)
    return "\n".join(lines)


def as_data(w: Weighed, levers: tuple[Lever, ...]) -> dict[str, Any]:
    """Return the same as plain data, numbers unrounded."""
    s = w.stick
    return {
        "total_g": w.total,
        "balance_from_butt_mm": w.from_butt,
        "balance_from_ferrule_mm": w.from_ferrule,
        "parts": [
            {
                "name": q.name,
                "mass_g": float(q.mass),
                "x_mm": float(q.x),
                "material": str(q.material),
            }
            for q in w.pieces
        ],
        "stick": _stick_data(s),
        "levers": [
            {
                "says": lever.description,
                "set": {k: _plain(v) for k, v in lever.changes.items()},
                "mass_g": lever.mass,
                "balance_mm": lever.balance,
            }
            for lever in levers
        ],
    }


def _stick_data(s: StickFigures) -> dict[str, Any]:
    return {
        "tap_hz": s.stick_tones[0],
        "tones_hz": list(s.stick_tones),
        "bow_tones_hz": list(s.bow_tones),
        "deflection_mm": s.deflection,
        "deflection_load_n": LOAD,
        "buckling_n": s.buckling,
        "inertia_g_mm2": s.moment_of_inertia,
        "strain": s.strain,
        "face_to_frog_deg": s.face_to_frog,
        "density_kg_m3": s.density,
        "modulus_gpa": s.modulus,
        "measured": s.measured,
        "density_measured": s.density_measured,
        "modulus_measured": s.modulus_measured,
        "pulls": [{"pull_n": n, "clear_mm": c, "camber_mm": k} for n, c, k in s.pulls],
        "straight_at_n": s.straight_at,
        "window_n": None if s.window is None else list(s.window),
    }


def reached_data(found: TargetSolution, target: Target) -> dict[str, Any]:
    """Return what to change as plain data."""
    return {
        "mass_g": target.mass,
        "balance_from_ferrule_mm": target.balance,
        "reached": found.met,
        "set": {k: _plain(v) for k, v in found.changes.items()},
        "then": {"total_g": found.then.total, "balance_from_ferrule_mm": found.then.from_ferrule},
        "stuck": list(found.stuck),
        "sound": found.sound,
        "worse": worse.as_data(found.worse),
    }


def _plain(value: float | str) -> float | str:
    return str(value) if isinstance(value, str) else float(value)
