"""Rules of the bending form."""

from __future__ import annotations

from templates_gen.checks import Bound, NotMeasured, at_least, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.form.dims import FormDims

PRACTICE = "common practice, no source"


@rule(
    "form.holes",
    "enough wood remains between the form's holes and its bending edge",
    dims=Pattern,
    basis=PRACTICE,
    place=("form-bending", lambda p: curves.edge(p).path.end),
    solid=NotMeasured("the form is not built as a solid"),
)
def holes(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).over_edge, 6.0)


@rule(
    "form.beyond",
    "the form is long enough beyond the camber to clamp the ends of the stick",
    dims=Pattern,
    basis=PRACTICE,
    place=("form-bending", lambda p: curves.edge(p).path.start),
    solid=NotMeasured("the form is not built as a solid"),
)
def beyond(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).params.beyond, 6.0)
