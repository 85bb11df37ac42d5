"""What the utilisation of many stations cannot pass, for all of them at once: few need then be judged one by one."""

from collections.abc import Callable, Sequence

import numpy as np

from structcheck.checks.member_forms import form
from structcheck.checks.member_interaction import Capacity, bending_shear_factor
from structcheck.checks.member_stress import Station
from structcheck.checks.section_member import Member, share_of_torsion, twisted
from structcheck.errors import NotCovered
from structcheck.formula import unrecorded


def greatest_utilisations(check: str, member: Member, stations: Sequence[Station]) -> np.ndarray | None:
    """What the utilisation of each station cannot pass; None where that is not known or some cannot be judged."""
    bounds = _BOUNDS.get(check)
    if bounds is None or len(stations) < 3:
        return None
    try:
        with unrecorded():
            return bounds(member, stations)
    except NotCovered:
        return None


def _forces(member: Member, stations: Sequence[Station]) -> dict[str, np.ndarray]:
    """The forces and torsion's share t, station by station. Raises NotCovered where no bound is known."""
    if form(member.section) == "angle":
        raise NotCovered("an angle bends about both principal axes at once")
    if any(member.slender(axis) for axis in "yz"):
        raise NotCovered("webs slender in shear have no bound")
    force = {name: np.array([getattr(s, name) for s in stations]) for name in ("N", "V_y", "V_z", "M_y", "M_z")}
    return force | {"t": np.array([share_of_torsion(member, s) if twisted(s) else 0.0 for s in stations])}


def _bending_and_shear(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """The utilisations themselves."""
    force = _forces(member, stations)
    factors = []
    for axis, M, V in (("y", force["M_y"], force["V_z"]), ("z", force["M_z"], force["V_y"])):
        up, down = (member.about(axis, sign)[1] for sign in (1.0, -1.0))
        (M_up, V_pl, share_up), (M_down, _, share_down) = _about(axis, up), _about(axis, down)
        M_c, share = np.where(M >= 0, M_up, M_down), np.where(M >= 0, share_up, share_down)
        v = np.abs(V) / V_pl + force["t"]
        occurs = (M != 0) | (V != 0) | (axis == "y")
        factors.append(np.where(occurs, bending_shear_factor(np.abs(M) / M_c, v, share), np.inf))
    return 1 / np.minimum(*factors)


def _about(axis: str, able: Capacity) -> tuple[float, float, float]:
    return (able.M_y, able.V_z, able.share_y) if axis == "y" else (able.M_z, able.V_y, able.share_z)


def _axial_and_bending(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """In classes 1 and 2 the sum of the shares of axial force and bending, which is safe for every shape.

    The sum leaves out the shear, which counts only above half its resistance: where it may, there is no upper bound.
    A section of class 1 or 2 in compression is so under any stress.
    """
    force, able = _forces(member, stations), member.resistances(1)
    resistance = {"N": able.N, "V_y": able.V_y, "V_z": able.V_z, "M_y": able.M_y, "M_z": able.M_z}
    share = {name: np.abs(force[name]) / resistance[name] for name in resistance}
    share["V_z"] += force["t"]
    total = share["N"] + share["M_y"] + share["M_z"]
    unbounded = 2 * np.maximum(share["V_y"], share["V_z"]) > total
    return np.where(unbounded | (member.pressed()[0].number > 2), np.inf, total)


_BOUNDS: dict[str, Callable[[Member, Sequence[Station]], np.ndarray]] = {
    "bending and shear": _bending_and_shear,
    "axial and bending": _axial_and_bending,
}
