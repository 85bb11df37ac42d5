"""Nominal elastic stress of a member's cross-section: what `yield at greatest force` and times on yield rest on."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from structcheck.analysis.falling import falling_root
from structcheck.checks.angle_stress import angle_points
from structcheck.checks.basis import Case
from structcheck.checks.member_forms import closed, form
from structcheck.checks.member_torsion import warping
from structcheck.errors import NotCovered
from structcheck.formula import unrecorded
from structcheck.standards.en1993_1_1.cross_section import von_mises_stress
from structcheck.standards.handbook_torsion import warping_shear_stress, warping_stress


class Station(NamedTuple):
    """Internal forces at one place in one case, of all pieces together, in N and N mm.

    where     the place, for the finding ("x = 450 mm")
    N         axial force, tension positive
    V_y, V_z  shear along the axes y and z
    T         torque about the shear centre; of an open section only Saint-Venant's part
    T_w, B    of an open section: warping torque, and bimoment in N mm2
    to_buckling  factor on all of these at which the member buckles sideways: twist grows as it nears
    shared    T and T_w are those of the whole member with its ends, where nothing warps too
    M_y, M_z  bending moments; positive compresses the top (z) and the right (y)
    """

    case: Case
    where: str
    N: float = 0.0
    V_y: float = 0.0
    V_z: float = 0.0
    T: float = 0.0
    M_y: float = 0.0
    M_z: float = 0.0
    T_w: float = 0.0
    B: float = 0.0
    to_buckling: float = np.inf
    shared: bool = False

    @property
    def warping_unknown(self) -> bool:
        """A torque acts and nobody has found what part of it warps an open section."""
        return bool(self.T) and not (self.T_w or self.B or self.shared)


def forces_of(stations: Sequence[Station], pieces: int = 1) -> dict[str, np.ndarray]:
    """Each internal force of one piece at all stations, by its name."""
    first, last = Station._fields.index("N"), Station._fields.index("B") + 1
    table = np.array([station[first:last] for station in stations]).T / pieces
    return dict(zip(Station._fields[first:last], table, strict=True))


_Point = tuple[str, Any, Any]
WARPS = "torsion of an open section warps it: the member's length and ends decide, not this section"


@dataclass(frozen=True)
class Stress:
    """The greatest equivalent stress of a member, MPa, and where it stands."""

    value: float
    fibre: str
    station: Station


def greatest_stress(section: Any, stations: Sequence[Station], pieces: int = 1) -> Stress:
    """The greatest elastic von Mises stress of the stations, the forces shared equally by the pieces.

    Raises NotCovered for a skew section other than an angle in bending, and where an open section is twisted but
    nobody has found how it warps.
    """
    if not closed(section) and any(s.warping_unknown for s in stations):
        raise NotCovered(WARPS)
    fibres = stresses(section, **forces_of(stations, pieces))
    table = np.array([stress + np.zeros(len(stations)) for _, stress in fibres])
    fibre, place = np.unravel_index(np.argmax(table), table.shape)
    return Stress(float(table[fibre, place]), fibres[fibre][0], stations[place])


def stresses(
    section: Any,
    *,
    N: Any = 0.0,
    V_y: Any = 0.0,
    V_z: Any = 0.0,
    T: Any = 0.0,
    M_y: Any = 0.0,
    M_z: Any = 0.0,
    T_w: Any = 0.0,
    B: Any = 0.0,
) -> list[tuple[str, Any]]:
    """(fibre, von Mises stress in MPa) of one piece; forces as numbers or arrays, sections or a sweep of sizes.

    Where effects meet whose greatest values stand at different points they are added, which is safe.
    """
    sigma, tau = torsion_stresses(section, T, T_w, B)
    points = straight_stresses(section, N, V_y, V_z, M_y, M_z)
    return [(name, von_mises_stress(np.asarray(s + sigma), np.asarray(t + tau))) for name, s, t in points]


def torsion_stresses(section: Any, T: Any, T_w: Any, B: Any) -> tuple[Any, Any]:
    """Greatest normal and shear stress of torsion in one piece, MPa."""
    T, T_w, B = np.abs(T), np.abs(T_w), np.abs(B)
    tau = T / section.Wt if np.any(T) else 0.0
    if not (np.any(B) or np.any(T_w)):
        return 0.0, tau
    warped = warping(section)
    tau = tau + warping_shear_stress(T_w, warped.S, section.Iw, warped.t)
    return warping_stress(B, warped.omega, section.Iw), tau


def straight_stresses(section: Any, N: Any, V_y: Any, V_z: Any, M_y: Any, M_z: Any) -> list[_Point]:
    """(fibre, normal, shear stress) of one piece without torsion, MPa."""
    N, V_y, V_z, M_y, M_z = (np.abs(force) for force in (N, V_y, V_z, M_y, M_z))
    # The pull runs through the centroid of the whole section; holes to one side move that of what is left.
    M_y = M_y + N * getattr(section, "shift", 0.0)
    if form(section) == "angle":
        return angle_points(section, N, V_y, V_z, M_y, M_z)
    if form(section) in ("tube", "round"):
        M_y, M_z, V_z, V_y = np.hypot(M_y, M_z), 0.0, np.hypot(V_y, V_z), 0.0
    points = _points(section, "y", M_y, section.Iy, V_z)
    if np.any(M_z) or np.any(V_y):
        across = _points(section, "z", M_z, section.Iz, V_y)
        along, points = points, across
        if np.any(M_y) or np.any(V_z):
            points = [*_beside(along, across), *_beside(across, along)]
    return [(name, N / section.A + sigma, tau) for name, sigma, tau in points]


def _points(section: Any, axis: str, M: Any, second_moment: Any, V: Any) -> list[_Point]:
    """(place, bending stress, shear stress) at each fibre about one axis."""
    return [(f"at the {f.name}", M * np.abs(f.lever) / second_moment, V * f.tau) for f in section.fibres(axis)]


def _beside(points: list[_Point], others: list[_Point]) -> list[_Point]:
    """The points with the greatest stresses of the other axis added."""
    sigma, tau = _greatest(p[1] for p in others), _greatest(p[2] for p in others)
    return [(name, s + sigma, t + tau) for name, s, t in points]


def _greatest(values: Any) -> Any:
    greatest = 0.0
    for value in values:
        greatest = np.maximum(greatest, value)
    return greatest


def second_order_factor(
    section: Any,
    f_d: Any,
    k_cr: Any,
    *,
    N: Any = 0.0,
    V_y: Any = 0.0,
    V_z: Any = 0.0,
    T: Any = 0.0,
    M_y: Any = 0.0,
    M_z: Any = 0.0,
    T_w: Any = 0.0,
    B: Any = 0.0,
) -> Any:
    """Factor k on the forces of one piece at which the elastic stress reaches f_d, twist grown by 1 / (1 - k / k_cr).

    f_d     strength, MPa
    k_cr    factor on the same forces at which the member buckles sideways
    forces  as for `stresses`, numbers or arrays

    Infinite where nothing is stressed; else within 1e-12 of the factor without growth.
    """
    twisted = torsion_stresses(section, T, T_w, B)
    bent = _at_points(straight_stresses(section, N, V_y, V_z, M_y, M_z), twisted[0])
    with unrecorded(), np.errstate(divide="ignore", invalid="ignore"):
        return _grown_factor(f_d, k_cr, bent, twisted, _first_order(f_d, k_cr, bent, twisted))


def least_second_order_factor(section: Any, f_d: float, k_cr: np.ndarray, **forces: Any) -> tuple[int, float]:
    """(number, factor) of the station whose `second_order_factor` is the least; `k_cr` and `forces` are arrays.

    Twist grown as at the factor without growth is grown too much: what holds more even so cannot be the least.
    """
    twisted = torsion_stresses(section, forces["T"], forces["T_w"], forces["B"])
    straight = straight_stresses(section, *(forces[name] for name in ("N", "V_y", "V_z", "M_y", "M_z")))
    bent = _at_points(straight, twisted[0])
    with unrecorded(), np.errstate(divide="ignore", invalid="ignore"):
        most = _first_order(f_d, k_cr, bent, twisted)
        grown = 1 / np.maximum(1 - most / k_cr, 0.0)
        least = _first_order(f_d, k_cr, bent, (twisted[0] * grown, twisted[1] * grown))
        close = np.flatnonzero(~(least > most.min() * (1 + 1e-9)))
        bent, twisted = (tuple(np.broadcast_arrays(p, most)[0][..., close] for p in parts) for parts in (bent, twisted))
        factors = _grown_factor(f_d, k_cr[close], bent, twisted, most[close])
    return int(close[factors.argmin()]), float(factors.min())


_Stresses = tuple[Any, Any]


def _at_points(points: list[_Point], like: Any) -> _Stresses:
    """Normal and shear stresses of all points, (points, ...)."""
    return tuple(np.array(np.broadcast_arrays(*(p[which] + 0.0 * like for p in points))) for which in (1, 2))


def _first_order(f_d: Any, k_cr: Any, bent: _Stresses, twisted: _Stresses) -> Any:
    """The factor without growth, no more than that of buckling."""
    first = np.max(von_mises_stress(bent[0] + twisted[0], bent[1] + twisted[1]), axis=0)
    return np.minimum(np.where(first > 0, f_d / first, np.inf), k_cr)


def _grown_factor(f_d: Any, k_cr: Any, bent: _Stresses, twisted: _Stresses, most: Any) -> Any:
    (sigma, tau), (sigma_t, tau_t), endless = bent, twisted, ~np.isfinite(most)

    def left(k: Any) -> Any:
        """Strength less stress, both times 1 - k / k_cr: finite up to k_cr, and falling to the factor sought."""
        stays = 1 - k / k_cr
        stressed = von_mises_stress(sigma * stays + sigma_t, tau * stays + tau_t)
        return f_d * stays - k * np.max(stressed, axis=0)

    return np.where(endless, np.inf, falling_root(left, np.where(endless, 0.0, most)))
