"""The number types of the package: a float, an array of floats, and a number that may be either."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

#: An array of floats.
Floats = NDArray[np.float64]
#: A float, or an array of floats where many patterns are judged in one call. The array is declared
#: as ``Any``, so that mypy accepts the number where a drawing needs a float: drawings take their
#: dimensions from ``Pattern.scalars``, in which every number is a float.
FloatOrArray = float | Any
