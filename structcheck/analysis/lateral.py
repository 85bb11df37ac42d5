"""Lateral torsional buckling of one straight beam by elastic stability: beam elements that bend sideways and twist.

The section is symmetric about the plane of the loads or about the axis it bends about. Sideways displacement v and
twist phi are cubics on each element; the potential is

    1/2 int (EI_z v''^2 + EI_w phi''^2 + GI_t phi'^2) dx + k ( int M phi v'' dx - 1/2 sum F z phi^2 )

for loads k F standing z above the shear centre (above: on the side they come from). Units N, mm, MPa.
"""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from structcheck.analysis.beam import BeamSolution, Load, PointLoad, UniformLoad
from structcheck.errors import NotCovered

ELEMENTS = 16
_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(4)


def critical_factor(
    solution: BeamSolution,
    *,
    EIz: float,
    EIw: float,
    GIt: float,
    height: float,
    held: Sequence[float] = (),
) -> float:
    """The factor on all loads at which the beam buckles sideways.

    solution  the beam bent in its own plane
    height    of every load above the shear centre, against the way it pushes (mm); positive makes it worse
    held      places held sideways and against twisting, besides the supports (mm)

    Supports hold against moving sideways and twisting, free to turn and warp ("fork"); the root of a cantilever is
    clamped sideways but free to warp, its tip is free. Raises NotCovered where no load bends the beam.
    """
    nodes = _nodes(solution, held)
    K, G = _matrices(solution, nodes, EIz, EIw, GIt, height)
    free = _free(solution, nodes, held)
    K, G = K[np.ix_(free, free)], G[np.ix_(free, free)]
    lower = np.linalg.cholesky(K)
    inverse = np.linalg.inv(lower)
    least = np.linalg.eigvalsh(inverse @ -G @ inverse.T)[-1]
    if least <= 0:
        raise NotCovered("nothing bends this beam")
    return float(1 / least)


def _nodes(solution: BeamSolution, held: Sequence[float]) -> np.ndarray:
    breaks = {0.0, solution.span, *held}
    for load in solution.loads:
        breaks.update((load.start, load.end) if isinstance(load, UniformLoad) else (load.at,))
    nodes = [0.0]
    for start, end in pairwise(sorted(breaks)):
        count = max(1, round(ELEMENTS * (end - start) / solution.span))
        nodes += list(np.linspace(start, end, count + 1)[1:])
    return np.array(nodes)


def _hermite(s: float, length: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The four cubics at s in 0 to 1, with first and second derivatives by x."""
    N = np.array([1 - 3 * s**2 + 2 * s**3, length * (s - 2 * s**2 + s**3), 3 * s**2 - 2 * s**3, length * (s**3 - s**2)])
    d = np.array([-6 * s + 6 * s**2, length * (1 - 4 * s + 3 * s**2), 6 * s - 6 * s**2, length * (3 * s**2 - 2 * s)])
    dd = np.array([-6 + 12 * s, length * (-4 + 6 * s), 6 - 12 * s, length * (6 * s - 2)])
    return N, d / length, dd / length**2


def _matrices(
    solution: BeamSolution, nodes: np.ndarray, EIz: float, EIw: float, GIt: float, height: float
) -> tuple[np.ndarray, np.ndarray]:
    """Stiffness, and what one times the loads adds to it; unknowns v, v', phi, phi' at each node."""
    size = 4 * len(nodes)
    K, G = np.zeros((size, size)), np.zeros((size, size))
    for number, (start, end) in enumerate(pairwise(nodes)):
        length = end - start
        base = 4 * number
        v = np.array([base, base + 1, base + 4, base + 5])
        phi = v + 2
        for point, weight in zip((_POINTS + 1) / 2, _WEIGHTS / 2 * length, strict=True):
            N, d, dd = _hermite(point, length)
            x = start + point * length
            K[np.ix_(v, v)] += weight * EIz * np.outer(dd, dd)
            K[np.ix_(phi, phi)] += weight * (EIw * np.outer(dd, dd) + GIt * np.outer(d, d))
            coupled = weight * float(solution.M(x)) * np.outer(N, dd)
            G[np.ix_(phi, v)] += coupled
            G[np.ix_(v, phi)] += coupled.T
            G[np.ix_(phi, phi)] -= weight * height * _intensity(solution.loads, x) * np.outer(N, N)
    for load in solution.loads:
        if isinstance(load, PointLoad):
            twist = 4 * int(np.argmin(np.abs(nodes - load.at))) + 2
            G[twist, twist] -= load.force * height
    return K, G


def _intensity(loads: Sequence[Load], x: float) -> float:
    return sum(load.intensity for load in loads if isinstance(load, UniformLoad) and load.start < x < load.end)


def _free(solution: BeamSolution, nodes: np.ndarray, held: Sequence[float]) -> np.ndarray:
    fixed = set()
    cantilever = solution.supports == "cantilever"
    supports = [0.0] if cantilever else [0.0, solution.span]
    for place in (*supports, *held):
        node = 4 * int(np.argmin(np.abs(nodes - place)))
        fixed |= {node, node + 2}
    if cantilever:
        fixed.add(1)
    return np.array([k for k in range(4 * len(nodes)) if k not in fixed])
