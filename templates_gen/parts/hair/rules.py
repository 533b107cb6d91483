"""The clearances of the hair itself."""

from templates_gen.checks.rule import Bound, Severity, at, at_most, rule
from templates_gen.checks.solid import NotMeasured
from templates_gen.parameters import Pattern
from templates_gen.parts.hair.dims import HairDims


@rule(
    "hair.thickness",
    "the ribbon is thin enough to spread evenly",
    severity=Severity.WARNING,
    basis="common practice, no source",
    place=at("ferrule-mandrel", HairDims, lambda d: (0.0, d.thickness / 2)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def thickness(p: Pattern) -> Bound:
    return at_most(p.derive(HairDims).thickness, 0.9)


RULES = (thickness,)
