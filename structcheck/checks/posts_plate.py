"""A plate on four posts, pressed by a pad: its elastic stress under the pad, by plate elements.

Bent evenly over its width, as strength takes it, it would be judged too mildly where yield at one point counts.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np

from structcheck.analysis.plate import Patch, Plate, solve_plate
from structcheck.checks.basis import Basis, Case
from structcheck.errors import InputError, NotCovered
from structcheck.findings import Assumption, Finding, Outcome, TimesOnYield, judged, not_checked, worst
from structcheck.materials.steels import Steel
from structcheck.record import record

CHECK = "yield at greatest force"
SOURCE = "Kirchhoff plate on four points, conforming elements"


@record
class PostsPlate:
    """A plate between the lines of four posts, mm; what lies beyond them is left out."""

    name: str
    span: float
    spacing: float
    thickness: float
    steel: Steel


@record
class PostsPlateLoad:
    """The whole force in one case: N, the pad's sides, and how far its middle stands off the plate's, mm."""

    case: Case
    force: float
    along: float
    across: float
    x: float
    y: float


def check_posts_plate(plate: PostsPlate, loads: Sequence[PostsPlateLoad], basis: Basis) -> Outcome:
    """The stress under the pad against yield at the greatest force, and times on yield at the rated one."""
    try:
        f_y = plate.steel.f_y(plate.thickness)
        found = tuple(_judged(plate, loads, f_y))
        rated = max(stress_of(plate, load) for load in loads if load.case.limit == "rated")
    except NotCovered as reason:
        return Outcome((not_checked(plate.name, CHECK, str(reason)),))
    except InputError:
        reason = "the pad reaches past the lines of the posts: no method here"
        return Outcome((not_checked(plate.name, CHECK, reason),))
    text = "a plate on four posts: what lies beyond their lines, and the holes for them, are left out of its bending"
    return Outcome(
        (worst(found),),
        assumptions=(Assumption(plate.name, text),),
        times_on_yield=(TimesOnYield(plate.name, f_y / rated),),
    )


def _judged(plate: PostsPlate, loads: Sequence[PostsPlateLoad], f_y: float) -> Iterator[Finding]:
    for load in loads:
        if load.case.limit == "greatest force":
            stress = stress_of(plate, load)
            yield judged(plate.name, CHECK, load.case.name, stress, f_y, "MPa", SOURCE, reason="under the pad")


def stress_of(plate: PostsPlate, load: PostsPlateLoad) -> float:
    """Greatest comparative stress under the pad, MPa."""
    place = (load.along, load.across, abs(load.x), abs(load.y))
    moment = _moment(plate.span, plate.spacing, plate.thickness, *place)
    return 6 * load.force * moment / plate.thickness**2


@lru_cache(maxsize=64)
def _moment(span: float, spacing: float, t: float, along: float, across: float, x: float, y: float) -> float:
    """Greatest comparative moment per width within the pad from 1 N."""
    corners = tuple((a, b) for a in (0.0, span) for b in (0.0, spacing))
    middle = (span / 2 + x, spacing / 2 + y)
    found = solve_plate(Plate(span, spacing, t, points=corners), [Patch(1.0, *middle, along, across)])
    under = np.outer(np.abs(found.x - middle[0]) <= along / 2 + 1e-6, np.abs(found.y - middle[1]) <= across / 2 + 1e-6)
    size = np.sqrt(found.m_x**2 + found.m_y**2 - found.m_x * found.m_y + 3 * found.m_xy**2)
    return float(size[under].max())
