"""Parameters of wood, metal, pearl and lapping."""

from enum import StrEnum

from templates_gen.mechanics.materials import Band
from templates_gen.parameters import FloatOrArray, Scale, choice, mm, quantity, section


class StickWood(StrEnum):
    """Wood of the stick; its properties are in the table of materials."""

    BOW_PERNAMBUCO = "bow-grade pernambuco"
    PERNAMBUCO = "pernambuco"
    SNAKEWOOD = "snakewood"
    IPE = "ipe"
    BULLETWOOD = "bulletwood"
    CUMARU = "cumaru"
    BLOODWOOD = "bloodwood"
    MEASURED = "measured"


class FrogWood(StrEnum):
    """Wood of frog and button."""

    EBONY = "ebony"
    SNAKEWOOD = "snakewood"
    HORN = "horn"
    MEASURED = "measured"


class Mounts(StrEnum):
    """Metal of ferrule, heel plate, underslide, rings and metal tip plate."""

    SILVER = "sterling silver"
    NICKEL_SILVER = "nickel silver"
    GOLD = "18 ct gold"
    BRASS = "brass"


class Pearl(StrEnum):
    """Material of the slide's facing and of the eyes."""

    PEARL = "mother-of-pearl"
    BONE = "bone"
    ACRYLIC = "acrylic"


class LappingKind(StrEnum):
    """Kind of lapping ahead of the leather."""

    NONE = "none"
    THREAD = "thread"
    SUBSTITUTE = "whalebone substitute"
    SILVER = "silver wire"


#: Usual thickness of each kind of lapping (mm). From memory: common practice, no source.
GAUGES = {
    LappingKind.THREAD: Band(0.2, 0.3, 0.4),
    LappingKind.SUBSTITUTE: Band(0.4, 0.5, 0.7),
    LappingKind.SILVER: Band(0.25, 0.28, 0.3),
}
_GAUGES = ", ".join(f"{kind} {band.low:g} to {band.high:g}" for kind, band in GAUGES.items())


@section("material", "Materials")
class Material:
    """Woods, metal and pearl."""

    stick_wood: StickWood = choice(
        "Wood of the stick; counts as measured if its density and modulus are given", StickWood
    )
    stick_density: FloatOrArray = quantity(
        "Density of the stick's wood (where it is measured)",
        unit="kg/m³",
        low=600,
        high=1500,
        scale=Scale.CHARACTER,
        tol=10,
        measured=True,
    )
    stick_modulus: FloatOrArray = quantity(
        "Modulus of elasticity of the stick's wood along the grain (where it is measured)",
        unit="GPa",
        low=8,
        high=45,
        scale=Scale.CHARACTER,
        tol=0.5,
        measured=True,
    )
    frog_wood: FrogWood = choice(
        "Wood of frog and button; counts as measured if its density is given", FrogWood
    )
    frog_density: FloatOrArray = quantity(
        "Density of the frog's wood (where it is measured)",
        unit="kg/m³",
        low=600,
        high=2000,
        scale=Scale.CHARACTER,
        tol=10,
        measured=True,
    )
    mounts: Mounts = choice("Metal of ferrule, heel plate, underslide, rings and tip plate", Mounts)
    pearl: Pearl = choice("Facing of the slide, and the eyes", Pearl)
    pearl_thickness: FloatOrArray = mm(
        "Thickness of the slide's facing; the rest of the slide is ebony",
        low=0.2,
        high=3,
        scale=Scale.NEVER,
        tol=0.1,
    )


@section("lapping", "Lapping")
class Lapping:
    """The lapping, from the leather's front edge toward the head."""

    kind: LappingKind = choice("Kind of lapping", LappingKind)
    length: FloatOrArray = mm("Length along the stick", low=10, high=200, scale=Scale.HAND, tol=1.0)
    gauge: FloatOrArray = mm(
        f"Thickness of the wire, thread or strip: {_GAUGES}",
        low=0.05,
        high=1.5,
        scale=Scale.NEVER,
        tol=0.01,
    )
