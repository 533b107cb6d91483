"""The clearances of the bending form."""

from __future__ import annotations

from templates_gen.checks.rule import Bound, at, at_least, rule
from templates_gen.checks.solid import NotMeasured
from templates_gen.parameters import Pattern
from templates_gen.parts.form.dims import FormDims

PRACTICE = "common practice, no source"


@rule(
    "form.holes",
    "the form is deep enough for its holes: wood between them and the edge at its thin end",
    basis=PRACTICE,
    place=at("form-bending", FormDims, lambda d: (d.stick.chord, 0.0)),
    solid=NotMeasured("the form is no solid"),
)
def holes(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).over_edge, 6.0)


@rule(
    "form.beyond",
    "the form runs on beyond the camber far enough to clamp the stick's ends",
    basis=PRACTICE,
    place=at("form-bending", FormDims, lambda d: (0.0, 0.0)),
    solid=NotMeasured("the form is no solid"),
)
def beyond(p: Pattern) -> Bound:
    return at_least(p.derive(FormDims).stated.beyond, 6.0)


RULES = (holes, beyond)
