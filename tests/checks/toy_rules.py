"""Rules whose worst corner and cure can be calculated by hand."""

from __future__ import annotations

from toy_parameters import SCHEMA, Arch, Ferrule, Hair

from templates_gen.checks.judge import judge
from templates_gen.checks.rule import Severity, at_least, at_most, rule
from templates_gen.parameters import Identity, Pattern
from templates_gen.parameters.families import FAMILIES

VALUES = {
    "ferrule.outer_width": 22.5,
    "ferrule.height": 10.5,
    "ferrule.arch_kind": Arch.SEGMENT,
    "hair.count": 280.0,
    "hair.lean_deg": 0.0,
    "hair.width": 20.0,
    "ferrule.sections": (),
    "outline.end": (),
}


def pattern(tolerances=None, **changes):
    """Make a toy pattern; ``height=9`` changes ferrule.height, ``count=7`` hair.count."""
    keys = {key.partition(".")[2]: key for key in VALUES}
    values = VALUES | {keys[name]: value for name, value in changes.items()}
    return Pattern(SCHEMA, Identity("Toy", "A", FAMILIES["viola"]), values, tolerances)


def results(p, *rules):
    return [judge(r, p) for r in rules]


@rule("toy.spare", "the width is at least the ribbon and one", dims=Pattern, basis="a toy")
def spare(p):
    return at_least(p[Ferrule].outer_width, p[Hair].width + 1)


@rule("toy.slim", "the width is at most the ribbon and two", dims=Pattern, basis="a toy")
def slim(p):
    return at_most(p[Ferrule].outer_width, p[Hair].width + 2)


@rule("toy.few", "there are at most 250 hairs", dims=Pattern, basis="a toy", unit="1")
def few(p):
    return at_most(p[Hair].count, 250)


@rule(
    "toy.warned",
    "there are at most 250 hairs",
    dims=Pattern,
    basis="a toy",
    severity=Severity.WARNING,
)
def warned(p):
    return few.bound(p)


@rule("toy.impossible", "the height is more than its range allows", dims=Pattern, basis="a toy")
def impossible(p):
    return at_least(p[Ferrule].height, 17.0)


@rule("toy.quotient", "ten over the height's excess of ten is enough", dims=Pattern, basis="a toy")
def quotient(p):
    return at_least(10 / (p[Ferrule].height - 10), 1.0)


@rule("toy.root", "a root is enough", dims=Pattern, basis="a toy")
def root(p):
    return at_least((p[Ferrule].height - 10) ** 0.5, 0.2)
