"""What the utilisation of many stations cannot pass, for all of them at once: few need then be judged one by one."""

from collections.abc import Callable, Sequence
from math import log

import numpy as np

from structcheck.checks.member_forms import form
from structcheck.checks.member_interaction import Capacity, bending_shear_factor, plastic_ratios
from structcheck.checks.member_stress import Station, forces_of
from structcheck.checks.member_torsion import torsion_share
from structcheck.checks.section_member import Member, share_of_torsion, torsion_as_shear, twisted
from structcheck.errors import NotCovered
from structcheck.formula import unrecorded
from structcheck.standards.en1993_1_1 import cross_section as code

HAIR = 1e-3
FEW = 2
"""Stations that are sooner judged one by one than compared more closely."""
TOO_MUCH = 3.0
"""Stands for a ratio beyond it: how far beyond 1 means nothing, and the search goes straighter."""


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
    if id(stations) not in member.forces:
        member.forces[id(stations)] = stations, forces_of(stations) | {"t": _torsion_shares(member, stations)}
    return member.forces[id(stations)][1]


def _torsion_shares(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """Torsion's share of the shear strength at each station (`share_of_torsion`). Raises NotCovered."""
    if not any(twisted(s) for s in stations):
        return np.zeros(len(stations))
    share_of_torsion(member, next((s for s in stations if s.warping_unknown), stations[0]))
    force = forces_of(stations, member.pieces)
    f_d = member.f_y / member.basis.gamma_M0
    return np.asarray(torsion_share(member.section, f_d, np.abs(force["T"]), np.abs(force["T_w"])), float)


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
    """In classes 1 and 2; a section that is so in compression is so under any stress."""
    if member.pressed()[0].number > 2:
        raise NotCovered("the class turns with the stress")
    force, able = _forces(member, stations), member.resistances(1)
    resistance = {"N": able.N, "V_y": able.V_y, "V_z": able.V_z, "M_y": able.M_y, "M_z": able.M_z}
    share = {name: np.abs(force[name]) / resistance[name] for name in resistance}
    share["V_z"] += force["t"] * torsion_as_shear(member) / able.V_z
    greatest = np.max(list(share.values()), axis=0)
    # Without high shear the sum of the shares is safe for every shape; often it tells the few that can govern.
    added = share["N"] + share["M_y"] + share["M_z"]
    added = np.where(2 * np.maximum(share["V_y"], share["V_z"]) > added, np.inf, added)
    if np.count_nonzero(added >= greatest.max()) <= FEW:
        return added

    def ratios(k: float) -> np.ndarray:
        return _plastic_ratios(member, {name: k * part for name, part in share.items()})

    # Where the first of them is used up, only those that are used up a hair further on can govern.
    first = _used_up(lambda k: float(ratios(k).max()), 1 / greatest.max())
    member.near["axial and bending"] = first
    k = first * (1 + 2 * HAIR)
    return np.where(ratios(k) > 1, np.inf, 1 / k)


def _used_up(ratio: Callable[[float], float], high: float) -> float:
    """About where a ratio reaches 1, looked for as if it were a power of k; `high` is a k it cannot pass."""
    k, r, power = high, ratio(high), 1.5
    for _ in range(8):
        if r - 1 <= HAIR and (k == high or r >= 1 - HAIR):
            break
        before, k = (k, r), min(k * r ** (-1 / power), high)
        r = ratio(k)
        if r > 0 and k != before[0]:
            power = min(max(log(before[1] / r) / log(before[0] / k), 0.5), 20.0)
    return k


def _plastic_ratios(member: Member, share: dict[str, np.ndarray]) -> np.ndarray:
    """The ratio of 6.2.9.1 with 6.2.10, station by station, from the shares of the unreduced resistances."""
    sheared = max(float(share[V].max()) for V in ("V_y", "V_z"))
    n, m_y, m_z = _beside_shear(member, share) if sheared > 0.5 else (share["N"], share["M_y"], share["M_z"])
    nothing = (n >= 1) | (np.maximum(share["V_y"], share["V_z"]) > 1)
    ratio = plastic_ratios(member.bent, np.where(nothing, 0.0, n), m_y, m_z)
    return np.where(nothing, TOO_MUCH, np.minimum(ratio, TOO_MUCH))


def _beside_shear(member: Member, share: dict[str, np.ndarray]) -> tuple[np.ndarray, ...]:
    """Shares of the axial and bending resistances that high shear leaves (6.2.10); infinite where none is left."""
    able, section = member.resistances(1), member.bent
    rho_y, rho_z = (np.where(share[V] > 0.5, code.shear_reduction(share[V], 1.0), 0.0) for V in ("V_y", "V_z"))
    in_shear = rho_y * section.shear_area("y") + rho_z * section.shear_area("z")
    left = 1 - np.minimum(in_shear / section.A, 1.0), 1 - able.share_y * rho_z, 1 - able.share_z * rho_y
    none = np.min(left, axis=0) <= 0
    n, m_y, m_z = (share[force] / np.where(none, 1.0, part) for force, part in zip(_FORCES, left, strict=True))
    return np.where(none, np.inf, n), m_y, m_z


_FORCES = ("N", "M_y", "M_z")


def _shear(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """The utilisations themselves, torsion's share of the shear strength with them."""
    force, (section, basis) = _forces(member, stations), (member.section, member.basis)
    able = (member.pieces * section.shear_area(axis, basis.eta) for axis in "zy")
    V_z, V_y = (float(code.plastic_shear_resistance(A_v, member.f_y, basis.gamma_M0)) for A_v in able)
    return np.maximum(np.abs(force["V_z"]) / V_z, np.abs(force["V_y"]) / V_y) + force["t"]


def _torsion(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """In proportion to the utilisations themselves of a closed section."""
    return _forces(member, stations)["t"] * (1 + 1e-9)


_BOUNDS: dict[str, Callable[[Member, Sequence[Station]], np.ndarray]] = {
    "shear": _shear,
    "torsion": _torsion,
    "bending and shear": _bending_and_shear,
    "axial and bending": _axial_and_bending,
}
