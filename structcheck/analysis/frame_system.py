"""The equations of a whole frame: assembled, solved once for all cases, and checked."""

from collections.abc import Sequence

import numpy as np

from structcheck.analysis.frame_arrays import Structure
from structcheck.analysis.frame_element import condense, elastic, jointed_stiffness, transformation
from structcheck.analysis.frame_lines import fixed_end_forces, zone_loads
from structcheck.analysis.frame_loads import Loads, end_forces_from_planes
from structcheck.analysis.frame_mechanism import free_motion
from structcheck.errors import Mechanism, StructcheckError
from structcheck.record import record

RESIDUAL_TOLERANCE = 1e-9
"""Largest |K u - f| allowed, as a share of the sizes of f and of K u, after scaling K to a diagonal of ones."""

EQUILIBRIUM_TOLERANCE = 1e-6
"""Largest force or moment left over allowed, at a free node or in the whole, as a share of the forces at work."""

_NOTHING = 1e-200
"""Loads below this are no loads; numbers near the smallest a computer knows round badly."""

_SOFT = 1e10
"""Answer of the scaled system to a unit load above which its eigenvalues are looked at."""


@record
class Matrices:
    """Stiffness of the members of a structure and of the whole; m members, f free directions."""

    T: np.ndarray  # (m, 12, 12) node displacements, global, into those of the faces, local
    flexible: np.ndarray  # (m, 12, 12) stiffness of the flexible parts, local
    follow: np.ndarray  # (r, 12, 12) C of the jointed members
    give: np.ndarray  # (r, 12, 12) D of the jointed members
    members: np.ndarray  # (m, 12, 12) stiffness between the nodes, global
    scale: np.ndarray  # (f,) makes the diagonal one, as it would be without releases
    whole: np.ndarray  # (f, f) stiffness of the free directions, scaled from both sides


def assemble(
    structure: Structure,
    added: np.ndarray | None = None,
    at_nodes: np.ndarray | None = None,
    like: Matrices | None = None,
) -> Matrices:
    """Stiffness matrices; `added` goes onto the flexible parts, `at_nodes` onto the nodes of members (local axes).

    like  those of a structure that differs in its joints only, with nothing added
    """
    T, k = (transformation(structure), elastic(structure)) if like is None else (like.T, like.flexible)
    Tt = np.swapaxes(T, 1, 2)
    if added is not None:
        k = k + added
    follow = give = np.zeros((0, 12, 12))
    if len(structure.jointed):
        follow, give = condense(structure, k)
    members = Tt @ (jointed_stiffness(structure, k, follow) @ T)
    if at_nodes is not None:
        R = turning(structure)
        members = members + np.swapaxes(R, 1, 2) @ at_nodes @ R
    blocks = members
    if len(structure.spring_rows):
        b = structure.spring_rows
        springs = structure.spring_stiffness[:, None, None] * b[:, :, None] * b[:, None, :]
        blocks = np.concatenate([members, springs])
    scale = _scale(structure, T, k, blocks)
    whole = gather_matrix(structure, blocks, scale)
    free = structure.free
    whole.ravel()[:: len(whole) + 1] += structure.ground[free] * scale[free] ** 2
    return Matrices(T, k, follow, give, members, scale[free], whole)


def turning(structure: Structure) -> np.ndarray:
    """Global into local axes for the twelve displacements of a member; (m, 12, 12)."""
    R = np.zeros((len(structure.length), 12, 12))
    for first in (0, 3, 6, 9):
        R[:, first : first + 3, first : first + 3] = structure.axes
    return R


def gather_matrix(structure: Structure, blocks: np.ndarray, scale: np.ndarray) -> np.ndarray:
    """Matrices of members and springs, global, summed into that of the free directions; scale is (6 n,)."""
    count = len(structure.free)
    own = scale[structure.all_dofs]
    weights = blocks * own[:, :, None] * own[:, None, :]
    total = np.bincount(structure.scatter, weights=weights.ravel(), minlength=count * count + 1)
    return total[:-1].reshape(count, count)


def _scale(structure: Structure, T: np.ndarray, k: np.ndarray, blocks: np.ndarray) -> np.ndarray:
    """One over the root of the diagonal, (6 n,), as it would be if no member were released."""
    own = np.diagonal(blocks, axis1=1, axis2=2)
    number = structure.jointed
    if len(number):
        own = own.copy()
        own[number] = np.sum((k[number] @ T[number]) * T[number], axis=1)
    total = np.bincount(structure.all_dofs.ravel(), np.abs(own).ravel(), len(structure.held)) + structure.ground
    return 1 / np.sqrt(np.where(total > 0, total, 1.0))


def solve_system(structure: Structure, matrices: Matrices, loads: np.ndarray) -> np.ndarray:
    """Displacements of the free directions, (f, c), for loads (f, c); one factorisation.

    Raises Mechanism where the structure moves without straining, StructcheckError where the answer is not good enough.
    """
    count = len(matrices.whole)
    if count == 0:
        return np.zeros_like(loads)
    S, scale = matrices.whole, matrices.scale[:, None]
    # One more right-hand side, with a little of every direction, shows whether anything moves almost freely.
    right = np.empty((count, loads.shape[1] + 1))
    np.multiply(loads, scale, out=right[:, :-1])
    right[:, -1] = structure.probe
    try:
        y = np.linalg.solve(S, right)
    except np.linalg.LinAlgError:
        y = np.full_like(right, np.inf)
    if not np.abs(y[:, -1]).max() < _SOFT and (motion := free_motion(structure, S)):
        raise Mechanism(motion)
    y, right = y[:, :-1], right[:, :-1]
    size = np.abs(right).max(axis=0) + np.abs(y).max(axis=0)
    residual = np.abs(S @ y - right).max(axis=0) / np.maximum(size, _NOTHING)
    worst = float(residual.max())
    if not worst <= RESIDUAL_TOLERANCE:
        raise StructcheckError(
            f"the equations of the frame are not solved well enough: residual {worst:.1e} of the forces, "
            f"allowed {RESIDUAL_TOLERANCE:.0e}; stiffnesses of members or springs differ too much"
        )
    return y * scale


@record
class Fixed:
    """Forces on clamped members; c cases."""

    flexible: np.ndarray  # (m, 12, c) on the ends of the flexible parts, local
    nodes: np.ndarray  # (m, 12, c) on the nodes, joints and zone loads included, global


def fixed_forces(structure: Structure, matrices: Matrices, loads: Loads, like: Fixed | None = None) -> Fixed:
    """What every member puts on its nodes' side when the nodes are held; `like`: with other joints, the same loads."""
    runs = loads.runs
    if not runs.loaded:
        nothing = np.zeros((len(structure.length), 12, loads.nodal.shape[1]))
        return Fixed(nothing, nothing)
    flexible = end_forces_from_planes(fixed_end_forces(structure, runs)) if like is None else like.flexible
    faces = flexible
    number = structure.jointed
    if len(number):
        faces = flexible.copy()
        own = flexible[number]
        faces[number] = own - matrices.flexible[number] @ (matrices.give @ own)
    nodes = np.swapaxes(matrices.T, 1, 2) @ faces
    if structure.offsets.any():
        nodes = nodes - np.swapaxes(turning(structure), 1, 2) @ end_forces_from_planes(zone_loads(runs))
    return Fixed(flexible, nodes)


def node_sums(structure: Structure, ends: np.ndarray, springs: np.ndarray) -> np.ndarray:
    """Forces of members (m, 12, c) and of springs (s, c) summed over the nodes; (6 n, c)."""
    total = np.zeros((len(structure.held), ends.shape[2]))
    np.add.at(total, structure.dofs, ends)
    if len(springs):
        np.add.at(total, structure.spring_dofs, structure.spring_rows[:, :, None] * springs[:, None])
    return total


@record
class Answer:
    """What the equations give; all directions, c cases."""

    moves: np.ndarray  # (6 n, c)
    flexible: np.ndarray  # (m, 12, c) displacements of the ends of the flexible parts, local
    ends: np.ndarray  # (m, 12, c) forces on the ends of members at their nodes, global
    springs: np.ndarray  # (s, c)
    reactions: np.ndarray  # (6 n, c) what the ground gives, springs to the ground included


def beside(answers: Sequence[Answer]) -> Answer:
    """The cases of several answers side by side."""
    parts = ("moves", "flexible", "ends", "springs", "reactions")
    return Answer(*(np.concatenate([getattr(one, part) for one in answers], axis=-1) for part in parts))


def answer(
    structure: Structure, matrices: Matrices, fixed: Fixed, loads: Loads, axial: np.ndarray | None = None
) -> Answer:
    """Solve, find the end forces and reactions, and check the equilibrium of every node and of the whole.

    axial  (m,) axial forces whose geometric stiffness is in the matrices: they turn with the members
    """
    moves = loads.moves.copy()
    pushed = loads.nodal - node_sums(structure, fixed.nodes, np.zeros((0,)))
    if moves.any():
        stretch = _stretch(structure, moves) * structure.spring_stiffness[:, None]
        pushed = pushed - node_sums(structure, matrices.members @ moves[structure.dofs], stretch)
    moves[structure.free] = solve_system(structure, matrices, pushed[structure.free])
    ends = matrices.members @ moves[structure.dofs] + fixed.nodes
    springs = _stretch(structure, moves) * structure.spring_stiffness[:, None]
    ground = -structure.ground[:, None] * moves
    left = node_sums(structure, ends, springs) - loads.nodal
    reactions = np.where(structure.held[:, None], left, ground)
    flexible = _flexible_ends(structure, matrices, fixed, moves)
    size = _sizes(structure, ends, loads)
    _check_nodes(structure, left - reactions, size)
    turned = 0.0 if axial is None else _turned(structure, axial, flexible, moves)
    _check_whole(structure, reactions, loads, turned, size)
    return Answer(moves, flexible, ends, springs, reactions)


def _flexible_ends(structure: Structure, matrices: Matrices, fixed: Fixed, moves: np.ndarray) -> np.ndarray:
    ends = matrices.T @ moves[structure.dofs]
    number = structure.jointed
    if len(number):
        ends[number] = matrices.follow @ ends[number] - matrices.give @ fixed.flexible[number]
    return ends


def _stretch(structure: Structure, moves: np.ndarray) -> np.ndarray:
    return np.einsum("sk,skc->sc", structure.spring_rows, moves[structure.spring_dofs])


def _sizes(structure: Structure, ends: np.ndarray, loads: Loads) -> np.ndarray:
    """Sizes of the forces and of the moments at work; (2, c). A force counts as a moment on the longest member."""
    by_kind = np.abs(ends).reshape(len(ends), 2, 2, 3, -1).sum(axis=(0, 1, 3))
    size = by_kind + loads.size
    reach = structure.length.max()
    return np.maximum(np.stack([size[0] + size[1] / reach, size[1] + size[0] * reach]), _NOTHING)


def _check_nodes(structure: Structure, left: np.ndarray, size: np.ndarray) -> None:
    share = np.abs(left).reshape(-1, 2, 3, left.shape[1]) / size[:, None]
    worst = float(share.max(initial=0.0))
    if not worst <= EQUILIBRIUM_TOLERANCE:
        node = list(structure.node_index)[int(np.nanargmax(share.max(axis=(1, 2, 3))))]
        raise _not_in_equilibrium(f'node "{node}"', worst)


def _turned(structure: Structure, axial: np.ndarray, flexible: np.ndarray, moves: np.ndarray) -> np.ndarray:
    """Moment of the axial forces on the ends of members that no longer lie in line; (3, c), global."""
    turns = turning(structure) @ moves[structure.dofs]
    first, last = structure.offsets[:, :1], structure.offsets[:, 1:]
    # Along y rotations about z lift the far end, along z rotations about y lower it.
    y = flexible[:, 7] - flexible[:, 1] + first * turns[:, 5] + last * turns[:, 11]
    z = flexible[:, 8] - flexible[:, 2] - first * turns[:, 4] - last * turns[:, 10]
    local = axial[:, None, None] * np.stack([0 * y, z, -y], axis=1)
    return np.sum(np.swapaxes(structure.axes, 1, 2) @ local, axis=0)


def _check_whole(
    structure: Structure, reactions: np.ndarray, loads: Loads, turned: np.ndarray | float, size: np.ndarray
) -> None:
    total = loads.resultant + structure.sums @ reactions
    total[3:] += turned
    share = np.abs(total).reshape(2, 3, -1) / size[:, None]
    worst = float(share.max(initial=0.0))
    if not worst <= EQUILIBRIUM_TOLERANCE:
        raise _not_in_equilibrium("the whole frame", worst)


def _not_in_equilibrium(what: str, worst: float) -> StructcheckError:
    return StructcheckError(
        f"{what} is not in equilibrium: {worst:.1e} of the forces at work is left over, "
        f"allowed {EQUILIBRIUM_TOLERANCE:.0e}; stiffnesses of members or springs differ too much"
    )
