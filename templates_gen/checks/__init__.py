"""Rules, what they measure on solids, and how they are judged.

A part's ``rules.py`` imports from here and from its own part::

    from templates_gen.checks import Bound, at_least, gap, rule
    from templates_gen.parts.slide.dims import SlideDims
"""

from templates_gen.checks.cure import Cure, candidate_cures, cure, first_harmless
from templates_gen.checks.judge import Result, changed_keys, headline, judge, rejudge
from templates_gen.checks.rule import (
    Bound,
    Place,
    Rule,
    Severity,
    at_least,
    at_most,
    not_applicable,
    rule,
)
from templates_gen.checks.solid import (
    Along,
    Axis,
    Extent,
    Gap,
    Land,
    Measure,
    NotMeasured,
    Pose,
    Radius,
    gap,
)

__all__ = [
    "Along",
    "Axis",
    "Bound",
    "Cure",
    "Extent",
    "Gap",
    "Land",
    "Measure",
    "NotMeasured",
    "Place",
    "Pose",
    "Radius",
    "Result",
    "Rule",
    "Severity",
    "at_least",
    "at_most",
    "candidate_cures",
    "changed_keys",
    "cure",
    "first_harmless",
    "gap",
    "headline",
    "judge",
    "not_applicable",
    "rejudge",
    "rule",
]
