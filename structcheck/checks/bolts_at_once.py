"""What each check of a bolt group uses under many loads, all at once: only what governs is then judged by itself.

Every function answers (loads,) utilisations and raises NotCovered where the judge itself would for some load.
"""

import math
from collections.abc import Callable, Sequence

import numpy as np

from structcheck.checks import bolts_plate, bolts_strength
from structcheck.checks.basis import Basis
from structcheck.checks.bolts_group import EAST, NORTH, SOUTH, WEST, BoltGroup, BoltLoads, in_plane, pulls
from structcheck.formula import unrecorded

Shares = Callable[[BoltGroup, Sequence[BoltLoads], Basis], np.ndarray]


def _sheared(part: BoltGroup, loads: Sequence[BoltLoads]) -> np.ndarray:
    """Resultant on each bolt, (loads, n)."""
    forces = np.array([in_plane(part, load) for load in loads])
    return np.hypot(forces[..., 0], forces[..., 1])


def _pulled(part: BoltGroup, loads: Sequence[BoltLoads], *, pried: bool = True) -> np.ndarray:
    """Pull on each bolt, with its prying or without, (loads, n)."""
    pull = np.array([pulls(part, load) for load in loads])
    return pull * (1 + bolts_strength.prying_share(part)) if pried else pull


def _one_plane(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """F_v,Rd of one bolt in one plane, under each load."""
    ways = {across: bolts_strength.one_plane(part, basis, across) for across in {bool(load.across) for load in loads}}
    return np.array([ways[bool(load.across)] for load in loads])


def shear(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """Of `bolts_strength.shear`; beyond any bound where it asks for the bearing too."""
    if bolts_strength.is_loose_small(part):
        return np.full(len(loads), math.inf)
    with unrecorded():
        return _sheared(part, loads).max(axis=1) / (_one_plane(part, loads, basis) * part.planes)


def bearing(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """Of `bolts_strength.bearing`."""
    bolts_strength.require_steel(part)
    bolts_strength.require_bolt(part)
    forces = np.array([in_plane(part, load) for load in loads])
    forces[np.abs(forces) <= bolts_strength.NEGLIGIBLE * np.abs(forces).max(axis=(1, 2), keepdims=True)] = 0.0
    x, y = forces[..., 0], forces[..., 1]
    ways, pushed = (NORTH, SOUTH, EAST, WEST), np.maximum(np.stack((y, -y, x, -x), axis=1), 0.0)
    bears = np.ones(pushed.shape[1:])
    for way, index in np.argwhere(pushed.any(axis=0)).tolist():
        bears[way, index] = bolts_strength.known_bearing(part, index, ways[way], basis)[0]
    nothing = np.where(pushed > 0, math.inf, 0.0)
    return np.where(bears > 0, pushed / np.where(bears > 0, bears, 1.0), nothing).max(axis=(1, 2))


def tension(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """In proportion to what `bolts_strength.tension` uses."""
    with unrecorded():
        return _pulled(part, loads, pried=False).max(axis=1) / bolts_strength.tension_of_one(part, basis)


def punching(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """Of `bolts_strength.punching`."""
    with unrecorded():
        return _pulled(part, loads).max(axis=1) / bolts_strength.punched(part, basis)


def shear_and_tension(part: BoltGroup, loads: Sequence[BoltLoads], basis: Basis) -> np.ndarray:
    """Of `bolts_strength.shear_and_tension`."""
    with unrecorded():
        plane, thread = _one_plane(part, loads, basis)[:, None], bolts_strength.tension_of_one(part, basis)
        share = _sheared(part, loads) / part.planes / plane + _pulled(part, loads) / (1.4 * thread)
    return share.max(axis=1)


AT_ONCE: dict[object, Shares] = {
    bolts_strength.shear: shear,
    bolts_strength.bearing: bearing,
    bolts_strength.tension: tension,
    bolts_strength.punching: punching,
    bolts_strength.shear_and_tension: shear_and_tension,
    bolts_plate.net_section: bolts_plate.net_shares,
    bolts_plate.block_tearing: bolts_plate.block_shares,
}
"""By the judge."""
