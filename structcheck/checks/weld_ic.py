"""A second opinion on a plane weld group: the instantaneous centre method, US practice, no verdict."""

import numpy as np

from structcheck.analysis.weld_group import WeldGroup, cross
from structcheck.analysis.weld_ic import PlaneRun, ultimate_force
from structcheck.errors import NotCovered
from structcheck.showing import show

LEAST_FORCE = 1.0
"""Below this force, N, nothing is asked."""


def second_opinion(part: str, group: WeldGroup, strength: float, force, at, moment) -> tuple[str, ...]:
    """What a plane group of straight runs would carry by the instantaneous centre, said in words; else nothing.

    strength  of the throat along a run, MPa
    """
    plane = group.plane
    pull, turn = np.asarray(force, float), np.asarray(moment, float)
    if plane is None or np.linalg.norm(pull) < LEAST_FORCE:
        return ()
    origin, axes = plane
    normal = cross(axes[0], axes[1])
    out_of_plane = abs(pull @ normal) > 1e-9 * np.linalg.norm(pull)
    beside = abs((np.asarray(at, float) - origin) @ normal) > 1e-3
    twisted = np.linalg.norm(turn - (turn @ normal) * normal) > 1e-9 * np.linalg.norm(turn)
    if out_of_plane or beside or twisted:
        return ()
    # A moment in the plane is the same as the force standing further off.
    where = np.asarray(at, float) + cross(pull, normal) * (turn @ normal) / (pull @ pull)
    runs = [PlaneRun(axes @ (r.start - origin), axes @ (r.end - origin), strength * r.throat) for r in group.runs]
    try:
        found = ultimate_force(runs, axes @ pull, axes @ (where - origin))
    except NotCovered:
        return ()
    ratio = float(np.linalg.norm(pull)) / found.force
    return (
        f"{part}: by the instantaneous centre (US practice, a second opinion) the runs bear {show(found.force, 'kN')}, "
        f"utilisation {ratio:.2f}",
    )
