"""Explain parameters: meaning, possible range, usual values and their sources."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from templates_gen.errors import Fault, InputError
from templates_gen.parameters import families
from templates_gen.parameters.declare import Parameter, Points, Schema, parameters_of, title_of
from templates_gen.parameters.families import BASIS, FAMILIES, Band
from templates_gen.parameters.starter import require_family
from templates_gen.parameters.words import (
    allowed,
    basis_letters,
    clipped,
    format_value,
    nearest,
    plain,
    when_scaled,
    with_unit,
    wrapped,
    written,
)

_LABEL = 14


def explain(
    key: str | None, schema: Schema, family: str | None = None, others: Sequence[str] = ()
) -> str:
    """Explain a parameter, or list parameters, in 80 columns.

    Args:
        key: ``ferrule.outer_width``; a section, to list its keys; None, to list all keys.
        schema: the records.
        family: show the usual values of this family only; all families if None.
        others: other names to suggest for an unknown key.

    Raises:
        InputError: unknown key, with the nearest known one, or unknown family.
    """
    if family is not None:
        require_family(family)
    if key is None:
        lines = _listing(schema, schema.sections)
    elif key in schema.sections:
        lines = _listing(schema, [key])
    elif key in schema.parameters:
        lines = _parameter(schema.parameters[key], [family] if family else list(FAMILIES))
    else:
        raise _unknown(key, schema, others)
    return "\n".join(lines) + "\n"


def explain_shop(
    key: str, schema: Schema, starts: Mapping[str, float | str], examples: Collection[str]
) -> str:
    """Explain a parameter of the shop file.

    Args:
        key: ``laser.kerf``, or a section.
        schema: the records of the shop file.
        starts: values of the starter file, by key.
        examples: sections that are only examples in the starter file.

    Raises:
        InputError: unknown key.
    """
    if key in schema.sections:
        return "\n".join(_listing(schema, [key])) + "\n"
    if key not in schema.parameters:
        raise _unknown(key, schema, ())
    p = schema.parameters[key]
    lines = [key, *_labelled("  ", p.meaning), ""]
    starter = with_unit(written(starts[key]), p.unit)
    if p.section in examples:
        starter += ", an example; state what you measured"
    for label, text in (("may be", allowed(p)), ("starter", starter), ("where", "the shop file")):
        lines += _labelled(f"  {label:<{_LABEL}}", text)
    return "\n".join(lines) + "\n"


def _listing(schema: Schema, sections: Iterable[str]) -> Iterator[str]:
    for section in sections:
        record = schema.sections[section]
        parameters = parameters_of(record)
        yield f"[{section}]  {title_of(record)}"
        width = max(len(p.name) for p in parameters)
        for p in parameters:
            yield from _labelled(f"  {p.name:<{width}}  ", p.meaning)
        yield ""
    yield "`templates-gen explain SECTION.KEY` explains one of them."


def _parameter(parameter: Parameter, names: list[str]) -> Iterator[str]:
    letter = f" ({parameter.letter})" if parameter.letter else ""
    yield f"{parameter.key}{letter}"
    yield from _labelled("  ", parameter.meaning)
    yield ""
    for label, text in _facts(parameter):
        yield from _labelled(f"  {label:<{_LABEL}}", text)
    yield ""
    usual = {name: families.bands(name)[parameter.key] for name in names}
    yield from _table(parameter, usual)
    yield ""
    for letter in basis_letters(usual[names[0]].basis):
        yield from _labelled(f"  {'basis ' + letter:<{_LABEL}}", BASIS.get(letter, "unknown"))


def _facts(parameter: Parameter) -> Iterator[tuple[str, str]]:
    yield "may be", allowed(parameter)
    if parameter.tol:
        tolerance = with_unit(plain(parameter.tol), parameter.unit)
        yield "tolerance", f"± {tolerance}, unless the file states another"
    yield "when scaled", f"it {when_scaled(parameter)}"
    if parameter.stock is not None:
        yield "sizes", f"{parameter.stock.listed(parameter.low, parameter.high)} mm"
        yield "sizes by", parameter.stock.source
    if parameter.measured:
        yield "measured", "on the wood or the stock, so cures change it last"


def _table(parameter: Parameter, usual: dict[str, Band]) -> Iterator[str]:
    """Tabulate the bands of the families; for choices and points only the usual value."""
    if not parameter.numeric:
        for name, band in usual.items():
            word = written(band.usual) if parameter.choices else format_value(band.usual)
            yield f"  {name:<{_LABEL}}usually {word}"
        return
    unit = with_unit("", parameter.unit).strip()
    yield f"  {unit:<{_LABEL}}{'low':>8}{'usual':>8}{'high':>8}"
    for name, band in usual.items():
        cells = (_cell(value) for value in (band.low, band.usual, band.high))
        yield f"  {name:<{_LABEL}}{''.join(cells)}"


def _cell(value: float | str | Points | None) -> str:
    return f"{'' if value is None else written(value):>8}"


def _labelled(label: str, text: str) -> list[str]:
    """Wrap a text behind its label."""
    return wrapped(label, text, len(label)).split("\n")


def _unknown(key: str, schema: Schema, others: Sequence[str]) -> InputError:
    """Make the error for an unknown key, with the nearest keys and those with the same name."""
    named = [p.key for p in schema.parameters.values() if p.name == key]
    like = nearest(key, [*schema.parameters, *schema.sections, *others])
    near = list(dict.fromkeys(named + ([like] if like else [])))
    if near:
        cure = f"did you mean {' or '.join(near)}?"
    else:
        cure = "run `templates-gen explain` without a key to list all"
    kind = "parameter or check" if others else "parameter"
    return InputError([Fault("explain", None, "", f'"{clipped(key)}" is not a {kind}', cure)])
