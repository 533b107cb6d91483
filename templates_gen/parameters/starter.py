"""Write the starter file of a family: every parameter at its usual value, with a comment."""

from __future__ import annotations

import json
import math
import textwrap
from collections.abc import Iterable, Iterator

from templates_gen.errors import Fault, InputError
from templates_gen.parameters import families
from templates_gen.parameters.declare import (
    Parameter,
    PointLimits,
    Schema,
    parameters_of,
    title_of,
)
from templates_gen.parameters.families import BASIS, FAMILIES, Band
from templates_gen.parameters.naming import name_trouble
from templates_gen.parameters.words import (
    basis_letters,
    clipped,
    listed,
    nearest,
    points_allowed,
    span,
    words_of,
    written,
)

_WIDTH = 100
#: Name of a pattern that has none yet.
UNNAMED = "My bow"


def starter(family: str, schema: Schema, name: str = UNNAMED) -> str:
    """Write a complete, commented parameter file with the usual values of a family.

    Args:
        family: ``violin`` … ``bass-german``.
        schema: the records of the file.
        name: name of the pattern.

    Raises:
        InputError: unknown family, or a name that does not fit a title block.
    """
    require_family(family)
    trouble = name_trouble(name)
    if trouble is not None:
        raise InputError([Fault("--name", None, "", *trouble)])
    usual = families.bands(family)
    lines = [*_opening(family, usual, schema), "", 'units = "mm"', "", "[pattern]"]
    lines.append(f"name = {json.dumps(name, ensure_ascii=False)}")
    lines += ['revision = "A"', f'family = "{family}"']
    for section, record in schema.sections.items():
        lines += ["", "", f"# {title_of(record)}", f"[{section}]"]
        lines += _entries((p, usual[p.key]) for p in parameters_of(record))
    return "\n".join(lines) + "\n"


def name_from_stem(stem: str) -> str:
    """Make a pattern's name from the name of its file: ``grey-plover`` becomes Grey plover."""
    words = " ".join(stem.replace("_", " ").replace("-", " ").split())
    return words[:1].upper() + words[1:] if name_trouble(words) is None else UNNAMED


def require_family(family: str) -> None:
    """Check that a family is known.

    Raises:
        InputError: it is not; the message lists the families.
    """
    if family in FAMILIES:
        return
    like = nearest(family, FAMILIES)
    guess = f'; the nearest is "{like}"' if like else ""
    problem = f'"{clipped(family)}" is not a family'
    raise InputError([Fault("FAMILY", None, "", problem, f"name one of {listed(FAMILIES)}{guess}")])


def _opening(family: str, usual: dict[str, Band], schema: Schema) -> Iterator[str]:
    instrument = FAMILIES[family].instrument
    yield f"# Parameter file for a bow: {instrument}."
    yield "#"
    yield "# Replace these values with those of your bow, then run"
    yield "#     templates-gen check FILE            to check every clearance"
    yield "#     templates-gen draw FILE -o FOLDER   to draw the templates at true size"
    yield "#     templates-gen explain KEY           to explain a parameter"
    yield "#"
    yield "# Lengths are in mm, angles in degrees (°). A value may have a tolerance ± and a note:"
    yield '#     height = { value = 10.5, tol = 0.05, note = "measured on the mandrel" }'
    yield "#"
    yield "# The comment on each value: its meaning, its letter on the drawings, the usual range in"
    yield "# this family and, in brackets, the source:"
    found = {x for key in schema.parameters for x in basis_letters(usual[key].basis)}
    for letter, basis in BASIS.items():
        if letter in found:
            yield f"#     {letter}  {basis}"


def _entries(stated: Iterable[tuple[Parameter, Band]]) -> Iterator[str]:
    """Write the lines of a section, with equal signs and comments aligned."""
    rows = [(p, band, written(band.usual)) for p, band in stated]
    figures = [(p, value) for p, _, value in rows if p.points is None]
    names = max((len(p.name) for p, _ in figures), default=0)
    values = max((len(value) for _, value in figures), default=0)
    for p, band, value in rows:
        if p.points is not None:
            yield from _example(p, p.points, band)
            continue
        line = f"{p.name:<{names}} = {value:<{values}}  # "
        yield from _commented(line, _comment(p, band))


def _example(parameter: Parameter, limits: PointLimits, band: Band) -> Iterator[str]:
    """Write an example of a table of points as a comment."""
    source = "".join(basis_letters(band.basis))
    comment = f"{_called(parameter)}; usually not stated [{source}], else {points_allowed(limits)}:"
    mark = "# "
    yield from textwrap.wrap(
        comment, _WIDTH, initial_indent=mark, subsequent_indent=mark, break_long_words=False
    )
    count = max(limits.least, 2)
    step = (limits.x_high - limits.x_low) / (count - 1)
    step = math.floor(step) if step >= 1 else step
    y = (limits.y_low + limits.y_high) / 2
    rows = tuple((limits.x_low + step * i, y) for i in range(count))
    yield f"{mark}{parameter.name} = {written(rows)}"


def _commented(line: str, comment: str) -> Iterator[str]:
    """Write a line and its comment, wrapped below itself."""
    first, *rest = textwrap.wrap(comment, _WIDTH - len(line), break_long_words=False)
    yield line + first
    for more in rest:
        yield " " * (len(line) - 2) + "# " + more


def _comment(parameter: Parameter, band: Band) -> str:
    basis = "".join(basis_letters(band.basis))
    source = f" [{basis}]" if basis else ""
    if band.low is None or band.high is None:
        usual = f"one of {listed(words_of(parameter))}"
    else:
        usual = f"usually {span(band.low, band.high, parameter.unit)}"
    return f"{_called(parameter)}; {usual}{source}"


def _called(parameter: Parameter) -> str:
    return f"{parameter.meaning}, {parameter.letter}" if parameter.letter else parameter.meaning
