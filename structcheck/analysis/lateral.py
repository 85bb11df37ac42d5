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

ELEMENTS = 8
"""Elements of a span without breaks; the factor is then at most 0.1 % too high."""

_NEAR, _FAR = (np.sqrt(3 / 7 + sign * 2 / 7 * np.sqrt(6 / 5)) for sign in (-1, 1))
_POINTS = np.array([-_FAR, -_NEAR, _NEAR, _FAR])
_WEIGHTS = (18 + np.sqrt(30) * np.array([-1, 1, 1, -1])) / 36
"""Gauss' four points, which are exact for the cubics."""

SLIVER = 1e-3
"""Share of the span below which two places are one."""

Numbers = float | np.ndarray


def critical_factor(
    solution: BeamSolution,
    *,
    EIz: Numbers,
    EIw: Numbers,
    GIt: Numbers,
    height: Numbers,
    held: Sequence[float] = (),
    elements: int = ELEMENTS,
) -> Numbers:
    """The factor on all loads at which the beam buckles sideways.

    solution  the beam bent in its own plane, of one stiffness
    EIz, EIw, GIt  stiffnesses, numbers or arrays (one entry for each section tried)
    height    of every load above the shear centre, against the way it pushes (mm); positive makes it worse
    held      places held sideways and against twisting, besides the supports (mm)
    elements  of a span without breaks

    Supports hold against moving sideways and twisting, free to turn and warp ("fork"); the root of a cantilever is
    clamped sideways but free to warp, its tip is free. Infinite where nothing makes the beam buckle.
    """
    nodes = _nodes(solution, held, elements)
    free = _free(solution, nodes, held)
    parts = (matrix[np.ix_(free, free)] for matrix in _matrices(solution, nodes))
    sideways, warping, twisting, bending, lifting = parts
    EIz, EIw, GIt, height = (np.asarray(value, float)[..., None, None] for value in (EIz, EIw, GIt, height))
    K = EIz * sideways + EIw * warping + GIt * twisting
    G = bending - height * lifting
    inverse = np.linalg.inv(np.linalg.cholesky(K))
    most = np.linalg.eigvalsh(-inverse @ G @ np.swapaxes(inverse, -1, -2))[..., -1]
    with np.errstate(divide="ignore"):
        factor = np.where(most > 0, 1 / most, np.inf)
    return float(factor) if np.ndim(factor) == 0 else factor


def _nodes(solution: BeamSolution, held: Sequence[float], elements: int) -> np.ndarray:
    breaks = {0.0, solution.span}
    loaded = (place for load in solution.loads for place in _places(load))
    for place in (*held, *loaded):
        # A sliver of an element would spoil the arithmetic and moves nothing.
        if min(abs(place - known) for known in breaks) > SLIVER * solution.span:
            breaks.add(place)
    nodes = [0.0]
    for start, end in pairwise(sorted(breaks)):
        count = max(2, round(elements * (end - start) / solution.span))
        nodes += list(np.linspace(start, end, count + 1)[1:])
    return np.array(nodes)


def _places(load: Load) -> tuple[float, ...]:
    return (load.start, load.end) if isinstance(load, UniformLoad) else (load.at,)


def _cubics(length: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The four cubics of each element at its Gauss points, with both derivatives by x; (elements, 4, points)."""
    s, one = (_POINTS + 1) / 2, np.ones_like(length)
    by_value, by_slope = np.outer(one, [1.0, 0.0, 1.0, 0.0]), np.outer(length, [0.0, 1.0, 0.0, 1.0])
    scale = (by_value + by_slope)[..., None]
    N = [1 - 3 * s**2 + 2 * s**3, s - 2 * s**2 + s**3, 3 * s**2 - 2 * s**3, s**3 - s**2]
    d = [-6 * s + 6 * s**2, 1 - 4 * s + 3 * s**2, 6 * s - 6 * s**2, 3 * s**2 - 2 * s]
    dd = [-6 + 12 * s, -4 + 6 * s, 6 - 12 * s, 6 * s - 2]
    long = length[:, None, None]
    return scale * np.array(N), scale * np.array(d) / long, scale * np.array(dd) / long**2


def _matrices(solution: BeamSolution, nodes: np.ndarray) -> np.ndarray:
    """int v''^2, int phi''^2, int phi'^2, int M phi v'' (both ways round) and the sum of F phi^2, in that order.

    Unknowns are v, v', phi, phi' at each node.
    """
    length = np.diff(nodes)
    N, d, dd = _cubics(length)
    x = nodes[:-1, None] + (_POINTS + 1) / 2 * length[:, None]
    weight = (_WEIGHTS / 2 * length[:, None])[:, None]
    bent = (weight * dd) @ dd.swapaxes(1, 2)
    coupled = (weight * solution.M(x.ravel()).reshape(x.shape)[:, None] * N) @ dd.swapaxes(1, 2)
    spread = _intensity(solution.loads, x)[:, None]
    size, v = 4 * len(nodes), 4 * np.arange(len(length))[:, None] + np.array([0, 1, 4, 5])
    phi = v + 2
    found = np.zeros((5, size, size))
    for kind, rows, columns, values in (
        (0, v, v, bent),
        (1, phi, phi, bent),
        (2, phi, phi, (weight * d) @ d.swapaxes(1, 2)),
        (3, phi, v, coupled),
        (3, v, phi, coupled.swapaxes(1, 2)),
        (4, phi, phi, (weight * spread * N) @ N.swapaxes(1, 2)),
    ):
        np.add.at(found[kind], (rows[:, :, None], columns[:, None, :]), values)
    for load in solution.loads:
        if isinstance(load, PointLoad):
            twist = 4 * int(np.argmin(np.abs(nodes - load.at))) + 2
            found[4][twist, twist] += load.force
    return found


def _intensity(loads: Sequence[Load], x: np.ndarray) -> np.ndarray:
    spread = np.zeros_like(x)
    for load in loads:
        if isinstance(load, UniformLoad):
            spread += load.intensity * ((load.start < x) & (x < load.end))
    return spread


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
