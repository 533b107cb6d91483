"""Check the routing templates: the cutter fits, reaches, and leaves a template to guide it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from functools import partial

from templates_gen.bench.routing.guide import top_of_dovetail
from templates_gen.bench.routing.jobs import KINDS, Job, Kind
from templates_gen.bench.routing.sheets import (
    CLEAR,
    ROUND_SCREW,
    clamp_air,
    clamps,
    feet_on_plate,
    least_thickness,
    template,
    wood_round_screws,
)
from templates_gen.checks import Bound, Cure, Result, Rule, Severity, at_least
from templates_gen.drawing.compose import free_space
from templates_gen.errors import GeometryError
from templates_gen.geometry import Point
from templates_gen.parameters import Pattern
from templates_gen.pipeline.rendering import Checked
from templates_gen.shop.params import Cutter, DovetailCutter, Guide, Plate, Shop
from templates_gen.shop.read import SCHEMA
from templates_gen.tolerances import COORDINATE_DECIMALS

#: What a check of a jig measures.
Measure = Callable[[Job, Plate], float]
_BASIS = "common practice, no source"
#: Least diameter of a dovetail cutter (mm); a thinner one breaks. Common practice, no source.
LEAST_NECK = 1.0
#: A cutter proposed as a cure is rounded down to a tenth (mm).
_TENTH = 10


def checks(p: Pattern, shop: Shop, paper: str = "a4") -> list[Checked]:
    """Return every check of every template the shop has a cutter for, at the stated numbers.

    Args:
        p: the pattern.
        shop: the maker's cutters, plates and printer margin.
        paper: name of the paper.
    """
    found: list[Checked] = []
    for kind in KINDS:
        cutter = kind.cutter(shop)
        if cutter is None:
            continue
        try:
            job = kind.job(p, cutter)
        except GeometryError as e:
            found.append(_template_left(kind, str(e), e.place, 0.0))
            continue
        found += _of_job(kind, job, cutter, shop.plate)
        with suppress(GeometryError):  # reported already
            found.append(_one_page(kind, job, cutter, shop, paper))
    return found


def _one_page(kind: Kind, job: Job, cutter: Cutter, shop: Shop, paper: str) -> Checked:
    """Check that the template fits on one page: one of several glued pages guides badly."""
    rim = float(shop.plate.rim)

    def spare(of: float) -> float:
        views = template(job, cutter, replace(shop.plate, rim=of))
        return free_space(views, paper, float(shop.paper.margin))

    description = (
        f"the template fits on one page of {paper.upper() if paper[1:].isdigit() else paper}"
    )
    bound = at_least(spare(rim), 0.0)
    least = SCHEMA.parameters["plate.rim"].low or 0.0
    narrower = (rim - step for step in range(1, int(rim - least) + 1)) if bound.margin < 0 else ()
    fits = next((of for of in narrower if spare(of) >= 0), None)
    cure = None if fits is None else Cure("plate.rim", fits, rim)
    place = _place(kind, job.guided.template.box[2:])
    return _checked(kind, "one_page", description, bound, place, cure, Severity.WARNING)


def _of_job(kind: Kind, job: Job, cutter: Cutter, plate: Plate) -> Iterator[Checked]:
    key, size = f"{kind.section}.cutter", float(cutter.cutter)
    wide = at_least(job.narrowest, size)
    description = f"the cutter of {size:g} passes the narrowest place"
    yield _checked(
        kind, "passes", description, wide, _place(kind, None), _smaller(key, job.narrowest, size)
    )
    tight = tightest(job)
    if tight is not None:
        radius, place = tight
        description = f"the cutter reaches the tightest hollow, at ({place[0]:.1f}, {place[1]:.1f})"
        bound, cure = at_least(radius, size / 2), _smaller(key, 2 * radius, size)
        yield _checked(kind, "reaches", description, bound, _place(kind, place), cure)
    guide = None
    try:
        guide = job.guided.template
        yield _template_left(kind, "the offset leaves a template", None, 1.0)
    except GeometryError as e:
        yield _template_left(kind, _consumed(e), e.place, 0.0, _narrower(kind, job, cutter))
    if isinstance(cutter, DovetailCutter):
        yield _neck(kind, job, cutter)
    if cutter.guide is Guide.COLLAR:
        now, least = float(plate.thickness), least_thickness(plate)
        cure = Cure("plate.thickness", least, now)
        description = "the template is thick enough to guide a collar"
        yield _checked(
            kind, "thickness", description, at_least(now, least), None, cure, Severity.WARNING
        )
    if job.blank is not None and guide is not None:
        air = at_least(clamp_air(job, plate), CLEAR)
        yield _checked(kind, "clamps", "the clamps stand clear of the collar", air, None, None)
        yield from _jig(kind, job, plate)


def _jig(kind: Kind, job: Job, plate: Plate) -> Iterator[Checked]:
    """Check that the plates of a jig are wide enough for clamps and screws."""
    place = _place(kind, clamps(job, plate)[0])
    for what, description, measure, limit in (
        ("feet", "the clamps' feet are fully on the plate", feet_on_plate, 0.0),
        ("screws", "enough wood remains round each screw's hole", wood_round_screws, ROUND_SCREW),
    ):
        bound = at_least(_measured(measure, job, plate), limit)
        wider = (
            _wider_rim(plate, partial(_enough, measure, job, limit)) if bound.margin < 0 else None
        )
        yield _checked(kind, what, description, bound, place, wider)


def _enough(measure: Measure, job: Job, limit: float, plate: Plate) -> bool:
    return _measured(measure, job, plate) >= limit


def _measured(measure: Measure, job: Job, plate: Plate) -> float:
    """Return a length without rounding errors: a rim that just fits is wide enough."""
    return round(measure(job, plate), COORDINATE_DECIMALS)


def _wider_rim(plate: Plate, enough: Callable[[Plate], bool]) -> Cure | None:
    """Return the least rim, in whole millimetres, that is wide enough; None if none is."""
    was, most = float(plate.rim), SCHEMA.parameters["plate.rim"].high or 0.0
    for rim in range(int(was) + 1, int(most) + 1):
        if enough(replace(plate, rim=float(rim))):
            return Cure("plate.rim", float(rim), was)
    return None


def _consumed(e: GeometryError) -> str:
    where = f" at ({e.place[0]:.1f}, {e.place[1]:.1f})" if e.place else ""
    return f"the offset leaves a template{where}, where {e}"


def _narrower(kind: Kind, job: Job, cutter: Cutter) -> Cure | None:
    """Return a smaller collar or bearing that leaves a template; None if none does."""
    was, size = float(cutter.outside), float(cutter.cutter)
    least = size + (1.0 if cutter.guide is Guide.COLLAR else 0.0)
    tried = (was - step / 2 for step in range(1, int(2 * (was - least)) + 1))
    for outside in tried:
        with suppress(GeometryError):
            _ = replace(job.guided, outside_diameter=outside).template
            return Cure(f"{kind.section}.outside", outside, was)
    return None


def _neck(kind: Kind, job: Job, cutter: DovetailCutter) -> Checked:
    """Check the diameter of a dovetail cutter at the channel's face, where it is thinnest."""
    size, deep, flank = float(cutter.cutter), job.depth, float(cutter.flank_deg)
    neck = top_of_dovetail(size, deep, flank)
    wider = math.ceil((size + LEAST_NECK - neck) * _TENTH) / _TENTH
    cure = Cure(f"{kind.section}.cutter", wider, size)
    description = "the dovetail cutter is strong enough at the channel's face"
    return _checked(kind, "neck", description, at_least(neck, LEAST_NECK), None, cure)


def tightest(job: Job) -> tuple[float, Point] | None:
    """Return the least radius of a hollow the cutter must follow, and where; no sharp corners."""
    way = 1.0 if job.guided.inside else -1.0
    arcs = [s for s in job.guided.finished.segments if s.bulge * way > 0]
    found = ((s.radius, s.point(0.5)) for s in arcs)
    return min((q for q in found if job.in_work(q[1])), default=None)


def _smaller(key: str, most: float, was: float) -> Cure | None:
    """Return a smaller cutter that passes; None if there is none of half a millimetre or more."""
    size = int(most * _TENTH) / _TENTH
    return Cure(key, size, was) if 0.5 <= size < was else None


def _template_left(
    kind: Kind, description: str, where: Point | None, found: float, cure: Cure | None = None
) -> Checked:
    return _checked(
        kind, "template", description, at_least(found, 1.0), _place(kind, where), cure, unit="1"
    )


def _place(kind: Kind, where: Point | None) -> tuple[str, Point] | None:
    return None if where is None else (f"route-{kind.name}", where)


def _checked(
    kind: Kind,
    what: str,
    description: str,
    bound: Bound,
    place: tuple[str, Point] | None,
    cure: Cure | None,
    severity: Severity = Severity.ERROR,
    unit: str = "mm",
) -> Checked:
    name = f"route.{kind.name.replace('-', '_')}_{what}"
    rule = Rule(name, description, lambda p: bound, severity, _BASIS, unit, 0.0, lambda p: place)
    result = Result(
        rule, float(bound.measured), float(bound.limit), float(bound.margin), bound.sense, ()
    )
    return Checked(result, cure if result.verdict == "fail" else None)
