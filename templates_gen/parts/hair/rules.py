"""Rules of the hair itself."""

from templates_gen.checks import Bound, NotMeasured, Severity, at_most, rule
from templates_gen.parts.hair.dims import HairDims


@rule(
    "hair.thickness",
    "the ribbon is thin enough to spread evenly",
    dims=HairDims,
    severity=Severity.WARNING,
    basis="common practice, no source",
    place=("ferrule-mandrel", lambda d: (0.0, d.thickness / 2)),
    solid=NotMeasured("the hair is not built as a solid"),
)
def thickness(d: HairDims) -> Bound:
    return at_most(d.thickness, 0.9)
