"""The one module that knows the whole path, from a parameter file to finished sheets."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path as FilePath

import numpy as np

from templates_gen import choosing, confirm, printing, showing
from templates_gen.drawing.compose import Composed, SheetInfo, compose
from templates_gen.drawing.furniture import FORCED
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import View
from templates_gen.errors import DrawingError, Fault, GeometryError, InputError, KernelError
from templates_gen.judging import Checked, check, check_json, failing, read, stops, verdict
from templates_gen.parameters import Pattern
from templates_gen.printing import ORDINARY, Press
from templates_gen.witness import Witness

__all__ = ["Checked", "check", "check_json", "read", "stops", "verdict"]

#: The solids' own format; the sheets' are those of ``writers``.
STEP = "step"


def witnesses(
    p: Pattern, *, together: bool = False, parts: Collection[str] = ()
) -> dict[str, Witness]:
    """What the solids of some parts or all left behind, and if asked that of the whole.

    Raises:
        InputError: an outline cannot be constructed.
        SurroundingsError: a solid is not known and the modeller does not start.
    """
    try:
        return confirm.witnesses(p, together=together, parts=parts)
    except GeometryError as e:
        raise InputError([_undrawable(p, "a solid", e)]) from e


def confirmed(p: Pattern, seen: dict[str, Witness]) -> list[Checked]:
    """The checks as the solids show them."""
    return [Checked(r, None) for r in confirm.confirm(p, seen)]


def sheets(
    p: Pattern,
    checked: Sequence[Checked],
    press: Press = ORDINARY,
    *,
    only: Sequence[str] = (),
    stamps: Sequence[str] = (),
    instead: Sequence[Template] | None = None,
    seen_only: bool = False,
) -> list[Composed]:
    """The sheets of a pattern, each held to the rules of a good sheet unless only seen.

    Raises:
        DrawingError: a sheet breaks them.
    """
    made = []
    for t in choosing.chosen(p, only) if instead is None else instead:
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
        made.append(compose(views(p, t), info, press.paper, press.margin))
    if not seen_only:
        _good(made, press.margin)
    return made


def _good(made: Sequence[Composed], margin: float) -> None:
    """Go on if every sheet keeps the rules of a good sheet.

    Raises:
        DrawingError: one breaks them.
    """
    from templates_gen.drawing.lint import lint

    faults = [fault for sheet in made for fault in lint(sheet, margin)]
    if faults:
        raise DrawingError("; ".join(faults))


def views(p: Pattern, t: Template) -> Sequence[View]:
    """What a template shows of a pattern.

    Raises:
        InputError: an outline cannot be constructed.
    """
    try:
        # What is no number breaks an outline, which is told; numpy need not grumble as well.
        with np.errstate(all="ignore"):
            return t.views(p)
    except GeometryError as e:
        raise InputError([_undrawable(p, t.name, e)]) from e


def _undrawable(p: Pattern, what: str, e: GeometryError) -> Fault:
    """An outline that cannot be constructed is the input's fault; the checks name the cure."""
    file = p.identity.file
    cure = f"`templates-gen check {file}` names what to change"
    return Fault(file, None, "", f"{what} cannot be drawn: {e}", cure)


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
    press: Press = ORDINARY,
    plane: bool = False,
    instead: Sequence[Template] | None = None,
) -> dict[str, bytes]:
    """The templates (``instead``, or chosen by ``only``), page and manifest, by name; unwritten.

    Raises:
        SurroundingsError: a solid cannot be built.
    """
    from templates_gen.writers import page

    drawn = choosing.chosen(p, only) if instead is None else instead
    few = len(drawn) < len(choosing.templates(p)) and STEP not in formats
    seen = {} if plane else witnesses(p, parts=choosing.parts(drawn, few))
    # Where a check fails the solids only say so again, and the maker would count it twice.
    solid = [] if stops(checked) else confirmed(p, seen)
    _agree(solid)
    stamps = ["SOLIDS NOT CONFIRMED"] if plane else []
    if failed := failing(checked):
        fails = "1 check fails" if failed == 1 else f"{failed} checks fail"
        stamps.insert(0, f"{FORCED}: {fails}; do not cut")
    flat = [f for f in formats if f != STEP]
    made = sheets(p, checked, press, stamps=stamps, instead=drawn, seen_only=not flat)
    # A few sheets under the name of all would be taken for all of them.
    every = {t.name for t in choosing.templates(p)} <= {s.name for s in made}
    files = printing.files(stem(p), p.identity.name, made, flat, press, together=every)
    if STEP in formats:
        for part, content in confirm.step_files(p, stem(p)).items():
            files[f"{stem(p)}--{part}.{STEP}"] = content
    told = [(c.result, c.cure) for c in checked]  # the solids' own may differ in a last figure
    parts = {t.name: t.part for t in drawn}
    files[showing.NAME] = page.write(showing.facts(p, told, made, parts, stem(p), files))
    files["manifest.json"] = _manifest(p, [*checked, *solid], seen, files)
    return files


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
    press: Press = ORDINARY,
    plane: bool = False,
) -> list[FilePath]:
    """Write the templates and the manifest; give the files written.

    Raises:
        SurroundingsError: the folder cannot be written, or a solid cannot be built.
    """
    from templates_gen.writers.files import write_all

    files = render(p, checked, formats=formats, only=only, press=press, plane=plane)
    write_all(out, files)
    return [out / name for name in files]


def _manifest(
    p: Pattern, checked: Sequence[Checked], seen: dict[str, Witness], files: dict[str, bytes]
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
        }
    )
