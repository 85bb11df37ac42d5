"""What the utilisation of many stations cannot pass, for all of them at once: few need then be judged one by one."""

from collections.abc import Callable, Sequence

import numpy as np

from structcheck.analysis.load_factor import ALIKE
from structcheck.checks.member_forms import form
from structcheck.checks.member_interaction import Capacity, bending_shear_factor, factor_in_class, plastic_ratios
from structcheck.checks.member_stress import Station, forces_of
from structcheck.checks.member_torsion import torsion_share
from structcheck.checks.section_member import Member, share_of_torsion, torsion_as_shear, twisted, with_torsion_as_shear
from structcheck.errors import NotCovered
from structcheck.formula import unrecorded
from structcheck.maths import first_of_greatest
from structcheck.standards.en1993_1_1 import cross_section as code

TOO_MUCH = 3.0
"""Stands for a ratio beyond it: how far beyond 1 means nothing."""


def greatest_utilisations(check: str, member: Member, stations: Sequence[Station]) -> Sequence[float] | None:
    """What the utilisation of each station cannot pass; None where that is not known or some cannot be judged."""
    if len(stations) < 2:
        return None
    try:
        with unrecorded():
            return _BOUNDS[check](member, stations)
    except NotCovered:
        return None


def _forces(member: Member, stations: Sequence[Station]) -> dict[str, np.ndarray]:
    """The forces and torsion's share t, station by station. Raises NotCovered where no bound is known."""
    if form(member.section) == "angle":
        raise NotCovered("an angle bends about both principal axes at once")
    if any(member.slender(axis) for axis in "yz"):
        raise NotCovered("webs slender in shear have no bound")
    if id(stations) not in member.forces:
        force = forces_of(stations)
        member.forces[id(stations)] = stations, force | {"t": _torsion_shares(member, stations, force)}
    return member.forces[id(stations)][1]


def _torsion_shares(member: Member, stations: Sequence[Station], force: dict[str, np.ndarray]) -> np.ndarray:
    """Torsion's share of the shear strength at each station (`share_of_torsion`). Raises NotCovered."""
    if not any(twisted(s) for s in stations):
        return np.zeros(len(stations))
    share_of_torsion(member, next((s for s in stations if s.warping_unknown), stations[0]))
    T, T_w = np.abs(force["T"]) / member.pieces, np.abs(force["T_w"]) / member.pieces
    return np.asarray(torsion_share(member.section, member.f_y / member.basis.gamma_M0, T, T_w), float)


def _axial(member: Member, stations: Sequence[Station]) -> list[float]:
    """The utilisations themselves."""
    pulled = member.pieces * code.plastic_axial_resistance(member.section.A, member.f_y, member.basis.gamma_M0)
    pushed = member.pressed()[1].N_c if any(s.N < 0 for s in stations) else pulled
    return [s.N / pulled if s.N >= 0 else -s.N / pushed for s in stations]


def _bending(member: Member, stations: Sequence[Station]) -> list[float]:
    """The utilisations themselves."""
    if form(member.section) == "angle":
        raise NotCovered("an angle bends about both principal axes at once")
    M_y = {up: member.about("y", up)[1].M_y for up in {_sense(s.M_y) for s in stations}}
    M_z = {right: member.about("z", right)[1].M_z for right in {_sense(s.M_z) for s in stations if s.M_z}}
    about_y = [abs(s.M_y) / M_y[_sense(s.M_y)] for s in stations]
    return [max(y, abs(s.M_z) / M_z[_sense(s.M_z)]) if s.M_z else y for y, s in zip(about_y, stations, strict=True)]


def _sense(M: float) -> float:
    return 1.0 if M >= 0 else -1.0


def _bending_and_shear(member: Member, stations: Sequence[Station]) -> np.ndarray:
    """The utilisations themselves."""
    force = _forces(member, stations)
    factors = []
    for axis, M, V in (("y", force["M_y"], force["V_z"]), ("z", force["M_z"], force["V_y"])):
        if axis == "z" and not (M.any() or V.any()):
            continue
        up, down = (member.about(axis, sign)[1] for sign in (1.0, -1.0))
        (M_up, V_pl, share_up), (M_down, _, share_down) = _about(axis, up), _about(axis, down)
        M_c, share = np.where(M >= 0, M_up, M_down), np.where(M >= 0, share_up, share_down)
        v = np.abs(V) / V_pl + force["t"]
        occurs = (M != 0) | (V != 0) | (axis == "y")
        factors.append(np.where(occurs, bending_shear_factor(np.abs(M) / M_c, v, share), np.inf))
    return (1 / np.min(factors, axis=0)).tolist()


def _about(axis: str, able: Capacity) -> tuple[float, float, float]:
    return (able.M_y, able.V_z, able.share_y) if axis == "y" else (able.M_z, able.V_y, able.share_z)


def _axial_and_bending(member: Member, stations: Sequence[Station]) -> list[float]:
    """In classes 1 and 2; a section that is so in compression is so under any stress."""
    if member.pressed()[0].number > 2:
        raise NotCovered("the class turns with the stress")
    force, able = _forces(member, stations), member.resistances(1)
    share = {name: np.abs(force[name]) / getattr(able, name) for name in ("N", "V_y", "V_z", "M_y", "M_z")}
    if force["t"].any():
        share["V_z"] += force["t"] * torsion_as_shear(member) / able.V_z
    number, k = _first_used_up(member, stations, share)
    member.used_up.append((stations[number], k))
    bounds = [1 / k] * len(stations)
    bounds[number] = np.inf  # it is judged, and found to be no less than what none of the others can pass
    return bounds


def _first_used_up(member: Member, stations: Sequence[Station], share: dict[str, np.ndarray]) -> tuple[int, float]:
    """(number, factor) of a station such that no other is used up before its forces are that many times as great."""
    # Mostly it is the one whose shares have the greatest sum; if not, one of those past 1 where that is used up.
    number, tried, least = first_of_greatest(share["N"] + share["M_y"] + share["M_z"]), np.ones(len(stations)), np.inf
    first = number
    while True:
        tried[number] = 0.0
        k = factor_in_class(member.bent, member.resistances(1), with_torsion_as_shear(member, stations[number]))
        if k < least:
            first, least = number, k
        if not np.isfinite(least):
            raise NotCovered("nothing is used up")
        ratios = _plastic_ratios(member, {name: least * part for name, part in share.items()}) * tried
        number = int(ratios.argmax())
        if ratios[number] <= 1 + ALIKE:
            return first, least


def _plastic_ratios(member: Member, share: dict[str, np.ndarray]) -> np.ndarray:
    """The ratio of 6.2.9.1 with 6.2.10, station by station, from the shares of the unreduced resistances."""
    sheared = np.maximum(share["V_y"], share["V_z"])
    n, m_y, m_z = _beside_shear(member, share) if sheared.max() > 0.5 else (share["N"], share["M_y"], share["M_z"])
    nothing = (n >= 1 - ALIKE) | (sheared > 1 + ALIKE)
    ratio = plastic_ratios(member.bent, np.where(nothing, 0.0, n), m_y, m_z)
    return np.where(nothing, TOO_MUCH, np.minimum(ratio, TOO_MUCH))


def _beside_shear(member: Member, share: dict[str, np.ndarray]) -> tuple[np.ndarray, ...]:
    """Shares of the axial and bending resistances that high shear leaves (6.2.10); infinite where none is left."""
    able = member.resistances(1)
    rho_y, rho_z = (np.where(share[V] > 0.5, code.shear_reduction(share[V], 1.0), 0.0) for V in ("V_y", "V_z"))
    in_shear = np.minimum(rho_y * able.web_y + rho_z * able.web_z, 1.0)
    left = 1 - in_shear, 1 - able.share_y * rho_z, 1 - able.share_z * rho_y
    none = np.min(left, axis=0) <= 0
    n, m_y, m_z = (share[force] / np.where(none, 1.0, part) for force, part in zip(_FORCES, left, strict=True))
    return np.where(none, np.inf, n), m_y, m_z


_FORCES = ("N", "M_y", "M_z")


def _shear(member: Member, stations: Sequence[Station]) -> list[float]:
    """The utilisations themselves, torsion's share of the shear strength with them."""
    bent, basis = member.bent, member.basis
    if any(member.slender(axis) for axis in "yz"):
        raise NotCovered("webs slender in shear have no bound")
    able = (member.pieces * bent.shear_area(axis, basis.eta) for axis in "zy")
    V_z, V_y = (float(code.plastic_shear_resistance(A_v, member.f_y, basis.gamma_M0)) for A_v in able)
    shares = _forces(member, stations)["t"].tolist() if any(twisted(s) for s in stations) else [0.0] * len(stations)
    return [max(abs(s.V_z) / V_z, abs(s.V_y) / V_y) + t for s, t in zip(stations, shares, strict=True)]


def _torsion(member: Member, stations: Sequence[Station]) -> list[float]:
    """In proportion to the utilisations themselves of a closed section."""
    return (_forces(member, stations)["t"] * (1 + 1e-9)).tolist()


_BOUNDS: dict[str, Callable[[Member, Sequence[Station]], Sequence[float]]] = {
    "axial": _axial,
    "bending": _bending,
    "shear": _shear,
    "torsion": _torsion,
    "bending and shear": _bending_and_shear,
    "axial and bending": _axial_and_bending,
}
