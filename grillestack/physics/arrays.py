"""What the functions of this package take and give: numbers of any shape, broadcast against each other."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Values: TypeAlias = npt.NDArray[np.float64]
Numbers: TypeAlias = float | Values


def clamped(numbers: Numbers, lowest: float, highest: float) -> Values:
    """Give the numbers as float64, those outside lowest to highest moved to the nearer end; same shape."""
    return np.minimum(np.maximum(np.asarray(numbers, dtype=np.float64), lowest), highest)
