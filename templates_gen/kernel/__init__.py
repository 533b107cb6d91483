"""CadQuery solids; no other package imports CadQuery, and it is loaded at its first use."""

from __future__ import annotations

import gc
from typing import Any

from templates_gen.errors import EnvironmentFault


def open_kernel() -> Any:
    """Import CadQuery, or report what the machine lacks.

    Raises:
        EnvironmentFault: CadQuery or a library it needs is not installed.
    """
    # Garbage collection during the import takes a third of its time.
    gc.disable()
    try:
        import cadquery
    except ImportError as e:
        raise EnvironmentFault(
            f"the solid modeller does not start ({e}); on Debian install it with "
            "'apt-get install libgl1', or draw with --plane"
        ) from e
    finally:
        gc.enable()
    return cadquery


class _CadQuery:
    """CadQuery, imported when the first of its names is read."""

    def __getattr__(self, name: str) -> Any:
        found = getattr(open_kernel(), name)
        setattr(self, name, found)  # the next look-up costs nothing
        return found


#: The modules of this package write ``cq.Vector`` as if they had imported CadQuery.
cq: Any = _CadQuery()
