"""List the routing templates of a shop, and add the kerf to templates for its laser."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace

from templates_gen.bench.routing.checks import checks
from templates_gen.bench.routing.jobs import KINDS, Kind
from templates_gen.bench.routing.sheets import backing_plate, template
from templates_gen.drawing import Template, View
from templates_gen.drawing.kerf import stamp, with_kerf
from templates_gen.errors import SHAPELESS, Fault, GeometryError, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.pipeline.selection import Absent
from templates_gen.shop.params import Cutter, Plate, Shop

__all__ = ["checks", "for_laser", "templates"]

#: The part under which all routing templates are listed.
PART = "routing"


def templates(shop: Shop) -> list[Template]:
    """Return the routing templates for which a shop has the cutters."""
    found: list[Template] = []
    for kind in KINDS:
        cutter = kind.cutter(shop)
        if cutter is not None:
            found += _templates(kind, cutter, shop.plate)
    return found


def absent(shop: Shop | None, file: str | None) -> Absent:
    """Return the routing templates that are not drawn: by name the reason, and the cure.

    Args:
        shop: the maker's shop; None if none is named.
        file: its file, as named in messages.
    """
    found: dict[str, tuple[str, str]] = {}
    for kind in KINDS:
        if shop is None:
            lacks = ("it is drawn for your own cutters", "name your shop file with --shop")
        elif kind.cutter(shop) is None:
            lacks = ("no cutter for it is stated", f"state one under [{kind.section}] in {file}")
        else:
            continue
        found |= dict.fromkeys(_names(kind), lacks)
    return found


def _names(kind: Kind) -> list[str]:
    """Return the names of its templates: the guide, and the backing plate of a jig."""
    name = f"route-{kind.name}"
    return [name, f"{name}-plate"] if kind.jig else [name]


def _templates(kind: Kind, cutter: Cutter, plate: Plate) -> Iterator[Template]:
    def guide(p: Pattern) -> list[View]:
        return template(kind.job(p, cutter), cutter, plate)

    def holder(p: Pattern) -> list[View]:
        return backing_plate(kind.job(p, cutter), plate)

    def makes(p: Pattern) -> bool:
        # The checks report what cannot be made; the rest is drawn.
        with suppress(GeometryError):
            guide(p)
            return True
        return False

    name, *under = _names(kind)
    yield Template(name, kind.title, PART, kind.purpose, kind.up, guide, makes)
    for plate_name in under:
        description = (
            "Screw it under the template through the holes; the blank lies flush in its pocket."
        )
        title = f"{kind.title}: backing plate"
        yield Template(plate_name, title, PART, description, kind.up, holder, makes)


def for_laser(p: Pattern, chosen: Sequence[Template], kerf: float) -> list[Template]:
    """Return templates with the kerf included, stamped if a line moved.

    Args:
        p: the pattern drawn.
        chosen: the templates at their finished size.
        kerf: width of the cut (mm).
    """
    return [_for_laser(p, t, kerf) for t in chosen]


def _for_laser(p: Pattern, t: Template, kerf: float) -> Template:
    try:
        finished = rendering.views(p, t)
    except SHAPELESS:
        return t  # cannot be drawn with or without kerf; drawing it reports why
    try:
        drawn = with_kerf(finished, kerf)
    except GeometryError as e:
        problem = f"{kerf:g} mm is wider than a slot of {t.name}"
        cure = "state the kerf you measured, or leave that template out with --only"
        raise InputError([Fault("--kerf", None, "laser.kerf", problem, cure)]) from e
    return replace(t, note=stamp(finished, drawn, kerf), views=lambda of: drawn)
