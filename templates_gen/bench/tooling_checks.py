"""What holds of the routing templates: the cutter reaches, passes, and leaves a template."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

from templates_gen.bench.tooling_jobs import KINDS, Job, Kind
from templates_gen.bench.tooling_sheets import CLEAR, LEAST_THICKNESS, clamp_air, template
from templates_gen.checks.cure import Cure
from templates_gen.checks.judge import Result
from templates_gen.checks.rule import Bound, Rule, Severity, at_least
from templates_gen.drawing.furniture import drawing_area
from templates_gen.drawing.marks import box_round
from templates_gen.drawing.paper import sizes_of
from templates_gen.drawing.view import View
from templates_gen.errors import GeometryError
from templates_gen.geometry import Path
from templates_gen.geometry.segment import Point
from templates_gen.parameters import Pattern
from templates_gen.pipeline import Checked
from templates_gen.shop.params import Cutter, Guide, Plate, Shop

_BASIS = "common practice, no source"
#: A cure's cutter stands below the limit by the next tenth (mm).
_TENTH = 10


def checks(p: Pattern, shop: Shop, paper: str = "a4") -> list[Checked]:
    """Every check of every template the shop has a cutter for, judged at the stated numbers.

    Args:
        p: the pattern.
        shop: the maker's cutters, plates and the margin of his printer.
        paper: what the templates are printed on.
    """
    found: list[Checked] = []
    for kind in KINDS:
        cutter = kind.cutter(shop)
        if cutter is None:
            continue
        try:
            job = kind.job(p, cutter)
        except GeometryError as e:
            found.append(_made(kind, str(e), e.place, 0.0))
            continue
        found += _of(kind, job, cutter, shop.plate)
        with suppress(GeometryError):  # already told
            found += _fits(kind, template(job, cutter, shop.plate), float(shop.paper.margin), paper)
    return found


def _fits(kind: Kind, views: Sequence[View], margin: float, paper: str) -> Iterator[Checked]:
    """A template glued of pages guides a cutter badly: told is how much paper is to spare."""
    left, low, right, high = box_round(v.box for v in views)
    rooms = [drawing_area(size, margin) for size in sizes_of(paper)]
    spare = max(min(r[2] - r[0] - (right - left), r[3] - r[1] - (high - low)) for r in rooms)
    says = f"the template fits on one page of {paper.upper() if paper[1:].isdigit() else paper}"
    place = _place(kind, (right, high))
    yield _checked(kind, "one_page", says, at_least(spare, 0.0), place, None, Severity.WARNING)


def _of(kind: Kind, job: Job, cutter: Cutter, plate: Plate) -> Iterator[Checked]:
    key, size = f"{kind.section}.cutter", float(cutter.cutter)
    wide = at_least(job.narrowest, size)
    says = f"the cutter of {size:g} passes the narrowest place"
    yield _checked(
        kind, "passes", says, wide, _place(kind, None), _smaller(key, job.narrowest, size)
    )
    tight = tightest(job)
    if tight is not None:
        radius, place = tight
        says = f"the cutter reaches the tightest hollow, at ({place[0]:.1f}, {place[1]:.1f})"
        bound, cure = at_least(radius, size / 2), _smaller(key, 2 * radius, size)
        yield _checked(kind, "reaches", says, bound, _place(kind, place), cure)
    try:
        guide: Path | None = job.guided.template
        trouble, where = "the offset leaves a template", None
    except GeometryError as e:
        guide, trouble, where = None, str(e), e.place
    yield _made(kind, trouble, where, 0.0 if guide is None else 1.0)
    if cutter.guide is Guide.COLLAR:
        now = float(plate.thickness)
        cure = Cure("plate.thickness", LEAST_THICKNESS, now)
        says = "the template is thick enough to guide a collar"
        thick = at_least(now, LEAST_THICKNESS)
        yield _checked(kind, "thickness", says, thick, None, cure, Severity.WARNING)
    if job.blank is not None and guide is not None:
        air = at_least(clamp_air(job, plate), CLEAR)
        yield _checked(kind, "clamps", "the clamps stand clear of the collar", air, None, None)


def tightest(job: Job) -> tuple[float, Point] | None:
    """The tightest hollow arc the cutter must follow, and where; sharp corners are the chisel's."""
    way = 1.0 if job.guided.inside else -1.0
    arcs = [s for s in job.guided.finished.segments if s.bulge * way > 0]
    return min(((s.radius, s.point(0.5)) for s in arcs), default=None)


def _smaller(key: str, most: float, was: float) -> Cure | None:
    """A smaller cutter, if there is one worth the name."""
    size = int(most * _TENTH) / _TENTH
    return Cure(key, size, was) if 0.5 <= size < was else None


def _made(kind: Kind, says: str, where: Point | None, found: float) -> Checked:
    return _checked(
        kind, "template", says, at_least(found, 1.0), _place(kind, where), None, unit="1"
    )


def _place(kind: Kind, where: Point | None) -> tuple[str, Point] | None:
    return None if where is None else (f"route-{kind.name}", where)


def _checked(
    kind: Kind,
    what: str,
    says: str,
    bound: Bound,
    place: tuple[str, Point] | None,
    cure: Cure | None,
    severity: Severity = Severity.ERROR,
    unit: str = "mm",
) -> Checked:
    name = f"route.{kind.name.replace('-', '_')}_{what}"
    rule = Rule(name, says, lambda p: bound, severity, _BASIS, unit, 0.0, lambda p: place)
    result = Result(
        rule, float(bound.measured), float(bound.limit), float(bound.margin), bound.sense, ()
    )
    return Checked(result, cure if result.verdict == "fails" else None)
