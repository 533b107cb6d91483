"""The clearances of the tassel."""

from templates_gen.parts.tassel.dims import TasselDims

from templates_gen.checks.rule import Bound, at_least, rule
from templates_gen.parameters import Pattern


@rule("tassel.rim", "the hair does not tear the rim", basis="a toy")
def rim(p: Pattern) -> Bound:
    d = p.derive(TasselDims)
    return at_least(d.rim, d.hair.thickness)


RULES = (rim,)
