"""Rules of the lapping; no template cuts it, so they only warn."""

import numpy as np

from templates_gen.checks import Bound, NotMeasured, Severity, at_most, not_applicable, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims


@rule(
    "lapping.gauge_usual",
    "the lapping is about as thick as is usual for its kind (distance from the middle of the "
    "usual range)",
    dims=Pattern,
    severity=Severity.WARNING,
    basis="from memory: common practice, no source",
    spare=0.0,
    solid=NotMeasured("the lapping is not built as a solid"),
)
def gauge_usual(p: Pattern) -> Bound:
    """Widen the range by the tolerance: stock of a nominal thickness counts as that thickness."""
    d = p.derive(MaterialDims)
    gauge, usual = d.lapping.gauge, d.usual_gauge
    if usual is None:
        return not_applicable()
    middle, half = (usual.low + usual.high) / 2, (usual.high - usual.low) / 2
    return at_most(np.abs(gauge - middle), half + p.tolerance("lapping.gauge"))
