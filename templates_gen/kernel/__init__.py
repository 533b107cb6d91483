"""CadQuery solids; no other package imports CadQuery."""

from __future__ import annotations

from templates_gen.errors import EnvironmentFault


def open_kernel() -> None:
    """Import CadQuery, or report what the machine lacks.

    Raises:
        EnvironmentFault: CadQuery or a library it needs is not installed.
    """
    import gc

    # Garbage collection during the import takes a third of its time.
    gc.disable()
    try:
        import cadquery  # noqa: F401
    except ImportError as e:
        raise EnvironmentFault(
            f"the solid modeller does not start ({e}); on Debian install it with "
            "'apt-get install libgl1', or draw with --plane"
        ) from e
    finally:
        gc.enable()
