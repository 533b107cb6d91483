"""The clearances of the bending form."""

from __future__ import annotations

from templates_gen.checks.rule import Bound, at_least, rule
from templates_gen.checks.solid import NotMeasured
from templates_gen.parameters import Pattern
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.form.dims import FormDims

PRACTICE = "common practice, no source"


@rule(
    "form.holes",
    "the form is deep enough for its holes: wood between them and the edge at its thin end",
    dims=Pattern,
    basis=PRACTICE,
    place=("form-bending", lambda p: curves.edge(p).path.end),
    solid=NotMeasured("the form is not built as a solid"),
)
def holes(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).over_edge, 6.0)


@rule(
    "form.beyond",
    "the form runs on beyond the camber far enough to clamp the stick's ends",
    dims=Pattern,
    basis=PRACTICE,
    place=("form-bending", lambda p: curves.edge(p).path.start),
    solid=NotMeasured("the form is not built as a solid"),
)
def beyond(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).params.beyond, 6.0)
