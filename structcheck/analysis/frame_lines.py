"""Diagrams and deflections along members, from statics: polynomials on every run, for all members and cases at once.

Everything is in plane order (see frame_loads): in each plane R is the sum of the forces before the cut along the axis
and M the sum of their moments, so that M' = R, EI psi' = M, w' = psi - R / GAs, whatever the plane.
"""

import numpy as np

from structcheck.analysis.frame_arrays import Structure
from structcheck.analysis.frame_loads import Runs


def _before(steps: np.ndarray) -> np.ndarray:
    """Sum of the steps of all earlier runs; runs lie along axis 2."""
    total = np.zeros_like(steps)
    np.cumsum(steps[:, :, :-1], axis=2, out=total[:, :, 1:])
    return total


def statics(runs: Runs, start: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Sums of forces R and of moments M at the start of each run, given those at the start node; two (3, m, S, c).

    start  (6, m, c) forces and moments on the start of the member, plane order
    """
    force, moment = start[:3, :, None, :], start[3:, :, None, :]
    h = runs.length[:, :, None]
    if not runs.loaded:
        R = np.broadcast_to(force, runs.spread.shape)
        M = np.repeat(moment, h.shape[1], axis=2)
        M[1:] += R[1:] * runs.stations[:, :-1, None]
        return R, M
    jumps = np.cumsum(runs.jump[:, :, :-1], axis=2)
    if not runs.spreads:
        R, M = jumps[:3] + force, jumps[3:] + moment
        M[1:] += _before(h * R[1:])
        return R, M
    qh, gh = runs.spread * h, runs.slope * h**2
    R, M = jumps[:3] + force + _before(qh + gh / 2), jumps[3:] + moment
    M[1:] += _before(h * (R[1:] + qh[1:] / 2 + gh[1:] / 6))
    return R, M


def fixed_end_forces(structure: Structure, runs: Runs) -> np.ndarray:
    """Forces on the clamped ends of the flexible parts under their own loads; (12, m, c) in plane order by ends."""
    at_stations, even, sloping = runs.levers
    sums = np.einsum("nms,kmsc->nkmc", at_stations, runs.jump)
    if runs.spreads:
        sums[:, :3] += np.einsum("nms,kmsc->nkmc", even, runs.spread) + np.einsum("nms,kmsc->nkmc", sloping, runs.slope)
    # With the start free of force: R and M at the end, their integrals, and those of M again.
    R, R_area = sums[0, :3], sums[1, :3]
    M, M_area, M_twice = sums[:3, 3:]
    M[1:] += R_area[1:]
    turn, sag = M_area[1:] + sums[2, 1:3], M_twice[1:] + sums[3, 1:3]

    # In each plane: the clamped beam of the elementary theory, its shear flexibility k = EI / GAs.
    length = structure.flexible[:, None]
    k = (structure.bending / structure.sliding)[:, :, None]
    start = np.empty((6, *R.shape[1:]))
    start[1:3] = (sag - k * R_area[1:] - turn * (length / 2)) / (length * length * length / 12 + k * length)
    start[4:] = -turn / length - start[1:3] * (length / 2)
    # Along and about the axis: R and M must stretch and twist it by nothing in all.
    start[0], start[3] = -R_area[0] / length, -M_area[0] / length
    end = -start
    end[:3] -= R
    end[3:] -= M
    end[4:] -= start[1:3] * length
    return np.concatenate([start, end])


def zone_loads(runs: Runs) -> np.ndarray:
    """Loads on the rigid zones, moved to their nodes; (12, m, c) in plane order by ends."""
    total = np.zeros((12, *runs.jump.shape[1:2], runs.jump.shape[3]))
    middle = 0.5 * (runs.stations[:, :-1] + runs.stations[:, 1:])
    length = runs.stations[:, -1:]
    h = runs.length[:, :, None]
    for end, place, points, spans in (
        (0, 0 * length, runs.stations < runs.faces[:, :1], middle < runs.faces[:, :1]),
        (6, length, runs.stations > runs.faces[:, 1:], middle > runs.faces[:, 1:]),
    ):
        jump = runs.jump * points[:, :, None]
        q, g = runs.spread * spans[:, :, None], runs.slope * spans[:, :, None]
        pull = h * (q + h * g / 2)
        # A force before the node it is moved to raises the sum of moments beyond it.
        lever = jump[:3] * (place - runs.stations)[:, :, None]
        total[end : end + 3] = jump[:3].sum(axis=2) + pull.sum(axis=2)
        total[end + 3 : end + 6] = jump[3:].sum(axis=2)
        moved = lever.sum(axis=2) + np.sum(
            pull * (place - runs.stations[:, :-1])[:, :, None] - h**2 * (q / 2 + h * g / 3), axis=2
        )
        total[end + 4 : end + 6] += moved[1:]
    return total


def diagram_polynomials(runs: Runs, R: np.ndarray, M: np.ndarray) -> np.ndarray:
    """N, Vy, Vz, T, My, Mz on every run as powers of the distance from its start; (powers, 6, m, S, c).

    Two powers without spread forces, four with them.
    """
    forces = (R, runs.spread, runs.slope / 2) if runs.spreads else (R,)
    c = np.zeros((len(forces) + 1, 6, *R.shape[1:]))
    c[0, 3], c[0, 4], c[0, 5] = -M[0], M[2], M[1]
    for power, force in enumerate(forces):
        c[power, 0] = -force[0]
        c[power, 1:3] = force[1:]
        c[power + 1, 4], c[power + 1, 5] = force[2] / (power + 1), force[1] / (power + 1)
    return c


def deflection_polynomials(
    structure: Structure,
    runs: Runs,
    R: np.ndarray,
    M: np.ndarray,
    nodes: np.ndarray,
    start: np.ndarray,
) -> np.ndarray:
    """Movement along local x, y, z on every run as powers of the distance from its start; (6, 3, m, S, c).

    nodes  (12, m, c) displacements of the nodes, plane order by ends
    start  (6, m, c) displacement of the start of the flexible part, beyond any joint
    """
    stretch = (structure.section[0] * structure.section[2])[:, None, None]
    h, bends = runs.length[:, :, None], runs.flexible[:, :, None]
    q, g = runs.spread, runs.slope
    bend = _inverse(structure.bending)[:, :, None, None]
    slide = 1 / structure.sliding[:, :, None, None]
    M, R_along, R = M[1:], R[0], R[1:]
    c = np.zeros((6, 3, *q.shape[1:]))
    c[1, 0], c[2, 0], c[3, 0] = -R_along / stretch, -q[0] / (2 * stretch), -g[0] / (6 * stretch)
    turn = h * (M + h * (R / 2 + h * (q[1:] / 6 + h * g[1:] / 24))) * bend * bends
    psi = start[4:, :, None] + _before(turn)
    c[1, 1:] = psi - R * slide
    c[2, 1:] = M * bend / 2 - q[1:] * slide / 2
    c[3, 1:] = R * bend / 6 - g[1:] * slide / 6
    c[4, 1:] = q[1:] * bend / 24
    c[5, 1:] = g[1:] * bend / 120
    c[1:] *= bends
    c[0] = start[:3, :, None] + _before(_rise(c, h))
    if not runs.flexible.all():
        _rigid_runs(runs, c, nodes)
    return c


def _rise(c: np.ndarray, h: np.ndarray) -> np.ndarray:
    return h * (c[1] + h * (c[2] + h * (c[3] + h * (c[4] + h * c[5]))))


def _inverse(stiffness: np.ndarray) -> np.ndarray:
    """1 / stiffness, or 0 where there is none: such a plane carries no moment."""
    return np.divide(1.0, stiffness, out=np.zeros_like(stiffness), where=stiffness > 0)


def _rigid_runs(runs: Runs, c: np.ndarray, nodes: np.ndarray) -> None:
    """Rigid zones move with their node."""
    begins, length = runs.stations[:, :-1], runs.stations[:, -1:]
    middle = begins + runs.length / 2
    for end, zone, reach in (
        (0, middle < runs.faces[:, :1], begins),
        (6, middle > runs.faces[:, 1:], begins - length),
    ):
        here = zone[:, :, None]
        slope = nodes[end + 4 : end + 6, :, None]
        c[0, 0] = np.where(here, nodes[end, :, None], c[0, 0])
        c[0, 1:] = np.where(here, nodes[end + 1 : end + 3, :, None] + slope * reach[:, :, None], c[0, 1:])
        c[1, 1:] = np.where(here, slope + 0 * c[1, 1:], c[1, 1:])
