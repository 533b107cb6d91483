"""What follows for the bending form.

Frame: x = 0 over the ferrule's front, toward the head, along the straight edge between the ends of
the camber; z away from the hair. The stick's underside lies below that edge by its camber.
"""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parameters import Pattern
from templates_gen.parts.form.params import Form
from templates_gen.parts.stick.dims import StickDims


@dataclass(frozen=True)
class FormDims:
    """Derived dimensions of the form; its curves are in ``dims_curves``."""

    stated: Form
    stick: StickDims

    @classmethod
    def of(cls, p: Pattern) -> FormDims:
        return cls(p[Form], p.derive(StickDims))
