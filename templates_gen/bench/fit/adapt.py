"""Fit a pattern to the stick in hand: other wood, other thickness, the same bow."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from templates_gen.bench.fit import measured as fit_measured
from templates_gen.bench.fit.coverage import too_little
from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.possible import possible
from templates_gen.bench.fit.stations import Stations, stations_of
from templates_gen.bench.fit.wood import Wood, wood
from templates_gen.bench.scale import file
from templates_gen.bench.scale.scaling import STATED, Change, Scaled, scale
from templates_gen.bench.worse import Worse, worse
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.tension import Tension
from templates_gen.errors import Fault, InputError
from templates_gen.mechanics.wood import diameter_factor_same_mass, diameter_factor_same_stiffness
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.material.params import StickWood

THICKNESSES = ("stick.across_flats_butt", "stick.across_flats_handle_end", "stick.diameter_head")
#: A file accepts a ± of less than half the value.
MOST = 0.49
#: Reason of a value that was measured.
MEASURED = "as measured"
#: Diameters that fit the screw, which stays.
ROUND_THE_SCREW = ("stick.nipple_diameter", "button.counterbore_diameter")


class Keep(StrEnum):
    """What stays as in the pattern: the stick's stiffness, its mass, or the mean of both."""

    STIFFNESS = "stiffness"
    MASS = "mass"
    BETWEEN = "between"


_KEPT = {
    Keep.STIFFNESS: "to be as stiff",
    Keep.MASS: "to be as heavy",
    Keep.BETWEEN: "between as stiff and as heavy",
}


@dataclass(frozen=True, repr=False)
class Fitted:
    """A pattern fitted to a stick. It prints as the table of ``templates-gen fit``.

    Args:
        source: the pattern before.
        scaled: the pattern after, with the reason of every change.
        wood: the wood of the stick in hand.
        factor: factor of the diameters.
        stations: what to plane off where, and what is missing.
        worse: checks whose verdict is worse than before.
    """

    source: Pattern
    scaled: Scaled
    wood: Wood
    factor: float
    stations: Stations
    worse: tuple[Worse, ...]

    def __repr__(self) -> str:
        return f'<Fitted "{self.pattern.identity.name}", diameters × {self.factor:.4f}>'

    def __str__(self) -> str:
        from templates_gen.bench.fit.table import table

        return table(self)

    @property
    def pattern(self) -> Pattern:
        """Return the pattern fitted."""
        return self.scaled.pattern

    @property
    def sound(self) -> bool:
        """Report whether measurements agree, the wood suffices and no error-check fails."""
        return not (self.wood.outliers or self.scaled.failing) and self.stations.enough

    @property
    def mass(self) -> float:
        """Return the mass of the finished bow (g), from its dimensions."""
        return float(self.pattern.derive(Masses).total)

    @property
    def balance(self) -> float:
        """Return its balance (mm from the ferrule's front in play)."""
        front = float(self.pattern.values["frog.front_at_play"])
        return float(self.pattern.derive(Masses).balance) - front

    @property
    def buckling(self) -> float:
        """Return the pull at which its stick buckles (N)."""
        return float(self.pattern.derive(Tension).buckling)


def fit(
    p: Pattern, measured: Measured | str | os.PathLike[str], keep: Keep | str = Keep.STIFFNESS
) -> Fitted:
    """Fit a pattern to the stick in hand: change its diameters for this wood.

    Args:
        p: the pattern; where its file states measured wood, that is where this begins.
        measured: the file of what was measured on the stick, or that file as read.
        keep: equal ``stiffness``, equal ``mass``, or the mean of the two (``between``).

    Returns:
        ``pattern``, the new pattern, ``wood``, ``factor``, ``mass`` (g), ``balance`` (mm) and
        ``stations``, the thickness to take off at each place; it prints as a table.

    Raises:
        InputError: the measurements, or the values that follow from them, are impossible.

    Example:
        >>> import templates_gen as tg
        >>> from pathlib import Path
        >>> stick = '''units = "mm"
        ... [stick]
        ... form = "octagon"
        ... head = "no"
        ... length = 712
        ... stations = [[0, 9.6], [100, 9.55], [250, 9.15], [400, 8.6], [550, 7.75], [705, 6.6]]
        ... [weighed]
        ... mass = 42.0
        ... [tapped]
        ... held = "free"
        ... frequency = 81.4
        ... '''
        >>> _ = Path("blank.toml").write_text(stick, "utf-8")
        >>> tg.fit(tg.new("violin", "Sanderling"), "blank.toml")
        <Fitted "Sanderling", diameters × 1.0414>
    """
    keep = Keep(keep)
    if not isinstance(measured, Measured):
        measured = fit_measured.read(os.fspath(measured))
    little = too_little(measured.values)
    if little is not None:
        raise InputError([Fault(measured.file, None, "stick.stations", *little)])
    found = wood(p, measured)
    # As rounded in the file; the diameters are calculated from these.
    found = replace(found, density=round(found.density, 1), modulus=round(found.modulus, 3))
    possible(p, measured, found)
    factor = factor_for(p, found, keep)
    try:
        scaled = scale(
            _with_tolerances(p, found), None, _settings(p, measured, found, factor), p.identity.name
        )
    except InputError as e:
        raise InputError([replace(f, file=measured.file) for f in e.faults]) from e
    changes = tuple(_explained(c, p, found, factor, keep) for c in scaled.changes)
    scaled = replace(scaled, changes=changes)
    made = scaled.pattern
    return Fitted(
        p, scaled, found, factor, stations_of(made, measured), worse(p, made, scaled.after)
    )


def _explained(change: Change, p: Pattern, found: Wood, factor: float, keep: Keep) -> Change:
    """Return a change, with the stick in hand as its reason where it comes from that."""
    m = p.derive(MaterialDims)
    if change.key in THICKNESSES:
        return replace(change, why=f"× {factor:.4f} {_KEPT[keep]}")
    if change.why != STATED:
        return change
    # The value before is the table's where the file's wood was not measured.
    if change.key == "material.stick_density":
        return replace(
            change, old=float(m.stick_density), why=found.density_by.description or MEASURED
        )
    if change.key == "material.stick_modulus":
        return replace(change, old=float(m.modulus), why=found.modulus_by.description or MEASURED)
    return replace(change, why=MEASURED)


def factor_for(p: Pattern, found: Wood, keep: Keep) -> float:
    """Return the factor of the diameters.

    Source: E d⁴ stays, or ρ d² stays; between them their geometric mean.
    """
    m = p.derive(MaterialDims)
    stiff = float(diameter_factor_same_stiffness(float(m.modulus), found.modulus))
    heavy = float(diameter_factor_same_mass(float(m.stick_density), found.density))
    return {
        Keep.STIFFNESS: stiff,
        Keep.MASS: heavy,
        Keep.BETWEEN: float(np.sqrt(stiff * heavy)),
    }[keep]


def _settings(p: Pattern, measured: Measured, found: Wood, factor: float) -> dict[str, float | str]:
    """Return the values to set; all others follow."""
    settings: dict[str, float | str] = {}
    if factor != 1.0:
        settings |= {key: float(p.values[key]) * factor for key in THICKNESSES}
    settings |= {key: float(p.values[key]) for key in ROUND_THE_SCREW}
    if found.weighed or found.tapped:
        settings["material.stick_wood"] = str(StickWood.MEASURED)
        settings["material.stick_density"] = found.density
        settings["material.stick_modulus"] = found.modulus
    points = measured.values.get("bent.camber", ())
    if points:
        settings["stick.camber_depth"] = max(depth for _, depth in points)
    return settings


def _with_tolerances(p: Pattern, found: Wood) -> Pattern:
    """Return the pattern with the ± of the wood in hand, with which the checks are judged."""
    offs = _offs(found)
    return Pattern(
        p.schema,
        p.identity,
        p.values,
        {**p.tolerances, **offs},
        p.notes,
        p.warnings,
        p.places,
        p.text,
    )


def _offs(found: Wood) -> dict[str, float]:
    """Return the ± of the wood, as a file may state it."""
    if not (found.weighed or found.tapped):
        return {}
    return {
        "material.stick_density": round(min(found.density_off, MOST * found.density), 1),
        "material.stick_modulus": round(min(found.modulus_off, MOST * found.modulus), 3),
    }


def write(fitted: Fitted, out: str) -> None:
    """Write the pattern fitted; an existing file is never overwritten.

    Raises:
        InputError: the file exists.
        EnvironmentFault: the file cannot be written.
    """
    p = fitted.pattern
    more = {key: {"value": p.values[key], "tol": off} for key, off in _offs(fitted.wood).items()}
    file.write(fitted.scaled, out, more)
