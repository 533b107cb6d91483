"""The tassel's rule."""

from templates_gen.parts.tassel.dims import TasselDims

from templates_gen.checks.rule import Bound, at_least, rule


@rule("tassel.rim", "the rim is too wide for the hair to tear", dims=TasselDims, basis="a toy")
def rim(d: TasselDims) -> Bound:
    return at_least(d.rim, d.hair.thickness)
