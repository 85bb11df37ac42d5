"""The roots of many falling functions at once."""

from collections.abc import Callable
from typing import Any

import numpy as np


def falling_root(left: Callable[[Any], Any], most: Any) -> Any:
    """Where `left`, positive at nothing, comes to nothing up to `most`; a little less, entry by entry.

    Regula falsi with the stale end's weight halved (Illinois), until every range is within 1e-12 of `most`.
    """
    low, high = 0.0 * most, most + 0.0
    f_low, f_high = left(low), np.minimum(left(high), 0.0)
    hair = 4e-13 * most
    raised = np.zeros(np.shape(most), dtype=int)  # the end that moved last: 1 the lower, -1 the upper
    for _ in range(60):
        if np.all(high - low <= 1e-12 * most):
            break
        share = f_low / (f_low - f_high)
        # Never nearer to an end than a hair, so that both ends close in.
        k = np.clip(low + share * (high - low), low + hair, high - hair)
        f = left(k)
        holds = f >= 0
        f_high = np.where(holds, np.where(raised == 1, f_high / 2, f_high), f)
        f_low = np.where(holds, f, np.where(raised == -1, f_low / 2, f_low))
        raised = np.where(holds, 1, -1)
        low, high = np.where(holds, k, low), np.where(holds, high, k)
    return low
