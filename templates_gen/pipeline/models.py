"""Give a script the outlines and solids of a pattern, as objects that CadQuery takes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Literal, get_args

from templates_gen import registry
from templates_gen.drawing import Layer
from templates_gen.errors import Fault, InputError
from templates_gen.geometry import Path
from templates_gen.kernel import objects
from templates_gen.kernel import solids as kernel
from templates_gen.parameters import Pattern, nearest
from templates_gen.pipeline import rendering, selection, solids

if TYPE_CHECKING:
    from templates_gen.kernel.objects import Assembly, Wire, Workplane

#: A place of the frog's travel: where it stands in play, and both ends.
At = Literal["play", "rearmost", "foremost"]
#: CadQuery's names of the planes, and the axis each is square to.
_SQUARE_TO: dict[str, Literal["x", "y", "z"]] = {"XY": "z", "XZ": "y", "YZ": "x"}


class Outline(Path):
    """A closed outline of lines and arcs, with what CadQuery needs to build on it.

    ``vertices`` are (x, y, bulge) in mm: the bulge is the tangent of a quarter of the arc's angle,
    0 for a line. ``length`` (mm), ``area`` (mm²), ``box`` and ``centroid`` are measured exactly.
    """

    def to_wire(self, plane: Literal["XY", "XZ", "YZ"] = "XY", at: float = 0.0) -> Wire:
        """Convert the outline to a CadQuery wire; arcs stay arcs.

        Args:
            plane: the plane it lies in; its x and y run along the plane's two letters.
            at: the distance of the plane from the origin (mm).

        Returns:
            A closed ``cadquery.Wire``.

        Raises:
            EnvironmentFault: the solid modeller does not start.

        Example:
            >>> import cadquery as cq
            >>> import templates_gen as tg
            >>> wire = tg.outline(tg.new("violin"), "ferrule", "mandrel").to_wire("YZ")
            >>> plate = cq.Workplane("YZ").add(wire).toPending().extrude(3)
            >>> plate.solids().size()
            1
        """
        return kernel.wire(self, _SQUARE_TO[plane], at)

    def __repr__(self) -> str:
        left, bottom, right, top = self.box
        size = f"{right - left:.2f} × {top - bottom:.2f} mm"
        return f"<Outline of {len(self.vertices)} lines and arcs, {size}>"


def outline(p: Pattern, part: str, name: str = "") -> Outline:
    """Return the outline that a template cuts, exactly as it is drawn.

    Args:
        p: the pattern.
        part: the part, ``frog``.
        name: the view, ``side``: with the part it is the template's name, ``frog-side``. Some
            parts have a template of their own name; leave it out for those.

    Returns:
        The largest closed outline of the template's first view, in the part's own frame (mm).

    Raises:
        InputError: no such template, or it cuts nothing.
        GeometryError: these dimensions give no valid shape.

    Example:
        >>> import templates_gen as tg
        >>> side = tg.outline(tg.new("bass-french"), "frog", "side")
        >>> side
        <Outline of 16 lines and arcs, 59.70 × 30.50 mm>
        >>> round(side.length, 1), round(side.area)
        (201.7, 1471)
    """
    full = f"{part}-{name}" if name else part
    there = {t.name: t for t in selection.templates(p)}
    if full not in there:
        raise _unknown("outline", full, there, "tg.templates(p) lists them")
    first = rendering.views(p, there[full])[0]
    cuts = [s.path for s in first.strokes if s.layer is Layer.OUTLINE and s.path.closed]
    if not cuts:
        problem, cure = "this template cuts nothing", "choose another template"
        raise InputError([Fault("outline", None, full, problem, cure)])
    largest = max(cuts, key=lambda path: abs(path.area))
    return Outline(largest.vertices, largest.closed)


def solid(p: Pattern, part: str) -> Workplane:
    """Build one part as a CadQuery solid, in its own frame.

    Args:
        p: the pattern; its checks may fail.
        part: ``frog``, ``ferrule``, ``slide``, ``stick``, ``head``, ``button`` …

    Returns:
        A CadQuery ``Workplane`` that holds the one solid (mm).

    Raises:
        InputError: this pattern has no solid of that name.
        GeometryError, KernelError: these dimensions give no valid shape.
        EnvironmentFault: the solid modeller does not start.

    Example:
        >>> import templates_gen as tg
        >>> button = tg.solid(tg.new("viola"), "button")
        >>> button.solids().size(), button.val().isValid()
        (1, True)
    """
    known = [b.part for b in registry.builders() if b.recipe(p) is not None]
    if part not in known:
        raise _unknown("solid", part, known)
    return objects.workplane(solids.solids(p, {part})[part])


def assembly(p: Pattern, at: At = "play") -> Assembly:
    """Build every part and assemble the bow, with a straight stick.

    Args:
        p: the pattern; its checks may fail.
        at: where the frog stands on its travel, ``play``, ``rearmost`` or ``foremost``.

    Returns:
        A CadQuery ``Assembly``, each part under its name, in the stick's frame: x from the butt to
        the head, z from hair to stick, z = 0 on the stick's axis (mm).

    Raises:
        InputError: no such place.
        GeometryError, KernelError: these dimensions give no valid shape.
        EnvironmentFault: the solid modeller does not start.

    Example:
        >>> import templates_gen as tg
        >>> bow = tg.assembly(tg.new("violin"), at="rearmost")
        >>> "frog" in bow.objects and "head" in bow.objects
        True
    """
    if at not in get_args(At):
        raise _unknown("place", at, get_args(At))
    return objects.assembly(p.identity.name, solids.assembled(p, solids.solids(p), at))


def _unknown(kind: str, name: str, known: Iterable[str], cure: str = "") -> InputError:
    """Build the error for an unknown name, with the nearest name and all that exist."""
    like = nearest(name, known)
    near = f"; the nearest is {like}" if like else ""
    problem = f"this pattern has no such {kind}{near}"
    return InputError([Fault(kind, None, name, problem, cure or f"choose from {', '.join(known)}")])
