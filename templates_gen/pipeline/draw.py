"""Write the files of a pattern: all its templates into a folder, or one template to one file."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from templates_gen.errors import Fault, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.pipeline.judging import ChecksFailed, Report, check
from templates_gen.pipeline.output import OutputOptions
from templates_gen.writers import FORMATS
from templates_gen.writers.files import write_all


def draw(
    p: Pattern,
    out: str | os.PathLike[str],
    *,
    formats: str | Sequence[str] = FORMATS,
    only: str | Sequence[str] = (),
    paper: str = "a4",
    plane: bool = False,
    force: bool = False,
) -> list[Path]:
    """Check a pattern, then write its templates, an index page and a manifest into a folder.

    The first drawing of a pattern takes about 10 s: every part is built as a solid and measured.

    Args:
        p: the pattern.
        out: the folder.
        formats: some of ``dxf``, ``svg``, ``pdf``, ``csv`` and ``step``.
        only: names of templates, or ``frog`` for all of the frog's; all if empty.
        paper: the printer's paper, ``a4``, ``a3``, ``letter`` or ``tabloid``; PDF is tiled.
        plane: without solids; every sheet is stamped so.
        force: draw although a check fails; every sheet is stamped so.

    Returns:
        The files written.

    Raises:
        ChecksFailed: an error-check fails; nothing is written.
        InputError: no such format or template.
        EnvironmentFault: the folder cannot be written, or the solid modeller does not start.

    Example:
        >>> import templates_gen as tg
        >>> p = tg.new("violin", "Wren")
        >>> files = tg.draw(p, "out", formats="svg", only="ferrule-mandrel", plane=True)
        >>> [file.name for file in files]
        ['wren--ferrule-mandrel.svg', 'index.html', 'manifest.json']
    """
    files = _files(p, formats, only, OutputOptions(paper=paper), plane=plane, force=force)
    folder = Path(out)
    write_all(folder, files)
    return [folder / name for name in files]


def write_dxf(
    p: Pattern,
    template: str,
    file: str | os.PathLike[str],
    *,
    plane: bool = False,
    force: bool = False,
) -> Path:
    """Check a pattern, then write one template as DXF (R2010, millimetres, arcs as bulges).

    Args:
        p: the pattern.
        template: its name, as in ``templates``.
        file: the file to write; a file of that name is replaced.
        plane: without the part's solid; the sheet is stamped so.
        force: draw although a check fails; the sheet is stamped so.

    Returns:
        The file.

    Raises:
        ChecksFailed: an error-check fails; nothing is written.
        InputError: no such template.
        EnvironmentFault: the file cannot be written, or the solid modeller does not start.

    Example:
        >>> import templates_gen as tg
        >>> tg.write_dxf(tg.new("cello"), "frog-side", "frog.dxf", plane=True).name
        'frog.dxf'
    """
    return _one(p, template, "dxf", Path(file), plane=plane, force=force)


def write_svg(
    p: Pattern,
    template: str,
    file: str | os.PathLike[str],
    *,
    plane: bool = False,
    force: bool = False,
) -> Path:
    """Check a pattern, then write one template as SVG, at true size.

    Args:
        p: the pattern.
        template: its name, as in ``templates``.
        file: the file to write; a file of that name is replaced.
        plane: without the part's solid; the sheet is stamped so.
        force: draw although a check fails; the sheet is stamped so.

    Returns:
        The file.

    Raises:
        ChecksFailed, InputError, EnvironmentFault: as ``write_dxf``.

    Example:
        >>> import templates_gen as tg
        >>> tg.write_svg(tg.new("cello"), "frog-side", "frog.svg", plane=True).name
        'frog.svg'
    """
    return _one(p, template, "svg", Path(file), plane=plane, force=force)


def _one(p: Pattern, template: str, form: str, file: Path, *, plane: bool, force: bool) -> Path:
    """Write one template to one file."""
    made = _files(p, form, template, OutputOptions(), plane=plane, force=force)
    sheets = [content for name, content in made.items() if name.endswith(f".{form}")]
    if len(sheets) != 1:
        names = ", ".join(name for name in made if name.endswith(f".{form}"))
        problem = f"gives {len(sheets)} sheets" + (f": {names}" if names else "")
        raise InputError([Fault("templates", None, template, problem, "name one template")])
    write_all(file.parent, {file.name: sheets[0]})
    return file


def _files(
    p: Pattern,
    formats: str | Sequence[str],
    only: str | Sequence[str],
    options: OutputOptions,
    *,
    plane: bool,
    force: bool,
) -> dict[str, bytes]:
    """Check a pattern and make its files.

    Raises:
        ChecksFailed: an error-check fails, and it is not forced.
    """
    formats, only = _listed(formats), _listed(only)
    require_formats(formats)
    report: Report = check(p)
    if not (report.ok or force):
        raise ChecksFailed(report)
    return rendering.render(report, formats=formats, only=only, options=options, plane=plane)


def _listed(words: str | Sequence[str]) -> Sequence[str]:
    """One word as a list of one."""
    return (words,) if isinstance(words, str) else words


def require_formats(formats: Sequence[str]) -> None:
    """Raise unless every format is known and there is one.

    Raises:
        InputError: naming those that are not.
    """
    known = (*FORMATS, rendering.STEP)
    unknown = [f for f in formats if f not in known]
    if unknown or not formats:
        named, cure = ", ".join(unknown) or "nothing", f"choose from {', '.join(known)}"
        raise InputError([Fault("--format", None, named, "no such format", cure)])
