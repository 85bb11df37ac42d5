"""A platen sliding on columns: equilibrium with Coulomb friction in the bushes.

Everything is seen in the plane of the load's offset: x across the columns from the centre of the guides, the drive
and the load along them. Each bush bears on its column at its two ends, on opposite sides; friction there opposes the
motion. The width of the column drops out. N, mm, rad.
"""

import math
from collections.abc import Sequence

from structcheck.record import record


@record
class Sliding:
    """What it takes to move the platen against a load.

    drive    force needed; infinite where the guides jam
    across   sum over the bushes of the force across the column at one end of each
    ratio    friction of the guides over the drive: at 1 they jam
    """

    drive: float
    across: float
    ratio: float


def slide(
    load: float,
    load_at: float,
    drive_at: float,
    length: float,
    friction: float,
    columns: Sequence[float] = (0.0,),
    shares: Sequence[float] | None = None,
) -> Sliding:
    """The drive that just moves a load.

    load, load_at  what opposes the motion, and where
    drive_at       where the drive acts
    length         of each bush, between its outer edges of contact
    columns        where the columns stand
    shares         of the bushes in the tilting moment; None: alike, so even

    Sum of forces: drive = load + 2 mu N. Moments about the centre: N L = drive x_d - load x_l - 2 mu N x_f, with x_f
    the centre of the friction, where the bushes that bear stand.
    """
    shares = [1 / len(columns)] * len(columns) if shares is None else list(shares)
    friction_at = sum(share * x for share, x in zip(shares, columns, strict=True))
    arm = drive_at - load_at
    side = math.copysign(1.0, arm)
    left = length - 2 * friction * side * (drive_at - friction_at)
    if arm == 0:
        return Sliding(load, 0.0, 0.0)
    if left <= 0:
        return Sliding(math.inf, math.inf, 1.0)
    across = load * abs(arm) / left
    drive = load + 2 * friction * across
    return Sliding(drive, across, 2 * friction * across / drive)


def tilt(play: float, length: float) -> float:
    """How far a bush can lean on its column: `play` is the difference of the diameters."""
    return math.atan2(play, length)


def edge_lift(play: float, length: float, half_width: float) -> float:
    """How far the edge of the platen stands off level."""
    return half_width * play / length


def moment_of_springs(places: Sequence[float], rates: Sequence[float], lean: float) -> float:
    """Tilting moment that springs at `places` carry when the platen leans by `lean`; those in line carry none."""
    centre = sum(k * x for k, x in zip(rates, places, strict=True)) / sum(rates)
    return lean * sum(k * (x - centre) ** 2 for k, x in zip(rates, places, strict=True))
