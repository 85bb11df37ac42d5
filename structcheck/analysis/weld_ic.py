"""A plane fillet group at its ultimate force, by the instantaneous centre of rotation.

Load and deformation of a fillet by Lesik and Kennedy (Can. J. Civ. Eng. 17, 1990): stronger and less ductile the more
the force runs square to it. The group turns about a centre until the element with the least deformation left for its
distance breaks. A second opinion: EN 1993-1-8 keeps to elastic or plastic forces.
"""

from collections.abc import Sequence

import numpy as np

from structcheck.errors import NotCovered
from structcheck.record import record

PIECES = 80
TOLERANCE = 1e-9


@record
class PlaneRun:
    """A straight run in the plane from `start` to `end`, mm, carrying `strength` N for each mm along its axis."""

    start: tuple[float, float]
    end: tuple[float, float]
    strength: float


@record
class Centre:
    """What the method finds: the ultimate force, N, and the centre, mm."""

    force: float
    x: float
    y: float


def ultimate_deformation(theta: np.ndarray) -> np.ndarray:
    """Deformation at fracture over leg size; theta between force and axis in degrees."""
    return np.minimum(1.087 * (theta + 6) ** -0.65, 0.17)


def deformation_at_peak(theta: np.ndarray) -> np.ndarray:
    """Deformation at the greatest force over leg size; theta in degrees."""
    return 0.209 * (theta + 2) ** -0.32


def share_of_strength(theta: np.ndarray, p: np.ndarray) -> np.ndarray:
    """Force over the longitudinal strength, at a deformation p times that of the peak."""
    return (1 + 0.5 * np.sin(np.radians(theta)) ** 1.5) * np.maximum(p * (1.9 - 0.9 * p), 0.0) ** 0.3


def ultimate_force(runs: Sequence[PlaneRun], direction: Sequence[float], at: Sequence[float]) -> Centre:
    """The greatest force in a direction through a point that the runs bear.

    Raises NotCovered where the force passes through the group's centroid, or the search does not settle.
    """
    points, axes, strengths = _pieces(runs)
    u = np.asarray(direction, float) / np.linalg.norm(direction)
    lever = np.asarray(at, float)
    centroid = np.average(points, axis=0, weights=strengths)
    offset = _cross(lever - centroid, u)
    size = float(np.max(np.linalg.norm(points - centroid, axis=1)))
    if abs(offset) < 1e-6 * size:
        raise NotCovered("a force through the centroid turns nothing: there is no centre to find")
    polar = np.average(np.sum((points - centroid) ** 2, axis=1), weights=strengths)
    # Of an elastic group the centre stands across from the force, at polar radius squared over the lever.
    centre = centroid + np.array([-u[1], u[0]]) * (polar / offset)

    def unbalanced(where: np.ndarray) -> tuple[np.ndarray, float]:
        forces, moment = _answer(points, axes, strengths, where)
        force = moment / _cross(lever - where, u)
        return (forces - force * u) / strengths.sum(), force

    for _ in range(80):
        rest, force = unbalanced(centre)
        if not np.all(np.isfinite(rest)):
            break
        if np.linalg.norm(rest) < TOLERANCE:
            return Centre(abs(force), float(centre[0]), float(centre[1]))
        centre = _step(unbalanced, centre, rest, size)
    raise NotCovered("the search for the instantaneous centre does not settle")


def _pieces(runs: Sequence[PlaneRun]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Middles, unit axes and longitudinal strengths (N) of short pieces of every run."""
    at = (np.arange(PIECES) + 0.5) / PIECES
    points, axes, strengths = [], [], []
    for run in runs:
        along = np.subtract(run.end, run.start)
        length = float(np.linalg.norm(along))
        points.append(np.asarray(run.start, float) + np.outer(at, along))
        axes.append(np.tile(along / length, (PIECES, 1)))
        strengths.append(np.full(PIECES, run.strength * length / PIECES))
    return np.concatenate(points), np.concatenate(axes), np.concatenate(strengths)


def _answer(
    points: np.ndarray, axes: np.ndarray, strengths: np.ndarray, centre: np.ndarray
) -> tuple[np.ndarray, float]:
    """Sum of the pieces' forces and their moment when the group turns about a centre until one breaks."""
    arms = points - centre
    radii = np.maximum(np.linalg.norm(arms, axis=1), 1e-9)
    ways = np.stack([-arms[:, 1], arms[:, 0]], axis=1) / radii[:, None]
    theta = np.degrees(np.arccos(np.clip(np.abs(np.einsum("ij,ij->i", ways, axes)), 0.0, 1.0)))
    # The critical piece is the one with the least deformation for its radius, not the farthest.
    turn = np.min(ultimate_deformation(theta) / radii)
    forces = strengths * share_of_strength(theta, turn * radii / deformation_at_peak(theta))
    return forces @ ways, float(forces @ radii)


def _step(unbalanced, centre: np.ndarray, rest: np.ndarray, size: float) -> np.ndarray:
    """One damped Newton step towards balance."""
    h = 1e-6 * size
    slopes = np.column_stack([(unbalanced(centre + d)[0] - rest) / h for d in (np.array([h, 0]), np.array([0, h]))])
    step = -np.linalg.lstsq(slopes, rest, rcond=None)[0]
    length = float(np.linalg.norm(step))
    step *= min(1.0, size / length) if length else 1.0
    for _ in range(30):
        if np.linalg.norm(unbalanced(centre + step)[0]) < np.linalg.norm(rest):
            return centre + step
        step = step / 2
    return centre + step


def _cross(a: np.ndarray, b: np.ndarray) -> float:
    return float(a[0] * b[1] - a[1] * b[0])
