"""Least collapse load of a plate that yields along the edges of a mesh of triangles, by linear programming.

Johansen's criterion: a hinge along any edge bears the plastic moment per length, taken as 1. An upper bound that falls
with a finer mesh (method of Munro and Da Fonseca 1978, recalled).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_matrix, hstack, identity, vstack

TINY = 1e-9


@dataclass(frozen=True)
class Mesh:
    """Rectangles cut by both their diagonals: nodes (n, 2), triangles (k, 3)."""

    nodes: np.ndarray
    triangles: np.ndarray

    def nearest(self, x: float, y: float) -> int:
        """The node at this point."""
        return int(np.argmin(np.hypot(self.nodes[:, 0] - x, self.nodes[:, 1] - y)))


def cut(points: Sequence[float], step: float) -> np.ndarray:
    """From point to point in even steps of about this size."""
    pieces = [np.linspace(a, b, max(2, round((b - a) / step) + 1))[1:] for a, b in pairwise(points) if b > a]
    return np.concatenate([[points[0]], *pieces])


def mesh(xs: np.ndarray, ys: np.ndarray) -> Mesh:
    """Rectangles between these lines."""
    nodes = [(x, y) for x in xs for y in ys]
    triangles = []
    for i in range(len(xs) - 1):
        for j in range(len(ys) - 1):
            a, b = i * len(ys) + j, (i + 1) * len(ys) + j
            corners, middle = (a, b, b + 1, a + 1), len(nodes)
            nodes.append(((xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2))
            triangles += [(u, v, middle) for u, v in zip(corners, (*corners[1:], a), strict=True)]
    return Mesh(np.array(nodes), np.array(triangles))


def hinges(made: Mesh, held: Callable[[np.ndarray], bool]) -> tuple[csr_matrix, np.ndarray]:
    """Turning of every hinge from the deflections, and its length; an outer edge is one where it is `held`."""
    edges: dict[tuple[int, int], list[int]] = {}
    for a, b, c in made.triangles:
        for u, v, third in ((a, b, c), (b, c, a), (c, a, b)):
            edges.setdefault((min(u, v), max(u, v)), []).append(third)
    rows, columns, values, sizes = [], [], [], []
    for (u, v), thirds in edges.items():
        start, along = made.nodes[u], made.nodes[v] - made.nodes[u]
        size = float(np.hypot(*along))
        if len(thirds) == 1 and not held(start + along / 2):
            continue
        for third in thirds:
            apart = made.nodes[third] - start
            height = abs(along[0] * apart[1] - along[1] * apart[0]) / size
            foot = float(apart @ along) / size**2
            rows += [len(sizes)] * 3
            columns += [third, u, v]
            values += [1 / height, -(1 - foot) / height, -foot / height]
        sizes.append(size)
    return csr_matrix((values, (rows, columns)), shape=(len(sizes), len(made.nodes))), np.array(sizes)


def collapse(
    made: Mesh,
    held: Callable[[np.ndarray], bool],
    fixed: Sequence[int],
    load: np.ndarray,
    *,
    alike: Sequence[Sequence[int]] = (),
    most: float = np.inf,
) -> float:
    """Least work of the hinges at which the load does unit work.

    fixed  nodes that do not move; alike: sets of nodes that move together; most: no node moves further
    """
    turning, sizes = hinges(made, held)
    n, m = len(made.nodes), len(sizes)
    pairs = [(group[0], other) for group in alike for other in group[1:]]
    together = csr_matrix(
        ([1.0, -1.0] * len(pairs), (np.repeat(np.arange(len(pairs)), 2), np.ravel(pairs).astype(int))),
        shape=(len(pairs), n),
    )
    moves = vstack([csr_matrix(load), together])
    equations = vstack(
        [hstack([turning, -identity(m), identity(m)]), hstack([moves, csr_matrix((moves.shape[0], 2 * m))])]
    )
    right = np.concatenate([np.zeros(m), [1.0], np.zeros(len(pairs))])
    low, high = np.concatenate([np.full(n, -np.inf), np.zeros(2 * m)]), np.full(n + 2 * m, np.inf)
    high[:n] = most
    low[list(fixed)] = high[list(fixed)] = 0.0
    cost = np.concatenate([np.zeros(n), sizes, sizes])
    bounds = np.column_stack([low, high])
    return linprog(cost, A_eq=equations, b_eq=right, bounds=bounds, method="highs-ipm").fun
