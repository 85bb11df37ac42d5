"""Elastic critical load factors and second-order analysis of frames, from the geometric stiffness.

Only what axial forces do to bending is in it (and, where asked for, to twist); lateral torsional buckling is left to
the checks of members. Members are cut into pieces short enough for the accuracy stated; callers see whole members.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import inf

import numpy as np

from structcheck.analysis.frame import loads_of
from structcheck.analysis.frame_arrays import Structure, prepare
from structcheck.analysis.frame_check import unknown
from structcheck.analysis.frame_element import geometric, zone_geometric
from structcheck.analysis.frame_loads import Loads, forces_to_planes
from structcheck.analysis.frame_model import Frame, Load, NodeLoad, Vector
from structcheck.analysis.frame_result import Result
from structcheck.analysis.frame_split import Split, split
from structcheck.analysis.frame_system import (
    Answer,
    Matrices,
    answer,
    assemble,
    beside,
    fixed_forces,
    gather_matrix,
    turning,
)
from structcheck.errors import InputError, Mechanism, StructcheckError
from structcheck.record import record

LARGEST_FACTOR = 1e6
"""A critical factor beyond this is reported as infinite: the axial forces behind it are rounding errors."""

_PIECE_OF_CRITICAL = 0.6
"""Largest N l^2 / EI of a piece; the factor of a single member is then right to about 1 in 1000."""

_PIECE_OF_SECOND_ORDER = 0.15
"""The same; moments are then right to about 1 in 1000 up to nine tenths of the critical load."""

_PRESSED = 0.01
"""Share of the largest axial force below which a member is not taken to be pressed."""

_MOST_PIECES = 24
_STEPS = 60
_CONVERGED = 1e-9


@record
class Critical:
    """The lowest factor on all loads of a case at which the frame is in neutral equilibrium; infinite if there is none.

    mode  displacements x .. rz of the nodes, the largest movement 1; empty where the factor is infinite
    """

    factor: float
    mode: Mapping[str, np.ndarray]


def critical(frame: Frame, cases: Mapping[str, Sequence[Load]], wagner: bool = False) -> dict[str, Critical]:
    """Elastic critical load factor of every case, axial forces by first-order analysis.

    wagner  let axial forces work on the twist of members too; see frame_element.geometric
    Raises what `frame.solve` raises.
    """
    structure = prepare(frame)
    loads = loads_of(structure, cases)
    axial = _at_ends(structure, _first_order(structure, loads).ends).min(axis=0)
    found = {}
    for number, (case, own) in enumerate(cases.items()):
        counts = {name: 2 if axial[k, number] < 0 else 1 for name, k in structure.member_index.items()}
        coarse = _critical(split(structure, {case: own}, counts), wagner)
        if coarse.factor < inf:
            pushed = coarse.factor * np.minimum(axial[:, number], 0.0)
            # Two pieces at least: twist has no motion of its own inside a single one.
            finer = _counts(structure, pushed, _PIECE_OF_CRITICAL)
            counts = {name: max(count, finer[name]) for name, count in counts.items()}
            coarse = _critical(split(structure, {case: own}, counts), wagner)
        mode = {node: move for node, move in coarse.mode.items() if node in structure.node_index}
        found[case] = Critical(coarse.factor, mode)
    return found


def leaning(frame: Frame, loads: Sequence[Load], shape: Mapping[str, Vector]) -> tuple[list[NodeLoad], float]:
    """Forces that stand for a frame built out of true: N psi across both ends of every member that leans by psi.

    shape  node -> where it stands off its place, mm
    Returns them with the largest lean of a pressed member, rad. Raises what `frame.solve` raises.
    """
    structure = prepare(frame)
    axial = _axial(structure, _first_order(structure, loads_of(structure, {"": loads})).ends)[:, 0]
    pushes, largest = [], 0.0
    for k, member in enumerate(frame.members):
        along = structure.axes[k, 0]
        lean = np.subtract(shape[member.end], shape[member.start]) / structure.length[k]
        lean = lean - along * (along @ lean)
        if axial[k] < -_PRESSED * np.abs(axial).max():
            largest = max(largest, float(np.linalg.norm(lean)))
        x, y, z = (-axial[k] * lean).tolist()
        pushes += [NodeLoad(member.end, (x, y, z)), NodeLoad(member.start, (-x, -y, -z))]
    return pushes, largest


def lower_bound(structure: Structure, axial: np.ndarray, matrices: Matrices | None = None) -> float:
    """A factor on axial forces (m,), N, tension positive, below which no frame of these members buckles.

    One piece a member, and what that leaves out put beside it. Every deflection is the one that the ends' movements
    alone would give and a rest that leaves the ends as they are; their strain energies add, and of what the axial
    forces do, the root of the whole is at most the sum of the roots. So 1 / factor <= 1 / factor of the ends' movements
    + 1 / factor of a member between built-in ends: pinned ones where it is jointed, 0 where its joints slide across.
    Tension is not counted on. `matrices` are the structure's, where it was solved before.
    """
    pressed = np.minimum(axial, 0.0)
    if pressed.min(initial=0.0) == 0.0:
        return inf
    matrices = assemble(structure) if matrices is None else matrices
    root = np.linalg.inv(np.linalg.cholesky(matrices.whole))
    loosening = -root @ _geometric(structure, pressed, matrices, False) @ root.T
    ends = max(float(np.linalg.eigvalsh(0.5 * (loosening + loosening.T))[-1]), 0.0)
    between = np.full(len(axial), 4.0)
    between[structure.jointed] = 1.0
    # Engesser: shear takes its part of the critical force of a member.
    if len(structure.jointed):
        between[structure.jointed[np.isfinite(structure.joints[:, [1, 2, 7, 8]]).any(axis=1)]] = 0.0
    with np.errstate(divide="ignore"):
        bent = structure.flexible**2 / (between * np.pi**2 * structure.bending) + 1 / structure.sliding
    alone = float((-pressed * np.where(pressed < 0, bent.max(axis=0), 0.0)).max())
    return 1 / (ends + alone)


def second_order(
    frame: Frame, cases: Mapping[str, Sequence[Load]], bows: Mapping[str, tuple[float, float]] | None = None
) -> Result:
    """Solve every case with the axial forces acting on the displaced frame and the deflected members.

    bows  initial bow of a member (mm) along its local y and z, half a sine wave between the faces of its rigid zones

    The result answers like that of `frame.solve`; extremes of a member are those of all its pieces. Raises what
    `frame.solve` raises, and Mechanism where a case lies beyond the elastic critical load.
    """
    structure = prepare(frame)
    missing = [
        unknown("bows", name, structure.member_index) for name in bows or () if name not in structure.member_index
    ]
    if missing:
        raise InputError(missing)
    loads = loads_of(structure, cases)
    largest = np.abs(_at_ends(structure, _first_order(structure, loads).ends)).max(axis=(0, 2))
    counts = _counts(structure, largest, _PIECE_OF_SECOND_ORDER)
    for name in bows or ():
        counts[name] = max(counts.get(name, 1), 12)
    parts = split(structure, cases, counts, bows)
    fine = prepare(parts.frame, check=False)
    loads = loads_of(fine, parts.cases)
    start = _axial(fine, _first_order(fine, loads).ends)
    solved = [_iterate(fine, _one(loads, k), start[:, k]) for k in range(len(loads.names))]
    whole, axial, excess = _joined(fine, solved)
    return Result(fine, loads, whole, parts.pieces, axial, excess)


def _first_order(structure: Structure, loads: Loads) -> Answer:
    matrices = assemble(structure)
    return answer(structure, matrices, fixed_forces(structure, matrices, loads), loads)


def _axial(structure: Structure, ends: np.ndarray) -> np.ndarray:
    """Mean axial force of every member, tension positive; (m, c)."""
    return _at_ends(structure, ends).mean(axis=0)


def _at_ends(structure: Structure, ends: np.ndarray) -> np.ndarray:
    """Axial force at both ends of every member, tension positive; (2, m, c). They differ where one stands between."""
    along = structure.axes[:, 0, :, None]
    return np.stack([-np.sum(along * ends[:, :3], axis=1), np.sum(along * ends[:, 6:9], axis=1)])


def _counts(structure: Structure, axial: np.ndarray, limit: float) -> dict[str, int]:
    """Pieces each member needs so that N l^2 / EI of a piece stays below the limit; axial forces (m,)."""
    E, G, _, Iy, Iz, _, Asy, Asz = structure.section
    inertia = np.minimum(np.where(Iy > 0, Iy, np.inf), np.where(Iz > 0, Iz, np.inf))
    plane = structure.frame.plane
    if plane is not None:
        across = "xyz".index(next(axis for axis in "xyz" if axis not in plane))
        inertia = np.where(np.abs(structure.axes[:, 1, across]) > np.abs(structure.axes[:, 2, across]), Iy, Iz)
    # Shear strain slows the convergence of pieces down.
    sliding = 1 + 20 * np.abs(axial) / (G * np.minimum(Asy, Asz))
    pieces = np.ceil(np.sqrt(np.abs(axial) * sliding * structure.flexible**2 / (E * inertia) / limit))
    pieces = np.clip(pieces, 1, _MOST_PIECES).astype(int)
    return {name: int(pieces[number]) for name, number in structure.member_index.items()}


def _geometric(structure: Structure, axial: np.ndarray, matrices: Matrices, wagner: bool) -> np.ndarray:
    """Geometric stiffness of the free directions for axial forces (m,), joints and rigid zones included."""
    flexible = geometric(structure, axial, wagner)
    number = structure.jointed
    if len(number):
        flexible[number] = np.swapaxes(matrices.follow, 1, 2) @ flexible[number] @ matrices.follow
    members = np.swapaxes(matrices.T, 1, 2) @ flexible @ matrices.T
    if structure.offsets.any():
        R = turning(structure)
        members = members + np.swapaxes(R, 1, 2) @ zone_geometric(structure, axial) @ R
    blocks = np.concatenate([members, np.zeros((len(structure.spring_rows), 12, 12))])
    scale = np.zeros(len(structure.held))
    scale[structure.free] = matrices.scale
    return gather_matrix(structure, blocks, scale)


def _critical(parts: Split, wagner: bool) -> Critical:
    """Lowest factor of a split frame with one case: K + factor x K_G singular."""
    structure = prepare(parts.frame, check=False)
    loads = loads_of(structure, parts.cases)
    matrices = assemble(structure)
    found = answer(structure, matrices, fixed_forces(structure, matrices, loads), loads)
    axial = _axial(structure, found.ends)[:, 0]
    root = np.linalg.inv(np.linalg.cholesky(matrices.whole))
    loosening = -root @ _geometric(structure, axial, matrices, wagner) @ root.T
    values, vectors = np.linalg.eigh(0.5 * (loosening + loosening.T))
    if values[-1] * LARGEST_FACTOR < 1:
        return Critical(inf, {})
    moves = np.zeros(len(structure.held))
    moves[structure.free] = matrices.scale * (root.T @ vectors[:, -1])
    moves = moves.reshape(-1, 6)
    moves = moves / max(np.abs(moves[:, :3]).max(), 1e-9 * np.abs(moves).max())
    return Critical(float(1 / values[-1]), dict(zip(structure.node_index, moves, strict=True)))


def _one(loads: Loads, case: int) -> Loads:
    pick = slice(case, case + 1)
    runs = replace(
        loads.runs,
        spread=loads.runs.spread[..., pick],
        slope=loads.runs.slope[..., pick],
        jump=loads.runs.jump[..., pick],
    )
    nodal, moves = loads.nodal[:, pick], loads.moves[:, pick]
    return Loads(loads.names[pick], nodal, moves, runs, loads.resultant[:, pick], loads.size[:, pick])


def _iterate(structure: Structure, loads: Loads, axial: np.ndarray) -> tuple[Answer, np.ndarray]:
    """One case solved with its axial forces until they repeat; the answer and the axial forces in it."""
    for _ in range(_STEPS):
        matrices = assemble(structure, geometric(structure, axial), zone_geometric(structure, axial))
        _refuse_unstable(matrices, loads.names[0])
        found = answer(structure, matrices, fixed_forces(structure, matrices, loads), loads, axial)
        next_axial = _axial(structure, found.ends)[:, 0]
        change = np.abs(next_axial - axial).max()
        if change <= _CONVERGED * np.abs(next_axial).max():
            return found, axial
        axial = next_axial
    raise StructcheckError(
        f'case "{loads.names[0]}": axial forces do not settle in {_STEPS} rounds of second-order analysis; '
        "the load is close to the elastic critical load"
    )


def _refuse_unstable(matrices: Matrices, case: str) -> None:
    try:
        np.linalg.cholesky(matrices.whole)
    except np.linalg.LinAlgError:
        raise Mechanism(f'case "{case}": the load is beyond the elastic critical load of the frame') from None


def _joined(structure: Structure, solved: list[tuple[Answer, np.ndarray]]) -> tuple[Answer, np.ndarray, np.ndarray]:
    """Answers of single cases side by side, their axial forces and what balances these."""
    whole = beside([found for found, _ in solved])
    axial = np.stack([own for _, own in solved], axis=1)
    excess = [geometric(structure, own) @ found.flexible for found, own in solved]
    return whole, axial, forces_to_planes(np.moveaxis(np.concatenate(excess, axis=2)[:, :6], 1, 0))
