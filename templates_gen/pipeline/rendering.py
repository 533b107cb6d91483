"""Draw a pattern: from its checks and its solids to finished sheets and files."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager

import numpy as np

from templates_gen import registry
from templates_gen.drawing import Template, View
from templates_gen.drawing.compose import PlacedSheet, SheetInfo, compose
from templates_gen.drawing.furniture import FORCED
from templates_gen.errors import SHAPELESS, DrawingError, KernelError, in_one_line
from templates_gen.parameters import Pattern
from templates_gen.pipeline import output, selection, solids
from templates_gen.pipeline import page as showing
from templates_gen.pipeline.judging import (
    Checked,
    Report,
    check,
    check_json,
    read,
    stops,
    verdict,
)
from templates_gen.pipeline.output import DEFAULT_OPTIONS, OutputOptions
from templates_gen.pipeline.progress import tracked
from templates_gen.pipeline.witness import Witness

__all__ = ["Checked", "check", "check_json", "read", "stops", "verdict"]

#: The solids' own format; the sheets' are those of ``writers``.
STEP = "step"
#: Stamped on the sheets of a pattern whose solids were not built.
UNCONFIRMED = "SOLIDS NOT CONFIRMED"


def witnesses(
    p: Pattern, *, together: bool = False, parts: Collection[str] = ()
) -> dict[str, Witness]:
    """Measure the solids of some parts or of all, and if asked the assembled bow.

    Raises:
        GeometryError: an outline cannot be constructed.
        EnvironmentFault: a solid is not in the cache and the modeller does not start.
    """
    return solids.witnesses(p, together=together, parts=parts)


def confirmed(p: Pattern, seen: dict[str, Witness]) -> list[Checked]:
    """Repeat the checks on what was measured on the solids."""
    return [Checked(r, None) for r in solids.confirm(p, seen)]


def sheets(
    report: Report,
    options: OutputOptions = DEFAULT_OPTIONS,
    *,
    only: Sequence[str] = (),
    stamps: Sequence[str] = (),
    templates: Sequence[Template] | None = None,
    seen_only: bool = False,
    not_drawn: dict[str, str] | None = None,
) -> list[PlacedSheet]:
    """Lay out the sheets of a judged pattern, each with the verdict of its checks.

    Args:
        report: the pattern and its checks; where one fails, every sheet is stamped.
        options: the paper and the printer.
        only: names of templates, or all.
        stamps: other warnings to print large on every sheet.
        templates: the templates themselves, in place of names.
        seen_only: leave out the rules of a good sheet.
        not_drawn: filled with the sheets that cannot be drawn and why; if None, the first raises.

    Raises:
        GeometryError: an outline cannot be constructed.
        DrawingError: a sheet breaks the rules.
    """
    p, failed, made = report.pattern, sum(r.stops for r in report.results), []
    if failed:
        fails = "1 check fails" if failed == 1 else f"{failed} checks fail"
        stamps = (f"{FORCED}: {fails}; do not cut", *stamps)
    for t in tracked(selection.chosen(p, only) if templates is None else templates, "sheet"):
        info = SheetInfo(
            name=t.name,
            title=t.title,
            pattern=p.identity.name,
            revision=p.identity.revision,
            instrument=p.family.instrument,
            purpose=t.purpose,
            digest=p.digest[:8],
            up=t.up,
            verdict=report.summary,
            stamps=tuple(stamps),
            note=t.note,
        )
        with _noted(t.name, not_drawn):
            sheet = compose(views(p, t), info, options.paper, options.margin)
            if not seen_only:
                _require_good(sheet, options.margin)
            made.append(sheet)
    return made


@contextmanager
def _noted(what: str, not_drawn: dict[str, str] | None) -> Iterator[None]:
    """Leave out what cannot be made and note why; without a place for the note, raise."""
    try:
        yield
    except SHAPELESS as e:
        if not_drawn is None:
            raise
        not_drawn[what] = in_one_line(e)


def _require_good(sheet: PlacedSheet, margin: float) -> None:
    """Raise unless a sheet keeps the rules of a good sheet.

    Raises:
        DrawingError: it breaks one.
    """
    from templates_gen.drawing.lint import lint

    if faults := lint(sheet, margin):
        raise DrawingError("; ".join(faults))


def views(p: Pattern, t: Template) -> Sequence[View]:
    """Draw the views of a template.

    Raises:
        GeometryError: an outline cannot be constructed.
    """
    # NaN breaks an outline, which is reported; numpy's own warnings would repeat it.
    with np.errstate(all="ignore"):
        return t.views(p)


def stem(p: Pattern) -> str:
    """Return the pattern's name, fit for a file's."""
    from templates_gen.writers.files import safe_stem

    return safe_stem(p.identity.name)


def render(
    report: Report,
    *,
    formats: Sequence[str],
    only: Sequence[str] = (),
    options: OutputOptions = DEFAULT_OPTIONS,
    plane: bool = False,
    templates: Sequence[Template] | None = None,
    not_drawn: dict[str, str] | None = None,
) -> dict[str, bytes]:
    """Make the files of a judged pattern, by name: templates, page and manifest; write none.

    Where a check fails, what cannot be made is left out; page and manifest name it.

    Args:
        report, formats, only, options, templates: as for ``sheets``.
        plane: without solids.
        not_drawn: filled with the names of what is left out, and why.

    Raises:
        EnvironmentFault: a solid cannot be built.
    """
    from templates_gen.writers.page import document

    p, name = report.pattern, stem(report.pattern)
    drawn = selection.chosen(p, only) if templates is None else templates
    left_out = None if report.ok else {} if not_drawn is None else not_drawn
    parts = selection.parts(drawn, len(drawn) < len(selection.templates(p)))
    seen = {} if plane else _witnesses(p, parts, left_out)
    # Where a check fails the solids only repeat it, and the maker would count it twice.
    solid = confirmed(p, seen) if report.ok else []
    _require_agreement(solid)
    flat = [f for f in formats if f != STEP]
    made = sheets(
        report,
        options,
        stamps=[UNCONFIRMED] if plane or left_out else [],
        templates=drawn,
        seen_only=not flat,
        not_drawn=left_out,
    )
    # A few sheets under the name of all would be taken for all of them.
    every = {t.name for t in selection.templates(p)} <= {s.name for s in made}
    files = output.files(name, p.identity.name, made, flat, options, together=every)
    if STEP in formats:
        with _noted("solids", left_out):
            steps = solids.step_files(p, name, parts).items()
            files |= {f"{name}--{part}.{STEP}": content for part, content in steps}
    checks = [(c.result, c.cure) for c in report]  # the solids' may differ in a last digit
    facts = showing.facts(p, checks, made, drawn, name, files, left_out or {})
    files[showing.NAME] = document.write(facts)
    files["manifest.json"] = _manifest(p, [*report, *solid], seen, files, left_out or {})
    return files


def _witnesses(
    p: Pattern, parts: Collection[str], not_drawn: dict[str, str] | None
) -> dict[str, Witness]:
    """Measure the solids; where something may be left out, each part by itself."""
    if not_drawn is None:
        return witnesses(p, parts=parts)
    found: dict[str, Witness] = {}
    for b in registry.builders():
        if not parts or b.part in parts:
            with _noted(f"{b.part} solid", not_drawn):
                found |= witnesses(p, parts={b.part})
    return found


def _require_agreement(solid: Sequence[Checked]) -> None:
    """Raise if a solid contradicts checks that pass: one of the two is then wrong.

    Raises:
        KernelError: naming the checks.
    """
    wrong = [c.result for c in solid if c.result.stops]
    if wrong:
        named = ", ".join(f"{r.rule.id} {r.measured:.3g} {r.sense} {r.limit:.3g}" for r in wrong)
        raise KernelError(f"the solids contradict the checks: {named}")


def _manifest(
    p: Pattern,
    checked: Sequence[Checked],
    seen: dict[str, Witness],
    files: dict[str, bytes],
    not_drawn: Mapping[str, str],
) -> bytes:
    from templates_gen.writers.manifest import manifest

    return manifest(
        {
            "pattern": p.identity.name,
            "revision": p.identity.revision,
            "parameters": p.digest,
            "files": {n: hashlib.sha256(b).hexdigest() for n, b in files.items()},
            "checks": [check_json(c) for c in checked],
            "solids": {
                w.part: {"volume_mm3": w.volume, "section_error_mm": w.section_error}
                for w in seen.values()
                if w.part != "bow"
            },
            **({"not_drawn": dict(not_drawn)} if not_drawn else {}),
        }
    )
