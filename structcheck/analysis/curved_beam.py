"""Bending of a strongly curved bar by Winkler and Bach: plane sections, stress falling off with the radius.

The bar is bent in the plane of its curvature; its section is symmetric about that plane and given as layers from the
inner radius outwards. The neutral axis lies nearer the centre of curvature than the centroid, so the inner fibre is
stressed more than a straight bar's. Valid for solid sections; thin flanges of a curved I or box also bend across, which
this does not give. Units N, mm, MPa.
"""

from collections.abc import Sequence
from math import isfinite, log

import numpy as np

from structcheck.errors import InputError, Problem
from structcheck.maths import maximum
from structcheck.record import record

Numbers = float | np.ndarray


@record
class CurvedSection:
    """A section of a curved bar.

    inner, outer  radii of its edges
    area          mm2
    r_centroid    radius of the centroid
    r_neutral     radius where bending leaves no stress
    """

    inner: float
    outer: float
    area: float
    r_centroid: float
    r_neutral: float

    @property
    def eccentricity(self) -> float:
        """From the centroid to the neutral axis, towards the centre of curvature, mm."""
        return self.r_centroid - self.r_neutral

    def stress(self, r: float, N: Numbers, M: Numbers) -> Numbers:
        """Stress along the bar at radius r: N pulls, at the centroid; M opens the bar (stretches its inside)."""
        return N / self.area + M * (self.r_neutral - r) / (self.area * self.eccentricity * r)

    def inner_stress(self, N: Numbers, M: Numbers) -> Numbers:
        """Stress at the inner edge, MPa."""
        return self.stress(self.inner, N, M)

    def outer_stress(self, N: Numbers, M: Numbers) -> Numbers:
        """Stress at the outer edge, MPa."""
        return self.stress(self.outer, N, M)

    def greatest(self, N: Numbers, M: Numbers) -> Numbers:
        """The larger size of stress of the two edges, MPa."""
        return maximum(abs(self.inner_stress(N, M)), abs(self.outer_stress(N, M)))


def curved(inner: float, layers: Sequence[tuple[float, float]]) -> CurvedSection:
    """A section from its inner radius and its layers (width, height) outwards.

    Raises InputError where a measure is not above zero: a sharp corner has no finite stress.
    """
    sizes = [("radius", inner), *(("width", w) for w, _ in layers), *(("height", h) for _, h in layers)]
    for key, value in sizes:
        if not (isfinite(value) and value > 0):
            fault = "leaves a sharp corner, where the stress has no limit" if key == "radius" else "is no size"
            raise InputError(Problem(key, f"{value:g} mm", fault, "a length above zero", f'{key} = "20 mm"'))
    r, area, moment, inverse = inner, 0.0, 0.0, 0.0
    for width, height in layers:
        area += width * height
        moment += width * height * (r + height / 2)
        inverse += width * log((r + height) / r)
        r += height
    return CurvedSection(inner, r, area, moment / area, area / inverse)


def curved_rectangle(thickness: float, inner: float, depth: float) -> CurvedSection:
    """A plate `thickness` thick whose inner edge has the radius `inner`, `depth` deep in the plane of bending."""
    return curved(inner, [(thickness, depth)])
