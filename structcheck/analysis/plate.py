"""Thin rectangular plates in bending, on edges, bearers and points, under rectangular patches.

Kirchhoff's theory by conforming bicubic elements (Bogner, Fox and Schmit). On a rectangular mesh the stiffness is a sum
of products of one-dimensional Hermite matrices, so that supports along a line are dropped unknowns of one direction.
Where plate and load are alike on both sides of the middle, one half is solved and mirrored.

x runs along the length from the left edge, y across the width from the lower edge. w and loads are positive downward,
moments per width are positive sagging. N, mm, MPa.
"""

from collections.abc import Mapping, Sequence
from dataclasses import field

import numpy as np

from structcheck.analysis.hermite import Hermite, mesh
from structcheck.errors import InputError, Mechanism, Problem
from structcheck.record import record

SIDES = ("left", "right", "lower", "upper")
NU = 0.3


@record
class Patch:
    """A force spread evenly over a rectangle; its middle and its sides, mm. A side of 0 is a line or a point."""

    force: float
    x: float
    y: float
    along: float
    across: float


@record
class Plate:
    """A plate and what holds it down.

    length, width, t  mm
    edges      side -> "simple" or "clamped"; a side not named is free
    bearers    positions x of rigid lines across the whole width; the plate may turn over them
    points     (x, y) of rigid points
    """

    length: float
    width: float
    t: float
    edges: Mapping[str, str] = field(default_factory=dict)
    bearers: tuple[float, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    E: float = 210_000.0
    nu: float = NU

    @property
    def D(self) -> float:
        """Bending stiffness per width, N mm."""
        return self.E * self.t**3 / (12 * (1 - self.nu**2))


@record
class PlateSolution:
    """Deflection and moments at the nodes of the mesh, and the force of each bearer.

    x, y            mesh lines, mm
    w               deflection, mm, shape (x, y)
    m_x, m_y, m_xy  moments per width, N
    bearer_forces   N, pressing the plate up, in the order of the bearers
    """

    x: np.ndarray
    y: np.ndarray
    w: np.ndarray
    m_x: np.ndarray
    m_y: np.ndarray
    m_xy: np.ndarray
    bearer_forces: tuple[float, ...]

    @property
    def out_of_flat(self) -> float:
        """Between the highest and the lowest place of the plate, mm."""
        return float(self.w.max() - self.w.min())

    @property
    def greatest_moment(self) -> float:
        """Greatest von Mises moment per width, N: the moment that makes the same comparative stress alone."""
        return float(np.sqrt(self.m_x**2 + self.m_y**2 - self.m_x * self.m_y + 3 * self.m_xy**2).max())

    def at(self, table: np.ndarray, x: float, y: float) -> float:
        """An entry of one of the tables at the node nearest to (x, y)."""
        return float(table[np.argmin(abs(self.x - x)), np.argmin(abs(self.y - y))])


def solve_plate(plate: Plate, patches: Sequence[Patch], cells: tuple[int, int] = (12, 8)) -> PlateSolution:
    """Deflections, moments and bearer forces. `cells` is about the number of elements along and across.

    Raises Mechanism where the supports let the plate move, InputError where a patch is not on the plate.
    """
    _refuse_outside(plate, patches)
    _refuse_mechanism(plate)
    X = mesh(plate.length, cells[0], [*plate.bearers, *(p[0] for p in plate.points), *_ends(patches, "x", "along")])
    Y = mesh(plate.width, cells[1], [*(p[1] for p in plate.points), *_ends(patches, "y", "across")])
    X, Y = X.half() if _alike(plate, patches, 0) else X, Y.half() if _alike(plate, patches, 1) else Y
    load = sum(
        np.outer(X.load(p.x, p.along), Y.load(p.y, p.across)) * (p.force / (max(p.along, 1.0) * max(p.across, 1.0)))
        if p.along and p.across
        else np.outer(X.load(p.x, p.along) / (p.along or 1.0), Y.load(p.y, p.across) / (p.across or 1.0)) * p.force
        for p in patches
    )
    free = _free(plate, X, Y)
    blocks = _blocks(plate.nu, X, Y)
    unknowns = _solve(X, Y, blocks, load / plate.D, free)
    return _read(plate, X, Y, blocks, unknowns, load)


def _refuse_outside(plate: Plate, patches: Sequence[Patch]) -> None:
    problems = []
    for patch in patches:
        for key, at, side, size in (
            ("along", patch.x, patch.along, plate.length),
            ("across", patch.y, patch.across, plate.width),
        ):
            if not (side >= 0 and at - side / 2 >= -1e-6 and at + side / 2 <= size + 1e-6):
                problems.append(Problem(key, f"{side:g} mm at {at:g} mm", "is not on the plate", f"within {size:g} mm"))
    if problems:
        raise InputError(problems)


def _alike(plate: Plate, patches: Sequence[Patch], axis: int) -> bool:
    """Whether supports and loads are mirror images about the middle of the length (axis 0) or of the width (1)."""
    sides, size = (SIDES[:2], plate.length) if axis == 0 else (SIDES[2:], plate.width)

    def mirror_images(places: Sequence[tuple[float, ...]], at: int) -> bool:
        seen = sorted(tuple(round(value, 6) for value in place) for place in places)
        turned = ((*place[:at], size - place[at], *place[at + 1 :]) for place in places)
        return seen == sorted(tuple(round(value, 6) for value in place) for place in turned)

    return (
        plate.edges.get(sides[0]) == plate.edges.get(sides[1])
        and (axis == 1 or mirror_images([(x,) for x in plate.bearers], 0))
        and mirror_images(plate.points, axis)
        and mirror_images([(p.x, p.y, p.along, p.across, p.force) for p in patches], axis)
    )


def _ends(patches: Sequence[Patch], middle: str, side: str) -> list[float]:
    found = []
    for patch in patches:
        at, half = getattr(patch, middle), getattr(patch, side) / 2
        found += [at - half, at, at + half]
    return found


def _free(plate: Plate, X: Hermite, Y: Hermite) -> np.ndarray:
    """Which unknowns, (x function, y function), no support holds. On a line of symmetry nothing slopes across it."""
    free = np.ones((2 * len(X.lines), 2 * len(Y.lines)), dtype=bool)
    for side, of, mirrored, line in (
        ("left", free, False, 0),
        ("right", free, X.mirrored, -2),
        ("lower", free.T, False, 0),
        ("upper", free.T, Y.mirrored, -2),
    ):
        how = "mirrored" if mirrored else plate.edges.get(side)
        for offset in {None: (), "simple": (0,), "clamped": (0, 1), "mirrored": (1,)}[how]:
            of[line + offset] = False
    for place in plate.bearers:
        if X.share(place):
            free[2 * X.index(place)] = False
    for x, y in plate.points:
        if X.share(x) and Y.share(y):
            free[2 * X.index(x), 2 * Y.index(y)] = False
    return free


def _solve(X: Hermite, Y: Hermite, blocks: np.ndarray, load: np.ndarray, free: np.ndarray) -> np.ndarray:
    """Unknowns of the plate of unit stiffness, by elimination from line to line (only neighbours meet)."""
    n, width = len(X.lines), 4 * len(Y.lines)
    keep = free.reshape(n, width)
    right = np.where(free, load, 0.0).reshape(n, width)
    heres = np.where(keep[:, :, None] & keep[:, None, :], blocks[0], np.eye(width))
    links = np.where(keep[1:, :, None] & keep[:-1, None, :], blocks[1, 1:], 0.0)
    pivot, force, carried = heres[0], right[0], []
    for here, link, other in zip(heres[1:], links, right[1:], strict=True):
        both = np.linalg.solve(pivot, np.column_stack([link.T, force]))
        carried.append(both)
        reduced = link @ both
        pivot, force = here - reduced[:, :-1], other - reduced[:, -1]
    found = np.empty((n, width))
    found[-1] = np.linalg.solve(pivot, force)
    for k in range(n - 2, -1, -1):
        found[k] = carried[k][:, -1] - carried[k][:, :-1] @ found[k + 1]
    return found.reshape(free.shape)


def _blocks(nu: float, X: Hermite, Y: Hermite) -> np.ndarray:
    """Stiffness for D = 1 of the unknowns of each line across the plate to its own, [0], and to the line before, [1].

    Shape (2, lines of X, width, width); the first line has none before it.
    """
    n, width = len(X.lines), 4 * len(Y.lines)
    along = np.stack([X.curve, X.mass, nu * X.mixed, nu * X.mixed.T, 2 * (1 - nu) * X.slope])
    across = np.stack([Y.mass, Y.curve, Y.mixed.T, Y.mixed, Y.slope])
    lines = along.reshape(5, n, 2, n, 2)
    k = np.arange(n)
    picked = np.stack([lines[:, k, :, k], lines[:, k, :, k - 1]])
    product = np.tensordot(picked, across, axes=(2, 0))
    return product.transpose(0, 1, 2, 4, 3, 5).reshape(2, n, width, width)


def _refuse_mechanism(plate: Plate) -> None:
    """The three motions of a rigid plate (sinking, two tilts) must all be held."""
    a, b = plate.length, plate.width
    held = [(1.0, x / a, y / b) for x, y in plate.points]
    held += [(1.0, x / a, end) for x in plate.bearers for end in (0.0, 1.0)]
    for side, ends, turn in (
        ("left", ((0.0, 0.0), (0.0, 1.0)), (0.0, 1.0, 0.0)),
        ("right", ((1.0, 0.0), (1.0, 1.0)), (0.0, 1.0, 0.0)),
        ("lower", ((0.0, 0.0), (1.0, 0.0)), (0.0, 0.0, 1.0)),
        ("upper", ((0.0, 1.0), (1.0, 1.0)), (0.0, 0.0, 1.0)),
    ):
        how = plate.edges.get(side)
        held += [(1.0, *end) for end in ends] if how else []
        held += [turn] if how == "clamped" else []
    if not held or np.linalg.matrix_rank(np.array(held), tol=1e-6) < 3:
        raise Mechanism("the plate can move or tip: it needs supports on at least three places not in one line")


def _read(
    plate: Plate, X: Hermite, Y: Hermite, blocks: np.ndarray, unknowns: np.ndarray, load: np.ndarray
) -> PlateSolution:
    D, nu = plate.D, plate.nu
    w_xx, w_yy = X.second @ unknowns[:, ::2], unknowns[::2] @ Y.second.T
    pressed = np.array([_bearer_force(D, X, place, blocks, unknowns, load) for place in plate.bearers])
    solution = PlateSolution(
        X.lines,
        Y.lines,
        unknowns[::2, ::2],
        -D * (w_xx + nu * w_yy),
        -D * (w_yy + nu * w_xx),
        -D * (1 - nu) * unknowns[1::2, 1::2],
        tuple((pressed * (2 if Y.mirrored else 1)).tolist()),
    )
    return _unfolded(_unfolded(solution, X, 0), Y, 1)


def _bearer_force(
    D: float, X: Hermite, place: float, blocks: np.ndarray, unknowns: np.ndarray, load: np.ndarray
) -> float:
    """What a bearer adds to the loads of its line, N; of one in the mirrored half, what its image adds."""
    share = X.share(place)
    k = X.index(place if share else X.whole - place)
    lines = unknowns.reshape(len(X.lines), -1)
    row = blocks[0, k] @ lines[k]
    if k:
        row = row + blocks[1, k] @ lines[k - 1]
    if k < len(lines) - 1:
        row = row + blocks[1, k + 1].T @ lines[k + 1]
    missing = load[2 * k, ::2] - D * row[: unknowns.shape[1]][::2]
    return float(missing.sum()) / (share or 1.0)


def _unfolded(half: PlateSolution, mesh: Hermite, axis: int) -> PlateSolution:
    """The whole plate, where one half of it was solved; the twisting moment turns its sign with the side."""
    if not mesh.mirrored:
        return half
    other = (slice(-2, None, -1), slice(None))[:: 1 if axis == 0 else -1]
    lines = np.concatenate([mesh.lines, mesh.whole - mesh.lines[-2::-1]])
    w, m_x, m_y = (np.concatenate([table, table[other]], axis) for table in (half.w, half.m_x, half.m_y))
    m_xy = np.concatenate([half.m_xy, -half.m_xy[other]], axis)
    x, y = (lines, half.y) if axis == 0 else (half.x, lines)
    return PlateSolution(x, y, w, m_x, m_y, m_xy, half.bearer_forces)
