"""The one module that knows the whole path, from a parameter file to finished sheets."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path as FilePath

import numpy as np

from templates_gen import registry
from templates_gen.drawing.compose import PlacedSheet, SheetInfo, compose
from templates_gen.drawing.furniture import FORCED
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import View
from templates_gen.errors import SHAPELESS, DrawingError, KernelError, in_one_line
from templates_gen.parameters import Pattern
from templates_gen.pipeline import output, selection, solids
from templates_gen.pipeline import page as showing
from templates_gen.pipeline.judging import Checked, check, check_json, failing, read, stops, verdict
from templates_gen.pipeline.output import USUAL_OPTIONS, OutputOptions
from templates_gen.pipeline.progress import tracked
from templates_gen.pipeline.witness import Witness

__all__ = ["Checked", "check", "check_json", "read", "stops", "verdict"]

#: The solids' own format; the sheets' are those of ``writers``.
STEP = "step"


def witnesses(
    p: Pattern, *, together: bool = False, parts: Collection[str] = ()
) -> dict[str, Witness]:
    """What the solids of some parts or all left behind, and if asked that of the whole.

    Raises:
        GeometryError: an outline cannot be constructed.
        EnvironmentFault: a solid is not known and the modeller does not start.
    """
    return solids.witnesses(p, together=together, parts=parts)


def confirmed(p: Pattern, seen: dict[str, Witness]) -> list[Checked]:
    """The checks as the solids show them."""
    return [Checked(r, None) for r in solids.confirm(p, seen)]


def sheets(
    p: Pattern,
    checked: Sequence[Checked],
    options: OutputOptions = USUAL_OPTIONS,
    *,
    only: Sequence[str] = (),
    stamps: Sequence[str] = (),
    templates: Sequence[Template] | None = None,
    seen_only: bool = False,
    not_drawn: dict[str, str] | None = None,
) -> list[PlacedSheet]:
    """The sheets of a pattern, each held to the rules of a good sheet unless only seen.

    Args:
        p: the pattern.
        checked: its checks.
        options: the paper and the printer.
        only: names of templates, or all.
        stamps: what is printed large on every sheet.
        templates: the templates themselves, in place of names.
        seen_only: leave out the rules of a good sheet.
        not_drawn: filled with the sheets that cannot be drawn and why; if None, the first raises.

    Raises:
        GeometryError: an outline cannot be constructed.
        DrawingError: a sheet breaks the rules.
    """
    made = []
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
            verdict=verdict(checked),
            stamps=tuple(stamps),
            note=t.note,
        )
        with _noted(t.name, not_drawn):
            sheet = compose(views(p, t), info, options.paper, options.margin)
            if not seen_only:
                _good(sheet, options.margin)
            made.append(sheet)
    return made


@contextmanager
def _noted(what: str, not_drawn: dict[str, str] | None) -> Iterator[None]:
    """Go on without what cannot be made, and note why; where nothing is noted, it raises."""
    try:
        yield
    except SHAPELESS as e:
        if not_drawn is None:
            raise
        not_drawn[what] = in_one_line(e)


def _good(sheet: PlacedSheet, margin: float) -> None:
    """Go on if the sheet keeps the rules of a good sheet.

    Raises:
        DrawingError: it breaks one.
    """
    from templates_gen.drawing.lint import lint

    if faults := lint(sheet, margin):
        raise DrawingError("; ".join(faults))


def views(p: Pattern, t: Template) -> Sequence[View]:
    """What a template shows of a pattern.

    Raises:
        GeometryError: an outline cannot be constructed.
    """
    # NaN breaks an outline, which is reported; numpy's own warnings would repeat it.
    with np.errstate(all="ignore"):
        return t.views(p)


def stem(p: Pattern) -> str:
    """The pattern's name, fit for a file's."""
    from templates_gen.writers.files import safe_stem

    return safe_stem(p.identity.name)


def render(
    p: Pattern,
    checked: Sequence[Checked],
    *,
    formats: Sequence[str],
    only: Sequence[str] = (),
    options: OutputOptions = USUAL_OPTIONS,
    plane: bool = False,
    templates: Sequence[Template] | None = None,
    not_drawn: dict[str, str] | None = None,
) -> dict[str, bytes]:
    """The templates (``templates``, or chosen by ``only``), page and manifest, by name; unwritten.

    Where a check fails, what cannot be made is left out; page and manifest say so.

    Args:
        p, checked, formats, only, options, templates: as for ``sheets``.
        plane: without solids.
        not_drawn: takes the names of what is left out, and why.

    Raises:
        EnvironmentFault: a solid cannot be built.
    """
    from templates_gen.writers.page import document

    drawn = selection.chosen(p, only) if templates is None else templates
    few = len(drawn) < len(selection.templates(p))
    failed = failing(checked)
    left_out: dict[str, str] | None = None
    if failed:
        left_out = {} if not_drawn is None else not_drawn
    seen = {} if plane else _witnesses(p, selection.parts(drawn, few), left_out)
    # Where a check fails the solids only say so again, and the maker would count it twice.
    solid = [] if failed else confirmed(p, seen)
    _agree(solid)
    stamps = ["SOLIDS NOT CONFIRMED"] if plane or left_out else []
    if failed:
        fails = "1 check fails" if failed == 1 else f"{failed} checks fail"
        stamps.insert(0, f"{FORCED}: {fails}; do not cut")
    flat = [f for f in formats if f != STEP]
    seen_only = not flat
    made = sheets(
        p, checked, options, stamps=stamps, templates=drawn, seen_only=seen_only, not_drawn=left_out
    )
    # A few sheets under the name of all would be taken for all of them.
    every = {t.name for t in selection.templates(p)} <= {s.name for s in made}
    files = output.files(stem(p), p.identity.name, made, flat, options, together=every)
    if STEP in formats:
        with _noted("solids", left_out):
            parts = selection.parts(drawn, few)
            for part, content in solids.step_files(p, stem(p), parts).items():
                files[f"{stem(p)}--{part}.{STEP}"] = content
    told = [(c.result, c.cure) for c in checked]  # the solids' own may differ in a last figure
    missing = left_out or {}
    files[showing.NAME] = document.write(
        showing.facts(p, told, made, drawn, stem(p), files, missing)
    )
    files["manifest.json"] = _manifest(p, [*checked, *solid], seen, files, missing)
    return files


def _witnesses(
    p: Pattern, parts: Collection[str], not_drawn: dict[str, str] | None
) -> dict[str, Witness]:
    """What the solids left behind; where something may be left out, each part by itself."""
    if not_drawn is None:
        return witnesses(p, parts=parts)
    found: dict[str, Witness] = {}
    for b in registry.builders():
        if not parts or b.part in parts:
            with _noted(f"{b.part} solid", not_drawn):
                found |= witnesses(p, parts={b.part})
    return found


def _agree(solid: Sequence[Checked]) -> None:
    """Where every clearance holds, the solids must show it; else one of the two is wrong."""
    wrong = [c.result for c in solid if c.result.stops]
    if wrong:
        told = ", ".join(f"{r.rule.id} {r.measured:.3g} {r.sense} {r.limit:.3g}" for r in wrong)
        raise KernelError(f"the solids do not bear out the checks: {told}")


def draw(
    p: Pattern,
    checked: Sequence[Checked],
    out: FilePath,
    *,
    formats: Sequence[str],
    only: Sequence[str] = (),
    options: OutputOptions = USUAL_OPTIONS,
    plane: bool = False,
) -> list[FilePath]:
    """Write the templates and the manifest; give the files written.

    Raises:
        EnvironmentFault: the folder cannot be written, or a solid cannot be built.
    """
    from templates_gen.writers.files import write_all

    files = render(p, checked, formats=formats, only=only, options=options, plane=plane)
    write_all(out, files)
    return [out / name for name in files]


def _manifest(
    p: Pattern,
    checked: Sequence[Checked],
    seen: dict[str, Witness],
    files: dict[str, bytes],
    not_drawn: Mapping[str, str],
) -> bytes:
    import hashlib

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
