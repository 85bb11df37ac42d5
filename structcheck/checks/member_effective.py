"""Effective cross-section of class 4 (EN 1993-1-5 section 4): what is left when the slender parts have buckled."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from structcheck.checks.member_class import internal_factor, outstand_factor
from structcheck.errors import NotCovered
from structcheck.record import record
from structcheck.shapes.shape import Element
from structcheck.standards.en1993_1_1 import classification
from structcheck.standards.en1993_1_5 import plates

SOURCE = f"{plates.CODE} 4.4"


@record
class Effective:
    """Properties of the effective section about its own centroid, mm.

    e_y, e_z  how far the centroid has moved from that of the gross section
    W_y, W_z  least moduli, at the edges of the gross outline
    rho       the least effective share of any part
    """

    A: float
    e_y: float
    e_z: float
    Iy: float
    Iz: float
    W_y: float
    W_z: float
    rho: float


@record
class _Strip:
    """A piece of an element that no longer carries: area, centre, and width along y and z."""

    A: float
    y: float
    z: float
    along_y: float
    along_z: float


_Compression = Callable[[tuple[float, float]], float]


def effective(section: Any, f_y: float, *, N: float = 0.0, M_y: float = 0.0, M_z: float = 0.0) -> Effective:
    """The effective section under one action alone, compression positive, its parts stressed to f_y.

    Flanges are reduced by the stresses of the gross section, then webs by those of the section with the reduced
    flanges (4.4(3)). Raises NotCovered for round tubes.
    """
    if any(element.kind == "tube" for element in section.elements):
        raise NotCovered("a class 4 round tube buckles as a shell (EN 1993-1-6), which is not covered here")
    first = [e for e in section.elements if e.role != "web"]
    webs = [e for e in section.elements if e.role == "web"]
    gross = _properties(section, [], 1.0)
    epsilon = classification.epsilon(f_y)
    strips, rho = _reduced(section, first, epsilon, _stress(gross, N, M_y, M_z))
    halfway = _properties(section, strips, rho)
    more, rho_web = _reduced(section, webs, epsilon, _stress(halfway, N, M_y, M_z))
    return _properties(section, strips + more, min(rho, rho_web))


def _stress(of: Effective, N: float, M_y: float, M_z: float) -> _Compression:
    return lambda point: N / of.A + M_y * (point[1] - of.e_z) / of.Iy + M_z * (point[0] - of.e_y) / of.Iz


def _reduced(
    section: Any, elements: Sequence[Element], epsilon: float, stress: _Compression
) -> tuple[list[_Strip], float]:
    strips, least = [], 1.0
    for element in elements:
        if element.kind == "solid":
            continue
        start, end = stress(element.start), stress(element.end)
        if max(start, end) <= 1e-9 * (abs(start) + abs(end)):
            continue
        rho, gaps = (_internal if element.kind == "internal" else _outstand)(section, element, epsilon, start, end)
        least = min(least, rho)
        strips += [_strip(element, low, high) for low, high in gaps if high > low]
    return strips, least


_Gaps = list[tuple[float, float]]


def _internal(section: Any, element: Element, epsilon: float, start: float, end: float) -> tuple[float, _Gaps]:
    """Effective share and the gap in it, as shares of c from the start (Table 4.1)."""
    psi = min(start, end) / max(start, end)
    lambda_p = plates.plate_slenderness(element.c, element.t, epsilon, float(internal_factor(psi)))
    if lambda_p <= 0.5 + math.sqrt(max(0.085 - 0.055 * psi, 0.0)):
        return 1.0, []
    rho = plates.internal_reduction(lambda_p, max(psi, -3.0))
    compressed = 1.0 if psi >= 0 else 1 / (1 - psi)
    near = (2 / (5 - psi) if psi >= 0 else 0.4) * rho * compressed
    far = rho * compressed - near
    gap = (near, compressed - far)
    return rho, [gap if start >= end else (1 - gap[1], 1 - gap[0])]


def _outstand(section: Any, element: Element, epsilon: float, start: float, end: float) -> tuple[float, _Gaps]:
    """Effective share and the gap in it, as shares of c from the root (Table 4.2)."""
    psi = min(start, end) / max(start, end)
    tip_most = end >= start
    # An angle's leg counts from the heel (4.4(2)).
    width = element.c if element.role != "leg" else max(abs(a - b) for a, b in _leg_extent(section, element))
    lambda_p = plates.plate_slenderness(width, element.t, epsilon, float(outstand_factor(psi, tip_most)))
    if lambda_p <= 0.748:
        return 1.0, []
    rho = plates.outstand_reduction(lambda_p)
    if psi >= 0:
        return rho, [(rho, 1.0)]
    compressed = 1 / (1 - psi)
    # The tension zone stays; of the compressed part rho is left, beside the zero of stress or at the root.
    if tip_most:
        return rho, [(1 - compressed + rho * compressed, 1.0)]
    return rho, [(rho * compressed, compressed)]


def _leg_extent(section: Any, element: Element) -> tuple[tuple[float, float], tuple[float, float]]:
    left, right, bottom, top = section.edges
    upright = abs(element.end[1] - element.start[1]) > abs(element.end[0] - element.start[0])
    return ((top, bottom), (0.0, 0.0)) if upright else ((right, left), (0.0, 0.0))


def _strip(element: Element, low: float, high: float) -> _Strip:
    (y_1, z_1), (y_2, z_2) = element.start, element.end
    middle, share = (low + high) / 2, high - low
    return _Strip(
        element.c * share * element.t,
        y_1 + (y_2 - y_1) * middle,
        z_1 + (z_2 - z_1) * middle,
        (y_2 - y_1) * share,
        (z_2 - z_1) * share,
    )


def _properties(section: Any, strips: Sequence[_Strip], rho: float) -> Effective:
    """The gross section less the strips, about the centroid that remains."""
    A = section.A - sum(s.A for s in strips)
    e_y, e_z = (-sum(s.A * getattr(s, axis) for s in strips) / A for axis in ("y", "z"))
    Iy = section.Iy - sum(s.A * (s.z**2 + s.along_z**2 / 12) for s in strips) - A * e_z**2
    Iz = section.Iz - sum(s.A * (s.y**2 + s.along_y**2 / 12) for s in strips) - A * e_y**2
    left, right, bottom, top = section.edges
    W_y = Iy / max(top - e_z, e_z - bottom)
    W_z = Iz / max(right - e_y, e_y - left)
    return Effective(A, e_y, e_z, Iy, Iz, W_y, W_z, rho)


def worst_moduli(section: Any, f_y: float) -> tuple[float, float, float]:
    """(W_y, W_z, rho): the lesser of bending either way about each axis, mm3."""
    about_y = [effective(section, f_y, M_y=sign) for sign in (1.0, -1.0)]
    about_z = [effective(section, f_y, M_z=sign) for sign in (1.0, -1.0)]
    rho = min(one.rho for one in (*about_y, *about_z))
    return min(one.W_y for one in about_y), min(one.W_z for one in about_z), rho


def without_area(section: Any, strips: Sequence[tuple[float, float, float]]) -> Effective:
    """A section with (area, y, z) taken out of it, such as holes: properties about the centroid that remains."""
    gone = [_Strip(A, y, z, 0.0, 0.0) for A, y, z in strips]
    return replace(_properties(section, gone, 1.0), rho=1.0)
